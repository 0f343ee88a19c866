"""Writes the visit file that a technician would bring: true as far as anybody looked, with many keys left out.

Rules
-----
1. What is left out is drawn from the case's own stream; what is written is what the plate, the menu or the eye says.
2. The complaint is drawn as likely as the trade finds it with such a fault; it is evidence, never a label.
3. The first readings are those that a technician takes before anything else: gauge, display, fault word.
"""

from __future__ import annotations

import random

from benchmarks.truth.case import PSI_PER_BAR, Case
from benchmarks.truth.witness import Check, Reading

FIRST: tuple[Check, ...] = (
    {"measure": "gauge-pressure"},
    {"measure": "displayed-pressure"},
    {"measure": "displayed-fault"},
)
SIGNAL_TOO: Check = {"measure": "displayed-signal"}
CHANGES: tuple[tuple[str, tuple[str, ...], float, float], ...] = (
    ("storm", ("sensor-open", "sensor-shorted", "sensor-low", "controller-", "sensor-high"), 0.3, 0.05),
    ("freeze", ("sensor-zero-shift", "port-blocked", "sensor-frozen"), 0.25, 0.03),
    (
        "recent-work",
        ("swapped", "rotated", "reversed", "setting-", "sensor-wrong", "sensor-cock", "cable-cut"),
        0.5,
        0.07,
    ),
    ("new-part", ("swapped", "rotated", "reversed", "setting-", "sensor-wrong-part"), 0.35, 0.04),
    ("power-cut", ("controller-", "setting-"), 0.15, 0.05),
)


def _pressure(psi: float, unit: str) -> str:
    value = psi if unit == "psi" else psi / PSI_PER_BAR
    return f"{value:.4g}"


def _range(ends: tuple[float, float], unit: str) -> str:
    return f"{_pressure(ends[0], unit)}..{_pressure(ends[1], unit)} {unit}"


def _sensor(case: Case, rng: random.Random) -> list[str]:
    signal = case.signal
    plate = {0.02: "4..20 mA", 10.0: "0..10 V", 5.0: "1..5 V"}.get(signal.high, "0.5..4.5 V ratiometric")
    lines = ["[sensor]", f'signal = "{plate}"', f'range = "{_range(case.range_psi, case.unit)}"']
    if rng.random() < 0.5:
        lines.append(f'accuracy = "{case.accuracy * 100:g} %"')
    if rng.random() < 0.5:
        supply = "5 V" if signal.ratiometric else "8..30 V" if case.kind == "three-wire" else "9..30 V"
        lines.append(f'supply = "{supply}"')
    return lines


def _cable(case: Case, rng: random.Random) -> list[str]:
    lines = []
    if rng.random() < 0.5:
        lines.append(f'length = "{max(1, round(case.cable.length_m)):d} m"')
    if rng.random() < 0.3:
        lines.append(f'conductor = "{case.cable.area_mm2:g} mm2"')
    return ["[cable]", *lines] if lines else []


def _looked(case: Case) -> float:
    """Return how likely the menu was read: less where its setting is the hidden fault."""
    return 0.3 if case.setting.scaled != case.range_psi else 0.65


def _controller(case: Case, rng: random.Random) -> list[str]:
    part, unit = case.input, "mA" if case.kind == "two-wire" else "V"
    scale = 1e3 if unit == "mA" else 1.0
    lines = [f'supply = "{case.signal.supply_v:g} V"']
    known = case.setting.shunt_ohm == float("inf") and case.setting.ends == (case.signal.low, case.signal.high)
    if rng.random() < (0.5 if case.kind == "three-wire" else 0.6) and known:
        lines.append(
            f'input_resistance = "{part.nominal_ohm:.3g} ohm"'
            if part.nominal_ohm < 1000
            else f'input_resistance = "{part.nominal_ohm / 1e3:.3g} kohm"'
        )
    if rng.random() < _looked(case):
        lines.append(f'scaled = "{_range(case.setting.scaled, case.unit)}"')
    if rng.random() < 0.5:
        lines += [
            f'low_fault = "{part.low_fault * scale:.3g} {unit}"',
            f'high_fault = "{part.high_fault * scale:.4g} {unit}"',
        ]
    if case.signal.ratiometric and rng.random() < 0.4:
        lines.append(f'reference = "{"ratiometric" if part.ratiometric else "fixed"}"')
    return ["[controller]", *lines]


def _place(case: Case, rng: random.Random) -> list[str]:
    lines = []
    if case.walk_min is not None:
        lines.append(f'walk = "{case.walk_min:g} min"')
    if rng.random() < 0.5:
        lines.append(f"cock = {str(case.cock).lower()}")
    return ["[place]", *lines] if lines else []


def _tolerance(spec: tuple[float, int, float], unit: str) -> str:
    relative, counts, last = spec
    return f'"{relative * 100:g} % + {counts} x {last:g} {unit}"'


def _instruments(case: Case, rng: random.Random) -> list[str]:
    gauge, meter = case.gauge, case.meter
    low, high = (_pressure(end, case.unit) for end in (gauge.low, gauge.high))
    lines = [f'gauge = {{ range = "{low}..{high} {case.unit}", {gauge.stated} }}']
    if rng.random() < 0.7:
        parts = (("volts", meter.volts, "V"), ("milliamps", meter.milliamps, "mA"), ("ohms", meter.ohms, "ohm"))
        lines.append(
            "meter = { " + ", ".join(f"{name} = {_tolerance(spec, unit)}" for name, spec, unit in parts) + " }"
        )
    lines.append("have = [" + ", ".join(f'"{tool}"' for tool in case.have) + "]")
    return ["[instruments]", *lines]


def _complaint(case: Case, rng: random.Random, fault_word: str) -> list[str]:
    if rng.random() < 0.45:
        return []
    lines = []
    if fault_word in ("low-signal", "high-signal") and rng.random() < 0.7:
        lines.append(f'shown = ["{fault_word}"]')
    hidden = case.fault_id.split("+")
    changed = [
        word
        for word, starts, likely, else_ in CHANGES
        if rng.random() < (likely if any(fault.startswith(starts) for fault in hidden) else else_)
    ]
    if changed:
        lines.append("changed = [" + ", ".join(f'"{word}"' for word in changed) + "]")
    if case.unsteady.share or case.unsteady.jump:
        lines.append('when = "sometimes"' if case.unsteady.share else 'when = "running"')
    elif rng.random() < 0.3:
        lines.append('since = "sudden"')
    return ["[complaint]", *lines] if lines else []


def reading_lines(reading: Reading) -> list[str]:
    """Return one reading as TOML lines."""
    given = [(key, value) for key, value in reading.check if value is not None]
    return ["", "[[reading]]", *[f'{key} = "{value}"' for key, value in given], f'value = "{reading.value}"']


def declined_lines(check: Check, why: str) -> list[str]:
    """Return one declined check as TOML lines."""
    keys = [(key, check.get(key)) for key in ("measure", "arrangement", "red", "black", "source", "item")]
    lines = [f'{key} = "{value}"' for key, value in keys if value is not None]
    return ["", "[[declined]]", *lines, f'why = "{why}"'.replace("'", "")]


def first_checks(case: Case) -> tuple[Check, ...]:
    """Return what was read before the tool was asked."""
    rng = random.Random(f"{case.seed}|first")
    return (*FIRST, SIGNAL_TOO) if rng.random() < 0.3 else FIRST


def write_visit(case: Case, readings: list[Reading]) -> str:
    """Return the visit file of a case with its first readings."""
    rng = random.Random(f"{case.seed}|file")
    word = next((r.value for r in readings if dict(r.check)["measure"] == "displayed-fault"), "none")
    tables = [
        ["schema = 1"],
        _sensor(case, rng),
        _cable(case, rng),
        _controller(case, rng),
        _place(case, rng),
        _instruments(case, rng),
        _complaint(case, rng, word),
    ]
    text = "\n\n".join("\n".join(table) for table in tables if table)
    return text + "\n" + "\n".join(line for reading in readings for line in reading_lines(reading)) + "\n"
