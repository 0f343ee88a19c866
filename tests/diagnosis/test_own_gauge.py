"""A second gauge beside the first: common practice, a site's gauge lies at one site in four or five."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest

from steadyhead.diagnosis.answer import NextCheck
from steadyhead.diagnosis.belief import grouped
from steadyhead.diagnosis.beside import DRIFT, owners
from steadyhead.diagnosis.cells import Part, single
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.diagnosis.doubt import BOUND_IN_SD
from steadyhead.diagnosis.evidence import Line, evidence
from steadyhead.diagnosis.lines import Looks, lines
from steadyhead.diagnosis.makes import COMMON, Latents
from steadyhead.diagnosis.observing import observations
from steadyhead.diagnosis.system import System
from steadyhead.visit import parse_visit
from tests.diagnosis.test_restarts import shares
from tests.diagnosis.visits import BOOSTER, FULL_VAN, HOUSE, VAN, gauge, reading, volts

PSI = 6894.757
OWN_48, OWN_62 = (reading("gauge-pressure", f"{psi} psi", whose="own") for psi in (48, 62))
#: Display and signal agree with each other, and not with the site's gauge.
APART = {
    "volts": HOUSE + VAN + gauge("62 psi") + reading("displayed-pressure", "48 psi")
    + volts("controller.signal", "controller.common", "2.42 V")
    + volts("controller.supply", "controller.common", "5.00 V"),
    "amperes": BOOSTER + VAN + gauge("62 psi") + reading("displayed-pressure", "48 psi")
    + volts("controller.signal", "controller.common", "2.92 V"),
}  # fmt: skip


def own_checks(text: str) -> list[NextCheck]:
    """Return the checks that ask for the technician's own gauge."""
    return [check for check in diagnose(parse_visit(text).visit).next_checks if check.question.whose]


@pytest.mark.parametrize("text", APART.values(), ids=APART)
def test_the_gauge_that_stands_alone_against_display_and_own_gauge_lies(text: str) -> None:
    """Two instruments within their grades of each other, the third six deviations off."""
    found = shares(text + OWN_48)
    assert found["site-gauge-wrong"] > 0.9
    assert found["site-gauge-wrong"] > 5.0 * shares(text)["site-gauge-wrong"]


@pytest.mark.parametrize("text", APART.values(), ids=APART)
def test_a_gauge_that_the_own_one_bears_out_is_trusted(text: str) -> None:
    """What is left is wrong between sensor and display."""
    before, found = shares(text), shares(text + OWN_62)
    assert found.get("site-gauge-wrong", 0.0) < 0.02 < before["site-gauge-wrong"]
    assert found["sensor-zero-shift"] > before["sensor-zero-shift"]


def test_each_gauge_has_an_error_of_its_own_that_all_of_its_readings_share() -> None:
    """By numpy: three readings of two gauges are a normal vector about one pressure, whose density the lines have."""
    text = HOUSE + VAN + gauge("48 psi") + reading("displayed-pressure", "48 psi") + OWN_48
    text += reading("displayed-pressure", "49 psi")
    system = System(parse_visit(text).visit)
    cell, at = single(Part("none", "", 0.0, 0.0), 1.0, COMMON[0]), Latents()
    found = [line for group in grouped(observations(system)) for line in lines(system, cell, at, group, Looks({}, {}))]
    own = next(line for line in found if line.observation.question.measure == "gauge-pressure")
    sd = system.gauge_error(48.0 * PSI) / BOUND_IN_SD
    assert own.observation.shared == pytest.approx(sd, rel=1e-6)
    slopes = dict(zip(Latents._fields, own.slopes, strict=True))
    assert slopes["pressure"] == pytest.approx(sqrt(sd**2 + PSI**2 / 12.0), rel=1e-6)
    assert slopes["gauge"] == pytest.approx(sd, rel=1e-6)
    assert own.variance == pytest.approx(PSI**2 / 12.0 + (DRIFT * 100.0 * PSI) ** 2, rel=1e-6)
    assert evidence(found, at).along == pytest.approx(_density(found), abs=0.05)


def _density(found: list[Line]) -> float:
    """Return the logarithm of the density of figures that are all true."""
    slopes = np.array([line.slopes for line in found if line.word is None])
    covariance = np.diag([line.variance for line in found if line.word is None]) + slopes @ slopes.T
    off = np.array([line.residual for line in found if line.word is None])
    _, log_det = np.linalg.slogdet(2.0 * np.pi * covariance)
    return float(-0.5 * (off @ np.linalg.solve(covariance, off) + log_det))


def test_after_it_the_own_gauge_says_where_the_pressure_stands() -> None:
    """An expected signal of 0.5 V and 4 V times 48 of 100 psi is 2.42 V, not the 2.98 V of the site's 62 psi."""
    band = diagnose(parse_visit(APART["volts"] + OWN_48).visit).expected["controller.signal"]
    assert band.low < 2.42 < band.high < 2.98


def test_it_is_asked_for_once_where_the_site_s_gauge_was_read_and_one_is_at_hand() -> None:
    """Five minutes: three on a hose tap, which most houses have, fifteen in a plugged port."""
    asked = own_checks(APART["volts"])
    assert [check.minutes for check in asked] == [5.0]
    assert asked[0].how.id == "how-own-gauge"
    assert {outcome.fault for outcome in asked[0].outcomes} >= {"site-gauge-wrong", "sensor-zero-shift"}
    lows = {outcome.fault: outcome.low or 0.0 for outcome in asked[0].outcomes}
    highs = {outcome.fault: outcome.high or 0.0 for outcome in asked[0].outcomes}
    assert lows["site-gauge-wrong"] < 48.0 < highs["site-gauge-wrong"] < 62.0
    assert lows["sensor-zero-shift"] < 62.0 < highs["sensor-zero-shift"]
    for text in (
        APART["volts"] + OWN_62,
        APART["volts"].replace('"multimeter", "gauge"', '"multimeter"'),
        APART["volts"].replace(gauge("62 psi"), OWN_62),
        APART["volts"] + '[[declined]]\nmeasure = "gauge-pressure"\nwhy = "no hose tap"\n',
    ):
        assert not own_checks(text)


def test_the_gauge_that_convicts_is_named_as_the_reason() -> None:
    """The reading that would have come out otherwise under any other repair is that of the own gauge."""
    items = ("range-setting", "input-setting", "moisture")
    looked = "".join(reading("inspection", "right", item=item) for item in items)
    text = APART["amperes"] + volts("controller.supply", "controller.signal", "21.1 V") + looked
    text += volts("controller.signal", "controller.common", "0.00 V", "sensor-unplugged")
    found = diagnose(parse_visit(text + OWN_48).visit).verdict
    assert (found.state, found.remedy) == ("proved", "replace-gauge")
    assert (found.because.id, found.because.values["measure"]) == ("reading-convicts", "own-gauge")


def test_whose_gauge_was_read_first_is_all_one() -> None:
    """The site's gauge against the own one is the same comparison as the own one against the site's."""
    first, second = gauge("62 psi"), OWN_48
    display = reading("displayed-pressure", "48 psi")
    one, other = (HOUSE + VAN + a + b + display for a, b in ((first, second), (second, first)))
    assert shares(one)["site-gauge-wrong"] == pytest.approx(shares(other)["site-gauge-wrong"], abs=0.05)
    assert owners(parse_visit(other).visit) == ("own", "site")


def test_a_gauge_alone_says_nothing_of_whose_it_is() -> None:
    """Nobody told, or one alone was read: as before."""
    assert owners(parse_visit(HOUSE + FULL_VAN + OWN_48 + OWN_62).visit) == ("", "")


def test_two_needles_on_their_stop_pins_say_no_more_than_one() -> None:
    """A pipe without water lays both down, as a vacuum does: what can be seen of it is seen with the first."""
    pinned = gauge("0 psi on its stop pin")
    loop = volts("controller.signal", "controller.common", "0.13 V")
    one = shares(HOUSE + VAN + pinned + reading("displayed-pressure", "-9 psi") + loop)
    both = shares(
        HOUSE + VAN + pinned + reading("displayed-pressure", "-9 psi")
        + reading("gauge-pressure", "0 psi on its stop pin", whose="own") + loop
    )  # fmt: skip
    before, after = (found["vacuum"] / found["sensor-low"] for found in (one, both))
    assert 0.9 < after / before < 1.5, (before, after)
