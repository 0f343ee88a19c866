"""Photos built byte by byte, as their standards say, with everything beside the picture that gives a place away."""

from __future__ import annotations

import struct
from zlib import compress, crc32

#: What must not be left of any photo: a place, a time, a camera, a face in a preview, a film.
SECRETS = (b"GPS-48.8584N", b"2026:05:04", b"CAMERA-77", b"PREVIEW", b"FILM-BEHIND", b"xmp-place", b"comment-place")
SECRET = b" ".join(SECRETS)


def tiff(orientation: int, order: str = "<") -> bytes:
    """Return an Exif block as a phone writes it: another entry before it, then texts (TIFF 6.0, section 2)."""
    mark = b"II" if order == "<" else b"MM"
    make = (0x010F, 2, len(SECRET), 8 + 2 + 2 * 12 + 4)
    entries = struct.pack(f"{order}HHII", *make) + struct.pack(f"{order}HHIHH", 0x0112, 3, 1, orientation, 0)
    return struct.pack(f"{order}2sHI", mark, 42, 8) + struct.pack(f"{order}H", 2) + entries + bytes(4) + SECRET


def segment(marker: int, said: bytes) -> bytes:
    """Return a JPEG segment: FF, its marker, its length with the two bytes of the length itself (T.81, B.1.1.4)."""
    return bytes((0xFF, marker)) + (len(said) + 2).to_bytes(2, "big") + said


JFIF = segment(0xE0, b"JFIF\0" + bytes((1, 2, 0, 0, 1, 0, 1, 1, 1)) + b"\1\2\3")
JFIF_PLAIN = segment(0xE0, b"JFIF\0" + bytes((1, 2, 0, 0, 1, 0, 1, 0, 0)))
PROFILE = segment(0xE2, b"ICC_PROFILE\0\1\1profile")
ADOBE = segment(0xEE, b"Adobe\0d\0\0\0\0\1")
TABLES = segment(0xDB, bytes(65)) + segment(0xC4, bytes(20)) + segment(0xDD, b"\0\4")
FRAME = segment(0xC2, b"\x08\0\1\0\1\1\1\x11\0")
SCANS = (
    segment(0xDA, b"\1\1\0\0\0\0") + b"data\xff\x00more\xff\xd0after restart"
    + segment(0xC4, bytes(20)) + segment(0xDA, b"\1\1\0\1\5\0") + b"second scan\xff\xd7end"
)  # fmt: skip


def jpeg(orientation: int = 6, order: str = "<") -> bytes:
    """Return a progressive JPEG with two scans, restart markers, and every kind of thing beside its picture."""
    beside = segment(0xE1, b"Exif\0\0" + tiff(orientation, order))
    beside += segment(0xE1, b"http://ns.adobe.com/xap/1.0/\0" + SECRET) + segment(0xE2, b"MPF\0" + SECRET)
    beside += segment(0xE0, b"JFXX\0" + SECRET) + segment(0xED, b"Photoshop 3.0\0" + SECRET) + segment(0xFE, SECRET)
    scans = SCANS + segment(0xFE, SECRET)
    return b"\xff\xd8" + JFIF + beside + PROFILE + ADOBE + TABLES + FRAME + scans + b"\xff\xd9" + jpeg_tail()


def jpeg_tail() -> bytes:
    """Return what stands behind a picture's end: another picture, a film, a maker's own notes."""
    return b"\xff\xd8\xff\xe1\0\x08" + SECRET + b"\xff\xd9" + b"ftypmp42" + SECRET


def chunk(name: bytes, holds: bytes) -> bytes:
    """Return a PNG chunk (its specification, 5.3)."""
    return len(holds).to_bytes(4, "big") + name + holds + crc32(name + holds).to_bytes(4, "big")


def png(orientation: int = 6) -> bytes:
    """Return a PNG of one grey pixel with texts, a time and an Exif block, and something behind its end."""
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0)) + chunk(b"pHYs", bytes(9))
    texts = chunk(b"tEXt", b"Comment\0" + SECRET) + chunk(b"iTXt", b"XML:com.adobe.xmp\0\0\0\0\0" + SECRET)
    texts += chunk(b"zTXt", b"Comment\0\0" + compress(SECRET)) + chunk(b"tIME", bytes(7)) + chunk(b"prVt", SECRET)
    data = chunk(b"IDAT", compress(b"\0\x80"))
    return b"\x89PNG\r\n\x1a\n" + head + texts + chunk(b"eXIf", tiff(orientation)) + data + chunk(b"IEND", b"") + SECRET


def riff(name: bytes, holds: bytes) -> bytes:
    """Return a WebP chunk, filled up to an even length (RFC 9649, 2.3)."""
    return name + len(holds).to_bytes(4, "little") + holds + b"\0" * (len(holds) % 2)


def webp(orientation: int = 6) -> bytes:
    """Return a WebP with a moving frame, flags for all that it has, Exif, XMP, and something behind its end."""
    inside = riff(b"VP8 ", b"frame") + riff(b"SECR", SECRET)
    body = b"WEBP" + riff(b"VP8X", bytes((0x2E, 0, 0, 0, 0, 0, 0, 0, 0, 0))) + riff(b"ICCP", b"profile")
    body += riff(b"ANIM", bytes(6)) + riff(b"ANMF", bytes(16) + inside)
    body += riff(b"EXIF", tiff(orientation)) + riff(b"XMP ", SECRET) + riff(b"MINE", SECRET)
    return b"RIFF" + len(body).to_bytes(4, "little") + body + SECRET
