"""Facts and a whole visit of schema 1 are kept for ever and stay readable."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from steadyhead.sensorcheck.from_facts import check_of_facts
from steadyhead.visit.archive import Archive, archive_bytes, read_archive
from steadyhead.visit.fact_kinds import KINDS
from steadyhead.visit.facts import canonical, fact_from_text
from steadyhead.visit.from_facts import visit_of_facts
from steadyhead.visit.record import Figure
from steadyhead.visit.stock import read_stock
from tests.cli.terminal import Terminal

KEPT = Path(__file__).parent / "kept"
LINES = (KEPT / "facts_1.jsonl").read_text(encoding="utf-8").splitlines()
CHECK_LINES = (KEPT / "check_1.jsonl").read_text(encoding="utf-8").splitlines()
VAN_LINES = (KEPT / "van_1.jsonl").read_text(encoding="utf-8").splitlines()
TEMPORARY_LINES = (KEPT / "temporary_1.jsonl").read_text(encoding="utf-8").splitlines()
ARRIVING_LINES = (KEPT / "arriving_1.jsonl").read_text(encoding="utf-8").splitlines()
ENDING_LINES = (KEPT / "ending_1.jsonl").read_text(encoding="utf-8").splitlines()
BIRTH_LINES = (KEPT / "birth_1.jsonl").read_text(encoding="utf-8").splitlines()
VISIT_1 = KEPT / "visit_1.visit"
VISIT = "01KQRX467JHX6XV8A99HSWY9BD"


def test_facts_of_schema_1_are_read_and_written_byte_by_byte_as_they_were() -> None:
    """The kept lines themselves."""
    every = [*LINES, *CHECK_LINES]
    assert [canonical(fact_from_text(line)) for line in every] == every


def test_the_sensor_check_of_schema_1_says_what_was_entered() -> None:
    """What was typed when the sample was made: 2.13 V corrected to 2.12 V, the last point taken out, then finished."""
    told = check_of_facts(map(fact_from_text, CHECK_LINES), json.loads(CHECK_LINES[0])["about"])
    assert [point.signal for point in told.run.points] == [0.512, 2.12, 3.74]
    assert (told.run.serial, told.state, told.run.reference.gauge.grade) == ("K-4471", "finished", "2A")
    assert told.run.reference.certificate is not None
    assert (told.clashes, told.set_aside, told.assumed) == ((), (), ())


def test_the_kept_facts_are_of_every_kind() -> None:
    """The table of kinds."""
    every = (*LINES, *CHECK_LINES, *TEMPORARY_LINES, *ARRIVING_LINES, *ENDING_LINES, *VAN_LINES, *BIRTH_LINES)
    assert {json.loads(line)["kind"] for line in every} == {kind.id for kind in KINDS}


def test_the_van_of_schema_1_says_what_was_entered() -> None:
    """What was typed when the sample was made: two on the van, one fitted, then four counted; byte by byte."""
    facts = [fact_from_text(line) for line in VAN_LINES]
    assert [canonical(each) for each in facts] == VAN_LINES
    stock, fitted, again = facts
    sensor, problems = read_stock(stock.body)
    assert problems == ()
    assert sensor is not None
    assert (sensor.name, sensor.thread, sensor.approval) == ("House, 150 psi", "1/4 NPT", ("nsf-61", "nsf-372"))
    assert (fitted.body["stock"], fitted.body["serial"]) == (stock.about, "K-4471")
    assert (again.body["count"], again.body["counted"], again.supersedes) == (4, [fitted.id], (stock.id,))


def test_what_was_left_temporary_in_schema_1_says_what_was_entered() -> None:
    """What was typed when the sample was made; it is written again byte by byte."""
    fact = fact_from_text(TEMPORARY_LINES[0])
    assert canonical(fact) == TEMPORARY_LINES[0]
    assert (fact.body["until"], fact.body["watch"]) == ("2026-05-07", "Mr Dahl, twice a day")
    assert list(fact.body["lost"]) == ["sensor-fault-stop"]


def test_what_was_kept_on_arriving_in_schema_1_is_written_again_byte_by_byte() -> None:
    """The kept lines: how a first minute ended, a reading and a photo as found, who depends on the water."""
    facts = [fact_from_text(line) for line in ARRIVING_LINES]
    assert [canonical(fact) for fact in facts] == ARRIVING_LINES
    said = {fact.kind: fact.body for fact in facts}
    assert said["first-minute"]["state"] == "taken"
    assert (said["reading"]["measure"], said["reading"]["stage"]) == ("displayed-hours", "as-found")
    assert (said["photo"]["shows"], said["photo"]["stage"]) == ("display", "as-found")
    assert (list(said["system"]["depends"]), said["system"]["access"]) == (["dialysis"], "dog in the yard")


def test_an_ending_and_what_comes_back_of_schema_1_say_what_was_entered() -> None:
    """What was typed when the sample was made: ended for the night, then declined; written again byte by byte."""
    facts = [fact_from_text(line) for line in ENDING_LINES]
    assert [canonical(fact) for fact in facts] == ENDING_LINES
    bodies = {fact.kind: fact.body for fact in facts}
    assert bodies["visit"]["ending"] == {"by": "Mr Dahl", "offered": "a new transducer", "risk_told": True}
    assert bodies["follow-up"] == {
        "due": "2026-05-05", "kind": "night-test", "ring": "Ann, 555 0100", "shut": "house-valve"
    }  # fmt: skip


def test_birth_readings_of_schema_1_say_what_was_entered() -> None:
    """What was typed when the sample was made; it is written again byte by byte."""
    fact = fact_from_text(BIRTH_LINES[0])
    assert canonical(fact) == BIRTH_LINES[0]
    assert [row["value"] for row in fact.body["numbers"]] == ["5.01 V", "200 Mohm"]


def test_the_visit_of_schema_1_says_what_was_entered() -> None:
    """What was typed when the sample was made: 11.2 V corrected to 1.12 V, one note erased."""
    told = visit_of_facts(map(fact_from_text, LINES), VISIT)
    visit = told.visit
    assert [reading.measure for reading in visit.readings] == ["gauge-pressure", "volts"]
    assert isinstance(visit.readings[1].value, Figure)
    assert visit.readings[1].value.value == 1.12
    assert (visit.site.name, visit.site.altitude_m, visit.complaint.text) == ("Alder Farm", 310.0, "Runs flat out")
    assert (visit.actions[0].remedy, visit.actions[0].after_reading) == ("repair-cable", 2)
    assert (visit.closed.fault, visit.closed.proved) == ("leakage-signal-common", True)
    assert visit.instruments.gauge is not None
    assert visit.instruments.gauge.grade == "B"
    assert (told.clashes, told.set_aside, told.assumed) == ((), (), ())
    notes = [entity.body for entity in told.entities.values() if entity.kind == "note"]
    assert notes == [{"text": "dog in the yard"}, {}]


def test_the_whole_visit_of_schema_1_is_packed_again_byte_by_byte() -> None:
    """The kept archive."""
    data = VISIT_1.read_bytes()
    found = read_archive(data, "visit_1.visit")
    assert [canonical(fact) for fact in found.facts] == LINES
    assert archive_bytes(Archive(text=found.text, facts=found.facts, photos=found.photos)) == data


def test_a_command_takes_a_whole_visit_like_the_visit_file_inside(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """The same answer, byte by byte; a damaged one is refused with exit code 2 and nothing on the output."""
    terminal = Terminal(capsys, monkeypatch)
    inside = tmp_path / "visit.toml"
    inside.write_text(read_archive(VISIT_1.read_bytes(), "").text, encoding="utf-8")
    whole, plain = (terminal.run("expect", str(path), "--json") for path in (VISIT_1, inside))
    assert (whole.code, whole.out) == (0, plain.out)
    damaged = tmp_path / "damaged.visit"
    damaged.write_bytes(VISIT_1.read_bytes()[:-40])
    refused = terminal.run("diagnose", str(damaged))
    assert (refused.code, refused.out) == (2, "")
    assert "damaged" in refused.err
