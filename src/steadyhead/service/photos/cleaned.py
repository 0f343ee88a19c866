"""A photo of a customer's house must not say where it was taken: the picture stays, what is written beside it goes.

Rules
-----
1. What stays is named, what is not named goes: a list of what is bad would be one camera behind. So also go a preview
   (it may show what was cut off), a maker's notes, a film behind the picture, and everything after the picture's end.
2. The picture's own bytes are not touched: nothing is decoded, nothing gets worse.
3. How the picture is turned stays, as the only tag of an Exif block that is written here: without it a phone's upright
   photo lies on its side. Colour profiles stay.
4. What is not built as its first bytes promise is refused: nobody can tell what else is in it.
5. Cleaned twice is the same as cleaned once.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from steadyhead.service.photos.jpeg import cleaned_jpeg
from steadyhead.service.photos.png import cleaned_png
from steadyhead.service.photos.webp import cleaned_webp

#: What cleans each type of photo; each raises a `RecordError` where the bytes are not built as they promise.
CLEANERS: Mapping[str, Callable[[bytes], bytes]] = {
    "image/jpeg": cleaned_jpeg,
    "image/png": cleaned_png,
    "image/webp": cleaned_webp,
}


def cleaned(data: bytes, media_type: str) -> bytes:
    """Return a photo without what it says beside its picture.

    Parameters
    ----------
    data
        Its bytes.
    media_type
        What its first bytes say: one of `steadyhead.visit.fact_kinds.PHOTO_TYPES`.

    Raises
    ------
    RecordError
        ``photo-broken``: it is not built as its first bytes promise.
    """
    return CLEANERS[media_type](data)
