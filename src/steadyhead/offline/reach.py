"""Asks another home over the network from inside a browser's worker, where only the browser can."""

# ruff: noqa: PLC0415 - what only a browser's Python has is imported where it is used

from __future__ import annotations

from collections.abc import Mapping
from urllib.parse import urlsplit

from steadyhead.errors import SyncError
from steadyhead.messages import message
from steadyhead.service.sync.talk import JSON, Reply

#: How long one request may take [ms]: a photo over a slow Wi-Fi.
PATIENCE_MS = 60_000


async def reach(method: str, url: str, headers: Mapping[str, str], body: bytes | None) -> Reply:
    """Return what comes back for one request; no cookie goes along, and no other address is led to.

    Raises
    ------
    SyncError
        Nobody answers, or the browser does not let it pass.
    """
    from js import AbortSignal  # type: ignore[import-not-found]
    from pyodide.ffi import JsException  # type: ignore[import-not-found]
    from pyodide.http import pyfetch  # type: ignore[import-not-found]

    sent = {} if body is None else {"body": body}
    options = {"credentials": "omit", "cache": "no-store", "redirect": "error", "referrerPolicy": "no-referrer"}
    try:
        answer = await pyfetch(
            url, method=method, headers=dict(headers), signal=AbortSignal.timeout(PATIENCE_MS), **options, **sent
        )
        return Reply(answer.status, await answer.bytes(), answer.headers.get("content-type", JSON))
    except (OSError, JsException) as error:
        raise SyncError(message("sync-no-answer", address=urlsplit(url).netloc)) from error
