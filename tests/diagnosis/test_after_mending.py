"""What was read before a repair still tells what else is suspected after it, with the repaired part taken away."""

from __future__ import annotations

from dataclasses import replace
from math import isclose

from steadyhead.diagnosis.after_mending import before_repair, odds_after
from steadyhead.diagnosis.cells import BY_ID, cells, single_odds
from steadyhead.diagnosis.observing import observations
from steadyhead.diagnosis.opening import believed
from tests.diagnosis.visits import FULL_VAN, HOUSE, gauge, reading, signal, supply, system

#: The display is too low; the input shows a source rightly, so that neither it nor the setting is at fault.
SOURCE = reading("displayed-pressure", "50.1 psi", arrangement="source-at-controller", source="2.5 V")
LOW = gauge("48 psi") + reading("displayed-pressure", "15.5 psi")
IN_VAIN = '[[action]]\nremedy = "repair-cable"\nafter_reading = {}\n'


def remedies(text: str) -> dict[str, float]:
    """Return each remedy's share after the readings."""
    told = system(text)
    found: dict[str, float] = {}
    for w in believed(told, observations(told)).after:
        found[w.cell.remedy] = found.get(w.cell.remedy, 0.0) + w.share
    return found


def test_what_was_cleared_before_a_repair_in_vain_stays_cleared_after_it() -> None:
    """A property: a source on the input speaks for input and setting, whatever was done to the cable since."""
    cleared = remedies(HOUSE + FULL_VAN + LOW + SOURCE + LOW + IN_VAIN.format(3))
    forgotten = remedies(HOUSE + FULL_VAN + LOW + LOW + IN_VAIN.format(2))
    for remedy in ("replace-board", "correct-setting"):
        assert cleared[remedy] < 0.6 * forgotten[remedy], remedy


def test_a_repair_that_cured_leaves_nothing_suspected() -> None:
    """A property: readings that blame the cable, the cable mended, and display and gauge agree: nothing is wrong."""
    blamed = LOW + signal("1.12 V") + supply("5.0 V")
    blamed += signal("0.00 V", "sensor-unplugged") + reading(
        "ohms", "220 ohm", arrangement="dead-both-free", red="wire.signal", black="wire.common"
    )
    healthy = gauge("48 psi") + reading("displayed-pressure", "48.0 psi") + signal("2.42 V")
    assert remedies(HOUSE + FULL_VAN + blamed + healthy + IN_VAIN.format(6))["none"] > 0.9


def test_the_odds_after_a_repair_are_those_before_it_with_the_mended_part_taken_away() -> None:
    """A closed form of four cells: seven tenths of the odds, the rest as if nothing was read; in all they make one."""
    told = system(HOUSE + FULL_VAN + LOW + LOW + IN_VAIN.format(2))
    drawn = {cell.fault: cell for cell in cells(told)}
    one = believed(told, observations(told)).after[0]
    pair = next(cell for cell in drawn.values() if len(cell.parts) == 2 and "repair-cable" in cell.remedy
                and cell.remedy != "repair-cable")  # fmt: skip
    shares = {"open-signal": 0.5, "sensor-low": 0.2, pair.fault: 0.3}
    before = [replace(one, cell=drawn[fault], share=share) for fault, share in shares.items()]
    odds, plain = odds_after(told, before), single_odds(told)
    assert isclose(sum(odds.values()), 1.0)
    other = next(part.fault for part in pair.parts if BY_ID[part.fault].remedy != "repair-cable")
    untouched = "setting-offset"
    nothing_read = odds[untouched] / (plain[untouched] / sum(plain.values()))
    assert isclose(nothing_read, 0.3)
    told_of = {f: odds[f] - nothing_read * plain[f] / sum(plain.values()) for f in ("none", "sensor-low", other)}
    assert told_of["none"] > told_of["sensor-low"] > 0.0
    expected = 0.5 if other == "sensor-low" else 0.2
    assert isclose(told_of["sensor-low"] / told_of["none"], expected / 0.5, rel_tol=0.1)


def test_before_a_repair_neither_it_nor_what_was_read_after_it_counts() -> None:
    """A property: the visit is cut where the repair began; an earlier repair stays."""
    text = HOUSE + FULL_VAN + LOW + LOW + LOW + IN_VAIN.format(2) + IN_VAIN.format(4)
    cut = before_repair(system(text).visit)
    assert len(cut.readings) == 4
    assert [action.after_reading for action in cut.actions] == [2]
