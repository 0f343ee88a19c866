"""What was worked out of a system alone, kept for the next answer: loops that were solved, whatever is read of them.

Rules
-----
1. What is kept depends on the plates, on where a cell was looked at and on what was asked, never on a reading's figure:
   an answer is the same to the last digit with a memory or without, and however it was filled.
2. Whoever asks again about one visit keeps one memory and hands it on; nothing is kept in a module.
3. A memory that has grown too large is emptied: it only saves time.
4. What hangs on a visit and estimates alone may be kept by somebody who outlives the process (`Answers`): asked first,
   and told what is new.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Generic, Protocol, TypeVar

if TYPE_CHECKING:
    from steadyhead.diagnosis.estimates import Estimates
    from steadyhead.visit.record import Visit

#: What is kept at most; a few kilobytes each.
MOST = 20_000

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Asked(Generic[T]):
    """What is asked of a visit.

    Parameters
    ----------
    what
        A word for it, which tells it from whatever else is asked.
    kind
        What the answer is.
    parts
        The kinds of the values that it is made of, beside plain ones.
    """

    what: str
    kind: type[T]
    parts: tuple[type[Any], ...] = ()


class Answers(Protocol):
    """Keeps answers."""

    def of(self, visit: Visit, estimates: Estimates, asked: Asked[T], work: Callable[[], T]) -> T:
        """Return what was asked of a visit judged by estimates, worked out now where it is new."""
        ...


class Memory:
    """What was worked out, by what it was worked out of.

    Parameters
    ----------
    answers
        Who keeps answers for longer; None where nobody does.

    Examples
    --------
    >>> memory = Memory()
    >>> memory.of("two and two", lambda: 2 + 2), memory.of("two and two", lambda: 1 / 0)
    (4, 4)
    """

    __slots__ = ("_kept", "_plates", "answers")

    def __init__(self, answers: Answers | None = None) -> None:
        self.answers = answers
        self._kept: dict[Hashable, Any] = {}
        self._plates: Hashable = None

    def for_plates(self, plates: Hashable) -> Memory:
        """Return this memory, emptied where it was kept for other plates."""
        if plates != self._plates:
            self._kept.clear()
            self._plates = plates
        return self

    def __len__(self) -> int:
        return len(self._kept)

    def of(self, key: Hashable, work: Callable[[], T]) -> T:
        """Return what was worked out of `key`, worked out now where it is new."""
        if key not in self._kept:
            found = work()
            if len(self._kept) >= MOST:
                self._kept.clear()
            self._kept[key] = found
        known: T = self._kept[key]
        return known

    def answer(self, visit: Visit, estimates: Estimates, asked: Asked[T], work: Callable[[], T]) -> T:
        """Return what was asked of a visit judged by estimates, worked out now where it is new or nobody keeps it."""
        return work() if self.answers is None else self.answers.of(visit, estimates, asked, work)
