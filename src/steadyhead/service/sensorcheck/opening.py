"""Use case: a check file that is not there yet, asked for key by key: the plates, and what the place allows.

Rules
-----
1. Two answers are needed: the sensor's signal and its range. All else may be left out with an empty line.
2. An answer is read by the file's own kinds, and refused with what would do.
3. The file that comes of it is sound; it has no point yet.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from steadyhead.errors import InputError
from steadyhead.messages import Message, message
from steadyhead.visit.check_keys import CHECK_FILE
from steadyhead.visit.edit import statement
from steadyhead.visit.keys import SCHEMA, Key
from steadyhead.visit.kinds import Known
from steadyhead.visit.record import Signal

Place = tuple[str, str]
#: What is asked, in this order.
ASKED: tuple[Place, ...] = (
    ("sensor", "signal"), ("sensor", "range"), ("sensor", "accuracy"), ("check", "serial"), ("reference", "range"),
    ("reference", "grade"), ("reference", "accuracy"), ("reference", "resolution"), ("meter", "volts"),
    ("meter", "milliamps"), ("conditions", "height"), ("check", "pressure_from"), ("allowed", "relief"),
    ("allowed", "weakest"), ("allowed", "ordinary"), ("allowed", "pump"), ("check", "purpose"), ("check", "day"),
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """What was answered so far, as a file spells it, and which question comes next."""

    answers: Mapping[Place, str] = field(default_factory=dict)
    place: int = 0

    @property
    def asks(self) -> Key | None:
        """The key that is asked for, or None where all were."""
        asked = self._asked
        return None if asked is None else key_at(*asked)

    @property
    def _asked(self) -> Place | None:
        return ASKED[self.place] if self.place < len(ASKED) else None

    @property
    def text(self) -> str:
        """The file that the answers make."""
        blocks = [f"schema = {SCHEMA}\n"]
        for table in CHECK_FILE.tables:
            mine = [(key, value) for (name, key), value in self.answers.items() if name == table.name]
            if mine:
                blocks.append("".join(f"{line}\n" for line in (table.title, *(statement(*each) for each in mine))))
        return "\n".join(blocks)


def key_at(table: str, key: str) -> Key:
    """Return a key of a table of the check file."""
    keys = next(each.keys for each in CHECK_FILE.tables if each.name == table)
    return next(each for each in keys if each.name == key)


def answered(opening: Opening, line: str) -> tuple[Opening, tuple[Message, ...]]:
    """Return the next question, or the same with why the answer was refused."""
    words = " ".join(line.split())
    place = ASKED[opening.place]
    key = key_at(*place)
    if not words:
        if key.required:
            return opening, (message("key-missing", key=key.name, must_be=key.kind.says()),)
        return _next(opening), ()
    try:
        key.kind.read(words, _known(opening))
    except InputError as error:
        return opening, (error.message,)
    return _next(replace(opening, answers={**opening.answers, place: words})), ()


def _known(opening: Opening) -> Known:
    signal = opening.answers.get(("sensor", "signal"))
    blank = Known(None, absolute=False, row={})
    if signal is None:
        return blank
    read = key_at("sensor", "signal").kind.read(signal, blank)
    return blank._replace(signal_kind=read.kind if isinstance(read, Signal) else None)


def _next(opening: Opening) -> Opening:
    """Return the opening at its next question; what an earlier answer makes needless is passed over."""
    place = opening.place + 1
    while place < len(ASKED) and _is_needless(ASKED[place], opening.answers):
        place += 1
    return replace(opening, place=place)


def _is_needless(place: Place, answers: Mapping[Place, str]) -> bool:
    current = "ma" in answers.get(("sensor", "signal"), "").casefold()
    by_hand = answers.get(("check", "pressure_from")) == "hand-pump"
    return {
        ("reference", "accuracy"): ("reference", "grade") in answers,
        ("meter", "volts"): current,
        ("meter", "milliamps"): not current,
        ("allowed", "relief"): by_hand,
        ("allowed", "weakest"): by_hand,
        ("allowed", "ordinary"): by_hand,
        ("allowed", "pump"): not by_hand,
    }.get(place, False)
