"""Turns outcomes into figures: shares with Wilson's intervals, minutes, calibration, a table by fault, failures."""

from __future__ import annotations

import math
import statistics
from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from typing import Any

from benchmarks.truth.play import Outcome, condemned, same_remedy

Z95 = 1.959963984540054
BINS = 10
#: Stated chances below this are not recorded.
STATED = 1e-5
AGES = ((0, 0), (1, 2), (3, 5), (6, 10), (11, 99))


def wilson(hits: int, of: int, z: float = Z95) -> tuple[float, float]:
    """Return Wilson's interval for a share; E. B. Wilson, JASA 22 (1927) 209-212, from memory.

    >>> low, high = wilson(8, 10)
    >>> round(low, 4), round(high, 4)
    (0.4902, 0.9433)
    """
    if of == 0:
        return 0.0, 1.0
    share = hits / of
    middle = share + z * z / (2 * of)
    half = z * math.sqrt(share * (1 - share) / of + z * z / (4 * of * of))
    return (middle - half) / (1 + z * z / of), (middle + half) / (1 + z * z / of)


def calibration_error(pairs: Sequence[tuple[float, bool]]) -> float:
    """Return the expected calibration error: the mean gap of stated chance and share right, over ten bins.

    >>> calibration_error([(0.8, True)] * 8 + [(0.8, False)] * 2) < 1e-12
    True
    """
    bins: dict[int, list[tuple[float, bool]]] = defaultdict(list)
    for chance, right in pairs:
        bins[min(int(chance * BINS), BINS - 1)].append((chance, right))
    gaps = (abs(sum(c for c, _ in found) - sum(r for _, r in found)) for found in bins.values())
    return sum(gaps) / max(len(pairs), 1)


def _share(outcomes: Sequence[Outcome], test: Callable[[Outcome], bool]) -> dict[str, Any]:
    hits = sum(map(test, outcomes))
    low, high = wilson(hits, len(outcomes))
    return {"share": hits / max(len(outcomes), 1), "low": low, "high": high, "count": hits, "of": len(outcomes)}


def _mean(values: Iterable[float]) -> float:
    found = list(values)
    return statistics.fmean(found) if found else 0.0


def _calibration(outcomes: Sequence[Outcome]) -> dict[str, Any]:
    ends = [(outcome.steps[-1].probability, outcome.right) for outcome in outcomes]
    found: dict[str, Any] = {"at_end": calibration_error(ends)}
    for low, high in AGES:
        pairs = [
            (step.probability, same_remedy(step.remedy, outcome.truth))
            for outcome in outcomes
            for step in outcome.steps
            if low <= step.readings <= high
        ]
        if pairs:
            name = f"after_{low}_to_{high}" if high < 99 else f"after_{low}_and_more"
            found[name] = {
                "error": calibration_error(pairs),
                "answers": len(pairs),
                "right": _mean(r for _, r in pairs),
            }
    return found


def _by_fault(outcomes: Sequence[Outcome]) -> list[dict[str, Any]]:
    groups: dict[str, list[Outcome]] = defaultdict(list)
    for outcome in outcomes:
        groups[outcome.fault].append(outcome)
    return [
        {
            "fault": fault,
            "cases": len(group),
            "right": sum(o.right for o in group),
            "minutes": _mean(o.minutes for o in group),
            "readings": _mean(o.readings for o in group),
            "fixed_right": sum(o.fixed_right for o in group),
            "fixed_minutes": _mean(o.fixed_minutes for o in group),
        }
        for fault, group in sorted(groups.items())
    ]


def _failure(outcome: Outcome) -> dict[str, Any]:
    return {
        "seed": outcome.seed,
        "fault": outcome.fault,
        "severity": outcome.severity,
        "place": outcome.place,
        "truth": outcome.truth,
        "said": outcome.remedy,
        "probability": outcome.steps[-1].probability,
        "state": outcome.state,
        "first_three": list(outcome.first_three),
        "readings": outcome.readings,
        "slips": outcome.slips,
    }


def record(outcome: Outcome) -> dict[str, Any]:
    """Return one case as plain data: what it was, what was stated after each reading, and what came true."""
    return {
        "seed": outcome.seed,
        "kind": outcome.kind,
        "make": dict(outcome.make),
        "fault": outcome.fault,
        "truth": outcome.truth,
        "steps": [
            {"readings": s.readings, "remedies": {r: p for r, p in s.remedies.items() if p > STATED}}
            for s in outcome.steps
        ],
        "file": outcome.file,
    }


def _speed(outcomes: Sequence[Outcome]) -> dict[str, float]:
    seconds = sorted(second for outcome in outcomes for second in outcome.seconds)
    if not seconds:
        return {}
    return {"median_s": statistics.median(seconds), "longest_s": seconds[-1], "total_s": sum(seconds)}


def summarise(outcomes: Sequence[Outcome]) -> dict[str, Any]:
    """Return every figure of a run as plain data."""
    proved = [outcome for outcome in outcomes if outcome.state == "proved"]
    pairs = [outcome for outcome in outcomes if outcome.pair]
    return {
        "cases": len(outcomes),
        "tool": {
            "right": _share(outcomes, lambda o: o.right),
            "condemned": _share(outcomes, lambda o: condemned(o.remedy, o.truth)),
            "proved_right": _share(proved, lambda o: o.right),
            "settled": _share(outcomes, lambda o: o.settled),
            "pairs_named": _share(pairs, lambda o: o.both_named),
            "pairs_right": _share(pairs, lambda o: o.right),
            "minutes": _mean(o.minutes for o in outcomes),
            "charged": _mean(o.charged for o in outcomes),
            "readings": _mean(o.readings for o in outcomes),
        },
        "fixed_order": {
            "right": _share(outcomes, lambda o: o.fixed_right),
            "condemned": _share(outcomes, lambda o: condemned(o.fixed_remedy, o.truth)),
            "minutes": _mean(o.fixed_minutes for o in outcomes),
            "charged": _mean(o.fixed_charged for o in outcomes),
        },
        "calibration": _calibration(outcomes),
        "by_fault": _by_fault(outcomes),
        "failures": [_failure(o) for o in outcomes if not o.right],
        "refused": sorted({reason for o in outcomes for reason in o.refused}),
        "speed": _speed(outcomes),
        "records": [record(o) for o in outcomes],
    }


def _share_text(found: dict[str, Any]) -> str:
    return f"{found['share']:6.1%} ({found['low']:.1%}..{found['high']:.1%})"


def render(found: dict[str, Any]) -> str:
    """Return a run's figures as text."""
    tool, fixed = found["tool"], found["fixed_order"]
    lines = [
        f"{found['cases']} cases                 tool                     fixed order",
        f"right remedy        {_share_text(tool['right']):24} {_share_text(fixed['right'])}",
        f"good part condemned {_share_text(tool['condemned']):24} {_share_text(fixed['condemned'])}",
        f"minutes             {tool['minutes']:6.1f}                   {fixed['minutes']:6.1f}",
        f"with second trips   {tool['charged']:6.1f}                   {fixed['charged']:6.1f}",
        f"settled {_share_text(tool['settled'])}, {tool['readings']:.1f} readings",
        f"proved: {tool['proved_right']['of']}, of them right {_share_text(tool['proved_right'])}",
        "calibration error: "
        + ", ".join(_calibration_text(name, value) for name, value in found["calibration"].items()),
        "",
        f"{'fault':44} cases right  min  reads | fixed right  min",
    ]
    lines[7:7] = _pairs_text(tool)
    lines += [
        f"{row['fault']:44} {row['cases']:5} {row['right']:5} {row['minutes']:5.1f} {row['readings']:5.1f}"
        f" | {row['fixed_right']:11} {row['fixed_minutes']:5.1f}"
        for row in found["by_fault"]
    ]
    lines += ["", "wrong:"] if found["failures"] else []
    lines += [
        f"  {f['seed']}: {f['fault']} {f['severity']} {f['place'] or ''}: said {f['said']} {f['probability']:.2f}"
        f" ({f['state']}, {f['readings']} readings, {f['slips']} slips)"
        for f in found["failures"]
    ]
    lines += [f"refused: {reason}" for reason in found["refused"]]
    if found["speed"]:
        lines.append(
            f"an answer took {found['speed']['median_s']:.3f} s (median), at most {found['speed']['longest_s']:.2f} s"
        )
    return "\n".join(lines)


def _pairs_text(tool: dict[str, Any]) -> list[str]:
    """Return the line on pairs, where there were any."""
    if not tool["pairs_named"]["of"]:
        return []
    named, right = _share_text(tool["pairs_named"]), _share_text(tool["pairs_right"])
    return [f"pairs: {tool['pairs_named']['of']}, both named in the first three {named}, right remedy {right}"]


def _calibration_text(name: str, value: Any) -> str:
    if isinstance(value, dict):
        return f"{name} {value['error']:.3f} ({value['answers']})"
    return f"{name} {value:.3f}"
