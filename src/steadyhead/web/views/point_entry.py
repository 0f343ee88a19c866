"""The form of one point of a sensor check: what it holds, and the row of the record that it says.

Rules
-----
1. A bare figure has the unit that was chosen beside it; one that is typed with its own unit keeps that.
2. An empty field is unknown.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from steadyhead.web.forms import Form

FIGURES = ("reference", "signal", "supply", "shown")


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryField:
    """One field of a point: its key, what it is called, the units that it may be given in, and the usual one."""

    name: str
    says: str
    units: tuple[str, ...]
    unit: str


def point_row(form: Form) -> dict[str, Any]:
    """Return the row that a form says.

    >>> sent = {"reference": "40", "reference.unit": "psi", "signal": "2130 mV", "signal.unit": "V", "direction": "up"}
    >>> point_row(Form(sent))
    {'reference': '40 psi', 'signal': '2130 mV', 'direction': 'up', 'cycle': 1}
    """
    row: dict[str, Any] = {}
    for name in FIGURES:
        if name in form.fields:
            row[name] = with_unit(form.text(name), form.text(f"{name}.unit"))
    cycle = form.text("cycle")
    plain = cycle.isascii() and cycle.isdigit() and len(cycle) < 3
    return {**row, "direction": form.text("direction"), "cycle": int(cycle) if plain else 1}


def with_unit(text: str, unit: str) -> str:
    """Return a figure with its unit.

    >>> with_unit("2,13", "V"), with_unit("2.13 V", "mV"), with_unit("", "V")
    ('2,13 V', '2.13 V', '')
    """
    bare = text and not any(sign.isalpha() or sign == "%" for sign in text)
    return f"{text} {unit}".strip() if bare else text


def typed_of(form: Form | None, fields: Iterable[EntryField], direction: str, cycle: int) -> dict[str, str]:
    """Return what stands in the form of a point: what was typed and not kept, else but the way and the cycle."""
    names = [name for field in fields for name in (field.name, f"{field.name}.unit")]
    held = {name: form.text(name) if form else "" for name in names}
    way = form.text("direction") if form else ""
    return {**held, "direction": way or direction, "cycle": (form.text("cycle") if form else "") or str(cycle)}


def typed_from(body: Mapping[str, Any], fields: Iterable[EntryField]) -> dict[str, str]:
    """Return what stands in the form that corrects a point: its figures as they were typed, each with its own unit."""
    held: dict[str, str] = {}
    for field in fields:
        text = str(body.get(field.name, ""))
        figure, _, unit = text.rpartition(" ")
        known = unit in field.units
        held |= {field.name: figure if known else text, f"{field.name}.unit": unit if known else ""}
    return {**held, "direction": str(body.get("direction", "")), "cycle": str(body.get("cycle", 1))}
