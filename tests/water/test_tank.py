"""What a pressure tank gives: a trade journal's worked example, Boyle's law for usual settings, a turn counted out."""

from __future__ import annotations

from dataclasses import replace

import pytest

from steadyhead.errors import AnswersError
from steadyhead.water.tank import Tank, tank_from, tank_told

PSI = 6894.757293168361
GALLON = 0.003785411784
GPM = GALLON / 60.0
#: The worked example's barometer.
AIR = 14.7 * PSI
EXAMPLE = Tank(volume=85 * GALLON, precharge=28 * PSI, wake=30 * PSI, stop=50 * PSI, air=AIR)


def figure(tank: Tank, name: str) -> float:
    """Return a figure of what a tank tells."""
    return next(each.value for each in tank_told(tank).figures if each.name == name)


def said(tank: Tank) -> list[str]:
    """Return the ids of what is said of a tank."""
    return [each.id for each in tank_told(tank).says]


def test_the_trade_journals_worked_example() -> None:
    """Pelikan, National Driller, February 2006, example 1: 28, 30 and 50 psi, 85 gal; factor 0.295, 25.1 gal."""
    drawn = figure(EXAMPLE, "tank-drawdown")
    assert drawn / EXAMPLE.volume == pytest.approx(0.295, abs=5e-4)
    assert drawn / GALLON == pytest.approx(25.1, abs=0.05)


@pytest.mark.parametrize(
    ("precharge", "wake", "stop", "factor"),
    [(18, 20, 40, 0.345), (38, 40, 60, 0.258), (20, 20, 40, 0.366), (40, 40, 60, 0.268)],
)
def test_usual_settings_give_their_part_of_the_tank(precharge: int, wake: int, stop: int, factor: float) -> None:
    """The acceptance factors by Boyle's law, from the reference list (P7.2), to their three printed figures."""
    tank = replace(EXAMPLE, precharge=precharge * PSI, wake=wake * PSI, stop=stop * PSI)
    assert figure(tank, "tank-drawdown") / tank.volume == pytest.approx(factor, abs=5e-4)


def test_a_tank_gives_nothing_below_its_pre_charge() -> None:
    """Closed form: 40 psi in it, 30 to 50 psi: it empties at 40, 1 - (40 + 14.7) / (50 + 14.7) of it."""
    tank = replace(EXAMPLE, precharge=40 * PSI)
    assert figure(tank, "tank-drawdown") / tank.volume == pytest.approx(1 - 54.7 / 64.7)
    assert said(tank)[1] == "tank-charge-high"
    assert said(replace(EXAMPLE, precharge=50 * PSI))[0] == "tank-nothing"


def test_the_starts_are_the_turns_of_an_hour_stepped_through() -> None:
    """Two hundred hours by steps of a second: emptied by 1 gpm, filled by 9; and no draw makes more than the worst."""
    tank = replace(EXAMPLE, draw=1 * GPM, refill=10 * GPM)
    drawn, runs, started, hours = figure(tank, "tank-drawdown"), False, 0, 200
    water = drawn
    for _ in range(hours * 3600):
        water += (9 if runs else -1) * GPM
        if water <= 0 and not runs:
            runs, started = True, started + 1
        elif water >= drawn and runs:
            runs = False
    assert figure(tank, "tank-starts") == pytest.approx(started / hours, rel=0.02)
    worst = figure(tank, "tank-most-starts")
    each = [figure(replace(tank, draw=k * GPM), "tank-starts") for k in range(1, 10)]
    assert max(each) == pytest.approx(worst) == pytest.approx(each[4])


def test_a_motor_that_would_start_too_often_is_told_with_the_tank_it_takes() -> None:
    """10 gpm over 25.1 gal is 6 an hour; a tenth of that tank is 60, and 7.5 an hour takes 10 x 60 / 30 gal, 20."""
    tank = replace(EXAMPLE, refill=10 * GPM, motor="large")
    assert said(tank)[-1] == "tank-starts-right"
    small = replace(tank, volume=8.5 * GALLON)
    told = tank_told(small).says[-1]
    assert told.id == "tank-starts-often"
    assert told.values["needed"] == pytest.approx(20 * GALLON)


def test_a_draw_that_takes_all_the_pump_gives_never_lets_it_stop() -> None:
    """The rule; and where nobody knows what it gives, the most that there can be is told."""
    assert "tank-never-stops" in said(replace(EXAMPLE, draw=10 * GPM, refill=10 * GPM))
    unknown = replace(EXAMPLE, draw=1 * GPM)
    assert said(unknown)[-1] == "tank-starts-at-most"
    assert figure(unknown, "tank-starts") > figure(replace(unknown, refill=10 * GPM), "tank-starts")


@pytest.mark.parametrize(
    ("changed", "key"),
    [
        ({"volume": ""}, "volume"), ({"volume": "85"}, "volume"), ({"precharge": "0 psi"}, "precharge"),
        ({"stop": "30 psi"}, "stop"), ({"motor": "huge"}, "motor"), ({"draw": "1 psi"}, "draw"),
        ({"weather": "fine"}, "weather"),
    ],
)  # fmt: skip
def test_what_cannot_be_used_or_is_lacking_is_named(changed: dict[str, str], key: str) -> None:
    """One wrong answer at a time."""
    answers = {"volume": "85 gal", "precharge": "28 psi", "wake": "30 psi", "stop": "50 psi", **changed}
    with pytest.raises(AnswersError) as refused:
        tank_from(answers)
    assert [each.key for each in refused.value.problems] == [key]
