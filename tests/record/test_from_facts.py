"""From facts to the visit that the engine takes, and back; what disagrees or cannot be read is told."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from steadyhead.errors import RecordError
from steadyhead.visit import load_visit, parse_visit
from steadyhead.visit.facts import Fact
from steadyhead.visit.from_facts import ToldVisit, visit_of_facts
from steadyhead.visit.pen import Pen
from steadyhead.visit.tables import text_of_tables
from steadyhead.visit.to_facts import facts_of_tables
from tests.record.bench import ROOT, ToldClock, seeded_ids

FILES = sorted([*(ROOT / "examples").glob("*.toml"), *(ROOT / "tests" / "visit" / "archive").glob("*.toml")])
CLOCK = ToldClock()
PEN = Pen(new_id=seeded_ids(CLOCK).new, clock=CLOCK, author="Ann", program="0.1.0")
TEXT = """
schema = 1
[sensor]
signal = "0.5..4.5 V ratiometric"
range = "0..100 psi"
[controller]
low_fault = "0.2 V"
[[reading]]
measure = "gauge-pressure"
value = "48 psi"
[[reading]]
measure = "displayed-pressure"
value = "31 psi"
[[action]]
remedy = "repair-cable"
after_reading = 1
"""


def told(facts: list[Fact] | tuple[Fact, ...], purged: frozenset[str] = frozenset()) -> ToldVisit:
    """Return the only visit of facts."""
    return visit_of_facts(facts, next(fact.about for fact in facts if fact.kind == "visit"), purged)


def small() -> list[Fact]:
    """Return the facts of the visit above."""
    return list(facts_of_tables(tomllib.loads(TEXT), PEN))


def of_kind(facts: list[Fact], kind: str) -> list[Fact]:
    """Return the facts of a kind."""
    return [fact for fact in facts if fact.kind == kind]


def corrected(old: Fact, **body: Any) -> Fact:  # noqa: ANN401 - any value of a body
    """Return a correction of a fact."""
    return PEN.fact(old.kind, {**old.body, **body}, about=old.about, visit=old.visit, supersedes=(old.id,))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_a_visit_file_comes_out_of_the_record_as_it_went_in(path: Path) -> None:
    """Round trip of every example and every archived file: the same visit, and a text that reads as the same."""
    text = path.read_text(encoding="utf-8")
    out = told(facts_of_tables(tomllib.loads(text), PEN))
    assert out.visit == load_visit(path).visit
    assert parse_visit(text_of_tables(out.tables)).visit == out.visit
    assert (out.clashes, out.set_aside, out.assumed) == ((), (), ())


def test_facts_in_any_order_tell_the_same_visit() -> None:
    """A set has no order."""
    facts = small()
    assert told(facts[::-1]).visit == told(facts).visit


def test_a_correction_takes_the_place_of_what_it_corrects_and_keeps_the_readings_number() -> None:
    """The decision on corrections: the place is that of the entity's first fact."""
    facts = small()
    first = of_kind(facts, "reading")[0]
    out = told([*facts, corrected(first, value="50 psi")])
    assert [reading.value.as_written for reading in out.visit.readings] == ["50 psi", "31 psi"]  # type: ignore[union-attr]
    assert out.readings[0] == first.about
    assert out.number_of(first.about) == 1
    assert [fact.body["value"] for fact in out.entities[first.about].history] == ["48 psi", "50 psi"]


def test_an_action_stays_after_the_reading_it_followed_when_one_is_taken_out() -> None:
    """Reading 1 goes out: the action comes before the first that is left."""
    facts = small()
    out = told([*facts, corrected(of_kind(facts, "reading")[0], withdrawn=True)])
    assert (len(out.visit.readings), out.visit.actions[0].after_reading) == (1, 0)


def test_a_reading_on_which_two_devices_disagree_is_no_evidence_until_it_is_settled() -> None:
    """Both values are shown; a fact that replaces both settles it."""
    facts = small()
    first = of_kind(facts, "reading")[0]
    one, other = corrected(first, value="50 psi"), corrected(first, value="46 psi")
    out = told([*facts, one, other])
    assert len(out.visit.readings) == 1
    assert [(clash.key, clash.values) for clash in out.clashes] == [("value", ("50 psi", "46 psi"))]
    settled = replace(corrected(first, value="46 psi"), supersedes=(one.id, other.id))
    after = told([*facts, one, other, settled])
    assert (len(after.visit.readings), after.clashes) == (2, ())


def test_a_reading_whose_optional_key_is_in_conflict_is_no_evidence_either() -> None:
    """The pressure that stood while it was read: both say one, and nobody knows which."""
    facts = small()
    second = of_kind(facts, "reading")[1]
    out = told([*facts, corrected(second, pressure="30 psi"), corrected(second, pressure="60 psi")])
    assert (len(out.visit.readings), out.clashes[0].key) == (1, "pressure")


def test_a_value_that_cannot_be_read_is_set_aside_with_its_fact_and_its_key() -> None:
    """A newer word in a reading, a newer value in the system, a fault limit that another forbids."""
    facts = small()
    newer = PEN.fact("reading", {"measure": "vibration", "value": "3 mm/s"}, visit=facts[0].about)
    limits = {"low_fault": "5 V", "high_fault": "4 V"}
    system = corrected(of_kind(facts, "system")[0], cable={"length": "far"}, controller=limits)
    out = told([*facts, newer, system])
    assert len(out.visit.readings) == 2
    assert out.visit.cable.length_m is None
    told_of = {(each.fact, each.key) for each in out.set_aside}
    assert (newer.id, "[reading] measure") in told_of
    assert (system.id, "[cable] length") in told_of
    assert any(key.startswith("[controller]") for _, key in told_of)


def test_keys_of_a_newer_version_do_not_stand_in_the_way() -> None:
    """An unknown key, table and kind."""
    facts = small()
    facts += [
        corrected(of_kind(facts, "system")[0], cable={"length": "12 m", "colour": "grey"}, pump={"kind": "x"}),
        PEN.fact("vibration", {"spectrum": [1, 2]}, visit=facts[0].about),
    ]
    out = told(facts)
    assert (out.visit.cable.length_m, out.set_aside) == (12.0, ())


def test_a_reading_of_another_loop_is_kept_and_told_and_is_no_evidence_on_this_one() -> None:
    """The reserved key of the record's manual; `main` is this loop."""
    facts = small()
    one, other = of_kind(facts, "reading")
    out = told([*facts, corrected(one, loop="main"), spare := corrected(other, loop="spare")])
    assert [reading.measure for reading in out.visit.readings] == ["gauge-pressure"]
    assert [(each.fact, each.key) for each in out.set_aside] == [(spare.id, "loop")]
    assert out.entities[other.about].body["loop"] == "spare"


def test_a_plate_that_nobody_read_is_assumed_and_said_so() -> None:
    """The documented default."""
    facts = [fact for fact in small() if fact.kind != "system"]
    out = told(facts)
    assert out.assumed == ("sensor.signal", "sensor.range")
    assert out.visit.sensor.range.high == pytest.approx(689475.729, abs=0.001)  # 100 psi, NIST SP 811 B.8


def test_a_purged_reading_is_no_evidence_any_more() -> None:
    """What a purge names is covered by entity, fact or visit."""
    facts = small()
    first = of_kind(facts, "reading")[0]
    assert len(told(facts, frozenset({first.about})).visit.readings) == 1


def test_an_ended_visit_is_read_with_the_system_as_it_stood() -> None:
    """A later sensor does not change what an earlier visit found."""
    facts = small()
    system, visit = of_kind(facts, "system")[0], of_kind(facts, "visit")[0]
    ended = corrected(visit, state="proved-on-site", system_as=[system.id])
    later = corrected(system, sensor={"signal": "4..20 mA", "range": "0..10 bar"})
    assert told([*facts, ended, later]).visit.sensor.signal.kind == "ratiometric"
    assert told([*facts, later]).visit.sensor.signal.kind == "current"


def test_a_visit_of_which_no_fact_is_known_is_an_error() -> None:
    """Nothing is made up."""
    with pytest.raises(RecordError, match="visit-unknown"):
        visit_of_facts([], "0" * 26)
