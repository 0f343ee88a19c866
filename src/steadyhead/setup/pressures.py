"""Whether the sensor reaches the pressure that is kept, and stands the highest that can come.

Rules
-----
1. A range that ends at or below the pressure that this system works at is refused: the drive would never see its set
   pressure, and run the pump flat out.
2. A range that ends below the highest pressure that can come goes on past its end: it must stand that pressure. What
   a sensor stands is noted, or it is looked up; less than the highest is refused.
3. Where nobody noted the highest pressure and the range is shorter than the old one, somebody must look.
"""

from __future__ import annotations

from collections.abc import Iterator

from steadyhead.messages import message
from steadyhead.setup.finding import CHECK, FITS, NO, WITH_WORK, Finding
from steadyhead.visit.record import Figure, Visit
from steadyhead.visit.stock import StockSensor

#: Readings that tell at what pressure a system works.
WORKING = ("displayed-setpoint", "gauge-pressure")


def working_pa(visit: Visit) -> float | None:
    """Return the highest pressure that was read here, set or standing [Pa]; None where nothing was read."""
    read = [each.value.value for each in visit.readings if each.measure in WORKING and isinstance(each.value, Figure)]
    return max(read, default=None)


def pressure_findings(visit: Visit, stock: StockSensor, top_pa: float) -> Iterator[Finding]:
    """Yield what is to be said of pressures; `top_pa` is the end of the new range as the display has it."""
    working, highest = working_pa(visit), visit.fitting.highest_pa
    if working is not None and top_pa <= working:
        yield Finding("pressure", NO, message("van-pressure-below-working", top=top_pa, working=working))
        return
    if highest is None:
        if top_pa < visit.sensor.range.high:
            yield Finding("pressure", CHECK, message("van-pressure-highest-unknown", top=top_pa))
        return
    if top_pa >= highest:
        yield Finding("pressure", FITS, message("van-pressure-covered", top=top_pa, highest=highest))
    elif stock.stands_pa is None:
        yield Finding("pressure", CHECK, message("van-pressure-stands-unknown", top=top_pa, highest=highest))
    elif stock.stands_pa < highest:
        told = message("van-pressure-too-high", stands=stock.stands_pa, highest=highest)
        yield Finding("pressure", NO, told)
    else:
        told = message("van-pressure-past-end", top=top_pa, highest=highest, stands=stock.stands_pa)
        yield Finding("pressure", WITH_WORK, told)
