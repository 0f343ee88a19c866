"""Plays one visit: the tool asks, the witness answers, until the tool has settled.

Rules
-----
1. The tool is a function from a visit file's text to its answer; it sees nothing else.
2. Free on arrival are the gauge and the screen; then ``next_checks[0]`` is taken, written down and charged.
3. A check that cannot be done is written down as declined. It costs nothing, but after ten of them the visit ends.
4. The visit ends when ``verdict.settled`` is true, when no check is left, or at 25 readings.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from typing import Any

from benchmarks.second_truth.case import Case
from benchmarks.second_truth.cases import draw_case
from benchmarks.second_truth.minutes import WRONG_REMEDY, Clock
from benchmarks.second_truth.streams import stream
from benchmarks.second_truth.visit import Visit, open_visit
from benchmarks.second_truth.witness import CannotAnswerError, Witness

Tool = Callable[[str], Mapping[str, Any]]
MOST_READINGS = 25
MOST_DECLINED = 10
CHECK_KEYS = ("measure", "red", "black", "arrangement", "source", "item", "drive", "whose", "tap")
DECLINED_KEYS = ("measure", "red", "black", "arrangement", "source", "item")


class ToolFailedError(RuntimeError):
    """The tool gave no answer; carries what it raised."""


class Play:
    """One visit in the making."""

    def __init__(self, case: Case, tool: Tool) -> None:
        """Open the visit and write down what is free on arrival."""
        self.case, self.tool = case, tool
        self.witness, self.clock = Witness(case), Clock(walk_min=case.system.walk_min)
        self.trace: list[str] = []
        self.steps: list[dict[str, object]] = []
        self.seconds: list[float] = []
        self.refused: list[str] = []
        word = self.witness.answer({"measure": "displayed-fault", "arrangement": "connected"})
        self.visit: Visit = open_visit(case, word)
        self._first_readings(word)

    def _first_readings(self, word: str) -> None:
        """Write down what is free on arrival: the gauge and the screen."""
        system = self.case.system
        rng = stream(self.case.seed, self.case.kind, "arrival")
        gauge: dict[str, object] = {"measure": "gauge-pressure"}
        if system.whose == "site" or rng.chance(0.2) or self.case.fault.id == "own-gauge-wrong":
            gauge["whose"] = system.whose
        if system.gauge_height_m:
            gauge["height"] = f"{system.gauge_height_m:.1f} m"
        self._note(gauge, self.witness.answer({"measure": "gauge-pressure"}))
        shown = {"measure": "displayed-pressure"}
        self._note(shown, self.witness.answer({**shown, "arrangement": "connected"}))
        self._note({"measure": "displayed-fault"}, word)
        if system.shows_signal and rng.chance(0.4):
            try:
                check = {"measure": "displayed-signal"}
                self._note(check, self.witness.answer({**check, "arrangement": "connected"}))
            except CannotAnswerError:
                pass

    def _note(self, check: Mapping[str, object], value: str) -> None:
        spent = self.clock.charge(check)
        self.visit.readings.append({**check, "value": value})
        self.trace.append(f"{len(self.visit.readings):2d} {_name(check)} = {value}  ({spent:.1f} min)")

    def ask(self) -> Mapping[str, Any]:
        """Ask the tool once and note what it thinks.

        Raises
        ------
        ToolFailedError
            Where the tool raises instead of answering.
        """
        begun = time.perf_counter()
        try:
            answer = self.tool(self.visit.text())
        except Exception as error:
            message = f"{type(error).__name__}: {error}"
            raise ToolFailedError(message) from error
        self.seconds.append(time.perf_counter() - begun)
        remedies = {item["remedy"]: item["probability"] for item in answer["remedies"]}
        verdict = answer["verdict"]
        self.steps.append(
            {
                "readings": len(self.visit.readings),
                "remedy": verdict["remedy"],
                "probability": remedies.get(verdict["remedy"], 0.0),
                "remedies": remedies,
            }
        )
        top = ", ".join(f"{item['fault']} {item['probability']:.2f}" for item in answer["suspects"][:4])
        self.trace.append(
            f"   -> {verdict['state']} {verdict['remedy']} {remedies.get(verdict['remedy'], 0.0):.3f} | {top}"
        )
        return answer

    def take(self, asked: Mapping[str, object]) -> None:
        """Take one check, or decline it."""
        check = {key: asked[key] for key in CHECK_KEYS if asked.get(key) is not None}
        try:
            value = self.witness.answer(check)
            if check["measure"] == "gauge-pressure" and self.case.system.gauge_height_m:
                check["height"] = f"{self.case.system.gauge_height_m:.1f} m"
            self._note(check, value)
        except CannotAnswerError as reason:
            table = {key: value for key, value in check.items() if key in DECLINED_KEYS}
            self.visit.declined.append({**table, "why": str(reason)})
            self.refused.append(f"{_name(check)}: {reason}")
            self.trace.append(f"   declined {_name(check)}: {reason}")

    def run(self) -> Mapping[str, Any]:
        """Play until settled, out of checks, or out of patience; return the last answer."""
        while True:
            answer = self.ask()
            done = answer["verdict"]["settled"] or not answer["next_checks"]
            if done or len(self.visit.readings) >= MOST_READINGS or len(self.refused) >= MOST_DECLINED:
                return answer
            self.take(answer["next_checks"][0])


def _name(check: Mapping[str, object]) -> str:
    text = str(check["measure"])
    if check.get("red"):
        text += f" {check['red']} to {check['black']}"
    for key in ("item", "source", "whose", "drive"):
        text += f" {check[key]}" if check.get(key) else ""
    return f"{text} [{check.get('arrangement') or 'connected'}]"


def play(seed: str, kind: str, tool: Tool) -> dict[str, Any]:
    """Play the case of a seed with a tool and return what came of it, ready for a line of JSON."""
    case = draw_case(seed, kind)
    game = Play(case, tool)
    answer = game.run()
    remedy = answer["verdict"]["remedy"]
    right = set(str(remedy).split("+")) == set(case.truth.split("+"))
    return {
        "seed": seed,
        "kind": kind,
        "fault": case.fault.id,
        "severity": case.fault.severity,
        "place": case.fault.place,
        "make": case.make,
        "truth": case.truth,
        "remedy": remedy,
        "state": answer["verdict"]["state"],
        "right": right,
        "minutes": round(game.clock.minutes, 2),
        "minutes_with_wrong_remedy": round(game.clock.minutes + (0.0 if right else WRONG_REMEDY), 2),
        "readings": len(game.visit.readings),
        "refused": game.refused,
        "steps": game.steps,
        "first_three": [item["fault"] for item in answer["suspects"][:3]],
        "trace": game.trace,
        "file": game.visit.text(),
        "seconds": [round(second, 3) for second in game.seconds],
    }
