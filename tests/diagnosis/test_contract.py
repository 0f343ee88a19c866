"""The answer's promises: its keys, its sums, its order, its verdict, what it says of expectation and assumption."""

from __future__ import annotations

from collections.abc import Sequence
from math import isclose
from typing import Any

import pytest

from steadyhead.diagnosis.priors import prior
from steadyhead.loop.faults import FAULTS, Fault, faults_of
from tests.diagnosis.visits import (
    ALL,
    BARE_BOOSTER,
    BARE_HOUSE,
    BOOSTER,
    HOUSE,
    KEYS_OF_AN_ANSWER,
    OPENING,
    VAN,
    answer,
    gauge,
    named,
    odds,
    reading,
    signal,
    system,
)

SUSPECT = {"fault", "remedy", "probability", "severity", "place"}
CHECK = {
    "measure", "red", "black", "arrangement", "source", "item", "drive", "minutes", "saves_minutes", "outcomes",
    "cautions", "how", "while_there",
}  # fmt: skip
#: Keys of a check that came later: each stands where it says something.
LATER_OF_A_CHECK = {"why", "whose"}
#: Keys that came later, in their order; each stands where it says something.
LATER = ("complaint", "besides", "after_repair")
#: The contract's table of remedies, loop faults only: a star stands for any ending.
REMEDIES = {
    "none": "none", "none-of-these": "look-further",
    "open-*": "repair-cable", "resistive-*": "repair-cable", "intermittent-*": "repair-cable",
    "short-*": "repair-cable", "leakage-*": "repair-cable", "cable-cut": "repair-cable",
    "swapped-*": "correct-wiring", "rotated-*": "correct-wiring", "reversed": "correct-wiring",
    "shield-looped": "correct-wiring", "noise-pickup": "reroute-cable",
    "sensor-cock-shut": "open-cock", "sensor-*": "replace-sensor",
    "port-blocked": "clear-port", "tap-wrong-side": "move-tap",
    "controller-*": "replace-board", "other-load": "remove-load", "setting-*": "correct-setting",
    "vacuum": "clear-vacuum", "site-gauge-wrong": "replace-gauge", "own-gauge-wrong": "replace-gauge",
    "meter-wrong": "mend-meter",
}  # fmt: skip
SUM_ERROR = 1e-9  #: of probability, the contract's own figure


def remedy_by_contract(fault: str) -> str:
    """Return the remedy that the contract's table gives a fault: the whole id first, then its beginning.

    A pair ``a+b`` has ``x+y``, sorted, or ``x`` where both are the same.
    """
    if "+" in fault:
        return "+".join(sorted({remedy_by_contract(part) for part in fault.split("+")}))
    return REMEDIES[fault] if fault in REMEDIES else REMEDIES[fault.split("-", maxsplit=1)[0] + "-*"]


def is_sum_of_one(listed: list[dict[str, Any]]) -> bool:
    """Tell whether probabilities sum to one as closely as the contract wants."""
    return isclose(sum(each["probability"] for each in listed), 1.0, abs_tol=SUM_ERROR)


@pytest.mark.parametrize("name", ALL)
def test_an_answer_has_every_key_of_the_contract_and_no_other(name: str) -> None:
    """The contract's own example of an answer."""
    found = named(name)
    assert [key for key in found if key not in LATER] == KEYS_OF_AN_ANSWER
    assert [key for key in found if key in LATER] == [key for key in LATER if key in found]
    assert all(set(each) - {"cause"} == SUSPECT for each in found["suspects"])
    assert all(set(each) == {"remedy", "probability", "cost_minutes"} for each in found["remedies"])
    assert set(found["verdict"]) == {"state", "settled", "remedy", "because"}
    assert all(set(each) - LATER_OF_A_CHECK == CHECK for each in found["next_checks"])
    assert all(set(each) == {"reading", "text"} for each in found["surprises"])


@pytest.mark.parametrize("name", ALL)
def test_suspects_and_remedies_sum_to_one_and_come_in_order(name: str) -> None:
    """The contract: most probable first, ties by their ids, sums within 1e-9, nothing below zero."""
    found = named(name)
    for key, word in (("suspects", "fault"), ("remedies", "remedy")):
        listed = found[key]
        assert is_sum_of_one(listed)
        assert listed == sorted(listed, key=lambda each: (-each["probability"], each[word]))
        assert min(each["probability"] for each in listed) >= 0.0
        assert len({each[word] for each in listed}) == len(listed)


@pytest.mark.parametrize(
    ("text", "faults"),
    [(OPENING, faults_of(3, "ratiometric")), (BOOSTER + VAN + gauge("48 psi"), faults_of(2, "loop"))],
    ids=["three-wire", "two-wire"],
)  # fmt: skip
def test_every_single_fault_stands_among_the_suspects_however_unlikely(text: str, faults: Sequence[Fault]) -> None:
    """The contract: all single suspects, whatever the readings left of them; the table of faults by wires and kind."""
    found = answer(text)
    singles = {fault.id for fault in faults}
    assert singles | {"none-of-these"} <= {each["fault"] for each in found["suspects"]}


@pytest.mark.parametrize("fault", [fault.id for fault in FAULTS])
def test_a_fault_is_mended_as_the_table_says(fault: str) -> None:
    """The contract's table of remedies, copied into this file."""
    assert next(f.remedy for f in FAULTS if f.id == fault) == remedy_by_contract(fault)


@pytest.mark.parametrize("name", ALL)
def test_a_suspect_has_its_remedy_and_a_remedy_the_odds_of_its_suspects(name: str) -> None:
    """The contract's table; a remedy's odds are a sum (closed form)."""
    found = named(name)
    assert all(each["remedy"] == remedy_by_contract(each["fault"]) for each in found["suspects"])
    for each in found["remedies"]:
        mended = [s["probability"] for s in found["suspects"] if s["remedy"] == each["remedy"]]
        assert isclose(sum(mended), each["probability"], abs_tol=SUM_ERROR)


@pytest.mark.parametrize("name", ALL)
def test_a_verdict_is_settled_exactly_when_no_check_is_left(name: str) -> None:
    """The contract; `open` is what is not settled; the remedy is the most probable, also while open."""
    found = named(name)
    verdict = found["verdict"]
    assert verdict["settled"] is (found["next_checks"] == [])
    assert (verdict["state"] == "open") is not verdict["settled"]
    assert verdict["state"] in {"open", "proved", "best-guess"}
    assert verdict["remedy"] == found["remedies"][0]["remedy"]


WITHOUT_A_METER = {
    "cock": HOUSE + VAN + reading("displayed-pressure", "60.0 psi") + gauge("22 psi")
    + reading("inspection", "wrong", item="cock"),
    "wiring": HOUSE + VAN + gauge("48 psi") + reading("displayed-pressure", "-12.5 psi")
    + reading("inspection", "wrong", item="wiring-order") + reading("displayed-fault", "low-signal"),
    "setting": HOUSE.replace('scaled = "0..100 psi"', 'scaled = "0..145 psi"') + VAN + gauge("41 psi")
    + reading("displayed-pressure", "59.5 psi") + reading("inspection", "wrong", item="range-setting"),
    "sensor": BOOSTER + VAN + gauge("50 psi") + reading("displayed-signal", "3.5 mA")
    + reading("inspection", "right", item="connections") + reading("inspection", "right", item="wiring-order"),
}  # fmt: skip


@pytest.mark.parametrize("name", WITHOUT_A_METER)
def test_nothing_is_proved_without_a_meter(name: str) -> None:
    """The contract: `proved` needs a meter reading that any other remedy would have made differently."""
    assert answer(WITHOUT_A_METER[name])["verdict"]["state"] != "proved"


def test_a_scale_that_differs_from_the_range_is_a_suspect_and_a_sound_system_is_none() -> None:
    """The contract: where `scaled` differs from `range`, `setting-range` is a suspect and `none` is not."""
    found = odds(answer(WITHOUT_A_METER["setting"]))
    assert found["setting-range"] > 0.5
    assert found.get("none", 0.0) == 0.0


def test_a_scale_that_nobody_read_leaves_the_range_setting_suspect() -> None:
    """The contract: `scaled` left out is unknown, and may be half to three times the range; 1.45 times fits here.

    A property of evidence: what explains both readings gains on what it was before them.
    """
    found = odds(answer(BARE_HOUSE + VAN + gauge("41 psi") + reading("displayed-pressure", "59.5 psi")))
    assert found["setting-range"] > 2.0 * prior(3, "ratiometric")["setting-range"]


@pytest.mark.parametrize("value", ["170 psi", "-10 psi"])
def test_a_reading_outside_the_gauges_scale_is_a_surprise(value: str) -> None:
    """The contract; the gauge of this visit goes from 0 to 160 psi."""
    found = answer(HOUSE + VAN + gauge(value))
    assert [each["reading"] for each in found["surprises"]] == [1]


def test_a_reading_inside_the_gauges_scale_is_none() -> None:
    """The contract; 48 psi and 2.42 V agree: 0.5 + 4 x 48/100."""
    assert answer(HOUSE + VAN + gauge("48 psi") + signal("2.42 V"))["surprises"] == []


@pytest.mark.parametrize(
    ("line", "key"),
    [
        ('accuracy = "1 %"\n', "sensor.accuracy"),
        ('length = "12 m"\n', "cable.length"),
        ('conductor = "22 AWG"\n', "cable.conductor"),
        ('input_resistance = "100 kohm"\n', "controller.input_resistance"),
        ('scaled = "0..100 psi"\n', "controller.scaled"),
        ('low_fault = "0.2 V"\n', "controller.low_fault"),
        ('high_fault = "4.8 V"\n', "controller.high_fault"),
        ('reference = "ratiometric"\n', "controller.reference"),
    ],
)
def test_a_default_is_told_exactly_where_a_key_was_left_out(line: str, key: str) -> None:
    """The contract: what is left out takes a documented default, and the answer says which it used."""
    assert HOUSE.count(line) == 1
    assert key in _assumed(HOUSE.replace(line, ""))
    assert key not in _assumed(HOUSE)


def _assumed(text: str) -> set[object]:
    return {told.values["key"] for told in system(text).defaults()}


def test_an_answer_tells_every_default_that_it_used() -> None:
    """The contract: the same keys, in the answer's own list."""
    told = answer(BARE_HOUSE)["defaults"]
    assert [each.split(" = ")[0] for each in told] == [m.values["key"] for m in system(BARE_HOUSE).defaults()]
    assert len(told) > 8


def test_a_reading_without_an_arrangement_was_taken_connected() -> None:
    """The file's manual: `connected` is the default."""
    assert answer(OPENING.replace('arrangement = "connected"\n', "")) == answer(OPENING)


@pytest.mark.parametrize(("text", "points"), [(HOUSE, {"sensor.common"}), (BOOSTER, {"loop"})])
def test_expected_values_name_points_in_volts_and_a_loop_in_milliamperes(text: str, points: set[str]) -> None:
    """The contract: volts to the controller's common, healthy, at the gauge's last reading; `loop` in mA."""
    found = answer(text + VAN + gauge("48 psi"))["expected"]
    always = {"controller.supply", "controller.signal", "sensor.supply", "sensor.signal"}
    assert set(found) == always | points
    assert {band["unit"] for point, band in found.items() if point != "loop"} == {"V"}
    assert found.get("loop", {"unit": "mA"})["unit"] == "mA"
    assert all(band["low"] < band["high"] for band in found.values())


@pytest.mark.parametrize("text", [BARE_HOUSE, BARE_BOOSTER])
def test_nothing_is_expected_without_a_gauge(text: str) -> None:
    """The contract: `{}` without a gauge reading."""
    assert answer(text)["expected"] == {}
