"""The check certificate: what standards of calibration ask one to state, of a check that nobody accredited.

It states the title, a number, what it is about, the method, the conditions, the reference and how it is traceable, the
results with expanded uncertainty, k and coverage, the rule of decision, as found and as left, who and when (after
ISO/IEC 17025:2017, 7.8.2 to 7.8.6; from memory).

Rules
-----
1. It never calls itself accredited, and says plainly that it is not.
2. What was not known is said to be so: a reference without a certificate is not told to be traceable.
3. No date of a next check is claimed, and what is told holds for this sensor at that time.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from steadyhead.documents.paper import (
    Blanks,
    Block,
    Bullets,
    Care,
    Inline,
    Line,
    Paper,
    Paragraph,
    Particulars,
    Shown,
)
from steadyhead.figures import Figure, given
from steadyhead.messages import Message, message
from steadyhead.sensorcheck.conformity import Rule
from steadyhead.sensorcheck.run import Certificate
from steadyhead.service.papers.certificate_results import every_point, kinds_of_error, pressure_shown, results, stages
from steadyhead.service.papers.checked import Checked
from steadyhead.service.papers.one_unit import own_unit
from steadyhead.service.papers.pieces import Row
from steadyhead.service.papers.system_facts import fewest
from steadyhead.service.papers.tables import section
from steadyhead.service.sensorcheck.five_lines import worst_of

KIND = "certificate"


def certificate(seen: Checked) -> Paper:
    """Return the certificate of a sensor check."""
    current = seen.run.sensor.signal.kind == "current"
    return Paper(
        kind=KIND, title=message("paper-certificate"), subject=_subject(seen), dated=seen.dated, day=seen.dated[:10],
        number=seen.number(KIND), link=seen.link,
        units=(("pressure", seen.pressure_unit), ("current", "mA" if current else "A")), blocks=tuple(_blocks(seen)),
    )  # fmt: skip


def _subject(seen: Checked) -> Message:
    if seen.run.serial:
        return message("paper-sensor-serial", serial=seen.run.serial)
    return message("paper-subject", name=seen.name) if seen.name else message("paper-sensor-no-serial")


def _blocks(seen: Checked) -> Iterator[Block]:
    judged = seen.looked.judged
    yield Paragraph(line=(message("paper-not-accredited"),), tone="strong")
    yield Particulars(rows=tuple(_identified(seen)))
    yield Paragraph(line=(message("paper-outcome", outcome=judged.outcome), *_allowed(seen)), tone="strong")
    yield from section(message("paper-method-head"), *_method(seen))
    yield from section(message("paper-reference-head"), *_reference(seen))
    yield from section(message("paper-conditions-head"), *_conditions(seen))
    yield from section(message("paper-results-head"), *results(seen))
    yield from section(message("paper-kinds-head"), kinds_of_error(seen))
    yield from section(message("paper-rule-head"), *_rule(seen))
    yield from section(message("paper-stages-head"), *stages(seen))
    yield from section(message("paper-points-head"), every_point(seen))
    yield Paragraph(line=(message("paper-holds-for"),), tone="soft")
    yield Care(lines=((message("local-codes-first"),),))
    yield Blanks(names=(message("paper-sign-technician"), message("paper-sign-seen")))


def _allowed(seen: Checked) -> Line:
    """Return the tolerance: what the plate allows."""
    return (message("paper-allowed"), pressure_shown(seen.looked.judged.tolerance, seen), message("paper-stop"))


def _identified(seen: Checked) -> Iterator[Row]:
    """Yield what was checked, when, where and by whom."""
    run = seen.run
    texts = (
        (message("paper-check-system"), seen.name), (message("paper-serial"), run.serial),
        (message("paper-check-id"), seen.id),
        (message("paper-began"), seen.dated), (message("paper-people"), "; ".join(seen.people)),
    )  # fmt: skip
    for name, text in texts:
        if text:
            yield name, (message("paper-as-written", text=text),)
    unit, signal = seen.pressure_unit, "mA" if run.sensor.signal.kind == "current" else "V"
    ends = [given(name, value, "pressure", "plate") for name, value in
            (("range-low", run.sensor.range.low), ("range-high", run.sensor.range.high))]  # fmt: skip
    own = own_unit(seen.plate_unit, unit)
    measured = message("paper-reference", reference=run.sensor.reference)
    yield message("paper-range"), (*_from_to(ends, unit, own), measured)
    dimension = "current" if signal == "mA" else "voltage"
    volts = [given(name, value, dimension, "plate") for name, value in
             (("signal-low", run.sensor.signal.low), ("signal-high", run.sensor.signal.high))]  # fmt: skip
    kind, wires = run.sensor.signal.kind, run.sensor.signal.wires
    told = message("paper-ratiometric" if kind == "ratiometric" else "paper-wires", wires=wires)
    yield message("paper-signal"), (*_from_to(volts, signal), told)
    if run.sensor.accuracy is not None:
        accuracy = given("sensor-accuracy", run.sensor.accuracy, "percent", "plate")
        yield message("paper-accuracy"), (Shown(figure=accuracy, unit="%", places=fewest(accuracy.value, "%")),)
    yield message("paper-stage"), (message("paper-stage-is", stage=run.stage),)


def _from_to(ends: list[Figure], unit: str, own: str = "") -> Line:
    low, high = ends
    printed = bool(low.value and own)
    first = Shown(figure=low, unit=unit, places=fewest(low.value, unit), bare=not printed, own=own, beside=printed)
    last = Shown(figure=high, unit=unit, places=fewest(high.value, unit), beside=True, own=own)
    return (first, message("paper-to"), last)


def _method(seen: Checked) -> Iterator[Block]:
    """Yield how it was done."""
    run = seen.run
    ways = {each.direction for each in run.points}
    cycles = len({each.cycle for each in run.points})
    told = {"count": len(run.points), "cycles": cycles, "levels": len(seen.looked.judged.levels)}
    yield Paragraph(line=(
        message("paper-method", pressure_from=run.pressure_from, read_as=run.read_as, **told),
        message("paper-method-both" if len(ways) > 1 else "paper-method-one"),
    ))  # fmt: skip
    yield Paragraph(line=(message("paper-method-error"),), tone="soft")


def _reference(seen: Checked) -> Iterator[Block]:
    """Yield what it was compared with, and how that is traceable."""
    reference, meter = seen.run.reference, seen.run.meter
    rows = [*_instrument(message("paper-the-reference"), reference.name, reference.serial)]
    if reference.gauge.range is not None:
        ends = [given("gauge-low", reference.gauge.range.low, "pressure", "dial"),
                given("gauge-high", reference.gauge.range.high, "pressure", "dial")]  # fmt: skip
        own = own_unit(seen.dial_unit, seen.pressure_unit)
        rows.append((message("paper-scale"), _from_to(ends, seen.pressure_unit, own)))
    rows += _grade(seen)
    rows += _certified(reference.certificate, "pressure", seen.pressure_unit)
    rows += _instrument(message("paper-the-meter"), meter.name, meter.serial)
    signal = "mA" if seen.run.sensor.signal.kind == "current" else "V"
    rows += _certified(meter.certificate, "current" if signal == "mA" else "voltage", signal)
    yield Particulars(rows=tuple(rows))
    told = reference.certificate
    traced = message("paper-traceable", number=told.number or "-", dated=told.dated or "-") if told else None
    yield Paragraph(line=(traced or message("paper-not-traceable"),))


def _instrument(what: Message, name: str, serial: str) -> Iterator[Row]:
    texts = tuple(message("paper-as-written", text=text) for text in (name, serial) if text)
    if texts:
        yield what, _commas(texts)


def _commas(parts: Iterable[Inline]) -> Line:
    every = [one for part in parts for one in (message("paper-comma"), part)]
    return tuple(every[1:])


def _grade(seen: Checked) -> Iterator[Row]:
    gauge = seen.run.reference.gauge
    if gauge.accuracy is not None:
        figure = given("gauge-accuracy", gauge.accuracy, "percent", "dial")
        yield message("paper-gauge-accuracy"), (Shown(figure=figure, unit="%", places=fewest(gauge.accuracy, "%")),)
    elif gauge.grade is not None:
        yield message("paper-gauge-grade"), (message("paper-as-written", text=gauge.grade),)


def _certified(told: Certificate | None, dimension: str, unit: str) -> Iterator[Row]:
    """Yield what an instrument's certificate says."""
    if told is None:
        return
    expanded = given("expanded-uncertainty", told.expanded, dimension, "certificate")
    k = given("coverage-factor", told.k, "number", "certificate")
    said = [message("paper-as-written", text=text) for text in (told.number, told.dated) if text]
    if told.due:
        said.append(message("paper-due", text=told.due))
    yield message("paper-its-certificate"), _commas(said)
    line = (Shown(figure=expanded, unit=unit, places=fewest(told.expanded, unit), beside=True),
            message("paper-k"), Shown(figure=k, unit="", places=fewest(told.k, "")))  # fmt: skip
    yield message("paper-its-uncertainty"), line


def _conditions(seen: Checked) -> Iterator[Block]:
    """Yield what held meanwhile, and what was assumed."""
    held = seen.run.conditions
    rows: list[Row] = []
    if held.height_m is not None:
        rows.append((message("paper-height"), _quantity("height", held.height_m, "length", "m", held.height_u_m)))
    if held.temperature_c is not None:
        within = held.temperature_u_c or 0.0
        line = _quantity("temperature", held.temperature_c, "temperature", "degC", within)
        rows.append((message("paper-temperature"), line))
    if held.barometer_pa is not None:
        line = _quantity("barometer", held.barometer_pa, "absolute-pressure", "kPa abs", 0.0)
        rows.append((message("paper-barometer"), line))
    if held.altitude_m is not None:
        rows.append((message("paper-altitude"), _quantity("altitude", held.altitude_m, "length", "m", 0.0)))
    rows.append((message("paper-medium"), (message("paper-medium-is", medium=held.medium),)))
    yield Particulars(rows=tuple(rows))
    if seen.looked.notes:
        yield Bullets(lines=tuple((each,) for each in seen.looked.notes))


def _quantity(name: str, value: float, dimension: str, unit: str, within: float) -> Line:
    first = Shown(figure=given(name, value, dimension, "conditions"), unit=unit, places=fewest(value, unit))
    if not within:
        return (first,)
    half = given("half-width", within, "number" if unit == "degC" else dimension, "conditions")
    shown = Shown(figure=half, unit="" if unit == "degC" else unit, places=2 if unit == "m" else 1)
    kelvin = (message("paper-head-unit", unit="K"),) if unit == "degC" else ()
    return (first, message("paper-within"), shown, *kelvin)


def _rule(seen: Checked) -> Iterator[Block]:
    """Yield by which rule it was decided, and what would settle what cannot be told."""
    yield Paragraph(line=(_stated(seen.looked.rule), message("paper-rule-source", rule=_clause(seen.looked.rule))))
    ratios = [each.decision.tur for each in seen.looked.judged.levels]
    worst = min(ratios, key=lambda ratio: ratio.value)
    yield Paragraph(line=(message("paper-tur"), Shown(figure=worst, unit="", places=1), message("paper-stop")))
    settle = worst_of(seen.looked.judged).settle
    if settle:
        yield Bullets(lines=tuple((each,) for each in settle))


def _stated(rule: Rule) -> Message:
    if rule.kind == "simple":
        return message("paper-rule-simple")
    if rule.kind == "specific-risk":
        return message("paper-rule-risk", risk=1.0 - rule.level)
    return message("paper-rule-guard", guard=rule.guard)


def _clause(rule: Rule) -> str:
    return f"{rule.source.cite}, {rule.source.locator}"
