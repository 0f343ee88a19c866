"""Every solved loop against laws that need no solver: Kirchhoff's, and the balance of power."""

from __future__ import annotations

from collections import Counter

import pytest

from steadyhead.loop.draft import SensorKind
from steadyhead.loop.readings import at_rest
from tests.loop.naive import Naive, Sent, Straight, written_out
from tests.loop.random_loops import KINDS, Drawn, drawn, seeded

COUNT = 500
#: Rounding of some twenty operations on currents that cancel; measured 2e-9 at worst over 100,000 circuits.
PART_OF_CURRENT = 1e-7
ONE_PICOWATT = 1e-12


def solved(case: Drawn) -> tuple[Naive, dict[str, float]]:
    """Return a case written out, and the volts of every point as the package finds them."""
    operation = at_rest(case.loop, case.arrangement, case.source)
    circuit = written_out(case.loop, case.arrangement, source=case.source)
    return circuit, {node: operation.volt(node) for node in circuit.nodes()}


@pytest.mark.parametrize("kind", KINDS)
def test_what_flows_into_a_point_flows_out_of_it(kind: SensorKind) -> None:
    """Kirchhoff's current law, summed up naively from the loop's own parts; no random circuit is without an answer."""
    rng = seeded(f"kirchhoff {kind}")
    ways: Counter[str] = Counter()
    for _ in range(COUNT):
        case = drawn(rng, kind)
        circuit, volts = solved(case)
        assert circuit.worst_residual(volts) < PART_OF_CURRENT, case
        ways[at_rest(case.loop, case.arrangement, case.source).way] += 1
    assert ways["direct"] > 0.8 * COUNT
    assert ways["tried"] < 0.02 * COUNT


@pytest.mark.parametrize("kind", KINDS)
def test_what_the_sources_give_out_is_what_the_rest_takes_up(kind: SensorKind) -> None:
    """Tellegen's theorem: the power into all parts together is nothing."""
    rng = seeded(f"power {kind}")
    for _ in range(COUNT):
        circuit, volts = solved(drawn(rng, kind))
        flows = [volts[node] * amount for node, amount in circuit.leaving(volts)]
        assert abs(sum(flows)) <= ONE_PICOWATT + 1e-9 * max(abs(flow) for flow in flows)


@pytest.mark.parametrize("kind", KINDS)
def test_a_sensor_never_gives_out_power(kind: SensorKind) -> None:
    """A sensor has no source of its own: whatever its state and however it is wired, it takes power up."""
    rng = seeded(f"passive {kind}")
    for _ in range(COUNT):
        circuit, volts = solved(drawn(rng, kind))
        assert taken_by_the_sensor(circuit, volts) >= -1e-12


def taken_by_the_sensor(circuit: Naive, volts: dict[str, float]) -> float:
    """Return the power into everything on the sensor's pins [W]."""

    def is_sensors(line: Straight) -> bool:
        return line.a.startswith(("pin.", "spare."))

    power = sum(line.amperes(volts) * (volts[line.a] - volts[line.b]) for line in circuit.straight if is_sensors(line))
    for output in circuit.outputs:
        supply, signal, common = (volts[pin] for pin in output.pins)
        out = output.amperes(volts)
        power += out * ((supply if out > 0.0 or isinstance(output, Sent) else common) - signal)
    return power
