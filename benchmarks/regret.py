"""Measures what the planner's short sight costs: its expected minutes against those of the cheapest way there is.

Run
---
::

    python benchmarks/regret.py --cases 40
    python benchmarks/regret.py --case two-wire:7 --trace

A case is a small part of a real belief: after the first readings of a visit whose fault is hidden, a few suspects and a
handful of checks, with the very outcomes that the planner foresees. The cheapest way is found by trying every way
(`benchmarks.lookahead`); the planner is asked anew after each outcome. Both pay the same minutes, and 120 for a wrong
remedy. It needs ngspice's shared library, as `benchmarks/closed_loop.py` does.
"""

from __future__ import annotations

import argparse
import random
import statistics
import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import cast

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from benchmarks.lookahead import Cheapest, Masses, Seen, World, followed
from benchmarks.truth.case import Kind
from benchmarks.truth.cases import draw_case
from benchmarks.truth.play import first_file
from benchmarks.truth.score import Z95
from steadyhead.diagnosis.belief import Weighed
from steadyhead.diagnosis.checks import Standing, minutes, standing
from steadyhead.diagnosis.diagnose import diagnosed
from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.planning import Planner, after_check, key
from steadyhead.diagnosis.predicting import Outlook
from steadyhead.diagnosis.system import System
from steadyhead.visit import parse_visit

KINDS: tuple[Kind, ...] = ("three-wire", "two-wire")
FEWEST_SUSPECTS, MOST_SUSPECTS = 4, 8
FEWEST_CHECKS, MOST_CHECKS = 5, 8
Looks = dict[Question, list[Outlook]]
#: A cell this light takes no part in the planner's belief any more.
GONE = 1e-7


@dataclass(frozen=True)
class Small:
    """A small case: cells, what each check would show under them, and where the technician stands."""

    seed: str
    planner: Planner
    cells: Sequence[Weighed]
    looks: Looks
    here: Standing

    @property
    def masses(self) -> Masses:
        """The cells' shares."""
        return tuple(w.share for w in self.cells)

    def world(self) -> World[Question, Standing]:
        """Return the case as a world to look ahead in."""
        return _world(self.planner.system, self.cells, self.looks)

    def asked(self, masses: Masses, done: frozenset[Question], here: Standing) -> Question | None:
        """Return what the planner asks for on these masses, or None where it stops."""
        whole = sum(masses)
        held = [(m / whole, k) for k, m in enumerate(masses) if m > GONE * whole]
        weighed = [replace(self.cells[k], share=share) for share, k in sorted(held, key=lambda item: -item[0])]
        planner = Planner(self.planner.system, weighed, self.planner.pressure)
        number = {id(w.cell): k for k, w in enumerate(self.cells)}
        order = [number[id(w.cell)] for w in planner.weighed]
        planner.looks = {q: [seen[k] for k in order] for q, seen in self.looks.items()}
        plans = planner.plans([q for q in self.looks if q not in done], here)
        return plans[0].question if plans else None


@dataclass(frozen=True)
class Regret:
    """What one case costs by the cheapest way and by the planner's [min], and how large it is."""

    seed: str
    cheapest: float
    planned: float
    suspects: int
    checks: int

    @property
    def part(self) -> float:
        """What the planner pays more, as a part of the cheapest way."""
        return round((self.planned - self.cheapest) / self.cheapest, 6) + 0.0 if self.cheapest > 0.0 else 0.0


def drawn(seed: str, kind: Kind) -> Small:
    """Return the small case of a seed."""
    case = draw_case(f"regret {seed}", kind)
    visit = parse_visit(first_file(case, "1")).visit
    found = diagnosed(visit)
    rng = random.Random(f"{seed}|{kind}")
    planner = found.planner
    numbers = _suspects(planner.weighed, rng)
    whole = sum(planner.weighed[k].share for k in numbers)
    cells = [replace(planner.weighed[k], share=planner.weighed[k].share / whole) for k in numbers]
    looks = {q: [seen[k] for k in numbers] for q, seen in planner.looks.items()}
    wanted = _checks(planner.system, cells, looks, rng)
    return Small(f"{kind}:{seed}", planner, cells, {q: looks[q] for q in wanted}, standing(visit))


def _suspects(weighed: Sequence[Weighed], rng: random.Random) -> list[int]:
    """Return one cell of each of a few suspects and places, drawn by their shares."""
    left: dict[tuple[str, str], int] = {}
    for k, w in enumerate(weighed):
        left.setdefault((w.cell.fault, w.cell.place), k)
    found: list[int] = []
    for _ in range(min(rng.randint(FEWEST_SUSPECTS, MOST_SUSPECTS), len(left))):
        keys = sorted(left)
        chosen = rng.choices(keys, [weighed[left[k]].share for k in keys])[0]
        found.append(left.pop(chosen))
    return found


def _checks(system: System, cells: Sequence[Weighed], looks: Looks, rng: random.Random) -> list[Question]:
    """Return a handful of checks: half of them those that lower the price of stopping most, the others any."""
    count = rng.randint(FEWEST_CHECKS, MOST_CHECKS)
    world = _world(system, cells, looks)
    masses = tuple(w.share for w in cells)
    left = {q: sum(map(world.stopping, world.split(masses, q).values())) for q in looks}
    order = sorted(looks, key=lambda q: (left[q], key(q)))
    first = order[: count // 2]
    return [*first, *rng.sample(order[len(first) :], min(count - len(first), len(order) - len(first)))]


def _world(system: System, cells: Sequence[Weighed], looks: Looks) -> World[Question, Standing]:
    """Return cells and checks as a world to look ahead in."""
    return World(
        [w.cell.remedy for w in cells],
        {q: [look.bins for look in seen] for q, seen in looks.items()},
        lambda q, here: minutes(system, q, here),
        after_check,
        system.estimates.second_trip,
    )


def measured(small: Small) -> Regret:
    """Return what a case costs by the cheapest way and by the planner's."""
    world = small.world()
    cheapest = Cheapest(world).cost(small.masses, small.here)
    planned = followed(world, small.asked, small.masses, small.here)
    return Regret(small.seed, cheapest, planned, len(small.cells), len(small.looks))


def mean_and_half(values: Sequence[float]) -> tuple[float, float]:
    """Return a mean and half of its normal 95 % interval.

    >>> mean_and_half([1.0, 3.0])[0]
    2.0
    """
    half = Z95 * statistics.stdev(values) / len(values) ** 0.5 if len(values) > 1 else float("inf")
    return statistics.fmean(values), half


def render(found: Sequence[Regret]) -> str:
    """Return the figures as text."""
    mean, half = mean_and_half([r.part for r in found])
    worst = max(found, key=lambda r: r.part)
    cheapest, planned = sum(r.cheapest for r in found), sum(r.planned for r in found)
    lines = [f"{'case':16} suspects checks cheapest planned  regret"]
    lines += [
        f"{r.seed:16} {r.suspects:8} {r.checks:6} {r.cheapest:8.1f} {r.planned:7.1f} {r.part:7.1%}" for r in found
    ]
    spread = f"{max(mean - half, 0.0):.1%}..{mean + half:.1%}, normal 95 %"
    means = f"{planned / len(found):.1f} min planned, {cheapest / len(found):.1f} min by the cheapest way"
    lines.append(f"mean regret {mean:.1%} ({spread}), worst {worst.part:.1%} ({worst.seed})")
    lines.append(f"of all minutes together {planned / cheapest - 1.0:.1%}: {means}")
    return "\n".join(lines)


def traced(small: Small) -> str:
    """Return the planner's way beside the cheapest, outcome by outcome, where they part."""
    world = small.world()
    cheapest = Cheapest(world)
    lines = [f"  {w.share:.3f} {w.cell.fault} {w.cell.place} -> {w.cell.remedy}" for w in small.cells]

    def follow(masses: Masses, here: Standing, seen: Seen[Question], deep: str) -> None:
        whole = sum(masses)
        cost, best = cheapest.best(masses, here, seen)
        asked = small.asked(masses, frozenset(q for q, _ in seen), here)
        shares = " ".join(f"{m / whole:.2f}" for m in masses)
        lines.append(f"{deep}[{shares}] cheapest {cost / whole:.1f}: {_said(best)}; planned: {_said(asked)}")
        if asked is not None:
            there = after_check(asked, here)
            for outcome, part in world.split(masses, asked).items():
                if sum(part) > 0.02:
                    follow(part, there, seen | {(asked, outcome)}, deep + "  ")

    follow(small.masses, small.here, frozenset(), "")
    return "\n".join(lines)


def _said(q: Question | None) -> str:
    return "stop" if q is None else " ".join(word for word in key(q) if word not in ("", "0"))


def main(words: Sequence[str] | None = None) -> int:
    """Run the measure; return 1 where the mean regret is above ``--most``."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--cases", type=int, default=40, help="of both kinds together")
    parser.add_argument("--seed", default="1")
    parser.add_argument("--case", help="one case alone, as a run prints it: two-wire:1.7")
    parser.add_argument("--trace", action="store_true", help="with --case: show where the two ways part")
    parser.add_argument("--most", type=float, default=1.0, help="exit with 1 above this mean regret")
    options = parser.parse_args(words)
    if options.case is not None:
        kind, _, seed = options.case.partition(":")
        small = drawn(seed, cast("Kind", kind))
        print(render([measured(small)]))
        print(traced(small) if options.trace else "")
        return 0
    found = [measured(drawn(f"{options.seed}.{k // 2}", KINDS[k % 2])) for k in range(options.cases)]
    print(render(found))
    return 0 if statistics.fmean(r.part for r in found) <= options.most else 1


if __name__ == "__main__":
    sys.exit(main())
