"""How much room is left, as pages show it: in bytes that a person can read, and in photos that still fit.

Everything that affects how many photos are said to fit lives in this file.

Rules
-----
1. A photo takes what those of this record take on average; until a few were kept, what one usually takes.
2. Some room is never counted for photos: a photo must not take the place of the readings.
3. A phone's browser alone knows what it grants: the page's script counts there, by the same figures. Elsewhere the
   count is made here.
"""

from __future__ import annotations

from dataclasses import dataclass

from steadyhead.service.ports import RecordSize

#: What a photo of 2048 pixels usually takes at the quality that the page's script keeps [bytes]; common experience.
USUAL_PHOTO = 700_000
#: So many photos tell what one takes here.
ENOUGH = 3
#: Never counted for photos [bytes]: thousands of readings.
RESERVE = 20_000_000
#: Below so many photos the page warns; above so many it does not count them.
FEW, MANY = 20, 500
UNITS = ("B", "kB", "MB", "GB", "TB")
STEP = 1000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """What a page of photos says of the room left.

    Parameters
    ----------
    state
        ``many``, ``some``, ``few`` or ``none`` where it was counted here; empty where the page's script counts.
    count
        Photos that still fit.
    photo, reserve
        What one takes and what is kept back [bytes], for the script.
    """

    state: str
    count: int
    photo: int
    reserve: int = RESERVE
    few: int = FEW
    many: int = MANY


def photo_size(size: RecordSize | None) -> int:
    """Return what one more photo takes [bytes].

    >>> photo_size(None), photo_size(RecordSize(total=0, photos=4, of_photos=2_000_000, room=None))
    (700000, 500000)
    """
    if size is None or size.photos < ENOUGH:
        return USUAL_PHOTO
    return max(1, size.of_photos // size.photos)


def room_view(size: RecordSize | None, *, phone: bool) -> Room | None:
    """Return what a page of photos says of the room left; None where nobody can tell."""
    one = photo_size(size)
    if phone:
        return Room(state="", count=0, photo=one)
    if size is None or size.room is None:
        return None
    count = max(0, size.room - RESERVE) // one
    return Room(state=state_of(count), count=count, photo=one)


def state_of(count: int) -> str:
    """Return how a number of photos that still fit is spoken of.

    >>> [state_of(count) for count in (0, 1, 19, 20, 500, 501)]
    ['none', 'few', 'few', 'some', 'some', 'many']
    """
    if count <= 0:
        return "none"
    if count < FEW:
        return "few"
    return "some" if count <= MANY else "many"


def bytes_said(count: int, decimal: str) -> str:
    """Return a number of bytes as a person reads it, in powers of ten.

    >>> [bytes_said(count, ".") for count in (0, 999, 1000, 71_680, 3_200_000, 31_000_000_000)]
    ['0 B', '999 B', '1.0 kB', '72 kB', '3.2 MB', '31 GB']
    """
    figure, unit = float(count), UNITS[0]
    for unit in UNITS:
        if round(figure) < STEP or unit == UNITS[-1]:
            break
        figure /= STEP
    digits = 1 if unit != UNITS[0] and round(figure, 1) < 10 else 0
    return f"{figure:.{digits}f} {unit}".replace(".", decimal)
