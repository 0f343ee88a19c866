"""Makes the ids of the record: ULIDs that sort in the order in which things were entered, whatever the clock says.

Rules
-----
1. A ULID is 26 signs of Crockford's base 32: 48 bits of milliseconds since 1970, UTC, then 80 bits of chance.
2. A new id sorts after every id that this maker made, and after the id that it is told to come after. Where the clock
   is behind, it is that id plus a step of chance: two devices that both come after the same id must not meet.
3. Clock and chance are put in from outside, so that a test or a demo makes the same ids every time.

References
----------
The ULID specification, ulid/spec, README ("Specification", "Monotonicity"), from memory.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import UTC, datetime, timedelta

from steadyhead.errors import RecordError
from steadyhead.messages import message

SIGNS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"  #: no I, L, O, U: they are misread
LENGTH = 26
CHANCE_BITS = 80
STEP_BITS = 64  #: chance of the step from an id to the next, where the clock is behind it
LAST = (1 << 128) - 1
ULID_PATTERN = f"^[0-7][{SIGNS}]{{25}}$"

#: Milliseconds since 1970, UTC.
Clock = Callable[[], int]
#: So many bits of chance as a whole number.
Chance = Callable[[int], int]

_ULID = re.compile(ULID_PATTERN.removesuffix("$"))
_PLACE = {sign: place for place, sign in enumerate(SIGNS)}
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


def is_ulid(value: object) -> bool:
    """Tell whether a value is the text of a ULID, in capitals.

    >>> is_ulid("01ARZ3NDEKTSV4RRFFQ69G5FAV"), is_ulid("81ARZ3NDEKTSV4RRFFQ69G5FAV")
    (True, False)
    """
    return isinstance(value, str) and _ULID.fullmatch(value) is not None


def ulid_text(number: int) -> str:
    """Return the text of a ULID, given its 128 bits.

    >>> ulid_text(32)
    '00000000000000000000000010'
    """
    return "".join(SIGNS[number >> 5 * place & 31] for place in reversed(range(LENGTH)))


def ulid_number(text: str) -> int:
    """Return the 128 bits of a ULID.

    Raises
    ------
    RecordError
        The text is none.
    """
    if not is_ulid(text):
        raise RecordError(message("id-unreadable", got=text[:80]))
    number = 0
    for sign in text:
        number = number << 5 | _PLACE[sign]
    return number


def at_text(milliseconds: int) -> str:
    """Return a time as a fact spells it.

    >>> at_text(0)
    '1970-01-01T00:00:00.000Z'
    """
    moment = _EPOCH + timedelta(milliseconds=milliseconds)
    return f"{moment:%Y-%m-%dT%H:%M:%S}.{milliseconds % 1000:03d}Z"


class Ids:
    """Makes ids, each after the one before.

    Parameters
    ----------
    clock
        Milliseconds since 1970, UTC.
    chance
        Returns so many bits of chance: `secrets.randbits`, or a seeded one in tests.
    """

    def __init__(self, clock: Clock, chance: Chance) -> None:
        self._clock = clock
        self._chance = chance
        self._last = -1

    def new(self, after: str = "") -> str:
        """Return a new id that sorts after all that were made here and after `after`, where that is an id.

        Raises
        ------
        RecordError
            `after` is no ULID, or there is no id after it.
        """
        floor = max(self._last, ulid_number(after) if after else -1)
        drawn = max(self._clock(), 0) << CHANCE_BITS | self._chance(CHANCE_BITS)
        number = drawn if drawn > floor else floor + 1 + self._chance(STEP_BITS)
        if number > LAST:
            raise RecordError(message("ids-used-up", got=after))
        self._last = number
        return ulid_text(number)
