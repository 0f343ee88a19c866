"""What a form sends: its fields as text, checked to come from a page of this app.

Rules
-----
1. Every form carries the key of its browser, which a cookie holds too and no page of another address can read: a form
   that lacks it changes nothing. (An ``Origin`` header can't be asked for: a phone's home has none.)
2. Every form that makes a fact carries the fact's id, so that the same form sent twice keeps one.
3. A field is at most `LONGEST` signs, without control characters; a table that is pasted or uploaded keeps its lines,
   and has a limit of its own, `LARGEST_TABLE`.
4. A photo, or a file that was handed over, stays in memory: nothing of it is written beside the record.
"""

from __future__ import annotations

import hmac
import re
import secrets
from collections.abc import Mapping
from dataclasses import dataclass

from starlette.datastructures import UploadFile
from starlette.formparsers import MultiPartException, MultiPartParser
from starlette.requests import Request
from starlette.responses import Response

from steadyhead.errors import ForeignFormError
from steadyhead.messages import message

COOKIE, KEY, FACT = "steadyhead_form", "form_key", "fact"
TABLE, FILE, PREVIEW = "table", "file", "preview"
LONGEST, MOST_FIELDS = 2000, 80
LARGEST_TABLE = 200 * 1024  #: bytes; below what a request may hold (`steadyhead.web.policy.MOST_BYTES`)
MANY_DAYS = 400 * 24 * 3600
_ULID = re.compile(r"[0-7][0-9A-HJKMNP-TV-Z]{25}")
_KEY = re.compile(r"[A-Za-z0-9_-]{20,64}")


@dataclass(frozen=True, slots=True)
class Form:
    """A form's fields."""

    fields: Mapping[str, str]

    def text(self, name: str) -> str:
        """Return a field's text without blanks at its ends; empty where it was not sent."""
        return " ".join(self.fields.get(name, "").split())

    def fact(self) -> str:
        """Return the id of the fact that this form makes.

        Raises
        ------
        ForeignFormError
            It has none.
        """
        text = self.fields.get(FACT, "")
        if not _ULID.fullmatch(text):
            raise ForeignFormError(message("web-form-foreign"))
        return text


async def read_form(request: Request) -> Form:
    """Return what a form sends.

    Raises
    ------
    ForeignFormError
        It does not come from a page of this app, or is larger than any of its forms.
    """
    async with request.form(max_files=0, max_fields=MOST_FIELDS, max_part_size=16 * LONGEST) as sent:
        fields = {name: str(value)[:LONGEST] for name, value in sent.multi_items()}
    return _of_this_browser(request, fields)


def _of_this_browser(request: Request, fields: Mapping[str, str]) -> Form:
    """Return a form's fields, once they come from a page of this browser.

    Raises
    ------
    ForeignFormError
        They do not.
    """
    key = request.cookies.get(COOKIE, "")
    if not _KEY.fullmatch(key) or not hmac.compare_digest(key, fields.get(KEY, "")):
        raise ForeignFormError(message("web-form-foreign"))
    return Form(fields)


@dataclass(frozen=True, slots=True)
class Upload:
    """A form with a table: its fields, the table as it was uploaded or pasted, what its file was called; or a photo."""

    form: Form
    table: bytes
    name: str
    preview: bytes = b""


async def read_upload(request: Request) -> Upload:
    """Return what a form with a table sends; a file that was chosen comes before what was pasted.

    Raises
    ------
    ForeignFormError
        It does not come from a page of this app.
    """
    async with request.form(max_files=1, max_fields=MOST_FIELDS, max_part_size=LARGEST_TABLE) as sent:
        pasted, file = str(sent.get(TABLE, "")), sent.get(FILE)
        fields = {name: str(value)[:LONGEST] for name, value in sent.multi_items() if name not in (TABLE, FILE)}
        content = await file.read() if isinstance(file, UploadFile) else b""
        name = (file.filename or "") if isinstance(file, UploadFile) else ""
    form = _of_this_browser(request, fields)
    return Upload(form, content, name) if content else Upload(form, pasted.encode("utf-8", "surrogatepass"), "")


class _InMemory(MultiPartParser):
    """Keeps a file in memory whatever its size: the policy bounds it, and a home without threads has no other place."""

    spool_max_size = 0

    def close(self) -> None:
        """Close the files of a form, also those of one that broke off in the middle."""
        for file in self._files_to_close_on_error:
            file.close()


async def read_file(request: Request) -> Upload:
    """Return what a form with a file sends, a photo from the camera or any other; empty bytes where there is none.

    Raises
    ------
    ForeignFormError
        It does not come from a page of this app.
    """
    if not request.headers.get("content-type", "").startswith("multipart/form-data"):
        raise ForeignFormError(message("web-form-foreign"))
    parser = _InMemory(
        request.headers, request.stream(), max_files=3, max_fields=MOST_FIELDS, max_part_size=16 * LONGEST
    )
    try:
        sent = await parser.parse()
        files = [(name, await each.read()) for name, each in sent.multi_items() if isinstance(each, UploadFile)]
        fields = {name: str(value)[:LONGEST] for name, value in sent.multi_items() if not isinstance(value, UploadFile)}
        called = (each.filename for each in sent.getlist(FILE) if isinstance(each, UploadFile) and each.filename)
    except MultiPartException as error:
        raise ForeignFormError(message("web-form-foreign")) from error
    finally:
        parser.close()
    form = _of_this_browser(request, fields)
    return Upload(form, _first(files, FILE), next(called, "")[:LONGEST], _first(files, PREVIEW))


def _first(files: list[tuple[str, bytes]], name: str) -> bytes:
    """Return the first file of a name that holds anything: a form may have two ways to choose one."""
    return next((content for of, content in files if of == name and content), b"")


def key_of_browser(request: Request) -> str:
    """Return the key of this browser's forms, a new one where it has none."""
    key = request.cookies.get(COOKIE, "")
    return key if _KEY.fullmatch(key) else secrets.token_urlsafe(24)


def give_key(response: Response, request: Request, key: str) -> None:
    """Let the browser keep its key, where it has none yet."""
    if request.cookies.get(COOKIE) != key:
        secure = request.url.scheme == "https"
        response.set_cookie(COOKIE, key, max_age=MANY_DAYS, secure=secure, httponly=True, samesite="strict")
