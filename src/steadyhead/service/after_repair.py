"""What must read right straight after each repair, and within which band: the proof that it has helped.

Everything that affects which readings prove a repair lives in this file.

Rules
-----
1. What has been mended is read again where the fault showed; the gauge first, since every other band hangs on it.
2. Bands are those of a healthy system at the gauge's last reading (`steadyhead.diagnosis.expected`), once the repair
   is made: a setting that was put right is as the plate says.
3. A repair has helped where every figure with a band lies in it; one that jumps does not.
4. No band is told where the pressure is not known, or is what was wrong.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from steadyhead.diagnosis.answer import Band
from steadyhead.diagnosis.expected import bands
from steadyhead.diagnosis.observing import Pressure, Question, gauge_pressure, question_of
from steadyhead.diagnosis.system import System
from steadyhead.quantities import parse
from steadyhead.service.answer_json import band_json
from steadyhead.visit.record import Figure, Reading, Visit

GAUGE = Question("gauge-pressure")
DISPLAY = Question("displayed-pressure")
SIGNAL = Question("volts", "connected", "controller.signal", "controller.common")
SUPPLY = Question("volts", "connected", "controller.supply", "controller.common")

#: What proves each remedy; those that are not named prove themselves by gauge, display and signal.
PROOFS: dict[str, tuple[Question, ...]] = {
    "none": (),
    "look-further": (),
    "correct-setting": (GAUGE, DISPLAY),
    "clear-port": (GAUGE, DISPLAY),
    "open-cock": (GAUGE, DISPLAY),
    "move-tap": (GAUGE, DISPLAY),
    "clear-vacuum": (GAUGE, DISPLAY),
    "replace-gauge": (GAUGE, DISPLAY),
    "reroute-cable": (GAUGE, DISPLAY),
    "replace-board": (GAUGE, DISPLAY, SUPPLY),
    "remove-load": (GAUGE, DISPLAY, SUPPLY),
    "mend-meter": (GAUGE, SIGNAL, SUPPLY),
}
USUAL = (GAUGE, DISPLAY, SIGNAL)
#: Remedies after which the last gauge reading says nothing of what must be read.
PRESSURE_CHANGES = frozenset(("replace-gauge", "clear-vacuum"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """One reading that must come right; `band` is None where no figure can be told yet."""

    question: Question
    band: Band | None = None


def proofs(visit: Visit, remedy: str) -> tuple[Proof, ...]:
    """Return what must read right after a repair, in the order in which it is read.

    Parameters
    ----------
    visit
        The visit; its last gauge reading is the pressure.
    remedy
        What was mended, or is to be: one, or a pair ``x+y``.
    """
    asked = questions(remedy)
    system = System(_mended(visit, remedy))
    at = _pressure(system, visit.readings, remedy)
    told = dict(zip(asked[1:], bands(system, asked[1:], at), strict=True)) if at is not None and asked[1:] else {}
    return tuple(Proof(question=q, band=told.get(q)) for q in asked)


def questions(remedy: str) -> tuple[Question, ...]:
    """Return what is read after a repair, each once.

    >>> [q.measure for q in questions("correct-setting")]
    ['gauge-pressure', 'displayed-pressure']
    """
    asked = [q for part in remedy.split("+") for q in PROOFS.get(part, USUAL)]
    return tuple(dict.fromkeys(sorted(asked, key=(GAUGE, DISPLAY, SIGNAL, SUPPLY).index)))


def proofs_json(found: Sequence[Proof], pressure_unit: str) -> list[dict[str, Any]]:
    """Return what must read right as plain JSON values, in the units that instruments show."""
    return [_proof_json(proof, pressure_unit) for proof in found]


def _proof_json(proof: Proof, pressure_unit: str) -> dict[str, Any]:
    question = proof.question
    return {
        "measure": question.measure,
        "red": question.red,
        "black": question.black,
        "arrangement": question.arrangement,
        **band_shown(proof.band, pressure_unit),
    }


def band_shown(band: Band | None, pressure_unit: str) -> dict[str, Any]:
    """Return a band with its unit as an instrument shows it; all None without one.

    >>> band_shown(None, "psi"), band_shown(Band(low=0.004, high=0.005, unit="A"), "psi")
    ({'low': None, 'high': None, 'unit': None}, {'low': 4.0, 'high': 5.0, 'unit': 'mA'})
    """
    if band is None:
        return {"low": None, "high": None, "unit": None}
    if band.unit != "Pa":
        return band_json(band)
    one = parse(f"1 {pressure_unit}", "pressure")
    return {"low": band.low / one, "high": band.high / one, "unit": pressure_unit}


@dataclass(frozen=True, slots=True, kw_only=True)
class Stands:
    """How one reading that must be right stands since the last repair.

    Parameters
    ----------
    proof
        What must be read, and within which band.
    state
        ``right``, ``wrong``, ``taken`` (it has no band), ``declined`` (it cannot be taken here), ``open``.
    reading
        The last reading of it since the repair.
    """

    proof: Proof
    state: str
    reading: Reading | None = None


def since_repair(visit: Visit) -> tuple[Stands, ...]:
    """Return how all that must be right after the last repair stands, in the order in which it is read.

    The last reading of each counts; one without a band proves nothing and disproves nothing. Repairs that were made at
    the same time, a pair's two, are proved together. Nothing where none was made.
    """
    if not visit.actions:
        return ()
    after = max(action.after_reading for action in visit.actions)
    remedy = "+".join(action.remedy for action in visit.actions if action.after_reading == after)
    since = {question_of(r): r for r in visit.readings if r.number > after}
    declined = {d.measure for d in visit.declined if d.red is None and (d.arrangement or "connected") == "connected"}
    return tuple(_stands(proof, since.get(proof.question), declined) for proof in proofs(visit, remedy))


def _stands(proof: Proof, reading: Reading | None, declined: set[str]) -> Stands:
    if reading is None:
        return Stands(proof=proof, state="declined" if proof.question.measure in declined else "open")
    if proof.band is None:
        return Stands(proof=proof, state="taken", reading=reading)
    return Stands(proof=proof, state="right" if _within(proof.band, reading) else "wrong", reading=reading)


def missing(visit: Visit) -> tuple[Proof, ...]:
    """Return what was not read yet since the last repair; nothing where none was made."""
    return tuple(each.proof for each in since_repair(visit) if each.state == "open")


def reads_right(visit: Visit) -> bool:
    """Tell whether a repair was made and all that was read to prove it lies where it must."""
    states = {each.state for each in since_repair(visit)}
    return "right" in states and not states & {"open", "wrong"}


def _within(band: Band, reading: Reading) -> bool:
    value = reading.value
    return isinstance(value, Figure) and band.low <= value.value <= band.high


def _mended(visit: Visit, remedy: str) -> Visit:
    """Return the visit as it is once the repair is made."""
    if "correct-setting" not in remedy.split("+") or visit.controller.scaled is None:
        return visit
    return replace(visit, controller=replace(visit.controller, scaled=visit.sensor.range))


def _pressure(system: System, readings: Sequence[Reading], remedy: str) -> Pressure | None:
    """Return the pressure at which the bands are told: the last gauge reading's, where that can be trusted."""
    last = max((r for r in readings if r.measure == "gauge-pressure"), key=lambda r: r.number, default=None)
    mended = max((a.after_reading for a in system.visit.actions), default=-1)
    if last is None or ((last.number <= mended or mended < 0) and PRESSURE_CHANGES & set(remedy.split("+"))):
        return None
    at = gauge_pressure(system, last)
    return at if at.known == "gauge" else None
