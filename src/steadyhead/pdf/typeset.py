"""A paper as PDF: the paper's own words, handed to one Typst template as data; tagged, with its typefaces inside.

Rules
-----
1. The template is ours and fixed. What the paper says goes in as JSON, and is text there, whatever signs it has.
2. Nothing is read but a folder that is made for this paper, with its pictures: no package is fetched, no font of the
   system is used.
3. The file is tagged and keeps PDF/UA-1 (ISO 14289-1); where its day is known, PDF/A-2a (ISO 19005-2) too.
4. A sign that our typefaces lack is written as its code point, ``[U+4E95]``: it is seen to be missing, and refuses
   nothing. What is on the paper stays what it was in HTML and in the record.
5. A picture that is not here, or that cannot be drawn, is told to be lacking; the paper is set all the same.
6. The same paper gives the same bytes: the time inside it is the paper's own day, or none.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from functools import cache
from importlib.resources import as_file, files
from pathlib import Path
from tempfile import TemporaryDirectory
from types import MappingProxyType
from typing import Any, Final
from unicodedata import normalize

import typst

from steadyhead.documents.html import Bytes

ACCESSIBLE: Final = "ua-1"
ARCHIVABLE: Final = "a-2a"
#: How a picture's file ends, by what it is: Typst tells a picture by it.
ENDINGS: Final[Mapping[str, str]] = {"image/jpeg": "jpg", "image/png": "png", "image/webp": "webp"}


def typeset(laid: Mapping[str, Any], pictures: Mapping[str, Bytes] = MappingProxyType({})) -> bytes:
    """Return a paper as PDF.

    Parameters
    ----------
    laid
        The paper in words (`steadyhead.documents.laid.laid_out`).
    pictures
        The bytes of its pictures and what they are, by their SHA-256.

    Raises
    ------
    typst.TypstError
        The template cannot be set: a mistake of the program.
    """
    with TemporaryDirectory() as name:
        folder = Path(name)
        compiler = typst.Compiler(root=folder, font_paths=_fonts())
        there = dict(_laid_down(folder, pictures))
        try:
            return _made(compiler, laid, there)
        except typst.TypstError:
            drawn = {sha256: file for sha256, file in there.items() if _can_be_drawn(compiler, file)}
            if drawn == there:
                raise
            return _made(compiler, laid, drawn)


def _laid_down(folder: Path, pictures: Mapping[str, Bytes]) -> Iterator[tuple[str, str]]:
    """Write pictures down, and yield each one's SHA-256 and file."""
    for sha256, picture in pictures.items():
        file = f"{sha256}.{ENDINGS[picture.media_type]}"
        (folder / file).write_bytes(picture.data)
        yield sha256, file


def _made(compiler: typst.Compiler, laid: Mapping[str, Any], there: Mapping[str, str]) -> bytes:
    day = laid["day"]
    moment = datetime.fromisoformat(f"{day}T00:00:00").replace(tzinfo=UTC) if day else 0
    said = {**displayable(laid, _signs()), "files": there}
    made = compiler.compile(
        _template(), format="pdf", sys_inputs={"paper": json.dumps(said)}, timestamp=moment,
        pdf_standards=[ACCESSIBLE, ARCHIVABLE] if day else [ACCESSIBLE],
    )  # fmt: skip
    if not isinstance(made, bytes):
        raise TypeError("a PDF is one file")  # noqa: EM101, TRY003 - a mistake of the library, never seen by a person
    return made


def _can_be_drawn(compiler: typst.Compiler, file: str) -> bool:
    """Tell whether a picture can be drawn, by drawing it alone."""
    try:
        compiler.compile(f'#image("/{file}")'.encode(), format="pdf")
    except typst.TypstError:
        return False
    return True


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
def _template() -> bytes:
    """Return the template."""
    return (files("steadyhead.pdf") / "paper.typ").read_bytes()


@cache
def _fonts() -> typst.Fonts:
    """Return our typefaces and nothing else; loaded once."""
    with as_file(files("steadyhead.pdf") / "fonts") as folder:
        fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(folder)])
        if not fonts.families():
            raise FileNotFoundError(folder)
        return fonts
