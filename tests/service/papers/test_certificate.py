"""The check certificate: what calibration standards ask one to state, and that it never calls itself accredited."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from steadyhead.documents.canonical import content_hash
from steadyhead.documents.html import page
from steadyhead.documents.laid import Look, Values
from steadyhead.documents.paper import Shown, Table
from steadyhead.sensorcheck.file import load_check, parse_check
from steadyhead.service.papers.certificate import certificate
from steadyhead.service.papers.certificate_results import places_of
from steadyhead.service.papers.checked import Checked, check_of_file
from steadyhead.service.papers.kinds import certificate_in_words
from steadyhead.service.sensorcheck.looking import look
from steadyhead.words import Manner
from tests.service.papers.occasions import text_of

FOLDER = Path(__file__).resolve().parents[3] / "examples" / "checks"
ELSEWHERE = Manner(region="elsewhere")
NAMES = [path.stem for path in sorted(FOLDER.glob("*.toml"))]


@cache
def checked(name: str) -> Checked:
    """Return an example's check."""
    return check_of_file(load_check(FOLDER / f"{name}.toml"))


def words(seen: Checked, look_: Look | None = None, manner: Manner = ELSEWHERE) -> Values:
    """Return the certificate of a check in words."""
    return certificate_in_words(certificate(seen), seen, manner, look_ or Look())


@pytest.mark.parametrize("name", NAMES)
def test_it_says_plainly_that_it_is_not_accredited_and_never_that_it_is(name: str) -> None:
    """Every mention of accreditation is a denial."""
    said = text_of(words(checked(name)))
    assert "It is no accredited calibration" in said
    mentions = re.findall(r"[^.]*accredit[^.]*", said)
    assert mentions
    assert all(" no " in each for each in mentions)


def test_a_signal_is_told_with_its_kind() -> None:
    """The plates of the two examples: 2.5 V says nothing of a ratiometric type without its supply."""
    assert "0.5 to 4.5 V ratiometric, 3 wires" in text_of(words(checked("house-reads-high")))
    assert re.search(r"4 to 20 mA.{0,3}2 wires", text_of(words(checked("booster-hand-pump"))))


def test_what_would_settle_it_is_what_the_house_call_was_told() -> None:
    """At each level another gauge would do; told of all of them the certificate contradicted itself."""
    head = 'schema = 1\n[sensor]\nsignal = "4..20 mA"\nrange = "0..10 bar"\naccuracy = "1 %"\n'
    gauge = '[reference]\nrange = "0..16 bar"\naccuracy = "2 %"\nresolution = "0.1 bar"\n'
    rows = "".join(
        f'[[point]]\nreference = "{bar} bar"\ndirection = "up"\nsignal = "{mark} mA"\n'
        for bar, mark in ((0, 4.05), (5, 12.02), (10, 20.01))
    )
    seen = check_of_file(parse_check(head + gauge + rows))
    assert seen.looked.judged.outcome == "cannot-tell"
    assert text_of(words(seen)).count("would settle it") == 1


@pytest.mark.parametrize("name", NAMES)
def test_it_states_what_standards_of_calibration_ask_for(name: str) -> None:
    """The list of ISO/IEC 17025:2017, 7.8.2.1 and 7.8.4 (from memory).

    Title, item, method, results with units and uncertainty, conditions, traceability, decision rule, as found or left,
    that the results are of this item alone, and who.
    """
    said = text_of(words(checked(name)))
    for head in (
        "Check certificate", "Method", "Reference, and how it is traceable", "Conditions, and what was assumed",
        "Results", "expanded uncertainty", "Student's t", "Rule of decision", "As found and as left", "alone",
        "Technician, date",
    ):  # fmt: skip
        assert head in said
    assert str(checked(name).run.serial) in said


def test_a_reference_with_a_certificate_is_told_by_it() -> None:
    """The example's own certificate: its number, its date, 0.010 bar with k = 2."""
    said = text_of(words(checked("booster-hand-pump")))
    assert "2025-1187" in said
    assert "2025-11-20" in said
    assert "0.01 bar (1 kPa) , k = 2" in said


def test_a_reference_without_a_certificate_is_not_told_to_be_traceable() -> None:
    """The same check without it."""
    seen = checked("booster-hand-pump")
    reference = replace(seen.run.reference, certificate=None, gauge=replace(seen.run.reference.gauge, accuracy=0.0025))
    bare = replace(seen, looked=look(replace(seen.run, reference=reference)))
    said = text_of(words(bare))
    assert "Traceability to the units of the SI is not shown." in said
    assert "2025-1187" not in said


@pytest.mark.parametrize("name", NAMES)
def test_an_uncertainty_has_two_significant_digits_and_no_error_more_than_it(name: str) -> None:
    """JCGM 100:2008, 7.2.6 (from memory): by the digits of the least one, in the unit of the paper."""
    seen = checked(name)
    table = next(b for b in certificate(seen).blocks if isinstance(b, Table))
    factor = {"psi": 6894.757293168361, "bar": 1e5}[seen.pressure_unit]
    least = min(each.value for each in seen.expanded) / factor
    assert 10 <= round(least * 10 ** places_of(seen), 6) < 100
    cells = [cell[0] for row in table.rows for cell in row]
    places = {one.places for one in cells if isinstance(one, Shown) and one.unit == seen.pressure_unit}
    assert places == {places_of(seen)}


@pytest.mark.parametrize("name", NAMES)
def test_every_point_and_every_level_stands_on_it(name: str) -> None:
    """Counting against the file's own rows."""
    seen = checked(name)
    tables = [len(b.rows) for b in certificate(seen).blocks if isinstance(b, Table)]
    assert tables[0] == len(seen.looked.judged.levels)
    assert tables[-1] == len(seen.run.points)


def test_as_found_stands_beside_as_left_where_both_are_known() -> None:
    """A check as left whose points all read a tenth of a volt (or milliampere) less: the change is that, everywhere."""
    seen = checked("booster-hand-pump")
    lower = tuple(replace(each, signal=None if each.signal is None else each.signal - 1e-4) for each in seen.run.points)
    left = replace(seen.run, points=lower, stage="as-left")
    both = replace(seen, looked=look(left), other=seen.looked)
    table = next(b for b in certificate(both).blocks if isinstance(b, Table) and len(b.columns) == 4)
    changes = [row[3][0].figure.value for row in table.rows if isinstance(row[3][0], Shown)]
    assert changes == pytest.approx([-1e-4 / 16e-3 * 16e5] * len(table.rows), rel=1e-6)


@pytest.mark.parametrize("name", NAMES)
def test_it_can_be_set_and_its_hash_is_of_what_it_says(name: str) -> None:
    """Degrees of freedom without end are told in words; the same check gives the same bytes and hash."""
    seen = checked(name)
    first, second = (page(words(seen, Look(trace=True)), "p{}") for _ in range(2))
    assert first == second
    assert content_hash(certificate(seen)) == words(seen)["hash"]
    assert "inf" not in re.findall(r"\binf\b", first)
