"""Asks whether what is stated comes true on makes of devices that nothing was fitted to: each make left out in turn.

Run
---
::

    python benchmarks/closed_loop.py --kind three-wire --cases 200 --seed 61 --json three.json
    python benchmarks/closed_loop.py --kind two-wire --cases 200 --seed 61 --json two.json
    python benchmarks/calibration.py three.json two.json --by supply
    python benchmarks/calibration.py three.json two.json --by sensor --temper --jobs 2

Rules
-----
1. A fold is all cases with one make of a device: what the supply does when overloaded, how the sensor is protected, or
   the signal. The calibration of a fold is that of the chances stated in the runs, nothing fitted.
2. ``--temper`` weighs each case's final readings anew with each tempering of the evidence. The best on all other folds,
   by the mean logarithm of the chance of what came true, is then scored on the fold that was left out.
3. A remedy's calibration counts its own chance at every answer against whether it was the right one.
"""

from __future__ import annotations

import argparse
import concurrent.futures
import json
import multiprocessing
import sys
from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import log
from pathlib import Path
from statistics import fmean
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from benchmarks.truth.play import same_remedy
from benchmarks.truth.score import AGES, calibration_error
from steadyhead import diagnose_text
from steadyhead.diagnosis import belief

DEVICES = ("supply", "sensor", "signal")
TEMPERS = (0.6, 0.7, 0.8, 0.9, 1.0)
#: A chance below this is scored as this: one case must not decide.
LEAST = 1e-4
#: Remedies that are told one by one, and answers below which a figure tells nothing.
TOLD, ENOUGH = 8, 20

Record = Mapping[str, Any]
Chances = Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Stated:
    """One answer: after how many readings, what it stated, and what came true."""

    readings: int
    chances: Chances
    truth: str

    @property
    def first(self) -> tuple[float, bool]:
        """The likeliest remedy's chance, and whether it was the right one."""
        remedy = max(self.chances, key=lambda r: (self.chances[r], r))
        return self.chances[remedy], same_remedy(remedy, self.truth)


def stated(records: Sequence[Record]) -> list[Stated]:
    """Return every answer of some cases."""
    return [
        Stated(step["readings"], step["remedies"], record["truth"]) for record in records for step in record["steps"]
    ]


def folds(records: Sequence[Record], device: str) -> dict[str, list[Record]]:
    """Return the cases of each make of a device.

    >>> sorted(folds([{"make": {"supply": "soft"}}, {"make": {"supply": "hiccup"}}], "supply"))
    ['hiccup', 'soft']
    """
    found: dict[str, list[Record]] = defaultdict(list)
    for record in records:
        found[record["make"][device]].append(record)
    return dict(sorted(found.items()))


def by_remedy(answers: Sequence[Stated]) -> dict[str, tuple[float, float, int]]:
    """Return each remedy's calibration error, how often it was the right one, and of how many answers.

    Answers that hold it below one in a hundred, rightly, are left out: they would make every error small.
    """
    names = {r for a in answers for r, p in a.chances.items() if p > 0.01} | {a.truth for a in answers}
    found = {}
    for name in names:
        pairs = [(a.chances.get(name, 0.0), same_remedy(name, a.truth)) for a in answers]
        counted = [(p, true) for p, true in pairs if true or p > 0.01]
        found[name] = (calibration_error(counted), fmean(true for _, true in counted), len(counted))
    return found


def log_score(chances: Chances, truth: str) -> float:
    """Return the logarithm of the chance that was stated for what came true; 0 is best.

    >>> log_score({"a+b": 1.0}, "b+a"), round(log_score({"a": 0.5}, "a"), 4)
    (0.0, -0.6931)
    """
    return log(max(sum(p for r, p in chances.items() if same_remedy(r, truth)), LEAST))


def tempered(file: str) -> dict[float, Chances]:
    """Return what the readings of a visit file say with each tempering of the evidence."""
    usual = belief.TEMPER
    found: dict[float, Chances] = {}
    try:
        for temper in TEMPERS:
            belief.TEMPER = temper
            found[temper] = {item["remedy"]: item["probability"] for item in diagnose_text(file)["remedies"]}
    finally:
        belief.TEMPER = usual
    return found


@dataclass(frozen=True, slots=True)
class Scored:
    """A fold that was left out: the tempering chosen on the others, and the mean log scores on both sides."""

    fold: str
    chosen: float
    elsewhere: Mapping[float, float]
    here: Mapping[float, float]


def left_out(scores: Mapping[str, Sequence[Mapping[float, float]]]) -> list[Scored]:
    """Return each fold scored with the tempering that is best on the others; `scores` are those of its cases.

    >>> low = [{0.8: -0.1, 1.0: -0.3}]
    >>> [(each.fold, each.chosen) for each in left_out({"a": low, "b": low, "c": [{0.8: -9.0, 1.0: -0.1}]})]
    [('a', 1.0), ('b', 1.0), ('c', 0.8)]
    """
    found = []
    for fold, own in scores.items():
        others = [case for name, cases in scores.items() if name != fold for case in cases]
        if others and own:
            elsewhere, here = _means(others), _means(own)
            found.append(Scored(fold, max(elsewhere, key=lambda t: (elsewhere[t], t)), elsewhere, here))
    return found


def _means(cases: Sequence[Mapping[float, float]]) -> dict[float, float]:
    return {temper: fmean(case[temper] for case in cases) for temper in cases[0]}


def calibration_text(name: str, records: Sequence[Record]) -> list[str]:
    """Return a fold's calibration as lines: of all answers, by number of readings, and of each remedy."""
    answers = stated(records)
    ends = [Stated(r["steps"][-1]["readings"], r["steps"][-1]["remedies"], r["truth"]) for r in records]
    right, at_end = fmean(end.first[1] for end in ends), calibration_error([end.first for end in ends])
    of_all = f"{calibration_error([a.first for a in answers]):.3f} of all {len(answers)} answers"
    lines = [f"{name}: {len(records)} cases, {right:.1%} right; calibration error {at_end:.3f} at the end, {of_all}"]
    ages = [
        f"{low}..{high}: {_error(held)}"
        for low, high in AGES
        if (held := [a.first for a in answers if low <= a.readings <= high])
    ]
    lines.append("  by readings   " + ", ".join(ages))
    told = sorted(by_remedy(answers).items(), key=lambda item: -item[1][2])[:TOLD]
    lines += [f"  {remedy:32} {error:.3f} ({right:.1%} of {n})" for remedy, (error, right, n) in told if n >= ENOUGH]
    return lines


def _error(pairs: Sequence[tuple[float, bool]]) -> str:
    return f"{calibration_error(pairs):.3f} ({len(pairs)})"


def temper_text(scored: Sequence[Scored]) -> list[str]:
    """Return the temperings as lines: chosen where, and worth what on the make that was left out."""
    head = " ".join(f"{temper:8.1f}" for temper in TEMPERS)
    lines = [f"mean log score of the final chances by tempering; left out {'chosen':>14} {head}"]
    for each in scored:
        row = " ".join(f"{each.here[temper]:8.3f}" for temper in TEMPERS)
        lines.append(f"  {each.fold:54} {each.chosen:14.1f} {row}")
        lines.append(f"  {'all others':69} " + " ".join(f"{each.elsewhere[temper]:8.3f}" for temper in TEMPERS))
    return lines


def _each(work: Callable[[str], dict[float, Chances]], files: Sequence[str], jobs: int) -> list[dict[float, Chances]]:
    if jobs == 1:
        return list(map(work, files))
    context = multiprocessing.get_context("spawn")
    with concurrent.futures.ProcessPoolExecutor(jobs, mp_context=context) as pool:
        return list(pool.map(work, files))


def main(words: Sequence[str] | None = None) -> int:
    """Print the calibration of each fold and, if asked, the temperings."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("files", nargs="+", type=Path, help="what closed_loop.py --json wrote")
    parser.add_argument("--by", choices=DEVICES, default="supply")
    parser.add_argument("--temper", action="store_true", help="weigh anew with each tempering: a second or more a case")
    parser.add_argument("--jobs", type=int, default=1)
    options = parser.parse_args(words)
    records = [r for file in options.files for r in json.loads(file.read_text(encoding="utf-8"))["records"]]
    parted = folds(records, options.by)
    for name, held in [("all", records), *parted.items()]:
        print("\n".join(calibration_text(name, held)))
    if options.temper:
        weighed = _each(tempered, [r["file"] for r in records], options.jobs)
        scores: dict[str, list[dict[float, float]]] = {name: [] for name in parted}
        for record, chances in zip(records, weighed, strict=True):
            scores[record["make"][options.by]].append({t: log_score(c, record["truth"]) for t, c in chances.items()})
        print("\n".join(temper_text(left_out(scores))))
    return 0


if __name__ == "__main__":
    sys.exit(main())
