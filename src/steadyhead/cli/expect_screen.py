"""The screen of what should be read: every point now, were nothing wrong, and the signal over the whole range."""

from __future__ import annotations

from steadyhead.cli.page import columns, paragraph
from steadyhead.quantities import parse, spell
from steadyhead.service.answer_words import system_line
from steadyhead.service.expecting import Expectation, Step
from steadyhead.service.figures import SHOWN, band, band_said
from steadyhead.visit.record import Visit
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence

LOOP = "loop"


def expect_screen(visit: Visit, expected: Expectation, speaker: Speaker, wide: int) -> list[str]:
    """Return the lines of the screen."""
    unit = visit.pressure_unit
    lines = [speaker.printable(visit.site.name)] if visit.site.name else []
    lines += [*paragraph(system_line(visit, speaker), wide), ""]
    if expected.pressure_pa is None:
        lines += paragraph(speaker.tell("pressure-needed", example=spell(410e3, unit, digits=2)), wide)
    else:
        lines += paragraph(speaker.tell("expect-head", pressure=expected.pressure_pa), wide)
        lines += [f"  {row}" for row in columns(_points(expected, speaker, unit))]
    lines += ["", *_table(visit, expected, speaker)]
    return lines


def _points(expected: Expectation, speaker: Speaker, unit: str) -> list[tuple[str, ...]]:
    rows = [(_point(point, speaker), band_said(found, speaker)) for point, found in expected.points.items()]
    if expected.display is not None:
        one = parse(f"1 {unit}", "pressure")
        shown = (expected.display.low / one, expected.display.high / one)
        rows.append((speaker.tell("the-display"), band(shown, unit, speaker)))
    return [(sentence(name), said) for name, said in rows]


def _point(point: str, speaker: Speaker) -> str:
    return speaker.tell("the-loop") if point == LOOP else speaker.name("point", point)


def _table(visit: Visit, expected: Expectation, speaker: Speaker) -> list[str]:
    unit = visit.pressure_unit
    factor, shown = SHOWN[expected.signal_unit]
    one = parse(f"1 {unit}", "pressure")
    first = expected.steps[0]
    heads = [speaker.tell("plate-range"), unit, shown]
    heads += [speaker.tell("plate-input")] if first.input_v is not None else []
    heads += [speaker.tell("plate-display", unit=unit)] if first.display_pa is not None else []
    rows = [_row(step, one, factor) for step in expected.steps]
    note = [] if first.display_pa is not None else [f"  {speaker.tell('plate-no-display')}"]
    return [speaker.tell("plate-head"), *(f"  {row}" for row in columns(rows, tuple(heads))), *note]


def _row(step: Step, one: float, factor: float) -> tuple[str, ...]:
    cells = [f"{100 * step.part:.0f} %", f"{step.pressure_pa / one:.4g}", f"{step.signal * factor:.3f}"]
    cells += [f"{step.input_v:.3f}"] if step.input_v is not None else []
    cells += [f"{step.display_pa / one:.4g}"] if step.display_pa is not None else []
    return tuple("0" if cell == "-0" else cell for cell in cells)
