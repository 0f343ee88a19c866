"""Each belief once: tests that ask the same of the engine don't weigh it again, in whichever worker they run.

Rules
-----
1. A belief is a function of the system, its estimates, the cells and what was read (`steadyhead.diagnosis.belief`), so
   the last ones are kept by just these. The system is its whole visit, labels and complaint too, but for the readings
   themselves, of which the engine sees `observations` alone, and for what was declined.
2. Workers of one run share what they have weighed by a folder of that run, which goes with it: no run finds what
   another one has kept, so that none can live on a belief of yesterday's code.
3. That the same is weighed the same twice is proved without this: by other processes, and where a test asks for
   `afresh`.
"""

from __future__ import annotations

import os
import pickle
import sys
from collections import OrderedDict
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from hashlib import sha256
from pathlib import Path

from steadyhead.diagnosis import belief
from steadyhead.diagnosis.belief import Belief
from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.estimates import Estimates
from steadyhead.diagnosis.observing import Observation
from steadyhead.diagnosis.system import System

#: Beliefs that are kept in a process; each holds some hundred cells.
MOST = 96

_weigh = belief.believe


class Kept:
    """The beliefs of one run: the last ones at hand, all of them in the run's folder, where it has one."""

    def __init__(self, folder: Path | None = None) -> None:
        self.folder = folder
        self.passed_by = False
        self._here: OrderedDict[str, Belief] = OrderedDict()
        #: What estimates say, by their address; they are kept, so that no other ones come to stand there.
        self._estimates: dict[int, tuple[str, Estimates]] = {}

    def once(self, system: System, cells: Sequence[Cell], observations: Sequence[Observation]) -> Belief:
        """Return the belief, weighed now or before."""
        if self.passed_by:
            return _weigh(system, cells, observations)
        key = self._key(system, cells, observations)
        found = self._here.get(key) or self._shared(key)
        if found is None:
            found = _weigh(system, cells, observations)
            self._share(key, found)
        self._here[key] = found
        self._here.move_to_end(key)
        if len(self._here) > MOST:
            self._here.popitem(last=False)
        return found

    def _key(self, system: System, cells: Sequence[Cell], observations: Sequence[Observation]) -> str:
        """Return what tells one belief from another: all that it is made of, as text."""
        plain = replace(system.visit, readings=(), declined=())
        known = self._estimates.setdefault(id(system.estimates), (repr(system.estimates), system.estimates))
        whole = repr((plain, known[0], tuple(cells), tuple(observations)))
        return sha256(whole.encode()).hexdigest()

    def _shared(self, key: str) -> Belief | None:
        """Return what another worker of this run has weighed."""
        if self.folder is None or not (self.folder / key).is_file():
            return None
        found: Belief = pickle.loads((self.folder / key).read_bytes())  # noqa: S301 - this run's own
        return found

    def _share(self, key: str, found: Belief) -> None:
        """Leave a belief to the other workers, whole or not at all."""
        if self.folder is None:
            return
        part = self.folder / f"{key}.{os.getpid()}"
        part.write_bytes(pickle.dumps(found))
        part.replace(self.folder / key)


_kept = Kept()


@contextmanager
def afresh() -> Iterator[None]:
    """Let nothing be kept: whatever is asked is weighed by the engine itself."""
    _kept.passed_by = True
    try:
        yield
    finally:
        _kept.passed_by = False


@contextmanager
def each_belief_once(folder: Path | None) -> Iterator[None]:
    """Let every module of the package that weighs beliefs keep them, and share them by a folder."""
    users = [m for name, m in sys.modules.items() if name.startswith("steadyhead.")]
    users = [m for m in users if getattr(m, "believe", None) is _weigh]
    _kept.folder = folder
    for module in users:
        setattr(module, "believe", _kept.once)  # noqa: B010 - a module's attribute, by name
    try:
        yield
    finally:
        for module in users:
            setattr(module, "believe", _weigh)  # noqa: B010 - the same
