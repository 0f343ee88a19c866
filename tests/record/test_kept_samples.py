"""Facts and a whole visit of schema 1 are kept for ever and stay readable."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from steadyhead.visit.archive import Archive, archive_bytes, read_archive
from steadyhead.visit.fact_kinds import KINDS
from steadyhead.visit.facts import canonical, fact_from_text
from steadyhead.visit.from_facts import visit_of_facts
from steadyhead.visit.record import Figure
from tests.cli.terminal import Terminal

KEPT = Path(__file__).parent / "kept"
LINES = (KEPT / "facts_1.jsonl").read_text(encoding="utf-8").splitlines()
VISIT_1 = KEPT / "visit_1.visit"
VISIT = "01KQRX467JHX6XV8A99HSWY9BD"


def test_facts_of_schema_1_are_read_and_written_byte_by_byte_as_they_were() -> None:
    """The kept lines themselves."""
    assert [canonical(fact_from_text(line)) for line in LINES] == LINES


def test_the_kept_facts_are_of_every_kind() -> None:
    """The table of kinds."""
    assert {json.loads(line)["kind"] for line in LINES} == {kind.id for kind in KINDS}


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
