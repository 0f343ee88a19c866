"""Each belief once: tests that ask the same of the engine don't weigh it again.

Rules
-----
1. A belief is a function of the system, its estimates, the cells and what was read (`steadyhead.diagnosis.belief`), so
   the last ones are kept by just these. The system is its whole visit, labels and complaint too, but for the readings
   themselves, of which the engine sees `observations` alone, and for what was declined.
2. That the same is weighed the same twice is proved without this: by other processes, and where a test forgets all
   first.
"""

from __future__ import annotations

import sys
from collections import OrderedDict
from collections.abc import Hashable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace

from steadyhead.diagnosis import belief
from steadyhead.diagnosis.belief import Belief
from steadyhead.diagnosis.cells import Cell
from steadyhead.diagnosis.estimates import Estimates
from steadyhead.diagnosis.observing import Observation
from steadyhead.diagnosis.system import System

#: Beliefs that are kept; each holds some hundred cells.
MOST = 96

#: Estimates are kept beside a belief, so that no other ones come to stand at their address.
_kept: OrderedDict[Hashable, tuple[Belief, Estimates]] = OrderedDict()
_weigh = belief.believe


def once(system: System, cells: Sequence[Cell], observations: Sequence[Observation]) -> Belief:
    """Return the belief, weighed now or before."""
    plain = replace(system.visit, readings=(), declined=())
    key = (repr(plain), id(system.estimates), tuple(cells), tuple(observations))
    if key not in _kept:
        _kept[key] = (_weigh(system, cells, observations), system.estimates)
        if len(_kept) > MOST:
            _kept.popitem(last=False)
    _kept.move_to_end(key)
    return _kept[key][0]


def forget() -> None:
    """Forget all beliefs: what is asked next is weighed afresh."""
    _kept.clear()


@contextmanager
def each_belief_once() -> Iterator[None]:
    """Let every module of the package that weighs beliefs keep them."""
    users = [m for name, m in sys.modules.items() if name.startswith("steadyhead.")]
    users = [m for m in users if getattr(m, "believe", None) is _weigh]
    for module in users:
        setattr(module, "believe", once)  # noqa: B010 - a module's attribute, by name
    try:
        yield
    finally:
        for module in users:
            setattr(module, "believe", _weigh)  # noqa: B010 - the same
        forget()
