"""Each belief and each answer once: what tests ask of the engine is worked out for all of them, in all workers.

Rules
-----
1. A belief is a function of the system, its estimates, the cells and what was read (`steadyhead.diagnosis.belief`), so
   the last ones are kept by just these. The system is its whole visit, labels and complaint too, but for the readings
   themselves, of which the engine sees `observations` alone, and for what was declined.
2. An answer is a function of the visit, all of it, and of the estimates (`steadyhead.diagnosis.diagnose`), so it is
   kept by these. What led to it is worked out when a test asks for it.
3. Workers of one run share what they have worked out by a folder of that run, which goes with it: no run finds what
   another one has kept, so that none can live on what yesterday's code found.
4. That the same is found the same twice is proved without this: by other processes, and where a test asks for
   `afresh`.
"""

from __future__ import annotations

import os
import pickle
import sys
from collections import OrderedDict
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from hashlib import sha256
from pathlib import Path
from typing import Any

from steadyhead.diagnosis import belief, diagnose
from steadyhead.diagnosis.answer import Answer
from steadyhead.diagnosis.answer_text import DIAGNOSIS, answer_of, plain, text_of
from steadyhead.diagnosis.belief import Belief
from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.diagnose import Diagnosed
from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.diagnosis.memory import Memory
from steadyhead.diagnosis.observing import Observation
from steadyhead.diagnosis.system import System
from steadyhead.visit.record import Visit

_weigh = belief.believe
_diagnosed = diagnose.diagnosed


class Kept:
    """What was worked out in one run: `most` of it at hand, all of it in the run's folder, where it has one."""

    def __init__(self, most: int, pack: Callable[[Any], bytes], unpack: Callable[[bytes], Any]) -> None:
        self.most, self._pack, self._unpack = most, pack, unpack
        self.folder: Path | None = None
        self._here: OrderedDict[str, Any] = OrderedDict()

    def of(self, told: str, work: Callable[[], Any]) -> Any:  # noqa: ANN401 - whatever `work` returns
        """Return what `work` finds, now or before; `told` tells it from all else."""
        key = sha256(told.encode()).hexdigest()
        found = self._here.get(key) or self._shared(key)
        if found is None:
            found = work()
            self._share(key, found)
        self._here[key] = found
        self._here.move_to_end(key)
        if len(self._here) > self.most:
            self._here.popitem(last=False)
        return found

    def _shared(self, key: str) -> Any:  # noqa: ANN401 - whatever was kept
        """Return what another worker of this run has found."""
        if self.folder is None or not (self.folder / key).is_file():
            return None
        return self._unpack((self.folder / key).read_bytes())

    def _share(self, key: str, found: object) -> None:
        """Leave something to the other workers, whole or not at all."""
        if self.folder is None:
            return
        part = self.folder / f"{key}.{os.getpid()}"
        part.write_bytes(self._pack(found))
        part.replace(self.folder / key)


def beliefs(most: int = 96) -> Kept:
    """Return what keeps beliefs; each holds some hundred cells."""
    return Kept(most, pickle.dumps, pickle.loads)  # noqa: S301 - this run's own


def answers(most: int = 1000) -> Kept:
    """Return what keeps answers, as the package itself does."""
    return Kept(most, lambda answer: text_of(answer).encode(), lambda text: answer_of(text.decode(), DIAGNOSIS))


_beliefs, _answers = beliefs(), answers()
#: An entry for each `afresh` that holds.
_passed_by: list[None] = []
#: What estimates say, by their address; they are kept, so that no other ones come to stand there.
_estimates: dict[int, tuple[str, Estimates]] = {}


def _said_by(estimates: Estimates) -> str:
    return _estimates.setdefault(id(estimates), (repr(estimates), estimates))[0]


def believed(system: System, cells: Sequence[Cell], observations: Sequence[Observation]) -> Belief:
    """Return a belief, weighed now or before."""
    if _passed_by:
        return _weigh(system, cells, observations)
    visit = replace(system.visit, readings=(), declined=())
    told = repr((visit, _said_by(system.estimates), tuple(cells), tuple(observations)))
    found: Belief = _beliefs.of(told, lambda: _weigh(system, cells, observations))
    return found


class Answered:
    """A diagnosis whose answer was found before; what led to it is worked out when somebody asks."""

    def __init__(self, answer: Answer, whole: Callable[[], Diagnosed]) -> None:
        self.answer = answer
        self._whole = whole

    def __getattr__(self, name: str) -> Any:  # noqa: ANN401 - whatever a diagnosis holds
        """Return anything but the answer."""
        return getattr(self._whole(), name)


def answered(visit: Visit, estimates: Estimates = SHIPPED, memory: Memory | None = None) -> Diagnosed | Answered:
    """Return an answer with what led to it, worked out now or before."""
    if _passed_by:
        return _diagnosed(visit, estimates, memory)
    new: list[Diagnosed] = []

    def whole() -> Diagnosed:
        if not new:
            new.append(_diagnosed(visit, estimates, memory))
        return new[0]

    answer: Answer = _answers.of(repr((plain(visit), _said_by(estimates))), lambda: whole().answer)
    return new[0] if new else Answered(answer, whole)


@contextmanager
def afresh() -> Iterator[None]:
    """Let nothing be kept: whatever is asked is worked out by the engine itself."""
    _passed_by.append(None)
    try:
        yield
    finally:
        _passed_by.pop()


@contextmanager
def each_once(folder: Path | None) -> Iterator[None]:
    """Let every module of the package that asks the engine keep what it says, and share it by a folder."""
    _beliefs.folder = _answers.folder = folder
    users = [
        (module, name, own, instead)
        for called, module in list(sys.modules.items())
        for name, own, instead in (("believe", _weigh, believed), ("diagnosed", _diagnosed, answered))
        if called.startswith("steadyhead.") and getattr(module, name, None) is own
    ]
    for module, name, _, instead in users:
        setattr(module, name, instead)
    try:
        yield
    finally:
        for module, name, own, _ in users:
            setattr(module, name, own)
