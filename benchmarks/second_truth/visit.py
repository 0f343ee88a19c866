"""The visit file: what the technician knows of the site, and the readings in their order."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field

from benchmarks.second_truth.case import Case
from benchmarks.second_truth.streams import Stream, stream

ORDER = ("measure", "red", "black", "arrangement", "source", "item", "drive", "whose", "tap", "height", "value", "why")


def _value(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return json.dumps(value, ensure_ascii=False)


def _table(head: str, keys: Mapping[str, object]) -> list[str]:
    return [head, *(f"{key} = {_value(value)}" for key, value in keys.items() if value is not None), ""] if keys else []


@dataclass(slots=True)
class Visit:
    """A visit file that grows; its head is fixed when the technician arrives."""

    head: list[str]
    readings: list[dict[str, object]] = field(default_factory=list)
    declined: list[dict[str, object]] = field(default_factory=list)

    def text(self) -> str:
        """Return the whole file."""
        lines = list(self.head)
        for name, tables in (("reading", self.readings), ("declined", self.declined)):
            for table in tables:
                ordered = {key: table[key] for key in ORDER if table.get(key) is not None}
                lines += _table(f"[[{name}]]", ordered)
        return "\n".join(lines)


def open_visit(case: Case, word: str) -> Visit:
    """Return a visit with site data and complaint; ``word`` is the fault that the screen shows."""
    rng = stream(case.seed, case.kind, "visit")
    lines = ["schema = 1", "", *_table("[sensor]", _sensor(case, rng)), *_table("[cable]", _cable(case, rng))]
    lines += _table("[controller]", _controller(case, rng))
    place: dict[str, object] = {}
    if case.system.walk_min is not None:
        place["walk"] = f"{case.system.walk_min:g} min"
    if rng.chance(0.6):
        place["cock"] = case.system.cock
    lines += [*_table("[place]", place), *_instruments(case, rng)]
    complaint = dict(case.complaint)
    if complaint and word != "none" and rng.chance(0.6):
        complaint["shown"] = [word]
    return Visit(head=lines + _table("[complaint]", complaint))


def _keep(rng: Stream, keys: Mapping[str, tuple[object, float]]) -> dict[str, object]:
    """Keep each key by its chance: much is never looked up."""
    return {key: value for key, (value, chance) in keys.items() if rng.chance(chance) and value is not None}


def _sensor(case: Case, rng: Stream) -> dict[str, object]:
    system = case.system
    made_for = "5 V" if system.signal.ratiometric else "8..32 V" if system.signal.high < 10 else "12..32 V"
    always = {"signal": system.signal.text, "range": f"0..{system.top:g} {system.unit}"}
    return always | _keep(
        rng,
        {
            "reference": ("gauge", 0.3),
            "accuracy": (f"{system.accuracy:.1%}".replace("%", " %"), 0.4),
            "supply": ("10..30 V" if system.two_wire else made_for, 0.4),
        },
    )


def _cable(case: Case, rng: Stream) -> dict[str, object]:
    if rng.chance(0.45):
        return {}
    guess = case.system.length_m * rng.uniform(0.75, 1.3)
    return _keep(rng, {"length": (f"{max(guess, 1):.0f} m", 0.95), "conductor": (case.system.conductor, 0.5)})


def _controller(case: Case, rng: Stream) -> dict[str, object]:
    system, fault = case.system, case.fault
    volts = system.supply.nominal_v
    loose = system.supply.volts > 1.15 * volts  # an unregulated supply idles high, and its paper says so
    limits = "4.5..5.5 V" if volts < 6 else f"{volts * 0.8:g}..{volts * (1.4 if loose else 1.2):g} V"
    scaled = f"0..{system.top * (fault.get('factor') if fault.id == 'setting-range' else 1):g} {system.unit}"
    looked = 0.12 if fault.id == "setting-range" else 0.0 if fault.id == "setting-unit" else 0.6
    ohm = None if fault.id == "setting-signal-kind" else f"{system.input_nominal:g} ohm"
    keys = _keep(
        rng,
        {
            "supply": (f"{volts:g} V", 0.8),
            "supply_limits": (limits, 0.3),
            "input_resistance": (ohm, 0.6 if system.two_wire else 0.3),
            "scaled": (scaled, looked),
            "on_signal_loss": (rng.choice(["stop", "preset", "full", "hold"]), 0.15),
        },
    )
    if rng.chance(0.5):
        unit = system.signal.unit
        if system.low_fault is not None:
            keys["low_fault"] = f"{system.low_fault:g} {unit}"
        if system.high_fault is not None:
            keys["high_fault"] = f"{system.high_fault:g} {unit}"
    if not system.two_wire and rng.chance(0.35):
        keys["reference"] = "ratiometric" if system.input.ratio else "fixed"
    if system.clamped:
        keys["display"] = "clamped"
    return keys


def _instruments(case: Case, rng: Stream) -> list[str]:
    system, meter = case.system, case.system.meter
    lines = [
        "[instruments]",
        f'gauge = {{ range = "{system.gauge_bottom:g}..{system.gauge_top:g} {system.unit}", {system.gauge_text} }}',
    ]
    if rng.chance(0.75):
        lines.append(
            f'meter = {{ volts = "{meter.volts_pct:g} % + {meter.counts} x {meter.volts_digit:g} V", '
            f'milliamps = "{meter.amps_pct:g} % + {meter.counts} x {meter.amps_digit:g} mA", '
            f'ohms = "{meter.ohms_pct:g} % + {meter.counts} x {meter.ohms_digit:g} ohm" }}'
        )
    return [*lines, f"have = {json.dumps(list(system.have))}", ""]
