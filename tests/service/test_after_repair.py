"""What must read right after a repair, by the plate's straight line and by the trade's order: gauge first."""

from __future__ import annotations

import pytest

from steadyhead.service.after_repair import PROOFS, missing, proofs, proofs_json, questions, reads_right
from steadyhead.service.repair_cautions import REPAIR_CAUTIONS
from steadyhead.visit import parse_visit
from steadyhead.visit.record import Visit

PSI = 6894.757293168361
PLATE = 'schema = 1\n[sensor]\nsignal = "{signal}"\nrange = "0..100 psi"\n[controller]\nscaled = "{scaled}"\n'
GAUGE = '[[reading]]\nmeasure = "gauge-pressure"\nvalue = "{psi} psi"\n'
DISPLAY = '[[reading]]\nmeasure = "displayed-pressure"\nvalue = "{psi} psi"\n'
VOLTS = '[[reading]]\nmeasure = "volts"\nred = "controller.signal"\nblack = "controller.common"\nvalue = "{volts}"\n'
ACTION = '[[action]]\nremedy = "{remedy}"\nafter_reading = {after}\n'


def visit(*rows: str, signal: str = "0.5..4.5 V ratiometric", scaled: str = "0..100 psi") -> Visit:
    """Return a visit with these rows."""
    return parse_visit(PLATE.format(signal=signal, scaled=scaled) + "".join(rows)).visit


@pytest.mark.parametrize("psi", [0.0, 20.0, 48.0, 100.0])
def test_the_bands_hold_the_plates_line(psi: float) -> None:
    """Display as the gauge; signal 0.5 + psi/100 x 4 V."""
    display, signal = (p.band for p in proofs(visit(GAUGE.format(psi=psi)), "replace-sensor")[1:])
    assert display is not None
    assert signal is not None
    assert display.low < psi * PSI < display.high
    assert signal.low < 0.5 + 0.04 * psi < signal.high


def test_a_band_leaves_no_room_for_a_fault_that_any_gauge_would_show() -> None:
    """Grade B of 160 psi is 3.2 psi in mid-scale: a tenth of the range off is not right."""
    display = proofs(visit(GAUGE.format(psi=48)), "replace-sensor")[1].band
    assert display is not None
    assert not display.low < 38 * PSI < display.high
    assert not display.low < 58 * PSI < display.high


def test_a_setting_that_is_put_right_is_as_the_plate_says() -> None:
    """Set to 0..200 psi it would show twice the pressure; once mended it shows 48 psi."""
    display = proofs(visit(GAUGE.format(psi=48), scaled="0..200 psi"), "correct-setting")[1].band
    assert display is not None
    assert display.low < 48 * PSI < display.high < 96 * PSI


@pytest.mark.parametrize("remedy", ["replace-gauge", "clear-vacuum"])
def test_no_band_is_told_from_a_pressure_that_was_what_was_wrong(remedy: str) -> None:
    """A gauge that lies, or a vacuum, says nothing of what must be read afterwards."""
    assert [p.band for p in proofs(visit(GAUGE.format(psi=48)), remedy)] == [None, None]
    assert proofs(visit(), "replace-sensor")[1].band is None


def test_the_gauge_is_read_first_and_a_pair_asks_for_each_once() -> None:
    """The order of the trade: pressure, display, terminals."""
    assert [q.measure for q in questions("remove-load+replace-sensor")] == [
        "gauge-pressure", "displayed-pressure", "volts", "volts",
    ]  # fmt: skip


def test_every_repair_of_the_loop_is_proved_by_something() -> None:
    """The remedies that have cautions are those of the loop."""
    unproved = {remedy for remedy in REPAIR_CAUTIONS if not questions(remedy)}
    assert unproved == {"none", "look-further"}
    assert set(PROOFS) <= set(REPAIR_CAUTIONS)


def test_what_is_missing_is_what_was_not_read_since_the_repair() -> None:
    """The file's own order."""
    rows = (GAUGE.format(psi=48), DISPLAY.format(psi=15), ACTION.format(remedy="replace-sensor", after=2))
    assert [p.question.measure for p in missing(visit(*rows))] == ["gauge-pressure", "displayed-pressure", "volts"]
    assert [p.question.measure for p in missing(visit(*rows, GAUGE.format(psi=50)))] == ["displayed-pressure", "volts"]
    assert missing(visit(GAUGE.format(psi=48))) == ()


@pytest.mark.parametrize(
    ("psi", "volts", "right"),
    [
        ("50.1", "2.51 V", True),
        ("15.5", "1.12 V", False),
        ("50.1", "1.12 V", False),
        ("50.1", "2.3..2.7 V jumping", False),
    ],
)
def test_a_repair_has_helped_where_all_lies_in_its_band(psi: str, volts: str, right: bool) -> None:
    """2.5 V at 50 psi."""
    rows = (GAUGE.format(psi=48), ACTION.format(remedy="replace-sensor", after=1), GAUGE.format(psi=50))
    assert reads_right(visit(*rows, DISPLAY.format(psi=psi), VOLTS.format(volts=volts))) is right


def test_as_json_each_has_its_unit_or_none() -> None:
    """The units that instruments show; a two-wire loop has its volts over the input."""
    at = visit(GAUGE.format(psi=48), signal="4..20 mA")
    told = proofs_json(proofs(at, "replace-sensor"), "psi")
    assert [each["unit"] for each in told] == [None, "psi", "V"]
    assert told[1]["low"] < 48.0 < told[1]["high"]
