"""Whether a part from the van may stay, or only until the right one is there; with every reason.

Rules
-----
1. What a next technician would not expect does not stay: a conversion resistor, an absolute or sealed sensor, a
   sensor and an input that do not follow the supply alike. Nor does what was refused.
2. An error of more than `MUCH` times the old one is a reason; so is a signal whose zero is a broken wire's, a range
   that ends below the highest pressure, a taper thread in a parallel port.
3. Where none of these is a reason and something is still to be looked at, it is unsettled.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from steadyhead.messages import Message, message
from steadyhead.setup.finding import CHECK, NO, Finding
from steadyhead.setup.resulting import Resulting
from steadyhead.setup.signal_match import Way
from steadyhead.visit.fact_kinds import LASTS

#: How many times the old error is too much to leave (common practice).
MUCH = 2.0
PERMANENT, TEMPORARY = LASTS
UNSETTLED = "unsettled"
#: Findings for which a part does not stay, though it works.
PASSING = {
    "van-signal-follows": "van-lasts-reference",
    "van-signal-stands-still": "van-lasts-reference",
    "van-signal-dead-zero": "van-lasts-dead-zero",
    "van-range-reference": "van-lasts-air",
    "van-pressure-past-end": "van-lasts-past-end",
    "van-thread-taper-into-parallel": "van-lasts-thread",
}


def why_temporary(findings: Sequence[Finding], way: Way, error: Resulting) -> Iterator[Message]:
    """Yield every reason why a part does not stay; none: it may."""
    if way.resistor_ohm is not None:
        yield message("van-lasts-resistor")
    reasons = (PASSING[each.why.id] for each in findings if each.why.id in PASSING)
    yield from (message(id_) for id_ in dict.fromkeys(reasons))
    if error.ratio > MUCH:
        yield message("van-lasts-error", ratio=error.ratio)


def lasts(findings: Sequence[Finding], because: Sequence[Message]) -> str:
    """Return whether a part may stay; ``unsettled`` while something is to be looked at."""
    if because or any(each.grade == NO for each in findings):
        return TEMPORARY
    return UNSETTLED if any(each.grade == CHECK for each in findings) else PERMANENT
