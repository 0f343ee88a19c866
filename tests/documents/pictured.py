"""A picture that any program draws: a PNG of two pixels, one grey and one white, built as its standard says."""

from __future__ import annotations

import hashlib
import struct
from zlib import compress

from tests.service.photos.made import chunk

_HEAD = b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", 2, 1, 8, 0, 0, 0, 0))
#: ISO/IEC 15948, 5 and 11.2.
PNG = _HEAD + chunk(b"IDAT", compress(b"\0\x80\xff")) + chunk(b"IEND", b"")
#: Built of the same chunks, but what should be a row of pixels is none.
HOLLOW = _HEAD + chunk(b"IDAT", b"no picture") + chunk(b"IEND", b"")
GREY = hashlib.sha256(PNG).hexdigest()
