"""Figures of a run: shares with Wilson's interval, minutes, calibration, and what went wrong.

Rules
-----
1. It works on what `game.play` returns, or on the lines of a file that kept it.
2. Where the tool gave no answer the case is wrong; its minutes and chances are not known and not counted.
3. Where the truth itself gave none (ngspice found no operating point) the case counts nowhere but in its own line.
"""

from __future__ import annotations

import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

Result = Mapping[str, Any]
Z95 = statistics.NormalDist().inv_cdf(0.975)  #: normal quantile of a two-sided 95 %
BINS = 10
REPLACED = {"replace-sensor", "replace-board", "replace-gauge"}
HEAD = f"{'seed':10} {'fault':28} {'place':9} {'how bad':26} {'truth':16} {'said':32} chance state"


def wilson(hits: int, of: int) -> tuple[float, float]:
    """Return Wilson's 95 % interval of a share: where ``(p - hits/of)**2 = z**2 p (1 - p)/of``.

    References
    ----------
    E. B. Wilson, Probable inference, the law of succession, and statistical inference, JASA 22 (1927) 209-212;
    from memory.
    """
    if not of:
        return 0.0, 1.0
    square = Z95**2
    root = Z95 * (hits * (of - hits) / of + square / 4) ** 0.5
    return (hits + square / 2 - root) / (of + square), (hits + square / 2 + root) / (of + square)


def calibration_error(stated: Sequence[tuple[float, bool]]) -> float:
    """Return the mean distance of what was stated from the share that came true, over ten even bins of chance."""
    gaps = [0.0] * BINS
    for chance, came_true in stated:
        gaps[min(int(chance * BINS), BINS - 1)] += chance - came_true
    return sum(map(abs, gaps)) / len(stated) if stated else 0.0


def condemned(said: str, truth: str) -> bool:
    """Say whether a good part is to be replaced: sensor, board or gauge, named though it is not at fault.

    >>> condemned("repair-cable+replace-board", "repair-cable")
    True
    >>> condemned("repair-cable", "replace-board")
    False
    """
    return not REPLACED.isdisjoint(set(said.split("+")) - set(truth.split("+")))


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """So many of so many."""

    hits: int
    of: int

    def __str__(self) -> str:
        if not self.of:
            return "none"
        low, high = wilson(self.hits, self.of)
        return f"{self.hits} of {self.of}, {self.hits / self.of:.1%} ({low:.1%}..{high:.1%})"


@dataclass(frozen=True, slots=True, kw_only=True)
class Summary:
    """What came of a run; minutes and calibration are of the cases that the tool played to their end."""

    right: Share
    condemned: Share
    proved_right: Share
    minutes: float
    minutes_with_wrong_remedy: float
    calibration_error: float
    wrong: tuple[Result, ...]
    unplayed: tuple[Result, ...]  #: the truth itself gave no answer


def _share(results: Sequence[Result], hits: int) -> Share:
    return Share(hits=hits, of=len(results))


def _mean(ended: Sequence[Result], key: str) -> float:
    return statistics.fmean(result[key] for result in ended) if ended else 0.0


def summarise(results: Sequence[Result]) -> Summary:
    """Return the figures of a run."""
    asked = [result for result in results if result.get("by") != "truth"]
    ended = [result for result in asked if "error" not in result]
    proved = [result for result in ended if result["state"] == "proved"]
    stated = [(result["steps"][-1]["probability"], result["right"]) for result in ended]
    return Summary(
        right=_share(asked, sum(result["right"] for result in ended)),
        condemned=_share(asked, sum(condemned(result["remedy"], result["truth"]) for result in ended)),
        proved_right=_share(proved, sum(result["right"] for result in proved)),
        minutes=_mean(ended, "minutes"),
        minutes_with_wrong_remedy=_mean(ended, "minutes_with_wrong_remedy"),
        calibration_error=calibration_error(stated),
        wrong=tuple(result for result in asked if not result.get("right")),
        unplayed=tuple(result for result in results if result.get("by") == "truth"),
    )


def _wrong_line(result: Result) -> str:
    if "error" in result:
        return f"{result['seed']:10} no answer: {first_line(result['error'])}"
    return (
        f"{result['seed']:10} {result['fault']:28} {result['place'] or '-':9} {result['severity'] or '-':26} "
        f"{result['truth']:16} {result['remedy']:32} {result['steps'][-1]['probability']:6.2f} {result['state']}"
    )


def first_line(error: str) -> str:
    """Return the head of an error's text: ngspice's goes on with the whole circuit."""
    return error.partition("\n")[0][:160]


def render(summary: Summary) -> str:
    """Return a run's figures as text."""
    lines = [
        f"right remedy         {summary.right}",
        f"good part condemned  {summary.condemned}",
        f"proved, and right    {summary.proved_right}",
        f"minutes              {summary.minutes:.1f}, with second trips {summary.minutes_with_wrong_remedy:.1f}",
        f"calibration error    {summary.calibration_error:.3f}, of the chance stated at the end",
    ]
    if summary.wrong:
        lines += ["", "wrong:", HEAD, *map(_wrong_line, summary.wrong)]
    if summary.unplayed:
        lines += ["", "not played, the truth gave no answer:"]
        lines += [f"{result['seed']:10} {first_line(result['error'])}" for result in summary.unplayed]
    return "\n".join(lines)
