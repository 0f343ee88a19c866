"""A paper as PDF: the paper's own words, handed to one Typst template as data; tagged, with its typefaces inside.

Rules
-----
1. The template is ours and fixed. What the paper says goes in as JSON, and is text there, whatever signs it has.
2. Nothing is read but this folder: no package is fetched, no font of the system is used.
3. The file is tagged and keeps PDF/UA-1 (ISO 14289-1); where its day is known, PDF/A-2a (ISO 19005-2) too.
4. A sign that our typefaces lack is written as its code point, ``[U+4E95]``: it is seen to be missing, and refuses
   nothing. What is on the paper stays what it was in HTML and in the record.
5. The same paper gives the same bytes: the time inside it is the paper's own day, or none.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from datetime import UTC, datetime
from functools import cache
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any, Final
from unicodedata import normalize

import typst

ACCESSIBLE: Final = "ua-1"
ARCHIVABLE: Final = "a-2a"


def typeset(laid: Mapping[str, Any]) -> bytes:
    """Return a paper as PDF.

    Parameters
    ----------
    laid
        The paper in words (`steadyhead.documents.laid.laid_out`).

    Raises
    ------
    typst.TypstError
        The template cannot be set: a mistake of the program.
    """
    day = laid["day"]
    moment = datetime.fromisoformat(f"{day}T00:00:00").replace(tzinfo=UTC) if day else 0
    compiler, template = _prepared()
    made = compiler.compile(
        template, format="pdf", sys_inputs={"paper": json.dumps(displayable(laid, _signs()))}, timestamp=moment,
        pdf_standards=[ACCESSIBLE, ARCHIVABLE] if day else [ACCESSIBLE],
    )  # fmt: skip
    if not isinstance(made, bytes):
        raise TypeError("a PDF is one file")  # noqa: EM101, TRY003 - a mistake of the library, never seen by a person
    return made


def displayable(value: Any, signs: frozenset[str]) -> Any:  # noqa: ANN401 - any part of a paper in words
    """Return a paper's words with each sign that a typeface lacks as its code point.

    >>> displayable({"text": ["a\u4e95", 1]}, frozenset("a"))
    {'text': ['a[U+4E95]', 1]}
    """
    if isinstance(value, str):
        composed = normalize("NFC", value)
        return "".join(sign if sign in signs or sign == "\n" else f"[U+{ord(sign):04X}]" for sign in composed)
    if isinstance(value, Mapping):
        return {key: displayable(inner, signs) for key, inner in value.items()}
    return [displayable(inner, signs) for inner in value] if isinstance(value, (list, tuple)) else value


@cache
def _signs() -> frozenset[str]:
    """Return the signs that our typefaces have."""
    listed = (files("steadyhead.pdf") / "fonts" / "signs.txt").read_text(encoding="utf-8")
    return frozenset(chr(int(code, 16)) for code in listed.split())


@cache
def _prepared() -> tuple[typst.Compiler, bytes]:
    """Return the compiler with our typefaces and nothing else, and the template; made once."""
    with _folder() as folder:
        fonts = typst.Fonts(
            include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(folder / "fonts")]
        )
        families = fonts.families()
        if not families:
            raise FileNotFoundError(folder)
        return typst.Compiler(root=folder, font_paths=fonts), (folder / "paper.typ").read_bytes()


@contextmanager
def _folder() -> Iterator[Path]:
    """Yield the folder of this package, as files."""
    with as_file(files("steadyhead.pdf")) as folder:
        yield folder
