"""A PNG without what it says beside its picture.

A PNG is a row of chunks: length, name, that many bytes, and a checksum over name and bytes.

References
----------
W3C, Portable Network Graphics (third edition), clauses 5.2 to 5.4 and 11 (from memory).
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple
from zlib import crc32

from steadyhead.service.photos.exif import UPRIGHT, block, broken, orientation_of

SIGNATURE = b"\x89PNG\r\n\x1a\n"
HEADER, DATA, END, EXIF = b"IHDR", b"IDAT", b"IEND", b"eXIf"
#: What decodes the picture and its colours; a moving picture's frames too.
STAYS = frozenset((
    HEADER, b"PLTE", DATA, END, b"tRNS", b"gAMA", b"cHRM", b"sRGB", b"iCCP", b"cICP", b"sBIT", b"bKGD", b"pHYs",
    b"acTL", b"fcTL", b"fdAT",
))  # fmt: skip


class Chunk(NamedTuple):
    """A chunk: its name and what it holds."""

    name: bytes
    holds: bytes


def cleaned_png(data: bytes) -> bytes:
    """Return a PNG without what it says beside its picture; how it is turned stays.

    Raises
    ------
    RecordError
        It is not built as a PNG is.
    """
    chunks = list(_chunks(data))
    if chunks[0].name != HEADER or DATA not in {each.name for each in chunks}:
        raise broken()
    turned = next((orientation_of(each.holds) for each in chunks if each.name == EXIF), UPRIGHT)
    stay = [each for each in chunks if each.name in STAYS]
    exif = [] if turned == UPRIGHT else [Chunk(EXIF, block(turned))]
    return SIGNATURE + b"".join(map(_written, [stay[0], *exif, *stay[1:]]))


def _chunks(data: bytes) -> Iterator[Chunk]:
    """Yield the chunks up to the end of the picture."""
    at = len(SIGNATURE)
    while True:
        size, name = int.from_bytes(data[at : at + 4]), data[at + 4 : at + 8]
        stop = at + 8 + size
        if len(name) < 4 or stop + 4 > len(data):
            raise broken()
        yield Chunk(name, data[at + 8 : stop])
        if name == END:
            return
        at = stop + 4


def _written(each: Chunk) -> bytes:
    checksum = crc32(each.name + each.holds)
    return len(each.holds).to_bytes(4) + each.name + each.holds + checksum.to_bytes(4)
