"""How the values of what is said of the van are said: a signal in its own unit, watts, millimetres, standards."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol

from steadyhead.messages import Value
from steadyhead.quantities import spell, spell_figure


class VanReader(Protocol):
    """What a sayer must know of the one it speaks for."""

    @property
    def decimal(self) -> str: ...  # noqa: D102 - as in Speaker

    def name(self, kind: str, id_: str) -> str: ...  # noqa: D102 - as in Speaker


def _number(values: Mapping[str, Value], name: str) -> float:
    value = values[name]
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise TypeError(f"{name} must be a figure, not {value!r}")  # noqa: EM102, TRY003 - never seen by a person
    return float(value)


def signal(reader: VanReader, values: Mapping[str, Value], name: str) -> str:
    """Say one figure of a signal: milliamps where ``kind``, or for what was before ``was_kind``, says current."""
    kind = values.get("was_kind" if name.startswith("was_") and "was_kind" in values else "kind")
    return spell(_number(values, name), "mA" if kind == "current" else "V").replace(".", reader.decimal)


def watts(reader: VanReader, values: Mapping[str, Value], name: str) -> str:
    """Say watts, to two figures."""
    return f"{spell_figure(_number(values, name), digits=2)} W".replace(".", reader.decimal)


def millimetres(reader: VanReader, values: Mapping[str, Value], name: str) -> str:
    """Say a small length, to two figures."""
    return f"{spell_figure(1000 * _number(values, name), digits=2)} mm".replace(".", reader.decimal)


def approvals(reader: VanReader, values: Mapping[str, Value], name: str) -> str:
    """Say the standards that a part is approved to."""
    ids = values[name]
    return ", ".join(reader.name("approval", each) for each in (ids if isinstance(ids, tuple) else (str(ids),)))
