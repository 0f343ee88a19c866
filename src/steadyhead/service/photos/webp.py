"""A WebP without what it says beside its picture.

A WebP is a RIFF file: after its head a row of chunks, each a name, a length and that many bytes, filled up to an even
number. Where it has more than a plain picture its first chunk tells so in flags; a moving picture's frames hold chunks
of their own.

References
----------
RFC 9649, 2.3 to 2.7 (from memory).
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from steadyhead.service.photos.exif import UPRIGHT, block, broken, orientation_of

HEAD, FRAME_HEAD = 12, 16
EXTENDED, FRAME, EXIF = b"VP8X", b"ANMF", b"EXIF"
PICTURE = frozenset((b"VP8 ", b"VP8L"))
#: What decodes the picture and its colours.
STAYS = frozenset((*PICTURE, EXTENDED, b"ALPH", b"ANIM", FRAME, b"ICCP"))
HAS_EXIF, HAS_XMP = 0x08, 0x04
_EXIF_PREFIX = b"Exif\0\0"


class Chunk(NamedTuple):
    """A chunk: its name and what it holds."""

    name: bytes
    holds: bytes


def cleaned_webp(data: bytes) -> bytes:
    """Return a WebP without what it says beside its picture; how it is turned stays.

    Raises
    ------
    RecordError
        It is not built as a WebP is.
    """
    size = int.from_bytes(data[4:8], "little") + 8
    if size > len(data) or size < HEAD:
        raise broken()
    chunks = list(_chunks(data[HEAD:size]))
    if not {each.name for each in chunks} & {*PICTURE, FRAME}:
        raise broken()
    said = next((each.holds for each in chunks if each.name == EXIF), b"")
    turned = orientation_of(said.removeprefix(_EXIF_PREFIX)) if _is_extended(chunks) else UPRIGHT
    stay = [_kept(each, turned) for each in chunks if each.name in STAYS]
    exif = [] if turned == UPRIGHT else [Chunk(EXIF, block(turned))]
    body = b"WEBP" + b"".join(map(_written, [*stay, *exif]))
    return b"RIFF" + len(body).to_bytes(4, "little") + body


def _is_extended(chunks: list[Chunk]) -> bool:
    return chunks[0].name == EXTENDED


def _kept(each: Chunk, turned: int) -> Chunk:
    """Return a chunk as it stays: without the flags of what goes, a frame without what goes inside it."""
    if each.name == EXTENDED:
        flags = each.holds[0] & ~(HAS_EXIF | HAS_XMP) | (0 if turned == UPRIGHT else HAS_EXIF)
        return each._replace(holds=bytes((flags,)) + each.holds[1:])
    if each.name == FRAME:
        inside = [c for c in _chunks(each.holds[FRAME_HEAD:]) if c.name in STAYS]
        return each._replace(holds=each.holds[:FRAME_HEAD] + b"".join(map(_written, inside)))
    return each


def _chunks(data: bytes) -> Iterator[Chunk]:
    at = 0
    while at < len(data):
        size = int.from_bytes(data[at + 4 : at + 8], "little")
        stop = at + 8 + size
        if at + 8 > len(data) or stop > len(data) or (data[at : at + 4] == EXTENDED and not size):
            raise broken()
        yield Chunk(data[at : at + 4], data[at + 8 : stop])
        at = stop + size % 2


def _written(each: Chunk) -> bytes:
    return each.name + len(each.holds).to_bytes(4, "little") + each.holds + b"\0" * (len(each.holds) % 2)
