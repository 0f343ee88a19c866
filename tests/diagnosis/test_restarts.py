"""Suspects that lie behind a corner of the loop are found there, and a search sees from afar that it comes nearer."""

from __future__ import annotations

from math import exp, isclose

import pytest

from steadyhead.diagnosis.belief import believe
from steadyhead.diagnosis.cells import cells
from steadyhead.diagnosis.evidence import LATENTS, NEAR, Line, evidence, missed
from steadyhead.diagnosis.lines import Group, Looks, lines
from steadyhead.diagnosis.looking import STEP
from steadyhead.diagnosis.makes import Latents, sensor_of
from steadyhead.diagnosis.observing import observations
from tests.diagnosis.test_evidence import drawn
from tests.diagnosis.visits import FULL_VAN, gauge, reading, system

PSI = 6894.757293168361  #: Pa, NIST SP 811 appendix B (from memory)
#: A ratiometric house sensor on an input of 500 kohm.
HOUSE_500K = (
    'schema = 1\n[sensor]\nsignal = "0.5..4.5 V ratiometric"\nrange = "0..100 psi"\naccuracy = "1 %"\n'
    '[controller]\nsupply = "5 V"\ninput_resistance = "500 kohm"\nscaled = "0..100 psi"\nreference = "ratiometric"\n'
)


def volts(value: str, arrangement: str = "connected") -> str:
    """Return volts from the signal to the common terminal."""
    return reading("volts", value, arrangement=arrangement, red="controller.signal", black="controller.common")


def shares(text: str) -> dict[str, float]:
    """Return each fault's share after the readings."""
    told = system(text)
    found: dict[str, float] = {}
    for w in believe(told, cells(told), observations(told)).after:
        found[w.cell.fault] = found.get(w.cell.fault, 0.0) + w.share
    return found


@pytest.mark.parametrize("inside_kohm", [150.0, 250.0, 1000.0])
def test_a_lost_common_is_suspected_where_the_output_hangs_on_what_is_inside_the_sensor(inside_kohm: float) -> None:
    """A closed form: its supply reaches the input through what its output hangs on, a divider, at any pressure.

    A lost common usually reads high: common practice.
    """
    shown = 5.0 * 500.0 / (500.0 + inside_kohm)
    text = HOUSE_500K + FULL_VAN + gauge("48 psi") + volts(f"{shown:.2f} V") + volts(f"{shown:.2f} V", "vented")
    found = shares(text)
    assert found["open-common"] > 0.03, sorted(found.items(), key=lambda item: -item[1])[:6]


def test_a_supply_below_what_wakes_the_sensor_is_suspected_of_a_signal_at_its_common() -> None:
    """A closed form: without enough volts the output stands at its common, 0 V; 2.4 V wakes not every sensor."""
    supply = reading("volts", "2.40 V", red="controller.supply", black="controller.common")
    alone = reading("volts", "2.40 V", arrangement="all-lifted", red="controller.supply", black="controller.common")
    found = shares(HOUSE_500K + FULL_VAN + gauge("48 psi") + volts("0.00 V") + supply + alone)
    assert found["controller-supply-low"] > 0.5


def test_the_volts_that_wake_an_output_are_fitted_to_the_readings() -> None:
    """A closed form: at 3.0 V the output stands at its common, so that more than 3.0 V wake this sensor.

    No make's own middle is as high (3.3 V logic needs up to 3 V: common practice). Held there, the readings would ask
    for a second fault beside the weak supply.
    """
    supply = reading("volts", "3.00 V", red="controller.supply", black="controller.common")
    alone = reading("volts", "3.00 V", arrangement="all-lifted", red="controller.supply", black="controller.common")
    told = system(HOUSE_500K + FULL_VAN + gauge("48 psi") + volts("0.00 V") + supply + alone)
    after = believe(told, cells(told), observations(told)).after
    found = [w for w in after if w.cell.fault == "controller-supply-low"]
    assert sum(w.share for w in found) > 0.9
    assert all(sensor_of(told, w.cell.make, Latents()).wakes_v < 3.0 for w in found)
    assert sensor_of(told, found[0].cell.make, found[0].at).wakes_v > 2.9


def test_a_search_counts_a_near_miss_by_its_square_and_a_far_one_straight() -> None:
    """Huber's closed form."""
    near, far = drawn(1, 2)

    def told(line: Line, deviations: float) -> float:
        moved = Line(line.observation, deviations * line.variance**0.5, line.variance, line.slopes, line.span)
        return missed([moved])

    assert isclose(told(near, 1.5), 0.5 * 1.5**2)
    assert isclose(told(far, 40.0), NEAR * (40.0 - 0.5 * NEAR))
    assert isclose(told(far, 41.0) - told(far, 40.0), NEAR)


def test_no_figure_costs_more_than_a_slip_where_it_was_looked_at() -> None:
    """A property: far off at the very point, though its line excuses it, it costs no more at twice as far."""
    first, *rest = drawn(2, 4)

    def told(deviations: float) -> float:
        excused = tuple(30.0 * first.variance**0.5 if k == 0 else 0.0 for k in range(LATENTS))
        off = Line(first.observation, deviations * first.variance**0.5, first.variance, excused, first.span)
        found = evidence([off, *rest], Latents())
        assert found.misfits[0][1] < 3.0
        return found.here

    assert isclose(told(30.0), told(45.0), abs_tol=0.5)


def test_a_source_is_doubted_where_its_own_resistance_would_show() -> None:
    """A divider: 2.5 V behind 90 ohm, and behind 2 times as much, into 10 kohm and 500 kohm; 25 psi a volt."""

    def expected(ohm: float) -> float:
        here, further = (2.5 * ohm / (ohm + 90.0 * exp(1.4 * z)) for z in (0.0, STEP))
        return (here - further) / STEP * 25.0 * PSI

    def doubt(kohm: str) -> float:
        sourced = reading("displayed-pressure", "50 psi", arrangement="source-at-controller", source="2.5 V")
        told = system(HOUSE_500K.replace("500 kohm", kohm) + FULL_VAN + gauge("48 psi") + sourced)
        seen = observations(told)
        healthy = next(cell for cell in cells(told) if cell.fault == "none")
        groups = [Group(o.stance, (o,)) for o in seen if o.stance.arrangement == "source-at-controller"]
        (line,) = lines(told, healthy, Latents(), groups[0], Looks({}, {}))
        return -float(line.slopes[Latents._fields.index("source")])

    assert doubt("10 kohm") == pytest.approx(expected(10e3), rel=0.02)
    assert doubt("500 kohm") == pytest.approx(expected(500e3), rel=0.02)
