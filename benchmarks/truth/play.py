"""Plays one case: the tool asks, the witness answers, the clock runs, until the tool is settled.

Rules
-----
1. The tool is a function from a visit file's text to the answer's dictionary; it sees nothing else.
2. Each step takes ``next_checks[0]``, appends its reading to the file and charges its minutes.
3. A check that the witness cannot answer is appended as declined; it costs nothing but is counted.
4. It ends when ``verdict.settled`` is true, when no check is left, or at the limit of readings.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from benchmarks.truth.case import Case
from benchmarks.truth.faults import GOOD_PART_REMEDIES, remedy_of
from benchmarks.truth.fixed_order import fixed_order
from benchmarks.truth.minutes import WRONG_REMEDY, Clock
from benchmarks.truth.visit_text import declined_lines, first_checks, reading_lines, write_visit
from benchmarks.truth.witness import CannotAnswerError, Check, Witness

Tool = Callable[[str], Mapping[str, Any]]
Trace = Callable[[str], None]
MOST_READINGS = 25
MOST_DECLINED = 10


@dataclass(frozen=True, slots=True)
class Step:
    """The tool's mind after some readings: how many, its first remedy, that remedy's probability, and all of them."""

    readings: int
    remedy: str
    probability: float
    remedies: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """How one case went."""

    seed: str
    kind: str
    fault: str
    severity: str
    place: str | None
    truth: str
    remedy: str
    state: str
    settled: bool
    readings: int
    minutes: float
    slips: int
    refused: tuple[str, ...]
    seconds: tuple[float, ...]
    steps: tuple[Step, ...] = field(default=())
    fixed_remedy: str = ""
    fixed_minutes: float = 0.0
    first_three: tuple[str, ...] = ()
    #: Kinds of the devices that the case is made of.
    make: Mapping[str, str] = field(default_factory=dict)
    #: The visit file as it was at the end.
    file: str = ""

    @property
    def right(self) -> bool:
        """Whether the tool's remedy is the right one (of a pair: both, in any order)."""
        return same_remedy(self.remedy, self.truth)

    @property
    def pair(self) -> bool:
        """Whether two faults are hidden."""
        return "+" in self.fault

    @property
    def both_named(self) -> bool:
        """Whether all hidden faults stand among the first three suspects, alone or in a pair."""
        named = {part for suspect in self.first_three for part in suspect.split("+")}
        return set(self.fault.split("+")) <= named

    @property
    def fixed_right(self) -> bool:
        """Whether the fixed order's remedy is the right one."""
        return same_remedy(self.fixed_remedy, self.truth)

    @property
    def charged(self) -> float:
        """Minutes, with a second trip for a wrong remedy."""
        return self.minutes + (0.0 if self.right else WRONG_REMEDY)

    @property
    def fixed_charged(self) -> float:
        """The fixed order's minutes, with a second trip for a wrong remedy."""
        return self.fixed_minutes + (0.0 if self.fixed_right else WRONG_REMEDY)


def same_remedy(named: str, truth: str) -> bool:
    """Return whether two remedies are the same parts, in any order.

    >>> same_remedy("replace-sensor+replace-board", "replace-board+replace-sensor")
    True
    """
    return set(named.split("+")) == set(truth.split("+"))


def condemned(named: str, truth: str) -> bool:
    """Return whether a good part is condemned: named for replacement though it is none of what is at fault.

    >>> condemned("replace-sensor", "repair-cable"), condemned("repair-cable", "replace-sensor")
    (True, False)
    """
    return bool((set(named.split("+")) & set(GOOD_PART_REMEDIES)) - set(truth.split("+")))


def first_file(case: Case, noise: str) -> str:
    """Return the visit file that a technician brings: the first readings taken, nothing asked yet."""
    witness = Witness(case, f"{case.seed}|{noise}")
    return write_visit(case, [witness.ask(check, slips=False) for check in first_checks(case)])


class _Visit:
    """The visit as it grows: its file's text, the readings, the clock."""

    def __init__(self, case: Case, witness: Witness) -> None:
        self.witness = witness
        first = [witness.ask(check, slips=False) for check in first_checks(case)]
        self.text = write_visit(case, first)
        self.clock = Clock(walk_min=case.walk_min)
        for check in first_checks(case):
            self.clock = self.clock.after(check)
        self.readings = 0
        self.refused: list[str] = []

    def take(self, check: Check) -> str:
        """Take one check; return what happened, for a trace."""
        try:
            reading = self.witness.ask(check)
        except CannotAnswerError as reason:
            self.refused.append(str(reason))
            self.text += "\n".join(declined_lines(check, str(reason))) + "\n"
            return f"declined: {reason}"
        self.readings += 1
        self.clock = self.clock.after(check)
        self.text += "\n".join(reading_lines(reading)) + "\n"
        return f"{reading.value}{'  (slip)' if reading.slipped else ''}  at {self.clock.minutes:.1f} min"


def _step(answer: Mapping[str, Any], readings: int) -> Step:
    remedy = answer["verdict"]["remedy"]
    chances = {item["remedy"]: float(item["probability"]) for item in answer["remedies"]}
    return Step(readings, remedy, chances.get(remedy, 0.0), chances)


def _describe(check: Check) -> str:
    keys = ("measure", "arrangement", "red", "black", "source", "item", "whose")
    return " ".join(str(check[key]) for key in keys if check.get(key))


def _timed(tool: Tool, text: str, seconds: list[float]) -> Mapping[str, Any]:
    started = time.perf_counter()
    answer = tool(text)
    seconds.append(time.perf_counter() - started)
    return answer


def play(
    case: Case,
    tool: Tool,
    *,
    noise: str = "1",
    order_noise: str = "1",
    slips: float = 0.0,
    trace: Trace | None = None,
) -> Outcome:
    """Return how a tool does on a case, and how the fixed order does; `trace` is called with a line for each step.

    `noise` seeds the readings' noise and slips, `order_noise` the readings of the fixed order.
    """
    say: Trace = trace or (lambda _line: None)
    visit = _Visit(case, Witness(case, f"{case.seed}|{noise}", slips))
    say(visit.text)
    seconds: list[float] = []
    answer = _timed(tool, visit.text, seconds)
    steps = [_step(answer, 0)]
    while not answer["verdict"]["settled"] and answer["next_checks"]:
        if visit.readings >= MOST_READINGS or len(visit.refused) >= MOST_DECLINED:
            break
        check = answer["next_checks"][0]
        say(f"{steps[-1].remedy} {steps[-1].probability:.3f}; ask {_describe(check)}: {visit.take(check)}")
        answer = _timed(tool, visit.text, seconds)
        steps.append(_step(answer, visit.readings))
    say(f"ends: {answer['verdict']['state']} {steps[-1].remedy} {steps[-1].probability:.3f}")
    fixed = fixed_order(case, Witness(case, f"{case.seed}|order {order_noise}"))
    ended = _outcome(case, visit, answer, steps=steps, seconds=seconds)
    return replace(ended, fixed_remedy=fixed.remedy, fixed_minutes=fixed.minutes)


def _outcome(
    case: Case, visit: _Visit, answer: Mapping[str, Any], *, steps: list[Step], seconds: list[float]
) -> Outcome:
    return Outcome(
        seed=case.seed,
        kind=case.kind,
        fault=case.fault_id,
        severity=", ".join(fault.severity for fault in case.faults),
        place=case.faults[0].place,
        truth=remedy_of(case.fault_id),
        remedy=steps[-1].remedy,
        state=answer["verdict"]["state"],
        settled=bool(answer["verdict"]["settled"]),
        readings=visit.readings,
        minutes=visit.clock.minutes,
        slips=visit.witness.slipped,
        refused=tuple(visit.refused),
        seconds=tuple(seconds),
        steps=tuple(steps),
        first_three=tuple(suspect["fault"] for suspect in answer.get("suspects", [])[:3]),
        make=case.make,
        file=visit.text,
    )
