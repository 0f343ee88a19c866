"""A JPEG without what it says beside its picture.

Theory of operation
-------------------
1. A JPEG is a row of markers. Each but a few is followed by its length and so many bytes less two. After a scan's
   header comes its picture data, in which a byte FF is followed by 00 or by a restart marker; the next other marker
   ends it. The end-of-image marker ends the picture; nothing after it belongs to it.
2. What decodes the picture stays: frames, tables, scans, restart intervals, the marker of Adobe that tells how colours
   are coded, and the colour profile. Of JFIF its fixed part stays, without the preview.

References
----------
ITU-T T.81, annex B (markers, B.1.1.3 and table B.1); JFIF 1.02 (from memory); ICC.1, annex B.4 (from memory).
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from steadyhead.service.photos.exif import UPRIGHT, block, broken, orientation_of

START, END, SCAN, APP0, APP1, APP2, APP14 = 0xD8, 0xD9, 0xDA, 0xE0, 0xE1, 0xE2, 0xEE
EXIF, JFIF, ICC, ADOBE = b"Exif\0\0", b"JFIF\0", b"ICC_PROFILE\0", b"Adobe"
#: Tables, frames and lengths: SOF0 to SOF15 with DHT, JPG and DAC among them, DQT, DNL, DRI, DHP, EXP.
DECODES = frozenset((*range(0xC0, 0xD0), *range(0xDB, 0xE0)))
#: The fixed part of JFIF, without its preview.
JFIF_FIXED = 14


class Segment(NamedTuple):
    """A marker, what is said in it, and the picture data that follow it."""

    marker: int
    said: bytes
    data: bytes = b""


def cleaned_jpeg(data: bytes) -> bytes:
    """Return a JPEG without what it says beside its picture; how it is turned stays.

    Raises
    ------
    RecordError
        It is not built as a JPEG is.
    """
    segments = list(_segments(data))
    if SCAN not in {each.marker for each in segments}:
        raise broken()
    turned = next((orientation_of(e.said[len(EXIF) :]) for e in segments if _is_exif(e)), UPRIGHT)
    stay = [kept for each in segments if (kept := _kept(each)) is not None]
    first = [each for each in stay[:1] if each.marker == APP0]
    exif = [] if turned == UPRIGHT else [Segment(APP1, EXIF + block(turned))]
    parts = [*first, *exif, *stay[len(first) :]]
    return bytes((0xFF, START)) + b"".join(map(_written, parts)) + bytes((0xFF, END))


def _segments(data: bytes) -> Iterator[Segment]:
    """Yield the segments between the start and the end of the picture."""
    at = 2
    while True:
        marker, at = _marker(data, at)
        if marker == END:
            return
        size = int.from_bytes(data[at : at + 2])
        if size < 2 or at + size > len(data):
            raise broken()
        said, at = data[at + 2 : at + size], at + size
        if marker == SCAN:
            stop = _scan_end(data, at)
            yield Segment(marker, said, data[at:stop])
            at = stop
        else:
            yield Segment(marker, said)


def _marker(data: bytes, at: int) -> tuple[int, int]:
    """Return the marker at a place, and where what follows it begins; any number of FF may fill up before it."""
    if data[at : at + 1] != b"\xff":
        raise broken()
    while data[at : at + 1] == b"\xff":
        at += 1
    if at >= len(data):
        raise broken()
    return data[at], at + 1


def _scan_end(data: bytes, at: int) -> int:
    """Return where a scan's picture data end: at the first marker that is no restart."""
    while True:
        at = data.find(b"\xff", at)
        if at < 0 or at + 1 >= len(data):
            raise broken()
        follows = data[at + 1]
        if follows == 0xFF:
            at += 1
        elif follows == 0 or 0xD0 <= follows <= 0xD7:
            at += 2
        else:
            return at


def _is_exif(each: Segment) -> bool:
    return each.marker == APP1 and each.said.startswith(EXIF)


def _kept(each: Segment) -> Segment | None:
    """Return a segment as it stays, None where it goes."""
    if each.marker == APP0 and each.said.startswith(JFIF) and len(each.said) >= JFIF_FIXED:
        return each._replace(said=each.said[: JFIF_FIXED - 2] + b"\0\0")
    profile = each.marker == APP2 and each.said.startswith(ICC)
    colours = each.marker == APP14 and each.said.startswith(ADOBE)
    return each if profile or colours or each.marker in DECODES or each.marker == SCAN else None


def _written(each: Segment) -> bytes:
    return bytes((0xFF, each.marker)) + (len(each.said) + 2).to_bytes(2) + each.said + each.data
