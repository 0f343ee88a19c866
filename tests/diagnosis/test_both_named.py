"""Two faults at once by Ohm's law: both stand among the first three suspects, and one that explains all before two."""

from __future__ import annotations

from steadyhead.diagnosis.cells import BY_ID, UNLIKE, of_pair
from steadyhead.loop.devices import loop_branch
from steadyhead.loop.draft import LEAST_A
from steadyhead.loop.parts import LoopSensor
from tests.diagnosis.test_restarts import shares
from tests.diagnosis.visits import BOOSTER, FULL_VAN, gauge, reading, volts

SUPPLY, SIGNAL, COMMON = "controller.supply", "controller.signal", "controller.common"


def first_three(found: dict[str, float]) -> set[str]:
    """Return the faults that the first three suspects name, alone or in a pair."""
    best = sorted(found, key=lambda name: (-found[name], name))[:3]
    return {fault for name in best for fault in name.split("+")}


def test_what_is_left_of_an_open_sensor_passes_a_millionth_of_an_ampere_at_most() -> None:
    """Open silicon is tens of megohms at least (common practice): 24 V drive half a microampere through 50 Mohm."""
    opened = loop_branch(LoopSensor(amperes=LEAST_A, wakes_v=5.0, least_v=9.0, reverse="nothing"), "plus", "minus")
    siemens, amperes = opened.pieces[-1]
    assert siemens * 24.0 + amperes < 0.5e-6


def test_an_open_sensor_before_an_open_input_is_told_by_what_the_voltmeter_itself_lets_through() -> None:
    """24 V over 60 and 6 Mohm: 2.18 V, 8.7 mA over 250 ohm; with 10 Mohm beside the one or the other 1.41, 14.1 V."""
    found = shares(
        BOOSTER + FULL_VAN + gauge("65 psi") + reading("displayed-pressure", "44.3 psi")
        + volts(SUPPLY, SIGNAL, "14.1 V") + volts(SIGNAL, COMMON, "1.41 V")
        + reading("displayed-signal", "8.73 mA") + reading("milliamps", "0.00 mA", arrangement="meter-in-signal")
        + volts(SUPPLY, COMMON, "24.1 V", "sensor-unplugged")
    )  # fmt: skip
    assert {"sensor-open", "controller-input-dead"} <= first_three(found), sorted(found.items())


def test_a_dead_supply_names_the_shorted_sensor_that_may_have_killed_it() -> None:
    """A short is what overloads a supply until it gives up (common practice); with the supply dead nothing shows it."""
    found = shares(
        BOOSTER + FULL_VAN + gauge("65 psi") + reading("displayed-fault", "low-signal")
        + volts(SUPPLY, COMMON, "0.01 V") + volts(SUPPLY, COMMON, "0.03 V", "supply-terminal-clear")
    )  # fmt: skip
    assert found["controller-supply-dead"] > 0.5
    assert {"controller-supply-dead", "sensor-shorted"} <= first_three(found)


def test_one_shorted_sensor_that_explains_all_stands_before_it_and_a_weak_supply() -> None:
    """Ohm's law: a supply that folds back to 17 mA leaves 4.2 V over 250 ohm and 1.7 V over 100."""
    text = BOOSTER.replace('input_resistance = "250 ohm"', 'input_resistance = "100 ohm"')
    text = text.replace('low_fault = "3.6 mA"', 'low_fault = "3.8 mA"').replace("12 m", "46 m")
    text = text.replace('accuracy = "1 %"\n', "").replace('conductor = "22 AWG"\n', "")
    found = shares(
        text.replace('scaled = "0..100 psi"\n', "") + FULL_VAN + gauge("21.2 psi")
        + reading("displayed-pressure", "81.6 psi") + reading("displayed-fault", "none")
        + volts(SUPPLY, SIGNAL, "4.27 V") + volts(SUPPLY, COMMON, "5.95 V")
        + volts("sensor.supply", "sensor.signal", "4.21 V")
    )  # fmt: skip
    alone = found.get("sensor-shorted", 0.0) + found.get("leakage-supply-signal", 0.0)
    pairs = sum(share for fault, share in found.items() if "+" in fault)
    assert alone > pairs, sorted(found.items(), key=lambda item: -item[1])[:4]


def test_a_dead_input_in_a_pair_has_cells_of_each_way_of_dying() -> None:
    """The weight stays the pair's; each place has its share of it."""
    for first, second in (("sensor-open", "controller-input-dead"), ("controller-input-dead", "setting-range")):
        cells = of_pair(BY_ID[first], BY_ID[second], 0.01)
        by_place: dict[str, float] = {}
        for cell in cells:
            by_place[cell.key[1]] = by_place.get(cell.key[1], 0.0) + cell.weight
        (unlike,) = {first, second} & UNLIKE
        shares_ = dict(BY_ID[unlike].places)
        assert by_place.keys() == shares_.keys()
        assert all(abs(by_place[place] - 0.01 * share) < 1e-12 for place, share in shares_.items())
