"""The reports for office, next technician and warranty: what each must hold, from the examples' own files."""

from __future__ import annotations

from dataclasses import replace

import pytest

from steadyhead.documents.paper import Paper, Particulars, Shown, Table
from steadyhead.figures import Figure as Made
from steadyhead.figures import trail
from steadyhead.loop.faults import FAULTS
from steadyhead.service.papers.kinds import KINDS, paper_of
from steadyhead.service.papers.office import needed
from steadyhead.service.papers.warranty import PARTS, before_and_after, claimed
from steadyhead.visit.record import Action, Closed, Figure, Reading
from tests.service.papers.occasions import example, fresh, text_of, worded

#: Each kind of signal, both units, a repair that was made, a figure that jumps.
NAMES = ("house-damp-cable", "booster-reversed-loop", "amplified-frost-damage", "house-noise")
REPORTS = ("customer", "office", "next", "tag")


def said_of(kind: str, name: str) -> str:
    """Return what a paper of an example says."""
    return text_of(worded(paper_of(kind, example(name)), example(name)))


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("kind", REPORTS)
def test_every_example_can_be_put_on_every_paper(kind: str, name: str) -> None:
    """Local codes once, and no id of a point or a message left."""
    said = said_of(kind, name)
    assert said.count("Local codes and a licensed person come first.") == 1
    assert not any(word in said for word in ("controller.", "sensor.signal", "paper-", "{", "}"))


@pytest.mark.parametrize("name", NAMES)
def test_the_office_has_every_reading_of_the_file_as_it_was_written(name: str) -> None:
    """The file's own texts, their figures and their units; readings are numbered from 1."""
    table = next(b for b in paper_of("office", example(name)).blocks if isinstance(b, Table) and len(b.columns) == 5)
    seen = example(name)
    assert len(table.rows) == len(seen.visit.readings)
    for row, reading in zip(table.rows, seen.visit.readings, strict=True):
        first = row[2][0]
        if isinstance(reading.value, Figure) and isinstance(first, Shown):
            wanted = float(reading.value.as_written.split()[0].replace("−", "-"))
            shown = worded(paper_of("office", seen), seen)
            assert f"{wanted:.{first.places}f}".lstrip("-") in text_of(shown)


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "certificate"])
def test_every_figure_on_every_paper_leads_down_to_what_was_given(kind: str) -> None:
    """A property of the descent: each leaf was given, each node has a formula and a source."""
    for figure in figures_of(paper_of(kind, example("amplified-frost-damage"))):
        for _, each in trail(figure):
            assert each.source.cite
            assert bool(each.formula) != bool(each.whence)


def figures_of(paper: Paper) -> list[Made]:
    """Return every figure on a paper, wherever in it."""
    found: list[Made] = []

    def look(value: object) -> None:
        if hasattr(value, "figure"):
            found.append(value.figure)
        elif isinstance(value, tuple):
            for each in value:
                look(each)
        elif hasattr(value, "__slots__") and hasattr(value, "__dataclass_fields__"):
            for name in value.__dataclass_fields__:
                look(getattr(value, name))

    look(paper.blocks)
    assert found or paper.kind in {"tag", "customer", "night-card"}
    return found


def test_the_office_says_the_complaint_the_parts_and_what_could_not_be_done() -> None:
    """The file: a frost, a sensor replaced, no insulation tester on the van."""
    said = said_of("office", "amplified-frost-damage")
    assert "Sprinklers at the top end stay dry" in said
    assert "after a freeze" in said
    assert "no insulation tester on the van" in said
    assert "takes: transducer" in said


def test_parts_are_those_of_the_companys_own_list() -> None:
    """The rows of the shipped list of parts for a sensor's replacement."""
    assert needed(["replace-sensor"]) == ["sensor", "fitting", "plug-kit"]
    assert needed(["correct-setting"]) == []


def test_the_next_technician_reads_settings_labels_and_what_to_expect() -> None:
    """The file's own settings and labels; 0.2 and 4.8 V are its limits."""
    said = said_of("next", "house-damp-cable")
    for word in ("Low-signal limit", "High-signal limit", "V+", "AI", "COM", "What to expect", "What was odd"):
        assert word in said
    rows = next(b for b in paper_of("next", example("house-damp-cable")).blocks if isinstance(b, Particulars)).rows
    shown = {line[0].figure.value for _, line in rows if isinstance(line[0], Shown)}
    assert {0.2, 4.8} <= shown


def test_a_wiring_fault_is_claimed_of_no_part() -> None:
    """Remedies of the vocabulary: a cable is mended, no part goes back."""
    said = said_of("warranty", "house-damp-cable")
    assert "Nothing to claim" in said
    assert "Claimed:" not in said


@pytest.mark.parametrize("kind", ["office", "next"])
def test_a_plate_that_nobody_read_is_told_as_such(kind: str) -> None:
    """Range and signal stand on these papers, and are the usual ones."""
    seen = replace(fresh(example("house-damp-cable")), assumed=("sensor.range",))
    assert "Nobody has read the transducer's plate" in text_of(worded(paper_of(kind, seen), seen))


def test_a_part_is_claimed_with_the_readings_that_convict_it() -> None:
    """The file: frost has moved the sensor's zero, and 1.20 V with the sensor open to the air tells."""
    seen = example("amplified-frost-damage")
    assert claimed(seen) == "sensor-zero-shift"
    said = said_of("warranty", "amplified-frost-damage")
    assert "Claimed: transducer's zero has moved." in said
    assert "1.20" in said
    assert "Serial number" in said


def test_what_is_claimed_is_what_the_visit_was_closed_as() -> None:
    """The file's own word wins."""
    seen = example("amplified-frost-damage")
    closed = replace(fresh(seen), visit=replace(seen.visit, closed=Closed(fault="sensor-high", proved=True)))
    assert claimed(closed) == "sensor-high"


def test_parts_that_go_back_are_remedies_of_faults_or_of_the_water_side() -> None:
    """The fault table names those of the loop."""
    assert {fault.remedy for fault in FAULTS} & PARTS == {"replace-sensor", "replace-board", "replace-gauge"}


def test_before_and_after_pairs_the_same_point() -> None:
    """A display read before a repair, and again after it; the gauge only before."""
    seen = example("house-damp-cable")
    gauge, display = seen.visit.readings[:2]
    again = Reading(number=3, measure=display.measure, value=display.value)
    visit = replace(
        seen.visit, readings=(gauge, display, again), actions=(Action(remedy="repair-cable", after_reading=2),)
    )
    assert before_and_after(replace(fresh(seen), visit=visit)) == [(display, again)]


def test_what_was_wrong_is_asked_of_the_visit_before_its_repair() -> None:
    """With an action after the last reading and more readings behind it, the readings before it are what counts."""
    seen = example("amplified-frost-damage")
    later = Reading(number=6, measure="gauge-pressure", value=seen.visit.readings[0].value)
    visit = replace(seen.visit, readings=(*seen.visit.readings, later))
    before = replace(fresh(seen), visit=visit).before_repair
    assert len(before.readings) == 5
    assert before.actions == ()
