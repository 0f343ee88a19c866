"""Where another home brings its record together with this one (docs/sync.md): the door, and nothing of the record.

Rules
-----
1. It is there only while phones may join (`steadyhead app --host`).
2. A key lets in, sent with each request in a header of its own. A cookie counts for nothing here, nor does sitting at
   this machine: pages of any site may ask (CORS), since what they lack is the key.
3. A key is given for the code that this machine shows, once, as to a phone that joins; who guesses is shut out alike.
4. What is answered is worked out by `steadyhead.service.sync.far`, beside the pages where the home can do that: to
   compare reads thousands of facts.
"""

from __future__ import annotations

import logging
import secrets
from functools import partial

from starlette.requests import ClientDisconnect, Request
from starlette.responses import Response

from steadyhead.errors import SyncError
from steadyhead.service.record.phones import join, phone_of
from steadyhead.service.sync.far import answer as answer_of
from steadyhead.service.sync.talk import JSON, Reply, document, json_bytes
from steadyhead.web.joining import SECRET_BYTES, Joining, client_of
from steadyhead.web.pages.shared import Shop

LOG = logging.getLogger("steadyhead.web")
PAIR = "pair"
BEARER = "bearer "
#: A page of another address may read the answers: without a key they say nothing.
CORS = {"Access-Control-Allow-Origin": "*"}
PREFLIGHT = {
    **CORS,
    "Access-Control-Allow-Methods": "GET, POST",
    "Access-Control-Allow-Headers": "authorization, content-type",
    "Access-Control-Allow-Private-Network": "true",
    "Access-Control-Max-Age": "600",
}


async def answer(shop: Shop, request: Request) -> Response:
    """Answer one request of another home."""
    if request.method == "OPTIONS":
        return Response(status_code=204, headers=PREFLIGHT)
    try:
        reply = await _reply(shop, request)
    except ClientDisconnect:
        reply = _refusal(400, "sync-cut-off")
    except Exception:
        LOG.exception("%s %s", request.method, request.url.path)
        reply = _refusal(500, "web-failed")
    return Response(reply.body, reply.status, media_type=reply.media_type, headers=CORS)


async def _reply(shop: Shop, request: Request) -> Reply:
    """Return the reply to one request: let in, or not."""
    what = str(request.path_params.get("what", ""))
    if shop.joining is None:
        return _refusal(404, "join-off")
    body = await request.body() if request.method == "POST" else None
    if what == PAIR and body is not None:
        return _paired(shop, shop.joining, request, body)
    if not _lets_in(shop, request):
        return _refusal(401, "sync-not-paired")
    return await shop.thinker.beside(partial(answer_of, shop.given, what, body))


def _lets_in(shop: Shop, request: Request) -> bool:
    """Tell whether a request shows a key that this home gave."""
    shown = request.headers.get("authorization", "")
    key = shown[len(BEARER) :].strip() if shown[: len(BEARER)].lower() == BEARER else ""
    return bool(key) and phone_of(shop.given, key) is not None


def _paired(shop: Shop, joining: Joining, request: Request, body: bytes) -> Reply:
    """Give a key for the code of the moment."""
    try:
        sent = document(body)
    except SyncError as error:
        return _refusal(400, error.message.id)
    code, name = sent.get("code"), sent.get("name")
    if not isinstance(code, str) or not joining.enter(code, client_of(request)):
        return _refusal(403, "join-wrong")
    key = secrets.token_urlsafe(SECRET_BYTES)
    join(shop.given, name if isinstance(name, str) else "", key)
    return Reply(200, json_bytes({"key": key}), JSON)


def _refusal(status: int, why: str) -> Reply:
    return Reply(status, json_bytes({"error": why}))
