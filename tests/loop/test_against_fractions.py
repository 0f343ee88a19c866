"""Linear circuits against exact fractions: dead cables with every fault, and networks that are badly scaled."""

from __future__ import annotations

from random import Random

import pytest

from steadyhead.loop.draft import SensorKind
from steadyhead.loop.network import COMMON, Network
from steadyhead.loop.parts import VOLTMETER_OHM
from steadyhead.loop.readings import OHM_RANGES, dead_volts, ohms
from steadyhead.loop.solve import solve
from tests.loop.exact import exact_ohms, exact_volts
from tests.loop.naive import written_out
from tests.loop.random_loops import KINDS, drawn, seeded

DEAD = ("dead-both-free", "dead-looped")
#: A few units in the last of sixteen digits, over some fifty operations without a subtraction.
FIFTY_ROUNDINGS = 1e-14


def random_network(rng: Random) -> tuple[Network, list[tuple[str, str, float]]]:
    """Return a network of up to nine nodes with 10 mohm beside 100 Gohm; two of its nodes have a terminal."""
    nodes = [COMMON, *"abcdefgh"[: rng.randint(3, 8)]]
    ties = [(node, rng.choice(nodes[:k])) for k, node in enumerate(nodes) if k]
    extra = [tuple(rng.sample(nodes, 2)) for _ in range(rng.randint(0, 10))]
    resistors = [(pair[0], pair[1], 10.0 ** rng.uniform(-2, 11)) for pair in (*ties, *extra)]
    network = Network()
    for a, b, ohm in resistors:
        network.join(a, b, ohm)
    return network, resistors


@pytest.mark.parametrize("seed", range(4))
def test_ten_milliohm_beside_a_hundred_gigohm_cost_no_digit(seed: int) -> None:
    """Exact fractions; every pair of nodes of 50 random networks, terminals or not."""
    rng = seeded(f"fractions {seed}")
    for _ in range(50):
        network, resistors = random_network(rng)
        for node in rng.sample("abc", rng.randint(0, 3)):
            network.push(node, 0.0)
        operation = solve(network)
        red, black = rng.sample(sorted({end for a, b, _ in resistors for end in (a, b)}), 2)
        exact = exact_ohms(resistors, red, black)
        raised = exact_volts(resistors, [(red, 1.0), (black, -1.0)])
        size = float(max(abs(raised[red]), abs(raised[black])))
        assert abs(operation.ohms_between(red, black) - float(exact)) <= FIFTY_ROUNDINGS * size


def test_currents_pushed_into_a_network_raise_it_as_exactly() -> None:
    """Exact fractions; one current of either sign into one node, all others measured."""
    rng = seeded("pushed")
    for _ in range(100):
        network, resistors = random_network(rng)
        amperes = rng.choice((-1.0, 1.0)) * 10.0 ** rng.uniform(-9, 0)
        network.push("a", amperes)
        operation = solve(network)
        exact = exact_volts(resistors, [("a", amperes)])
        for node, volt in exact.items():
            assert operation.volt(node) == pytest.approx(float(volt), rel=FIFTY_ROUNDINGS, abs=0.0)


@pytest.mark.parametrize("kind", KINDS)
def test_an_ohmmeter_on_a_dead_cable_shows_the_exact_resistance(kind: SensorKind) -> None:
    """Exact fractions of the cable written out by hand, and rule 1 of the readings for a wet joint's own volts.

    A wet joint pushes a current into one wire and draws it from another: what rounding leaves of their sum meets the
    100 Gohm to common.
    """
    rng = seeded(f"dead {kind}")
    for _ in range(40):
        case = drawn(rng, kind, DEAD)
        circuit = written_out(case.loop, case.arrangement)
        red, black = rng.sample([f"wire.{name}" for name in case.loop.conductors], 2)
        exact = float(exact_ohms(circuit.resistors, red, black))
        volts = exact_volts(circuit.resistors, circuit.pushed)
        own = float(volts[red] - volts[black])
        largest = max(abs(float(volt)) for volt in volts.values())
        test_a = next(amperes for top, amperes in OHM_RANGES if exact + own / amperes < top)
        common = float(exact_ohms(circuit.resistors, red, COMMON))
        blur = 1e-12 * largest + 1e-15 * common * max([0.0, *(abs(amount) for _, amount in circuit.pushed)])
        allowed = 1e-12 * common + blur / test_a
        assert abs(ohms(case.loop, case.arrangement, red, black) - exact - own / test_a) <= allowed
        left = own * VOLTMETER_OHM / (VOLTMETER_OHM + exact)
        assert abs(dead_volts(case.loop, case.arrangement, red, black) - left) <= blur
