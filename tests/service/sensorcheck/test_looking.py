"""What a sensor check says as a whole: five lines, the same decision everywhere, and JSON by its schema."""

from __future__ import annotations

import json
from dataclasses import replace
from importlib.resources import files
from math import hypot
from pathlib import Path
from typing import Any
from unittest.mock import ANY

import pytest

from steadyhead.errors import SensorCheckError
from steadyhead.messages import message
from steadyhead.sensorcheck.conformity import Rule
from steadyhead.sensorcheck.file import CheckFile, load_check
from steadyhead.sensorcheck.run import CheckRun, Conditions, Reference
from steadyhead.service.sensorcheck.as_json import adjusted_json, looked_json, planned_json
from steadyhead.service.sensorcheck.looking import Looked, drift, look
from steadyhead.service.sensorcheck.planning import planned
from steadyhead.visit.record import Gauge, Interval
from steadyhead.words import Speaker
from tests.sensorcheck.runs import BAR, BOOSTER, GAUGE, HOUSE, PSI, shown_run, swept
from tests.support import ROOT

EXAMPLES = {each.stem: load_check(each) for each in sorted((ROOT / "examples" / "checks").glob("*.toml"))}
SCHEMA = json.loads(files("steadyhead.service.sensorcheck").joinpath("sensor_check_1.json").read_text(encoding="utf-8"))
#: A gauge good to a tenth of a psi, read to a hundredth.
FINE = Reference(gauge=Gauge(range=Interval(0.0, 160 * PSI), accuracy=0.000625), resolution_pa=0.01 * PSI)
LEVELS = (0.0, 20.0, 40.0, 60.0, 80.0, 100.0)


def off(error: float, slope: float = 0.0, bend: float = 0.0, sticks: float = 0.0) -> CheckRun:
    """Return a house run with a fine gauge whose sensor is off so much [psi] at 0, more by slope, bend and way."""
    rows = [
        (p * PSI, (p + error + slope * p / 100 + bend * p * (100 - p) / 2500 + (sticks if way == "down" else 0)) * PSI,
         way, cycle)
        for p, way, cycle in swept(LEVELS, 2)
    ]  # fmt: skip
    return shown_run(HOUSE, rows, reference=FINE)


def ids(found: Looked) -> list[str]:
    """Return the ids of the five lines."""
    return [each.id for each in found.lines]


def test_what_binary_arithmetic_leaves_is_said_as_nothing() -> None:
    """3e-11 Pa is the last bit of a pressure of some bar (2^-53 x 4 bar = 4.4e-11 Pa), and no error of a sensor."""
    said = Speaker().say(message("lines-kind-none", greatest=3e-11))
    assert said == "No kind of error stands out: none is above 0 psi."


@pytest.mark.parametrize(
    ("run", "outcome", "kind", "advice"),
    [
        (off(0.1), "lines-pass", "lines-kind-none", "lines-do-nothing"),
        (off(2.0), "lines-fail-high", "lines-kind-zero", "lines-do-set"),
        (off(-2.0), "lines-fail-low", "lines-kind-zero", "lines-do-set"),
        (off(5.0), "lines-fail-high", "lines-kind-zero", "lines-do-set-and-replace"),
        (off(0.0, slope=3.0), "lines-fail-high", "lines-kind-span", "lines-do-set"),
        (off(0.0, bend=3.0), "lines-fail-high", "lines-kind-bend", "lines-do-replace"),
        (off(-1.5, sticks=3.0), "lines-fail-sticks", "lines-kind-sticks", "lines-do-replace"),
        (off(-0.95, sticks=1.9), "lines-cannot-tell", "lines-kind-sticks", "lines-do-not-condemn"),
        (off(2.0, slope=3.0), "lines-fail-high", "lines-kind-mixed", "lines-do-set-and-replace"),
    ],
    ids=["good", "zero up", "zero down", "zero far", "span", "bent", "sticks", "sticks a little", "mixed"],
)
def test_the_house_call_reads_five_lines_that_name_what_was_put_in(
    run: CheckRun, outcome: str, kind: str, advice: str
) -> None:
    """A closed form: the sensor was made with that error, 1 psi is allowed, and the gauge is good to a tenth."""
    found = look(run)
    said = ids(found)
    assert len(said) == 5
    assert [said[1], said[2], said[4]] == [outcome, kind, advice]


def test_a_coarse_gauge_condemns_nothing() -> None:
    """A grade B gauge of 160 psi may be off by 3.2 psi; 1.5 psi of error convicts nobody, and what would is told."""
    found = look(replace(off(1.5), reference=GAUGE))
    said = ids(found)
    assert (said[1], said[2], said[4]) == ("lines-cannot-tell", "lines-kind-none", "lines-do-not-condemn")
    assert said[3].startswith("settle-")


def test_a_signal_that_is_off_after_a_change_sends_one_to_the_display() -> None:
    """A setting moves what the display shows, never what the transducer puts out."""
    check = EXAMPLES["house-reads-high"]
    assert ids(look(replace(check.run, stage="as-left")))[4] == "lines-do-read-display"
    assert ids(look(replace(off(3.0), stage="as-left")))[4] == "lines-do-set-and-replace", "this display was read"


def test_the_lines_are_read_by_a_person() -> None:
    """The example of a house that reads high, said: made 3 psi high, 1 psi allowed."""
    check = EXAMPLES["house-reads-high"]
    found = look(check.run, scaled=check.controller.scaled)
    said = [Speaker(pressure_unit="psi").say(each) for each in found.lines]
    assert said[0] == "Transducer T-20418: 11 readings from 0.867 psi to 67.3 psi, 66 % of its range."
    assert said[1].startswith("Not good: it reads 3.0")
    assert "its zero has moved by 2.9" in said[2]
    assert said[4].startswith("Set the controller's range to -3.1")


def test_a_run_at_one_pressure_says_so() -> None:
    """One level shows no kind of error."""
    run = shown_run(HOUSE, [(50 * PSI, 53 * PSI, "up", 1)], reference=FINE)
    assert ids(look(run))[2] == "lines-kind-one-level"


def test_a_gauge_that_nobody_described_decides_nothing() -> None:
    """The error of the model itself; a plan says it in its first line instead."""
    run = replace(off(2.0), reference=Reference(gauge=Gauge()))
    with pytest.raises(SensorCheckError, match="reference-accuracy-unknown"):
        look(run)
    found = planned(run, EXAMPLES["house-reads-high"].allowed, "full")
    assert (found.first.id, found.decidable) == ("reference-accuracy-unknown", ())


@pytest.mark.parametrize(
    ("reference", "first"),
    [(FINE, "plan-convicts"), (GAUGE, "plan-convicts-only")],
)
def test_the_first_line_says_what_can_be_decided(reference: Reference, first: str) -> None:
    """TRADE: with a field gauge one can convict only far beyond what is allowed, and clear nothing."""
    found = planned(replace(off(0.0), points=(), reference=reference), EXAMPLES["house-reads-high"].allowed, "full")
    assert found.first.id == first
    said = Speaker(pressure_unit="psi").say(found.first)
    assert said.startswith("With this gauge you can convict only beyond ±")


def test_the_first_line_speaks_of_the_worst_of_the_levels() -> None:
    """ASME B40.100 (from memory): grade B allows 3 % in the outer quarters, 2 % between: the ends convict least."""
    run = replace(off(0.0), points=(), reference=GAUGE)
    found = planned(run, EXAMPLES["house-reads-high"].allowed, "full")
    beyond = [each.convicts_beyond for each in found.decidable]
    assert max(beyond) > 1.2 * min(beyond)
    assert found.first.values["beyond"] == max(beyond)


def test_simple_acceptance_with_a_ratio_that_cannot_be_met_decides_nothing() -> None:
    """A test uncertainty ratio of 4 is out of a field gauge's reach."""
    run = replace(off(0.0), points=(), reference=GAUGE)
    found = planned(run, EXAMPLES["house-reads-high"].allowed, "full", rule=Rule(kind="simple", least_tur=4.0))
    assert found.first.id == "plan-decides-nothing"


def test_points_that_were_taken_are_not_left() -> None:
    """Counted: the house's plan has 11 points, the example took all, and half of them leave the other half."""
    check = EXAMPLES["house-reads-high"]
    assert planned(check.run, check.allowed, check.purpose).left == 0
    five = replace(check.run, points=check.run.points[:5])
    assert planned(five, check.allowed, check.purpose).left == 6


def test_drift_is_told_of_one_serial_number_as_found() -> None:
    """A closed form: 0, then 0.4 psi a year later of 365 days; what was left, and another number, do not count."""
    one = replace(off(0.0), serial="A1", began="2025-01-01")
    two = replace(off(0.4), serial="a1", began="2026-01-01")
    left = replace(off(9.0), serial="A1", began="2025-06-01", stage="as-left")
    other = replace(off(9.0), serial="B2", began="2025-06-01")
    found = drift([two, left, other, one], "A1")
    assert found.days == ("2025-01-01", "2026-01-01")
    assert found.zero is not None
    assert found.zero.value / PSI == pytest.approx(0.4 / 365 * 365.2425)
    known = [look(each).judged.levels[0].point.budget.combined for each in (one, two)]
    assert found.zero.standard_uncertainty == pytest.approx(hypot(*known) / 365 * 365.2425, rel=0.05)
    blind = Reference(gauge=Gauge())
    assert drift([replace(each, reference=blind) for each in (one, two)], "A1").zero == replace(
        found.zero, standard_uncertainty=None, inputs=ANY, source=ANY
    )
    with pytest.raises(SensorCheckError, match="drift-needs-two-days"):
        drift([one, left], "A1")


# ------------------------------------------------------------ JSON


def every_json(check: CheckFile) -> list[dict[str, Any]]:
    """Return the three answers of a check, through JSON and back."""
    speaker = Speaker(pressure_unit=check.pressure_unit)
    found = look(check.run, scaled=check.controller.scaled)
    plan = planned(check.run, check.allowed, check.purpose, unit=check.pressure_unit)
    answers = [
        planned_json(check.run, plan, speaker), looked_json(found, speaker), looked_json(found, speaker, trace=True),
        adjusted_json(found, speaker, trace=True),
    ]  # fmt: skip
    return [json.loads(json.dumps(each, allow_nan=False)) for each in answers]


@pytest.mark.laptop
@pytest.mark.parametrize("name", sorted(EXAMPLES))
def test_every_answer_follows_its_schema(name: str) -> None:
    """The schema was written from the contract; by the JSON Schema library."""
    from jsonschema import Draft202012Validator  # noqa: PLC0415 - a laptop's library

    Draft202012Validator.check_schema(SCHEMA)
    validator = Draft202012Validator(SCHEMA)
    for answer in every_json(EXAMPLES[name]):
        assert [f"{each.json_path}: {each.message}" for each in validator.iter_errors(answer)] == []
        assert list(validator.iter_errors({**answer, "schema": 2}))
        assert list(validator.iter_errors({**answer, "more": 1}))


VARIED = [
    replace(EXAMPLES["house-reads-high"].run, read_as="displayed-pressure", points=off(2.0).points),
    replace(
        EXAMPLES["booster-hand-pump"].run, sensor=replace(BOOSTER, reference="absolute"),
        conditions=Conditions(
            altitude_m=300.0, height_m=1.0, temperature_c=35.0, temperature_effect=1e-4, medium="air"
        ),
    ),
    replace(
        EXAMPLES["booster-hand-pump"].run, sensor=replace(BOOSTER, reference="sealed"),
        conditions=Conditions(barometer_pa=0.98 * BAR),
    ),
    replace(
        shown_run(BOOSTER, [(p * BAR, (p + 1.1) * BAR, "up", 1) for p in (0.0, 5.0, 10.0)]), reference=FINE,
        sensor=replace(BOOSTER, reference="absolute"), conditions=Conditions(barometer_pa=BAR),
    ),
    *(each.run for each in EXAMPLES.values()),
]  # fmt: skip


@pytest.mark.parametrize("run", VARIED, ids=["display", "absolute", "sealed", "absolute display", *EXAMPLES])
def test_every_figure_of_an_answer_leads_down_to_what_was_given(run: CheckRun) -> None:
    """A property: each figure is in the trail, has a name in words, and leads to a reading, a plate, a rule."""
    answer = looked_json(look(run), Speaker(), trace=True)
    steps = {each["number"]: each for each in answer["trace"]}
    assert sorted(steps) == list(range(1, len(steps) + 1))
    for each in steps.values():
        assert bool(each["formula"]) != bool(each["whence"])
        assert bool(each["inputs"]) == bool(each["formula"]) or each["name"] == "signal"
        assert each["called"]
        assert each["source"]["cite"]

    def numbers(value: object) -> list[int]:
        if isinstance(value, dict):
            own = [value["trace"]] if isinstance(value.get("trace"), int) else []
            return own + [number for each in value.values() for number in numbers(each)]
        return [number for each in value for number in numbers(each)] if isinstance(value, list) else []

    names = [each["name"] for each in steps.values()]
    assert max(names.count(name) for name in ("signal-low", "signal-high", "supply-nominal")) <= 1
    shown = numbers({key: value for key, value in answer.items() if key != "trace"})
    assert set(shown) <= set(steps)
    assert len(shown) > 30


@pytest.mark.parametrize("run", VARIED, ids=["display", "absolute", "sealed", "absolute display", *EXAMPLES])
def test_the_error_that_is_judged_is_the_error_that_is_shown(run: CheckRun) -> None:
    """Two ways to one figure: the model of the budget, and the mean of the points' own errors.

    They differ by what a certificate's correction bends within a level: under a pascal here.
    """
    for each in look(run).judged.levels:
        assert each.point.budget.value == pytest.approx(each.level.both.value, abs=0.2)


def test_the_shares_of_a_budget_are_one() -> None:
    """The law of propagation: contributions squared are the variance."""
    answer = looked_json(look(EXAMPLES["house-reads-high"].run), Speaker())
    for level in answer["levels"]:
        assert sum(row["share"] for row in level["budget"]) == pytest.approx(1.0)


def test_the_package_has_its_schema() -> None:
    """The file that the manual names."""
    assert (Path(ROOT) / "src/steadyhead/service/sensorcheck/sensor_check_1.json").is_file()
