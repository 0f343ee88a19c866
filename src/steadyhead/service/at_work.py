"""Who works out what takes the engine a while: here and now, or beside the pages in processes of their own.

Rules
-----
1. A task names a function of a module and gives it plain values, so that it can be handed to another process.
2. What comes out hangs on those values alone, whoever works it out; a memory only saves time.
3. Tasks about one visit go, where they can, to whoever remembers it; the memory looked at longest ago gives way.
4. Two tasks with one key have one answer: asked twice at once, it is worked out once.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Generic, ParamSpec, Protocol, TypeVar

from steadyhead.diagnosis.memory import Answers, Memory

#: Visits whose loops are remembered in one place, some tens of megabytes each at most: those worked on just now.
MEMORIES = 4

Given = ParamSpec("Given")
Result = TypeVar("Result")
Out = TypeVar("Out", covariant=True)  # noqa: PLC0105 - one letter more says less


@dataclass(frozen=True, slots=True)
class Task(Generic[Out]):
    """Something to be worked out.

    Parameters
    ----------
    about
        Whose memory helps: a visit or a sensor check.
    key
        What tells its answer from every other: the state, and what is asked of it.
    do
        A function of a module; it is given the memory first.
    given
        What else it is given.
    """

    about: str
    key: str
    do: Callable[..., Out]
    given: tuple[Any, ...] = ()


def alone(_: Memory, do: Callable[Given, Result], *given: Given.args, **more: Given.kwargs) -> Result:
    """Do what needs no memory.

    >>> alone(Memory(), max, 2, 3)
    3
    """
    return do(*given, **more)


class Memories:
    """What is remembered of the visits that are worked on just now; `answers` keeps whole answers of all of them."""

    def __init__(self, most: int = MEMORIES, answers: Answers | None = None) -> None:
        self._kept: OrderedDict[str, Memory] = OrderedDict()
        self._most, self._answers = most, answers

    def __len__(self) -> int:
        return len(self._kept)

    def of(self, about: str) -> Memory:
        """Return the memory of one visit, an empty one where there is none."""
        memory = self._kept.setdefault(about, Memory(self._answers))
        self._kept.move_to_end(about)
        while len(self._kept) > self._most:
            self._kept.popitem(last=False)
        return memory


class Thinker(Protocol):
    """Works tasks out."""

    async def work(self, task: Task[Result]) -> Result:
        """Return what comes of a task; what it raises is raised here."""
        ...

    async def beside(self, do: Callable[[], Result]) -> Result:
        """Return what comes of a function that reads much from disk; other pages are served meanwhile, where it can."""
        ...

    def soon(self, load: Callable[[], object], wait_s: float) -> None:
        """Hear that so long from now [s] what the next pages need can be made ready: what `load` loads, and more."""
        ...


class Here:
    """Works tasks out here and now: the page waits, and so do all others."""

    def __init__(self, answers: Answers | None = None) -> None:
        self._memories = Memories(answers=answers)

    async def work(self, task: Task[Result]) -> Result:
        """Return what comes of a task."""
        return task.do(self._memories.of(task.about), *task.given)

    async def beside(self, do: Callable[[], Result]) -> Result:
        """Return what comes of a function."""
        return do()

    def soon(self, load: Callable[[], object], wait_s: float) -> None:
        """Make nothing ready: it would hold up the next page."""
