"""Whether a part may touch drinking water: by the names of the standards that it is approved to.

Rules
-----
1. Water may be drunk unless somebody said that it is not.
2. A part that is known to have no approval is refused. One whose approval nobody noted is looked up first.
3. An approval that speaks of lead alone says nothing of the rest; one of health without lead is looked up for that.
4. Which standard counts at a place, local rules say: that is told with each approval.
"""

from __future__ import annotations

from steadyhead.messages import message
from steadyhead.setup.finding import CHECK, FITS, NO, Finding
from steadyhead.visit.record import Visit
from steadyhead.visit.stock import StockSensor
from steadyhead.visit.stock_keys import LEAD_FREE, NO_APPROVAL

#: The standard that is completed by `LEAD_FREE`.
HEALTH = "nsf-61"


def approval_finding(visit: Visit, stock: StockSensor) -> Finding:
    """Return whether a part may touch the water of this system."""
    approval = stock.approval
    if visit.fitting.water == "other":
        return Finding("water", FITS, message("van-water-not-drunk"))
    if not approval:
        return Finding("water", CHECK, message("van-water-unknown"))
    standards = tuple(each for each in approval if each != NO_APPROVAL)
    if not standards:
        return Finding("water", NO, message("van-water-none"))
    if standards == (LEAD_FREE,):
        return Finding("water", CHECK, message("van-water-lead-alone", standards=standards))
    if HEALTH in standards and LEAD_FREE not in standards:
        return Finding("water", CHECK, message("van-water-lead-unknown", standards=standards))
    return Finding("water", FITS, message("van-water-approved", standards=standards))
