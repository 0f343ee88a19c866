"""The diagnosis against the physics of the loop: what each example hides, and what a healthy loop shows."""

from __future__ import annotations

from fractions import Fraction
from math import isclose

import pytest

from steadyhead.diagnosis.answer import Band
from steadyhead.diagnosis.expected import band
from steadyhead.diagnosis.observing import Pressure, Question
from steadyhead.diagnosis.priors import prior
from tests.diagnosis.visits import (
    BOOSTER,
    FULL_VAN,
    HOUSE,
    OPENING,
    VAN,
    answer,
    gauge,
    named,
    needed,
    odds,
    reading,
    remedies,
    signal,
    supply,
    system,
    volts,
)
from tests.service.answers import NAMES

PSI = 6894.757293168361  #: Pa, NIST SP 811 appendix B (from memory)
PSI_OF_INHG = 0.4911542  #: the ratio of 3386.389 Pa to a psi, NIST SP 811 appendix B (from memory)
SIGNAL = Question("volts", "connected", "controller.signal", "controller.common")
SUPPLY = Question("volts", "connected", "controller.supply", "controller.common")
MILLIAMPS = Question("milliamps", "meter-in-signal")

#: What each example's own comment says is wrong (or what no reading of it tells from that), and what mends it.
TROUBLES = {
    "amplified-frost-damage": ({"sensor-zero-shift", "sensor-wet-vent"}, "replace-sensor"),
    "booster-blown-meter-fuse": ({"meter-wrong"}, "mend-meter"),
    "booster-corroded-terminal": ({"resistive-supply", "resistive-signal"}, "repair-cable"),
    "booster-damp-loop": ({"leakage-supply-signal"}, "repair-cable"),
    "booster-reversed-loop": ({"reversed"}, "correct-wiring"),
    "house-damp-cable": ({"leakage-signal-common", "short-signal-common"}, "repair-cable"),
    "house-noise": ({"noise-pickup"}, "reroute-cable"),
    "house-open-common": ({"open-common"}, "repair-cable"),
    "house-supply-pulled-down": ({"other-load"}, "remove-load"),
    "house-vacuum": ({"vacuum"}, "clear-vacuum"),
    "house-wrong-range-setting": ({"setting-range"}, "correct-setting"),
}
#: Examples that end before their proof, and why.
UNPROVED = {
    "booster-blown-meter-fuse": "one 0.00 mA may be a joint that opened for a moment: a glance at the display decides",
    "house-noise": "a screen tied at both ends makes figures jump as well",
    "house-open-common": "the last reading but one is still to come: the common wire looped with another",
    "house-vacuum": "the gauge on its stop pin leaves a dead sensor open",
    "house-supply-pulled-down": "how hard a supply is pulled down is told by few readings",
    "booster-corroded-terminal": "what a sensor needs at least is known to some volts only",
}


@pytest.mark.parametrize("name", TROUBLES)
def test_an_examples_trouble_and_its_remedy_come_first(name: str) -> None:
    """The circuit in the example's own comment, whose figures are checked by exact arithmetic elsewhere."""
    faults, remedy = TROUBLES[name]
    found = named(name)
    assert found["verdict"]["remedy"] == remedy
    assert found["remedies"][0]["probability"] > 0.5
    assert found["suspects"][0]["fault"] in faults


@pytest.mark.parametrize("name", sorted(set(TROUBLES) - set(UNPROVED) - {"amplified-frost-damage"}))
def test_an_example_with_nothing_left_to_measure_is_proved(name: str) -> None:
    """Each of these ends with the meter reading that its comment is about."""
    assert named(name)["verdict"]["state"] == "proved"


def test_damp_of_150_ohm_is_not_called_a_short() -> None:
    """The scales of both faults, as the table of faults gives them; README's own run."""
    assert named("house-damp-cable")["suspects"][0]["fault"] == "leakage-signal-common"


def test_a_cock_left_shut_is_named_before_it_is_opened() -> None:
    """The example's comment: 60 psi trapped behind the cock, 22 psi on the gauge; the example goes on after it."""
    text = (
        HOUSE + VAN + reading("displayed-pressure", "60.0 psi") + gauge("22 psi") + signal("2.90 V")
        + reading("inspection", "wrong", item="cock")
    )  # fmt: skip
    found = answer(text)
    assert found["verdict"]["remedy"] == "open-cock"
    assert found["suspects"][0]["fault"] == "sensor-cock-shut"


def test_the_opening_visit_suspects_what_can_pull_the_signal_down() -> None:
    """The opening example: 48 psi should give 0.5 + 4 x 0.48 = 2.42 V, 1.12 V are read, nobody looked at the display.

    A leak to common, a tired or frozen sensor, a shut cock and a lying gauge can do that; a healthy loop can hardly: it
    loses half its odds and more; an open wire and dead sensor power only where the input's own pull-up does it: one
    input in eight, and a strong one, so that they gain next to nothing.
    """
    found = odds(answer(OPENING))
    for fault in (
        "leakage-signal-common", "sensor-zero-shift", "sensor-frozen", "sensor-cock-shut", "site-gauge-wrong",
    ):  # fmt: skip
        assert found[fault] > 0.01, fault
    before = prior(3, "ratiometric")
    for fault in ("none", "vacuum"):
        assert found.get(fault, 0.0) < before[fault] / 2, fault
    for fault in ("open-signal", "cable-cut", "controller-supply-dead"):
        assert found.get(fault, 0.0) < 1.5 * before[fault], fault
    assert not answer(OPENING)["verdict"]["settled"]


def test_unplugging_tells_damp_from_a_tired_sensor() -> None:
    """Kirchhoff: what still holds the signal up with the plug off cannot come from the sensor.

    A leak of 260 ohm from supply to signal leaves 5 V x 100 kohm/100.26 kohm = 4.99 V on the input, a sensor at fault
    leaves none.
    """
    high = HOUSE + VAN + gauge("48 psi") + signal("3.60 V")
    left = answer(high + signal("4.98 V", "sensor-unplugged"))
    gone = answer(high + signal("0.00 V", "sensor-unplugged"))
    assert needed(left, "repair-cable") > 0.8
    assert needed(gone, "repair-cable") < 0.1


#: Three readings that agree, and a fourth ten times too large.
SLIPPED = (
    HOUSE + VAN + gauge("48 psi") + reading("displayed-pressure", "48.0 psi") + signal("2.42 V") + supply("50.0 V")
)  # fmt: skip


# what a healthy loop shows


def healthy(text: str, question: Question, psi: float, doubt_psi: float = 0.5) -> Band:
    """Return what a healthy system shows at a pressure."""
    return band(system(text), question, Pressure(psi * PSI, doubt_psi * PSI, "gauge"))


@pytest.mark.parametrize(("psi", "wanted"), [(10, "0.9"), (50, "2.5"), (75, "3.5"), (90, "4.1")])
def test_the_band_of_a_signal_is_centred_on_the_plates_line(psi: int, wanted: str) -> None:
    """Common practice: 0.5..4.5 V over 0..100 psi gives 2.5 V at 50 psi; exact arithmetic elsewhere on the line.

    Centred within a third of its half-width: makes of devices load the signal a little, always downwards. Half-width at
    most that of the supply's own limits (4.5..5.25 V: 7.5 %) and 0.1 V for sensor, gauge and meter.
    """
    found = healthy(HOUSE, SIGNAL, psi)
    line = Fraction("0.5") + 4 * Fraction(psi, 100)
    assert line == Fraction(wanted)
    half = (found.high - found.low) / 2
    assert found.low < line < found.high
    assert abs((found.low + found.high) / 2 - float(line)) < half / 3
    assert half < 0.075 * line + 0.1


@pytest.mark.parametrize(("range_", "below"), [("0..100 psi", True), ("0..150 psi", False), ("0..200 psi", False)])
def test_seventeen_inches_of_vacuum_put_a_small_sensor_below_its_low_limit(range_: str, below: bool) -> None:
    """Exact arithmetic: 0.5 + 4 x (-17 x 0.4911542/100) = 0.166 V, below the 0.2 V limit of common practice.

    Over 0..150 psi the same vacuum leaves 0.277 V, over 0..200 psi 0.333 V: no low-signal fault there. Some sensors
    stop at an output of their own above that, so the band reaches up from the line.
    """
    full = float(range_.removeprefix("0..").removesuffix(" psi"))
    line = 0.5 + 4 * (-17 * PSI_OF_INHG / full)
    assert (line < 0.2) is below
    found = healthy(HOUSE.replace("0..100 psi", range_), SIGNAL, -17 * PSI_OF_INHG)
    assert found.low < line < found.high
    assert (found.low < 0.2) is below or found.low > line - 0.15


def test_a_gauge_on_its_pin_lets_a_low_signal_be_a_vacuum_and_a_gauge_that_reads_does_not() -> None:
    """Exact arithmetic: 0.166 V lies below the 0.5 V of an empty pipe; at 30 psi there is no vacuum."""
    seen = supply("5.00 V") + signal("0.17 V")
    pinned = odds(answer(HOUSE + VAN + gauge("0 psi on its stop pin") + seen))
    reads = odds(answer(HOUSE + VAN + gauge("30 psi") + seen))
    assert pinned["vacuum"] > 0.2
    assert reads.get("vacuum", 0.0) < 0.01


def test_a_healthy_loop_gives_the_plates_current() -> None:
    """Common practice: 4..20 mA gives 12 mA at half range, 7 mA at 18.75 %."""
    found = healthy(BOOSTER, MILLIAMPS, 50)
    assert found.low < 12e-3 < found.high
    assert not healthy(BOOSTER, MILLIAMPS, 50).low < 7e-3
    low = healthy(BOOSTER, MILLIAMPS, 18.75)
    assert low.low < 7e-3 < low.high


def test_seven_milliamperes_at_fifty_psi_tell_the_sensors_range() -> None:
    """Exact arithmetic: (7 - 4)/16 = 3/16 of the range, so 50 psi are 3/16 of 267 psi: a sensor of 0..250 psi or so.

    The other sensors of 100 psi are ruled out: 50 psi is 12 mA.
    """
    assert Fraction(50) / ((Fraction(7) - 4) / 16) == Fraction(800, 3)
    text = BOOSTER + FULL_VAN + gauge("50 psi") + reading("displayed-pressure", "18.7 psi")
    text += reading("milliamps", "7.00 mA", arrangement="meter-in-signal") + supply("24.0 V")
    before, after = odds(answer(BOOSTER + FULL_VAN + gauge("50 psi"))), odds(answer(text))
    assert after["sensor-wrong-part"] > 2 * before["sensor-wrong-part"]
    assert after.get("none", 0.0) < 1e-3


def test_a_supply_under_its_limits_is_the_boards_or_another_devices() -> None:
    """Common practice: 4.5..5.25 V; at 4.0 V a ratiometric pair still agrees: (0.1 + 0.8 x 0.5) x 4 = 2 V at 50 psi."""
    seen = gauge("50 psi") + supply("4.00 V") + signal("2.00 V") + reading("displayed-pressure", "50.0 psi")
    found = remedies(answer(HOUSE + VAN + seen))
    assert healthy(HOUSE, SUPPLY, 50).low > 4.4
    assert found.get("none", 0.0) < 0.01
    assert found["replace-board"] + found["remove-load"] + found.get("mend-meter", 0.0) > 0.5


def test_a_dead_supply_with_every_wire_off_is_the_boards() -> None:
    """Kirchhoff: with nothing on its terminal, nothing but the supply itself holds it down."""
    seen = gauge("50 psi") + reading("displayed-pressure", "-12.5 psi") + supply("0.02 V")
    found = answer(HOUSE + VAN + seen + supply("0.02 V", "all-lifted"))
    assert found["verdict"]["remedy"] == "replace-board"
    assert needed(found, "replace-board") > 0.85


def test_a_healthy_visit_says_so() -> None:
    """Exact arithmetic: 48 psi is 2.42 V and shows 48.0 psi."""
    seen = gauge("48 psi") + reading("displayed-pressure", "48.0 psi") + signal("2.42 V") + supply("5.00 V")
    found = answer(HOUSE + VAN + seen)
    assert found["verdict"]["remedy"] == "none"
    assert found["surprises"] == []


def test_a_figure_that_nothing_explains_is_a_surprise() -> None:
    """Closed form: 50 V cannot stand on a 5 V system; three readings that agree say that it is a slip."""
    assert 4 in [each["reading"] for each in answer(SLIPPED)["surprises"]]


def test_a_slip_on_the_supply_does_not_make_interference_of_a_healthy_loop() -> None:
    """The contract: the doubt belongs to the measure, never to the suspect; no interference makes 50 V of 5 V DC."""
    assert answer(SLIPPED)["verdict"]["remedy"] == "none"


def test_readings_that_agree_are_no_surprise_beside_one_that_does_not() -> None:
    """The same visit: gauge, display and signal agree to half a count."""
    assert [each["reading"] for each in answer(SLIPPED)["surprises"]] == [4]


def test_an_open_wire_is_found_by_the_ohmmeter() -> None:
    """Common practice: joined far ends read some tenths of an ohm on sound wires and OL on an open one."""
    seen = gauge("48 psi") + reading("displayed-pressure", "-12.5 psi") + signal("0.00 V") + supply("5.00 V")
    ohms = "".join(
        reading("ohms", value, arrangement="dead-looped", red="wire.supply", black=f"wire.{other}")
        for other, value in (("signal", "OL"), ("common", "1.5 ohm"))
    )
    found = odds(answer(HOUSE + VAN + seen + ohms))
    assert max(found, key=found.__getitem__) == "open-signal"


def test_what_is_expected_follows_the_last_gauge_reading() -> None:
    """Exact arithmetic: 0.5 + 4 x 30/100 = 1.7 V, though 60 psi was read before."""
    found = answer(HOUSE + VAN + gauge("60 psi") + signal("2.9 V") + gauge("30 psi"))["expected"]["controller.signal"]
    assert found["low"] < 1.7 < found["high"]
    assert isclose((found["low"] + found["high"]) / 2, 1.7, abs_tol=0.1)


def test_reversed_wires_show_the_whole_supply_backwards() -> None:
    """Kirchhoff, and the example: with its diode blocking, all of the supply stands across the sensor, negative."""
    across = volts("sensor.supply", "sensor.signal", "-24.0 V")
    found = answer(BOOSTER + VAN + gauge("48 psi") + signal("0.00 V") + across)
    assert found["verdict"]["remedy"] == "correct-wiring"


def test_every_example_has_a_row_here_or_a_test_of_its_own() -> None:
    """The examples on disk."""
    assert set(TROUBLES) | {"house-cock-left-shut"} == set(NAMES)
