"""The solver against ngspice: 2,000 random loops and arrangements of each kind of sensor, in one process."""

from __future__ import annotations

from collections import Counter
from typing import Literal

import pytest

from steadyhead.loop.draft import SensorKind
from steadyhead.loop.parts import VOLTMETER_OHM
from steadyhead.loop.readings import at_rest
from steadyhead.loop.solve import Operation
from tests.loop.naive import ZERO, Naive, written_out
from tests.loop.random_loops import KINDS, LIVE, drawn, seeded
from tests.loop.spice import ngspice

pytestmark = [pytest.mark.ngspice, pytest.mark.laptop]

COUNT = 2000
ONE_MICROVOLT = 1e-6
#: Of the highest volts in the circuit: ngspice ends its search once no voltage moves by more than 1e-7 of itself.
PART = 1e-6
#: ngspice subtracts on its diagonal: a node's own conductance is blurred by rounding of the largest one in the circuit.
ROUNDING = 1e-15
#: Rounding of some twenty operations on currents that cancel, as a part of a point's largest current.
RESIDUAL = 1e-6

Outcome = Literal["same", "confirmed", "two states", "not found", "different"]


def tolerances(circuit: Naive, ours: Operation) -> dict[str, float]:
    """Return for each node how far ngspice's volts may be from the truth [V]."""
    largest = max([1.0, *(1.0 / ohm for _, _, ohm in circuit.resistors)])
    volts = {node: ours.volt(node) for node in circuit.nodes()}
    highest = max(abs(volt) for volt in volts.values())
    return {
        node: ONE_MICROVOLT + PART * highest + ROUNDING * largest * highest * ours.ohms_between(node, ZERO)
        for node in volts
    }


def compared(circuit: Naive, ours: Operation, nominal: float) -> tuple[Outcome, float]:
    """Return how ngspice's answer compares, and its largest difference in tolerances.

    ngspice first knows the supply's nominal volts alone. ``confirmed``: so it gave up or came to rest elsewhere, but
    with our answer for a start it rests there. ``two states``: even so it rests elsewhere, and Kirchhoff's law holds in
    both.
    """
    allowed = tolerances(circuit, ours)

    def worst(theirs: dict[str, float] | None) -> float:
        return -1.0 if theirs is None else max(abs(theirs[k] - ours.volt(k)) / allowed[k] for k in allowed)

    without = worst(ngspice().volts(circuit, {"controller.supply": nominal}))
    if 0.0 <= without <= 1.0:
        return "same", without
    answer = ngspice().volts(circuit, {node: ours.volt(node) for node in allowed})
    if answer is None:
        return "not found", 0.0
    hinted = worst(answer)
    if hinted <= 1.0:
        return "confirmed", hinted
    return ("two states" if circuit.worst_residual(answer) < RESIDUAL else "different"), 0.0


@pytest.mark.parametrize("kind", KINDS)
def test_ngspice_comes_to_rest_where_the_solver_does(kind: SensorKind) -> None:
    """By ngspice, given the same documented laws; Kirchhoff's law holds in every answer of ours."""
    rng = seeded(f"ngspice {kind}")
    outcomes: Counter[Outcome] = Counter()
    worst = 0.0
    for _ in range(COUNT):
        case = drawn(rng, kind, LIVE)
        ours = at_rest(case.loop, case.arrangement, case.source)
        circuit = written_out(case.loop, case.arrangement, source=case.source)
        outcome, far = compared(circuit, ours, case.loop.supply.volts)
        assert outcome != "different", (case, far)
        assert circuit.worst_residual({node: ours.volt(node) for node in circuit.nodes()}) < RESIDUAL, case
        outcomes[outcome] += 1
        worst = max(worst, far)
    print(f"{kind}: {dict(outcomes)}, largest difference {worst:.3f} of its tolerance")  # noqa: T201 - with pytest -s
    assert outcomes["same"] > 0.85 * COUNT
    assert outcomes["two states"] < 0.01 * COUNT
    assert outcomes["not found"] < 0.005 * COUNT


def test_a_voltmeter_loads_the_loop_as_in_ngspice() -> None:
    """By ngspice with 10 Mohm across two points, wherever that leaves every element in its region."""
    rng = seeded("meter")
    seen = 0
    while seen < 300:
        case = drawn(rng, rng.choice(KINDS), LIVE)
        ours = at_rest(case.loop, case.arrangement, case.source)
        circuit = written_out(case.loop, case.arrangement, source=case.source)
        red, black = rng.sample([node for node in circuit.nodes() if node != "supply.return"], 2)
        circuit.ohm(red, black, VOLTMETER_OHM)
        start = {node: ours.volt(node) for node in circuit.nodes()}
        theirs = ngspice().volts(circuit, start)
        if theirs is None or regions_at(ours, theirs) != ours.regions:
            continue
        allowed = tolerances(circuit, ours)
        shown = ours.between(red, black, VOLTMETER_OHM)
        assert abs(theirs[red] - theirs[black] - shown) <= allowed[red] + allowed[black], (case, red, black)
        seen += 1


def regions_at(operation: Operation, volts: dict[str, float]) -> tuple[int, ...]:
    """Return the regions in which the elements would be at other volts."""
    names = list(operation.numbers)
    ordered = [0.0 if name == ZERO else volts[name] for name in names]
    pairs = zip(operation.elements, operation.places, strict=True)
    return tuple(element.region(at, ordered) for element, at in pairs)
