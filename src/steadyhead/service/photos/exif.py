"""How a picture is turned: read out of an Exif block, and written as a block that says nothing else.

An Exif block is a TIFF file: byte order, the number 42, and where the first directory stands; a directory is a count
and so many entries of twelve bytes (tag, type, count, value).

References
----------
CIPA DC-008 (Exif 2.32), 4.6.2 and 4.6.4; TIFF 6.0, section 2 (both from memory).
"""

from __future__ import annotations

import struct

from steadyhead.errors import RecordError
from steadyhead.messages import message

ORIENTATION, SHORT = 0x0112, 3
#: As it stands; the values that turn or mirror it.
UPRIGHT, TURNS = 1, range(2, 9)
_ENTRY = 12


def broken() -> RecordError:
    """Return the refusal of a photo that is not built as its first bytes promise."""
    return RecordError(message("photo-broken"))


def orientation_of(tiff: bytes) -> int:
    """Return how a picture is turned, 1 to 8; upright where a block does not say, or cannot be read.

    >>> orientation_of(block(6)), orientation_of(b"nonsense")
    (6, 1)
    """
    order = {b"II*\0": "<", b"MM\0*": ">"}.get(tiff[:4])
    if order is None or len(tiff) < 8:
        return UPRIGHT
    (at,) = struct.unpack_from(f"{order}I", tiff, 4)
    if at + 2 > len(tiff):
        return UPRIGHT
    (count,) = struct.unpack_from(f"{order}H", tiff, at)
    for entry in range(at + 2, min(at + 2 + count * _ENTRY, len(tiff) - _ENTRY + 1), _ENTRY):
        tag, kind = struct.unpack_from(f"{order}HH", tiff, entry)
        if tag == ORIENTATION and kind == SHORT:
            (value,) = struct.unpack_from(f"{order}H", tiff, entry + 8)
            return value if value in TURNS else UPRIGHT
    return UPRIGHT


def block(orientation: int) -> bytes:
    """Return an Exif block (a TIFF file) that tells how a picture is turned, and nothing else."""
    return struct.pack(">2sHIHHHIHHI", b"MM", 42, 8, 1, ORIENTATION, SHORT, 1, orientation, 0, 0)
