"""A current input that protects itself lets through its limit, whatever drives it."""

from __future__ import annotations

import pytest

from steadyhead.diagnosis.cells import cells
from steadyhead.diagnosis.looking import look
from steadyhead.diagnosis.makes import COMMON, INPUT_LIMIT_A, PROTECTED, Latents
from steadyhead.diagnosis.observing import Pressure, Question, Stance
from tests.diagnosis.test_restarts import shares
from tests.diagnosis.visits import BOOSTER, FULL_VAN, gauge, reading, system, volts

SIGNAL, SUPPLY, COMMON_ = "controller.signal", "controller.supply", "controller.common"
ASKED = (Question("volts", "connected", SIGNAL, COMMON_), Question("displayed-signal"))
#: The makes whose input protects itself.
THOSE = [make for make in COMMON if PROTECTED[0] < make[0] < PROTECTED[1]]
STANCE = Stance("connected", None, Pressure(3e5, 0.0, "gauge"))


@pytest.mark.parametrize("make", THOSE, ids=lambda make: f"{make[0]:g}")
def test_it_takes_its_limit_and_shows_it(make: tuple[float, ...]) -> None:
    """Ohm's law: what flows through the supply's own resistance and a shorted sensor is missing from 24 V."""
    known = system(BOOSTER)
    short = next(c for c in cells(known) if c.fault == "sensor-shorted" and c.make == make)
    seen = look(known, short, Latents(), STANCE, ASKED)
    volt, shown = seen.values
    assert INPUT_LIMIT_A[0] <= seen.draft.input_limit_a <= INPUT_LIMIT_A[1]
    assert shown == pytest.approx(seen.draft.input_limit_a, rel=1e-3)
    short_ohm = seen.draft.sensor.short_ohm
    assert short_ohm is not None
    assert seen.operation is not None
    clamped = max(volt - seen.draft.clamp_v, 0.0) / seen.loop.input.clamp_ohm
    lost = (shown + clamped) * (seen.draft.source_ohm + short_ohm)
    assert volt == pytest.approx(seen.draft.supply_v - lost, rel=0.03) or seen.overloaded
    assert volt > 1.5 * shown * 250.0


def test_a_healthy_signal_never_comes_near_it() -> None:
    """At 20 mA every make of input is the 250 ohm that its plate says: 5 V."""
    known = system(BOOSTER)
    full = Stance("connected", None, Pressure(100 * 6894.757, 0.0, "gauge"))
    for cell in (c for c in cells(known) if c.fault == "none"):
        assert look(known, cell, Latents(), full, ASKED).values[0] == pytest.approx(5.0, rel=0.01)


def test_a_shorted_sensor_before_such_an_input_is_one_fault() -> None:
    """23 V at an input of 250 ohm are no 93 mA from a supply that stands at 24: the input holds the current back."""
    found = shares(
        BOOSTER + FULL_VAN + gauge("41 psi") + reading("displayed-pressure", "121 psi")
        + reading("displayed-fault", "high-signal") + volts(SIGNAL, COMMON_, "23.19 V")
        + volts(SUPPLY, SIGNAL, "0.10 V") + volts("sensor.supply", "sensor.signal", "23.98 V", "sensor-unplugged")
        + volts(SUPPLY, COMMON_, "23.98 V", "sensor-unplugged") + volts(SIGNAL, COMMON_, "0.004 V", "sensor-unplugged")
        + volts(SUPPLY, COMMON_, "23.28 V")
    )  # fmt: skip
    assert found["sensor-shorted"] > 0.5, sorted(found.items(), key=lambda item: -item[1])[:4]
