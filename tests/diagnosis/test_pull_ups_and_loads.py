"""What is sound and moves readings far: a strong pull-up, another device on the supply, a meter that loads."""

from __future__ import annotations

from math import exp

import pytest

from steadyhead.diagnosis.cells import cells
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.diagnosis.looking import look
from steadyhead.diagnosis.makes import COMMON as COMMON_MAKES
from steadyhead.diagnosis.makes import OTHER_LOAD, SHARED, Latents, healthy
from steadyhead.diagnosis.observing import Pressure, Question, Stance
from steadyhead.loop.fault_controller import FACTOR, LOADING_OHM
from steadyhead.visit import parse_visit
from tests.diagnosis.test_restarts import shares
from tests.diagnosis.test_rivals_tried import best
from tests.diagnosis.visits import (
    BARE_BOOSTER,
    BARE_HOUSE,
    BOOSTER,
    FULL_VAN,
    HOUSE,
    VAN,
    gauge,
    reading,
    system,
    volts,
)

SUPPLY, SIGNAL, COMMON = "controller.supply", "controller.signal", "controller.common"
BAR = BARE_HOUSE.replace("100 psi", "10 bar")


def test_a_strong_pull_up_excludes_nothing_that_fits_beside_it() -> None:
    """A closed form: 13 and 220 kohm leave 4.68 of 4.95 V at an input that nothing drives; a gauge may lie."""
    found = shares(
        BAR + '[controller]\nsupply = "5 V"\nscaled = "0..10 bar"\nlow_fault = "0.4 V"\n[place]\ncock = false\n' + VAN
        + gauge("4.31 bar") + reading("displayed-pressure", "2.1 bar") + reading("displayed-fault", "none")
        + volts(SIGNAL, COMMON, "1.33 V") + volts("sensor.supply", "sensor.common", "4.96 V")
        + volts("sensor.signal", "sensor.common", "1.32 V")
        + volts("sensor.supply", "sensor.signal", "0.27 V", "sensor-unplugged")
        + volts("sensor.signal", "sensor.common", "4.68 V", "sensor-unplugged")
        + volts(SIGNAL, COMMON, "4.68 V", "sensor-leads-lifted")
    )  # fmt: skip
    assert found["site-gauge-wrong"] > 0.05, best(found)


def test_a_dead_supply_is_told_behind_a_pull_up_through_a_sensor_that_hangs_on_it() -> None:
    """Nothing on the supply's terminal, and 8 mV there: the supply is dead; a junction holds the signal at 0.49 V."""
    found = shares(
        BAR.replace("10 bar", "16 bar") + '[controller]\nsupply = "5 V"\nscaled = "0..16 bar"\n' + FULL_VAN
        + gauge("3.5 bar") + reading("displayed-pressure", "-0.05 bar") + reading("displayed-fault", "none")
        + volts("sensor.supply", "sensor.signal", "-0.488 V") + volts("sensor.signal", "sensor.common", "0.490 V")
        + volts("sensor.supply", "sensor.signal", "-2.694 V", "sensor-unplugged")
        + volts("sensor.signal", "sensor.common", "2.694 V", "sensor-unplugged")
        + volts(SUPPLY, COMMON, "0.000 V", "sensor-leads-lifted")
        + volts(SUPPLY, COMMON, "0.008 V", "supply-terminal-clear")
    )  # fmt: skip
    assert found.get("controller-supply-dead", 0.0) > 0.3, best(found)


def test_what_a_sound_device_on_the_supply_draws_is_no_fixed_number() -> None:
    """Common practice: from a milliampere to some tens; a device that is at fault draws by its own resistance."""
    known = system(BARE_HOUSE)
    shared = [make for make in COMMON_MAKES if make[5] < SHARED]
    assert shared
    for make in shared:
        drafts = [healthy(known, make, Latents(load=z)) for z in (-1.0, 0.0, 1.0)]
        amperes = [draft.supply_v / draft.other_load_ohm for draft in drafts]
        assert amperes[1] / amperes[0] == pytest.approx(amperes[2] / amperes[1]) == pytest.approx(exp(OTHER_LOAD))
        assert 5e-4 < amperes[0] < amperes[2] < 40e-3
    bad = next(c for c in cells(known) if c.fault == "other-load" and c.make == shared[0])
    stance = Stance("connected", None, Pressure(3e5, 0.0, "gauge"))
    asked = (Question("volts", "connected", SUPPLY, COMMON),)
    one, other = (look(known, bad, Latents(load=z), stance, asked).values for z in (0.0, 1.0))
    assert one == other


def test_a_meter_on_a_setting_of_low_resistance_takes_part_of_what_it_measures() -> None:
    """The divider of meter and circuit: a hanging input of R ohm keeps its volts times Rm / (Rm + R)."""
    known = system(HOUSE)
    held = [c for c in cells(known) if c.fault == "meter-wrong" and c.parts[0].place == "loading"]
    stance = Stance("sensor-unplugged", None, Pressure(3e5, 0.0, "gauge"))
    asked = (Question("volts", "sensor-unplugged", SIGNAL, COMMON),)
    for cell in held[:4]:
        seen = look(known, cell, Latents(pull=-2.0), stance, asked)
        assert seen.operation is not None
        meter, behind = seen.draft.voltmeter_ohm, seen.operation.ohms_between(SIGNAL, COMMON)
        assert LOADING_OHM[0] <= meter <= LOADING_OHM[1]
        assert seen.values[0] == pytest.approx(seen.operation.volt(SIGNAL) * meter / (meter + behind), rel=1e-6)
    assert held
    assert FACTOR == (0.25, 2.0)


def test_a_meter_that_failed_its_proof_is_wrong_though_a_current_loop_shows_nothing_of_it() -> None:
    """Three kohm beside 100 ohm take three parts in a hundred: a loop reads right on a meter that is set wrong."""
    text = BARE_BOOSTER.replace("10 bar", "16 bar") + FULL_VAN + gauge("3.3 bar")
    text += reading("displayed-pressure", "3.33 bar") + reading("inspection", "wrong", item="meter-check")
    text += volts(SUPPLY, SIGNAL, "23.29 V") + volts(SIGNAL, COMMON, "0.735 V")
    text += reading("milliamps", "7.31 mA", arrangement="meter-in-signal")
    assert shares(text)["meter-wrong"] > 0.25


def test_a_display_that_stops_at_nothing_jumps_from_there() -> None:
    """A loop that opens now and then: 0 mA is shown as 0 psi by a display that goes no lower."""
    text = BOOSTER.replace("100 psi", "200 psi") + 'display = "clamped"\n[complaint]\nwhen = "sometimes"\n' + VAN
    text += gauge("59 psi") + reading("displayed-pressure", "0..61 psi jumping")
    text += reading("displayed-signal", "8.91 mA")
    text += volts(SUPPLY, COMMON, "24.03 V") + volts("sensor.supply", "sensor.signal", "0.02..21.54 V jumping")
    found = shares(text)
    assert sum(p for fault, p in found.items() if fault.startswith("intermittent")) > 0.8, best(found)


def test_a_figure_that_jumps_at_the_panel_proves_no_loose_contact() -> None:
    """A supply that starts again and again jumps too: the wiggle, or a figure at the sensor, tells."""
    text = BAR + FULL_VAN + gauge("3.2 bar") + reading("displayed-pressure", "0.1..2.7 bar jumping")
    text += volts(SIGNAL, COMMON, "0.540..1.560 V jumping") + reading("displayed-signal", "0.54..1.56 V jumping")
    text += reading("volts-ac", "0.045 V", red=SIGNAL, black=COMMON)
    assert diagnose(parse_visit(text).visit).verdict.state != "proved"
    seen = text + reading("inspection", "wrong", item="wiggle")
    assert diagnose(parse_visit(seen).visit).verdict.remedy == "repair-cable"
