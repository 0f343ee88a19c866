"""From the bytes of a file to its TOML values, with every way in which a file can be no TOML said in plain words.

Rules
-----
1. A file above `LARGEST` bytes is refused unread.
2. Text is UTF-8, with or without a byte-order mark; line ends may be of either kind.
3. The nesting is measured before the parser sees the text, so that no file can exhaust it.
4. A line that breaks the syntax is quoted. Where it is one key with a broken value, it is set aside and reading goes
   on, so that a person who forgot the quotes five times is told five times.
"""

from __future__ import annotations

import re
import tomllib
from pathlib import Path as FilePath
from typing import Any, NamedTuple

from steadyhead.errors import FileUnreadableError, Problem
from steadyhead.messages import Message, message
from steadyhead.visit.layout import DEEPEST, Layout, scan
from steadyhead.visit.nearest import shown

LARGEST = 1024 * 1024  #: bytes
_MOST_REPAIRS = 20
_LARGEST_REPAIRED = 32 * 1024  #: each repair reads the text again
_TWICE = ("Cannot overwrite", "Cannot declare", "Duplicate")
_BOM = "\ufeff"
_SELF_CONTAINED = re.compile(r"(?P<key>\s*[\w.\"'-]{1,80}\s*=)[^\[\]{}]*$")
_UNQUOTED = re.compile(r"\s*[\w.\"'-]{1,80}\s*=\s*[^\s\"'\[{#]")
_AT = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")


class TomlText(NamedTuple):
    """A text, its values (None where it is no TOML at all), where they stand, and what was wrong with its syntax."""

    text: str
    values: dict[str, Any] | None
    layout: Layout
    problems: tuple[Problem, ...]
    set_aside: frozenset[int]


def read_bytes(path: FilePath, most: int = LARGEST) -> bytes:
    """Return the bytes of the file `path`, refusing what is no file or larger than `most` before reading it.

    Raises
    ------
    FileUnreadableError
        No such file, a folder, no right to read it, larger than `most`.
    """
    name = str(path)
    try:
        _check_before_reading(path, name, most)
        with path.open("rb") as stream:
            data = stream.read(most + 1)
    except FileNotFoundError as error:
        raise FileUnreadableError(message("file-missing", file=name)) from error
    except PermissionError as error:
        raise FileUnreadableError(message("file-forbidden", file=name)) from error
    except (OSError, ValueError) as error:
        raise FileUnreadableError(message("file-unreadable", file=name, reason=_reason(error))) from error
    return data


def _check_before_reading(path: FilePath, name: str, most: int) -> None:
    if path.is_dir():
        raise FileUnreadableError(message("file-is-folder", file=name))
    size = path.stat().st_size
    if not path.is_file():
        raise FileUnreadableError(message("file-not-regular", file=name))
    if size > most:
        raise FileUnreadableError(message("file-too-large", file=name, got_bytes=size, most_bytes=most))


def _reason(error: Exception) -> str:
    return (error.strerror if isinstance(error, OSError) else None) or str(error)


def decode(data: bytes, name: str) -> str:
    """Return `data` as text.

    Raises
    ------
    FileUnreadableError
        Too large, bytes that no text holds, or text in another encoding than UTF-8.
    """
    if len(data) > LARGEST:
        raise FileUnreadableError(message("file-too-large", file=name, got_bytes=len(data), most_bytes=LARGEST))
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise FileUnreadableError(message("text-is-utf-16", file=name))
    if data.startswith(b"PK\x03\x04"):
        raise FileUnreadableError(message("file-is-zip", file=name))
    if b"\0" in data:
        raise FileUnreadableError(message("file-is-binary", file=name, line=_line_at(data, data.index(b"\0"))))
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        at = error.start
        problem = message(
            "text-not-utf-8",
            file=name,
            line=_line_at(data, at),
            byte=f"0x{data[at]:02x}",
            perhaps=shown(data[at : at + 1].decode("latin-1")),
            quoted=shown(_line_of_bytes(data, at).decode("latin-1")),
        )
        raise FileUnreadableError(problem) from error


def _line_at(data: bytes, at: int) -> int:
    return data.count(b"\n", 0, at) + 1


def _line_of_bytes(data: bytes, at: int) -> bytes:
    start = data.rfind(b"\n", 0, at) + 1
    return data[start : start + 400].split(b"\n", maxsplit=1)[0]


def parse(text: str) -> TomlText:
    """Return the values of a TOML text; what its syntax forbids is in `problems`."""
    plain = text.removeprefix(_BOM)
    problems: list[Problem] = []
    set_aside: set[int] = set()
    values: dict[str, Any] | None = None
    layout = scan(plain)
    while values is None:
        values, problem = _load(plain, layout)
        problems += [problem] if problem else []
        repaired = _repaired(plain, problem, set_aside) if problem else None
        if repaired is None:
            break
        plain, layout = repaired, scan(repaired)
    return TomlText(text, values, layout, tuple(problems), frozenset(set_aside))


def _load(plain: str, layout: Layout) -> tuple[dict[str, Any] | None, Problem | None]:
    """Return the values of `plain`, or the first thing that is no TOML."""
    if layout.too_deep is not None:
        return None, Problem(message("toml-too-deep", most=DEEPEST), "", layout.too_deep)
    try:
        return tomllib.loads(plain), None
    except (ValueError, RecursionError) as error:
        return None, _syntax_problem(error, plain)


def _syntax_problem(error: Exception, text: str) -> Problem:
    """Return what the parser refused, with the line quoted and the column counted from 1."""
    match = _AT.search(str(error))
    lines = text.split("\n")
    if match is None or match[1] is None:
        line = len(lines) - (lines[-1] == "" and len(lines) > 1)
        column = len(lines[line - 1]) + 1
    else:
        line, column = int(match[1]), int(match[2])
    reason = _AT.sub("", str(error)) or type(error).__name__
    return Problem(_syntax_message(lines[line - 1].rstrip("\r"), column, reason), "", line)


def _syntax_message(quoted: str, column: int, reason: str) -> Message:
    """Return the message for one broken line; the two mistakes that people make have their own."""
    key, _, value = quoted.partition("=")
    if any(phrase in reason for phrase in _TWICE):
        return message("toml-said-twice", quoted=shown(quoted))
    if _UNQUOTED.match(quoted):
        value = value.split("#", maxsplit=1)[0].strip()
        return message("toml-quotes-missing", quoted=shown(quoted), must_be=shown(f'{key.strip()} = "{value}"'))
    return message("toml-syntax", quoted=shown(quoted), column=column, reason=reason)


def _repaired(text: str, problem: Problem, set_aside: set[int]) -> str | None:
    """Return `text` without the broken value of the problem's line, or None where going on would only guess."""
    line = problem.line
    if line is None or line in set_aside or len(set_aside) >= _MOST_REPAIRS or len(text) > _LARGEST_REPAIRED:
        return None
    lines = text.split("\n")
    match = _SELF_CONTAINED.match(lines[line - 1].rstrip("\r"))
    if match is None:
        return None
    set_aside.add(line)
    lines[line - 1] = "" if problem.message.id == "toml-said-twice" else match["key"] + '""'
    return "\n".join(lines)
