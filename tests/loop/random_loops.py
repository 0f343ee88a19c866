"""Loops drawn at random over wide ranges: every sensor, every fault at any size and place, every arrangement."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from random import Random

from steadyhead.loop.draft import LoopDraft, SensorDraft, SensorKind, WireDraft
from steadyhead.loop.faults import faults_of
from steadyhead.loop.parts import Loop, Screen, Wire
from steadyhead.loop.vocabulary import ARRANGEMENTS

KINDS: tuple[SensorKind, ...] = ("ratiometric", "voltage", "loop", "current")
STANCES = tuple(a.id for a in ARRANGEMENTS.values() if not a.water_side)
LIVE = tuple(stance for stance in STANCES if not stance.startswith("dead"))
PSI = 6894.757

#: Supply volts, signal at both ends, of the usual plates of each kind (common practice).
PLATES: dict[SensorKind, tuple[tuple[float, float, float], ...]] = {
    "ratiometric": ((5.0, 0.1, 0.9), (5.0, 0.2, 0.8), (3.3, 0.1, 0.9)),
    "voltage": ((12.0, 0.0, 5.0), (24.0, 0.0, 10.0), (24.0, 1.0, 5.0), (10.0, 0.5, 4.5)),
    "loop": ((24.0, 0.004, 0.020), (12.0, 0.004, 0.020)),
    "current": ((24.0, 0.004, 0.020), (24.0, 0.0, 0.020)),
}


@dataclass(frozen=True)
class Drawn:
    """One random loop, and how it stands."""

    kind: SensorKind
    fault: str
    place: str
    arrangement: str
    source: float | None
    loop: Loop


def seeded(name: str) -> Random:
    """Return a generator that draws the same every time, by name."""
    return Random(name)  # noqa: S311 - nothing is kept secret here


def drawn(rng: Random, kind: SensorKind, stances: tuple[str, ...] = STANCES) -> Drawn:
    """Return a random loop of a kind with one fault, or in one case of five with two."""
    draft = healthy_draft(rng, kind)
    faults = faults_of(2 if kind == "loop" else 3, kind)
    chosen = [rng.choice(faults) for _ in range(2 if rng.random() < 0.2 else 1)]
    places = [rng.choice(fault.places)[0] for fault in chosen]
    for fault, place in zip(chosen, places, strict=True):
        severity = fault.severity.at(rng.uniform(-0.1, 1.1)) if fault.severity else 0.0
        fault.change(draft, severity, place)
    arrangement = rng.choice(stances)
    low, high = draft.screen.low, draft.screen.high
    source = rng.choice((low, 0.5 * (low + high), high)) if arrangement == "source-at-controller" else None
    loop = draft.built(rng.uniform(-15, 130) * PSI, vented=arrangement == "vented")
    return Drawn(kind, "+".join(f.id for f in chosen), "+".join(places), arrangement, source, loop)


def healthy_draft(rng: Random, kind: SensorKind) -> LoopDraft:
    """Return the draft of a healthy loop with every number drawn."""
    volts, low, high = rng.choice(PLATES[kind])
    names: tuple[Wire, ...] = ("supply", "signal") if kind == "loop" else ("supply", "signal", "common")
    amperes = kind in {"loop", "current"}
    pulled = rng.random() < 0.2
    factor = volts if kind == "ratiometric" else 1.0
    return LoopDraft(
        supply_v=volts * rng.uniform(0.93, 1.07),
        source_ohm=_log(rng, 0.5, 60.0),
        limit_a=_log(rng, 0.026, 0.3),
        wires={
            name: WireDraft(
                terminal=_log(rng, 0.01, 2.0), run=_log(rng, 0.01, 20.0), crimp=_log(rng, 0.01, 2.0),
                mating=_log(rng, 0.01, 2.0), kink=rng.choice((0.1, 0.5, 0.9)),
            )
            for name in names
        },
        sensor=_sensor(rng, kind, volts, low, high),
        spare=_sensor(rng, kind, volts, low, high),
        input_ohm=_log(rng, 100.0, 510.0) if amperes else _log(rng, 1e4, 2e6),
        clamp_v=_log(rng, 5.6, 33.0),
        pull_v=rng.choice((0.0, 3.3, 5.0)) if pulled else 0.0,
        pull_ohm=_log(rng, 1e4, 1e6) if pulled else inf,
        screen=Screen(
            kind="current" if amperes else "voltage", low=low * factor, high=high * factor,
            scale_low=0.0, scale_high=100 * PSI,
        ),
        other_load_ohm=_log(rng, 100.0, 5e3) if rng.random() < 0.3 else inf,
        bleed_ohm=_log(rng, 500.0, 1e5) if rng.random() < 0.5 else inf,
        shield=rng.random() < 0.4,
        earth_ohm=rng.choice((0.1, 10.0, 1e8)),
        return_ohm=rng.choice((0.0, 0.0, 0.2, 1e6)),
    )  # fmt: skip


def _sensor(rng: Random, kind: SensorKind, volts: float, low: float, high: float) -> SensorDraft:
    least_v = volts * rng.uniform(0.3, 0.7)
    width = high - low
    top = 0.98 if kind == "ratiometric" else high + 0.2 * width
    return SensorDraft(
        kind=kind, low=low, high=high, range_low=0.0, range_high=100 * PSI,
        least=max(low - rng.uniform(0.0, 0.1) * width, 0.0), most=min(high + rng.uniform(0.01, 0.2) * width, top),
        draw_siemens=_log(rng, 1e-3, 1.5e-2) / volts, draw_a=rng.choice((inf, _log(rng, 1e-3, 1e-2))),
        wakes_a=rng.choice((0.0, _log(rng, 5e-6, 3e-3))), output_ohm=_log(rng, 1.0, 1000.0),
        source_a=_log(rng, 2e-3, 3e-2), sink_a=_log(rng, 1e-3, 3e-2),
        wakes_v=least_v * rng.uniform(0.3, 0.85), works_v=least_v,
        headroom_v=_log(rng, 0.01, 0.2) if kind == "ratiometric" else rng.uniform(0.5, 2.0),
        starved=rng.choice((0.0, 1.0, rng.random())), diodes=rng.random() < 0.5,
        reverse=rng.choice(("nothing", "diode")), shift=rng.gauss(0.0, 0.01),
    )  # fmt: skip


def _log(rng: Random, low: float, high: float) -> float:
    return float(low * (high / low) ** rng.random())
