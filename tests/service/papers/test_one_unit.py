"""One unit of pressure on each paper, whatever was typed: factors from the SI Brochure and NIST SP 811 by hand."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from steadyhead.diagnosis.diagnose import diagnosed
from steadyhead.sensorcheck.file import load_check
from steadyhead.service.healthy import healthy_bands
from steadyhead.service.papers.certificate import certificate
from steadyhead.service.papers.checked import check_of_file
from steadyhead.service.papers.kinds import KINDS, certificate_in_words, look_of, paper_of
from steadyhead.service.papers.occasion import of_file, of_record
from steadyhead.service.record.ending import NIGHT_PENDING, Ending, end_with
from steadyhead.service.record.follow_ups import what_waits
from steadyhead.service.record.night import keep_night
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.readings import add_reading, correct_reading, record_action
from steadyhead.service.record.temporary import leave_temporary
from steadyhead.service.record.visits import start_visit
from steadyhead.service.tonight import Chosen
from steadyhead.visit import parse_visit
from steadyhead.visit.record import Interval
from steadyhead.words import USUAL
from tests.record.device import Device
from tests.record.test_night import CARD
from tests.record.test_temporary import LEFT
from tests.service.answers import EXAMPLES
from tests.service.papers.occasions import ENGINE, text_of, worded
from tests.water.answered import WELL

#: Units that a pressure may be typed or told in; SI stands in brackets, and in a column of its own.
UNIT = re.compile(r"\b(psi|bar|mH2O|ftH2O)\b")
CHECK = EXAMPLES[0].parent / "checks" / "booster-hand-pump.toml"
THREE_UNITS = """schema = 1
[sensor]
signal = "0.5..4.5 V ratiometric"
range = "0..100 psi"
[controller]
scaled = "0..700 kPa"
[instruments]
gauge = { range = "0..10 bar", grade = "B" }
"""


def a_visit(device: Device) -> str:
    """Return a visit of a sensor of 0 to 100 psi, read, corrected, mended and left temporary in both units."""
    given = device.given
    visit = start_visit(given, {}, sensor={"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi"})
    for measure, value in (
        ("gauge-pressure", "4.9 bar"), ("displayed-pressure", "21.8 psi"), ("displayed-setpoint", "> 90 psi"),
    ):  # fmt: skip
        add_reading(given, visit, {"measure": measure, "value": value}, confirmed=True)
    add_reading(
        given, visit, {"measure": "volts", "red": "controller.signal", "black": "controller.common",
                       "arrangement": "connected", "value": "1.37 V"},
        confirmed=True,
    )  # fmt: skip
    first = visit_page(given, visit).rows[0].id
    correct_reading(given, visit, first, {"value": "4.96 bar"})
    record_action(given, visit, "repair-cable")
    add_reading(given, visit, {"measure": "gauge-pressure", "value": "60 psi"}, confirmed=True)
    end_with(given, visit, Ending(state=NIGHT_PENDING, due="2026-05-05", night={"ring": "Ann"}))
    keep_night(given, visit, what_waits(given)[0].pending.about, replace(CARD, more={**CARD.more, "waited": "no"}))
    leave_temporary(given, visit, LEFT, chosen=Chosen("fixed-speed", {**WELL, "watch": "in-house"}))
    return visit


@pytest.fixture(scope="module")
def left() -> tuple[Device, str]:
    """Return a device, and the visit that it keeps."""
    device = Device()
    return device, a_visit(device)


def said(left: tuple[Device, str], kind: str, unit: str) -> str:
    """Return the text of a paper in a reader's unit."""
    device, visit = left
    manner = replace(USUAL, unit=unit)
    seen = visit_page(device.given, visit)
    occasion = of_record(seen, diagnosed(seen.visit).answer, healthy_bands(seen.visit), ENGINE).in_unit_of(manner)
    return text_of(worded(paper_of(kind, occasion), occasion, manner))


@pytest.mark.parametrize("unit", ["", "psi", "bar", "ftH2O"])
@pytest.mark.parametrize("kind", KINDS)
def test_a_paper_has_one_unit_of_pressure(left: tuple[Device, str], kind: str, unit: str) -> None:
    """No other unit than the chosen one, the plate's where none is; only cards for the night have none at all.

    What is printed on the plate stands beside it in brackets.
    """
    found = set(UNIT.findall(said(left, kind, unit).replace("(100 psi)", "")))
    assert found <= {unit or "psi"}
    assert found or kind == "night-card"


@pytest.mark.parametrize(
    ("unit", "told"),
    [
        ("", "100 psi (689 kPa)"),
        ("psi", "100 psi (689 kPa)"),
        ("bar", "6.895 bar (100 psi)"),
        ("kPa", "689.5 kPa (100 psi)"),
    ],
)
def test_a_plate_has_its_own_unit_in_brackets(left: tuple[Device, str], unit: str, told: str) -> None:
    """100 psi is 689.476 kPa; where the paper is in the plate's unit SI stands there, as beside any other figure."""
    device, visit = left
    manner = replace(USUAL, unit=unit)
    seen = visit_page(device.given, visit)
    shown = replace(seen, visit=replace(seen.visit, pressure_unit=unit or seen.visit.pressure_unit))
    occasion = of_record(shown, None, {}, ENGINE).in_unit_of(manner)
    assert told in text_of(worded(paper_of("office", occasion), occasion, manner))


@pytest.mark.parametrize(
    ("unit", "dial", "scaled"),
    [
        ("psi", "0 to 145.0377 psi (10 bar) , grade", "0 to 101.5264 psi (700 kPa)"),
        ("bar", "0 to 10 bar , grade", "0 to 7 bar (700 kPa)"),
        ("kPa", "0 to 1000 kPa (10 bar) , grade", "0 to 700 kPa"),
    ],
)
def test_a_dial_and_a_range_setting_have_their_own_unit_in_brackets(unit: str, dial: str, scaled: str) -> None:
    """A plate in psi, a dial in bar, a drive in kPa; 10 bar is 145.0377 psi and 7 bar is 101.5264 psi (6894.757 Pa)."""
    manner = replace(USUAL, unit=unit)
    occasion = of_file(parse_visit(THREE_UNITS), None, ENGINE).in_unit_of(manner)
    text = " ".join(text_of(worded(paper_of(kind, occasion), occasion, manner)) for kind in ("office", "next"))
    assert dial in text
    assert re.search(rf"{re.escape(scaled)}(?! \()", text)


def test_a_certificate_has_the_dial_s_own_unit_in_brackets() -> None:
    """The example's reference gauge reads to 25 bar, which is 2500 kPa; its sensor to 16 bar."""
    seen = replace(check_of_file(load_check(CHECK)), pressure_unit="kPa")
    paper = certificate(seen)
    assert "0 to 2500 kPa (25 bar)" in text_of(certificate_in_words(paper, seen, USUAL, look_of(paper, USUAL)))


def test_what_was_read_in_another_unit_is_turned_with_its_digits(left: tuple[Device, str]) -> None:
    """1 bar is 14.5038 psi: 4.96 bar is 71.9 psi, 4.9 bar 71 psi; 60 psi is 4.14 bar, 21.8 psi 1.503 bar."""
    here = said(left, "office", "psi")
    assert "71.9" in here
    assert "71 psi" in here
    there = said(left, "office", "bar")
    assert all(figure in there for figure in ("4.96", "4.14", "1.503", "4.9 bar"))


def test_a_limit_is_turned_to_the_safe_side(left: tuple[Device, str]) -> None:
    """The tag's 90 psi, as kept: 6.20528 bar is 6.20, never 6.21."""
    assert "6.20 bar" in said(left, "tag", "bar")


@pytest.mark.parametrize("unit", ["psi", "bar", "ftH2O"])
def test_a_certificate_has_one_unit_of_pressure(unit: str) -> None:
    """The example's sensor is of bar; its certificate in any unit."""
    manner = replace(USUAL, unit=unit)
    seen = replace(check_of_file(load_check(CHECK)), pressure_unit=unit)
    paper = certificate(seen)
    text = text_of(certificate_in_words(paper, seen, manner, look_of(paper, manner)))
    assert set(UNIT.findall(text.replace("(16 bar)", "").replace("(25 bar)", ""))) == {unit}
    assert ("(16 bar)" in text) == (unit != "bar")


@pytest.mark.parametrize(
    ("unit", "told"),
    [
        ("bar", "\N{MINUS SIGN}1 to 9 bar (900 kPa)"),
        ("kPa", "\N{MINUS SIGN}100 kPa (\N{MINUS SIGN}1 bar) to 900 kPa (9 bar)"),
    ],
)
def test_a_plate_that_begins_below_zero_tells_both_ends(unit: str, told: str) -> None:
    """-1 to 9 bar is -100 to 900 kPa; in the plate's own unit only its end has SI beside it, as before."""
    manner = replace(USUAL, unit=unit)
    seen = check_of_file(load_check(CHECK))
    run = replace(seen.run, sensor=replace(seen.run.sensor, range=Interval(-1e5, 9e5)))
    seen = replace(seen, looked=replace(seen.looked, run=run), pressure_unit=unit)
    paper = certificate(seen)
    assert told in text_of(certificate_in_words(paper, seen, manner, look_of(paper, manner)))
