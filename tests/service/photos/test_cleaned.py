"""Photos say nothing of the place, the time and the camera, and show what they showed, the right way up."""

from __future__ import annotations

import struct
from collections.abc import Callable

import pytest

from steadyhead.errors import RecordError
from steadyhead.service.photos.cleaned import CLEANERS, cleaned
from steadyhead.service.photos.exif import block, orientation_of
from steadyhead.visit.fact_kinds import PHOTO_TYPES
from tests.service.photos import made
from tests.service.photos.made import SECRETS, chunk, jpeg, png, riff, segment, tiff, webp

MAKERS: dict[str, Callable[[int], bytes]] = {"image/jpeg": jpeg, "image/png": png, "image/webp": webp}


def test_every_type_of_photo_has_its_cleaner() -> None:
    """The record's own list."""
    assert set(CLEANERS) == set(PHOTO_TYPES)


@pytest.mark.parametrize("media_type", MAKERS)
def test_nothing_of_what_gives_a_place_away_is_left(media_type: str) -> None:
    """Each secret stands in the photo in several places, and in the cleaned one nowhere."""
    before = MAKERS[media_type](6)
    assert all(secret in before for secret in SECRETS)
    after = cleaned(before, media_type)
    assert [secret for secret in SECRETS if secret in after] == []


@pytest.mark.parametrize("media_type", MAKERS)
def test_cleaned_twice_is_cleaned_once(media_type: str) -> None:
    """A property: what stays is what stays."""
    once = cleaned(MAKERS[media_type](6), media_type)
    assert cleaned(once, media_type) == once


def test_a_jpegs_own_bytes_stay_as_they_were() -> None:
    """T.81, annex B: tables, frame, both scans with their restart markers, colours; put together here by hand."""
    exif = segment(0xE1, b"Exif\0\0" + block(6))
    parts = (made.JFIF_PLAIN, exif, made.PROFILE, made.ADOBE, made.TABLES, made.FRAME, made.SCANS)
    assert cleaned(jpeg(6), "image/jpeg") == b"\xff\xd8" + b"".join(parts) + b"\xff\xd9"


def test_fill_bytes_before_a_marker_are_passed_over() -> None:
    """T.81, B.1.1.2: any marker may be preceded by any number of FF."""
    filled = jpeg().replace(made.FRAME, b"\xff\xff" + made.FRAME)
    assert cleaned(filled, "image/jpeg") == cleaned(jpeg(), "image/jpeg")


def test_a_pngs_own_chunks_stay_as_they_were() -> None:
    """Its specification, clause 5: header, size of a pixel, picture, end; put together here by hand."""
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0))
    data = png().partition(b"IDAT")
    picture = data[0][-4:] + b"IDAT" + data[2].partition(b"\0\0\0\0IEND")[0]
    parts = (head, chunk(b"eXIf", block(6)), chunk(b"pHYs", bytes(9)), picture, chunk(b"IEND", b""))
    assert cleaned(png(6), "image/png") == b"\x89PNG\r\n\x1a\n" + b"".join(parts)


def test_a_webps_own_chunks_stay_and_its_flags_say_what_it_has() -> None:
    """RFC 9649, 2.7: 0x20 a profile, 0x08 Exif, 0x04 XMP, 0x02 a moving picture; put together here by hand."""
    flags = {6: 0x2A, 1: 0x22}
    for orientation, flag in flags.items():
        body = b"WEBP" + riff(b"VP8X", bytes((flag, *bytes(9)))) + riff(b"ICCP", b"profile") + riff(b"ANIM", bytes(6))
        body += riff(b"ANMF", bytes(16) + riff(b"VP8 ", b"frame"))
        body += riff(b"EXIF", block(6)) if orientation == 6 else b""
        assert cleaned(webp(orientation), "image/webp") == b"RIFF" + len(body).to_bytes(4, "little") + body


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("order", ["<", ">"])
def test_how_a_picture_is_turned_is_read_in_either_byte_order(orientation: int, order: str) -> None:
    """TIFF 6.0: tag 274, a SHORT, 1 to 8."""
    assert orientation_of(tiff(orientation, order)) == orientation
    assert orientation_of(block(orientation)) == orientation


@pytest.mark.parametrize("media_type", MAKERS)
@pytest.mark.parametrize("orientation", [0, 1, 9, 65535])
def test_an_upright_picture_needs_no_block(media_type: str, orientation: int) -> None:
    """1 is upright, and what is no value of the tag is upright too."""
    after = cleaned(MAKERS[media_type](orientation), media_type)
    assert b"Exif" not in after
    assert b"eXIf" not in after
    assert b"EXIF" not in after


@pytest.mark.parametrize(
    "exif", [b"", b"II*\0", b"II*\0\xff\xff\xff\xff", b"MM\0*\0\0\0\x08\xff\xff" + b"\1" * 20, tiff(6)[:30]]
)
def test_a_block_that_cannot_be_read_says_nothing(exif: bytes) -> None:
    """Anybody's bytes: an end too early, an offset far outside."""
    assert orientation_of(exif) in {1, 6}
    head = b"Exif\0\0" + tiff(6)
    photo = jpeg().replace(segment(0xE1, head), segment(0xE1, b"Exif\0\0" + exif))
    assert cleaned(photo, "image/jpeg").endswith(b"\xff\xd9")


@pytest.mark.parametrize("media_type", MAKERS)
def test_a_photo_that_was_cut_off_is_refused_wherever_it_was_cut(media_type: str) -> None:
    """Every length short of the picture's own end: refused, never anything else."""
    whole = cleaned(MAKERS[media_type](6), media_type)
    for length in range(12, len(whole)):
        with pytest.raises(RecordError, match="photo-broken"):
            cleaned(whole[:length], media_type)


@pytest.mark.parametrize(
    ("media_type", "data"),
    [
        ("image/jpeg", b"\xff\xd8\xff\xd9"),
        ("image/jpeg", b"\xff\xd8" + made.JFIF + b"no marker" + b"\xff\xd9"),
        ("image/jpeg", b"\xff\xd8\xff\xe1\0\1\xff\xd9"),
        ("image/png", b"\x89PNG\r\n\x1a\n" + chunk(b"IEND", b"")),
        ("image/webp", b"RIFF\x04\0\0\0WEBP"),
        ("image/webp", b"RIFF\xff\xff\xff\xffWEBP" + riff(b"VP8 ", b"x")),
    ],
)
def test_what_is_not_built_as_it_promises_is_refused(media_type: str, data: bytes) -> None:
    """No picture in it, no marker where one must be, a length that cannot be."""
    with pytest.raises(RecordError, match="photo-broken"):
        cleaned(data, media_type)
