"""What a reading says of a joint that comes and goes, of none of these, and of faults that nobody noticed."""

from __future__ import annotations

from math import exp, isclose, log, pi, sqrt

import pytest

from steadyhead.diagnosis.called import ALL_THE_SAME, Called
from steadyhead.diagnosis.cells import Cell, cells
from steadyhead.diagnosis.elsewhere import FINDS, HEALTHY, log_figures, log_words
from steadyhead.diagnosis.evidence import LATENTS, SLIP, Line
from steadyhead.diagnosis.lines import AWAY, WITHIN, Group, either
from steadyhead.diagnosis.makes import Latents
from steadyhead.diagnosis.observing import Observation, Pressure, Question, Stance, observations
from tests.diagnosis.visits import HOUSE, VAN, answer, gauge, needed, reading, signal, system

ROUNDING = 1e-9
STANCE = Stance("connected", None, Pressure(0.0, 0.0, "nothing"))
STILL = (0.0,) * LATENTS


def line(residual: float, *, jumping: bool = False, half: float = 0.0) -> Line:
    """Return a reading of 0.1 V deviation that misses by `residual`."""
    seen = Observation(1, Question("volts"), STANCE, 0.0, 0.1, jumping=jumping, half=half, sd_at_rest=0.1)
    return Line(seen, residual, 0.01, STILL, 4.0)


def normal(residual: float) -> float:
    """Return the normal density of a residual at 0.1 V."""
    return exp(-0.5 * (residual / 0.1) ** 2) / (0.1 * sqrt(2.0 * pi))


def density(found: Line) -> float:
    """Return the density that a line stands for."""
    return found.chance * normal(found.residual)


@pytest.mark.parametrize(("there", "gone"), [(0.05, 2.0), (-2.0, 0.1), (0.3, -0.4)])
def test_a_joint_that_comes_and_goes_shows_either_of_its_states(there: float, gone: float) -> None:
    """Closed form: the mixture of both normal densities, each by its chance, of the figures that stand still."""
    (found,) = either(line(there), line(gone))
    wanted = (1.0 - WITHIN) * ((1.0 - AWAY) * normal(there) + AWAY * normal(gone))
    assert isclose(density(found), wanted, rel_tol=ROUNDING)


def test_a_reading_that_the_joint_does_not_touch_costs_nothing() -> None:
    """A property: both states foretell it alike."""
    assert either(line(0.05), line(0.05)) == (line(0.05),)


def test_a_figure_that_jumps_between_the_two_states_fits_best_by_its_ends() -> None:
    """Closed form: from 0 to 3 V it has its middle at 1.5 V and half a width of 1.5 V."""
    (fits,) = either(line(1.5, jumping=True, half=1.5), line(-1.5, jumping=True, half=1.5))
    (misses,) = either(line(1.5, jumping=True, half=0.4), line(-1.5, jumping=True, half=0.4))
    assert fits.residual == 0.0
    assert isclose(fits.chance, WITHIN * normal(0.0), rel_tol=ROUNDING)
    assert fits.chance > 20.0 * misses.chance


# none of these


def none_of_these(text: str) -> float:
    """Return the logarithm of what the readings of a house are where the cause is none of these."""
    told = system(HOUSE + VAN + gauge("48 psi") + text)
    seen = [o for o in observations(told) if o.question.measure == "volts"]
    cell = next(c for c in cells(told) if not c.parts)
    return log_figures(told, cell, [Group(o.stance, (o,)) for o in seen])


def test_one_figure_that_no_healthy_loop_shows_is_taken_for_a_slip() -> None:
    """Closed form: a slip lies evenly over 1.6 times the supply's 5 V."""
    assert isclose(none_of_these(signal("4.90 V")), log(SLIP / (1.6 * 5.0)), abs_tol=1e-6)


def test_a_second_one_may_lie_anywhere_on_its_scale() -> None:
    """Closed form: half of the readings lie evenly over the same 8 V, and do not depend on each other."""
    both = none_of_these(signal("4.90 V") + signal("3.00 V", "sensor-unplugged"))
    assert isclose(both, log(SLIP / 8.0) + log((1.0 - HEALTHY) / 8.0), abs_tol=1e-6)


def test_looks_count_by_the_chance_of_finding_something() -> None:
    """Closed form."""
    text = reading("inspection", "wrong", item="cock") + reading("inspection", "right", item="port")
    seen = observations(system(HOUSE + VAN + text + reading("inspection", "not-seen", item="moisture")))
    assert isclose(log_words(seen), log(FINDS) + log(1.0 - FINDS), rel_tol=ROUNDING)


def test_one_absurd_figure_does_not_make_it_none_of_these() -> None:
    """50 V cannot stand on a 5 V system; the others agree."""
    text = gauge("48 psi") + reading("displayed-pressure", "48.0 psi") + signal("2.42 V")
    assert needed(answer(HOUSE + VAN + text + signal("50 V", "sensor-unplugged")), "look-further") < 0.1


# why somebody called


def shifted(z: float) -> tuple[Called, Cell, Latents]:
    """Return a zero shift of as many deviations of its size."""
    told = system(HOUSE + VAN + gauge("48 psi"))
    cell = next(c for c in cells(told) if c.fault == "sensor-zero-shift")
    return Called(told, observations(told)), cell, Latents(severity=z)


def test_a_fault_that_shows_nothing_is_seldom_called_for_and_one_that_shows_is() -> None:
    """The middle of a zero shift's scale is no shift; one deviation is 0.33 x 70 psi, which anybody sees."""
    called, cell, middle = shifted(0.0)
    assert isclose(called(cell, middle), log(ALL_THE_SAME), abs_tol=0.05)
    assert called(cell, Latents(severity=1.0)) > -1e-3


def test_a_healthy_loop_needs_no_sign() -> None:
    """The rule: somebody called, and found nothing."""
    called, _, _ = shifted(0.0)
    told = system(HOUSE + VAN + gauge("48 psi"))
    assert called(next(c for c in cells(told) if c.fault == "none"), Latents()) == 0.0


def test_a_display_read_before_the_gauge_counts_nearly_like_one_read_after_it() -> None:
    """41 psi on the gauge and 59.5 on the display: 2.14 V are right, so it is the display that is wrong.

    Before the gauge the pressure may have drifted.
    """
    house = HOUSE.replace('scaled = "0..100 psi"', 'scaled = "0..145 psi"') + VAN
    display, measured = reading("displayed-pressure", "59.5 psi"), signal("2.14 V")
    after = needed(answer(house + gauge("41 psi") + display + measured), "correct-setting")
    before = needed(answer(house + display + gauge("41 psi") + measured), "correct-setting")
    assert before > 0.5
    assert before > after - 0.1
