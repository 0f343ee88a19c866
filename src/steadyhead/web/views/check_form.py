"""What a sensor check is told before its points: which fields, in which order, and back to a body of the record.

Everything that affects which fields of a sensor check stand on a page, and which behind a door, lives in this file.

Rules
-----
1. What decides the check stands first: the sensor's plate, the gauge. The rest may stay unknown, behind doors.
2. A field's name is its path in the check's body. An empty field is unknown.
3. A list is typed in one field, its figures parted by semicolons.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from steadyhead.visit.check_keys import PRESSURE_FROM, PURPOSES, READ_AS, STAGES
from steadyhead.web.forms import Form
from steadyhead.words import Speaker

YES_NO = ("true", "false")
LISTS = ("correction", "at")
BETWEEN = ";"


class CheckField(NamedTuple):
    """One field: its path in the body, what it may look like, and the words that it is chosen from."""

    name: str
    example: str = ""
    choices: tuple[str, ...] = ()


class Group(NamedTuple):
    """Fields that stand together; `chips` are tapped, and a group with a `door` is opened first."""

    id: str
    fields: tuple[CheckField, ...]
    chips: bool = False
    door: bool = False


def _certificate(of: str, unit: str) -> Group:
    return Group(
        f"{of}.certificate",
        (
            CheckField(f"{of}.certificate.expanded", f"0.4 {unit}"),
            CheckField(f"{of}.certificate.k", "2"),
            CheckField(f"{of}.certificate.at", f"0 {unit}; 80 {unit}; 160 {unit}"),
            CheckField(f"{of}.certificate.correction", f"0.1 {unit}; -0.2 {unit}; -0.3 {unit}"),
            CheckField(f"{of}.certificate.number", "27-4410"),
            CheckField(f"{of}.certificate.dated", "2026-03-14"),
            CheckField(f"{of}.certificate.due", "2027-03-14"),
        ),
        door=True,
    )


GROUPS: tuple[Group, ...] = (
    Group(
        "run",
        (
            CheckField("stage", choices=STAGES),
            CheckField("pressure_from", choices=PRESSURE_FROM),
            CheckField("read_as", choices=READ_AS),
            CheckField("purpose", choices=PURPOSES),
        ),
        chips=True,
    ),
    Group(
        "sensor",
        (
            CheckField("sensor.signal", "0.5..4.5 V ratiometric"),
            CheckField("sensor.range", "0..100 psi"),
            CheckField("sensor.accuracy", "1 %"),
            CheckField("serial", "K-4471"),
        ),
    ),
    Group(
        "reference",
        (
            CheckField("reference.range", "0..160 psi"),
            CheckField("reference.grade", "2A"),
            CheckField("reference.accuracy", "0.5 %"),
            CheckField("reference.resolution", "0.5 psi"),
        ),
    ),
    Group(
        "limits",
        (
            CheckField("allowed.relief", "75 psi"),
            CheckField("allowed.weakest", "125 psi"),
            CheckField("allowed.pump", "110 psi"),
            CheckField("allowed.ordinary", "50 psi"),
            CheckField("allowed.lowest", "0 psi"),
        ),
    ),
    Group(
        "meter",
        (
            CheckField("meter.volts", "0.5 % + 2 x 0.01 V"),
            CheckField("meter.milliamps", "1 % + 2 x 0.01 mA"),
            CheckField("meter.same_meter", choices=YES_NO),
            CheckField("meter.name", ""),
            CheckField("meter.serial", ""),
        ),
        door=True,
    ),
    Group(
        "conditions",
        (
            CheckField("conditions.height", "1.2 m"),
            CheckField("conditions.height_within", "0.1 m"),
            CheckField("conditions.medium", choices=("water", "air")),
            CheckField("conditions.temperature", "18 degC"),
            CheckField("conditions.temperature_within", "5 K"),
            CheckField("conditions.temperature_effect", "0.02 %"),
            CheckField("conditions.barometer", "1.013 bara"),
            CheckField("conditions.altitude", "310 m"),
        ),
        door=True,
    ),
    Group(
        "more",
        (
            CheckField("sensor.wires", choices=("two", "three")),
            CheckField("sensor.reference", choices=("gauge", "sealed", "absolute")),
            CheckField("sensor.supply", "5 V"),
            CheckField("controller.scaled", "0..100 psi"),
            CheckField("reference.name", ""),
            CheckField("reference.serial", ""),
        ),
        door=True,
    ),
    _certificate("reference", "psi"),
    _certificate("meter", "V"),
)
FIELDS: dict[str, CheckField] = {field.name: field for group in GROUPS for field in group.fields}


def body_of(form: Form) -> dict[str, Any]:
    """Return the body that a form says: tables inside tables, an empty field as an empty text."""
    body: dict[str, Any] = {}
    for name in FIELDS:
        if name in form.fields:
            *tables, key = name.split(".")
            row = body
            for table in tables:
                row = row.setdefault(table, {})
            row[key] = _value(key, form.text(name))
    return body


def _value(key: str, text: str) -> Any:  # noqa: ANN401 - as its key has it
    if not text:
        return ""
    if key in LISTS:
        return [part.strip() for part in text.split(BETWEEN) if part.strip()]
    return text == "true" if key == "same_meter" else text


def groups(body: Mapping[str, Any], form: Form | None, speaker: Speaker) -> Iterator[dict[str, Any]]:
    """Yield the groups with their fields as a template shows them; what a form holds wins over what is known.

    Parameters
    ----------
    body
        What is known, as a check's body has it.
    form
        What was typed and not kept, or None.
    speaker
        Whose words.
    """
    numbers = iter(range(1000))
    for group in GROUPS:
        fields = [_field(field, body, form, speaker) | {"id": next(numbers)} for field in group.fields]
        yield {
            "id": group.id, "head": speaker.name("check-group", group.id), "chips": group.chips, "door": group.door,
            "fields": fields, "open": any(field["value"] for field in fields) if form else False,
        }  # fmt: skip


def _field(field: CheckField, body: Mapping[str, Any], form: Form | None, speaker: Speaker) -> dict[str, Any]:
    value = form.text(field.name) if form else shown(body, field.name)
    return {
        "name": field.name,
        "says": speaker.name("check-field", field.name),
        "value": value or (field.choices[0] if field.choices and "." not in field.name else ""),
        "example": field.example,
        "choices": [(word, speaker.name("check-word", word)) for word in field.choices],
    }


def shown(body: Mapping[str, Any], name: str) -> str:
    """Return what a body says at a path, as it stands in a field.

    >>> shown({"meter": {"certificate": {"at": ["0 V", "5 V"]}}}, "meter.certificate.at"), shown({}, "meter.volts")
    ('0 V; 5 V', '')
    """
    value: Any = body
    for part in name.split("."):
        value = value.get(part) if isinstance(value, Mapping) else None
    if value is None or isinstance(value, Mapping):
        return ""
    if isinstance(value, (list, tuple)):
        return f"{BETWEEN} ".join(map(str, value))
    return str(value).lower() if isinstance(value, bool) else str(value)


def field_of_problem(key: str) -> str:
    """Return the field that a problem's key means, or nothing where it means none.

    >>> field_of_problem("reference.grade"), field_of_problem("check.serial"), field_of_problem("check-point.signal")
    ('reference.grade', 'serial', '')
    """
    name = key.removeprefix("check.")
    return name if name in FIELDS else ""
