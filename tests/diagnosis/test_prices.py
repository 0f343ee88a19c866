"""The price of what is not known, against sums by hand."""

from __future__ import annotations

from math import isclose, log2, sqrt

from steadyhead.diagnosis.estimates import SHIPPED
from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.predicting import Bins, Outlook
from steadyhead.diagnosis.prices import A_BIT, HALF_DONE, Prices

ROUNDING = 1e-12
LOOK = Question("inspection", item="cock")
CABLE, SENSOR, BOTH = "repair-cable", "replace-sensor", "repair-cable+replace-sensor"


def prices(shares: dict[str, float], shown: dict[str, Bins], minutes: float = 4.0) -> Prices:
    """Return the prices of a visit with one cell for each remedy and one check."""
    cells = [(share, remedy) for remedy, share in shares.items()]
    return Prices(SHIPPED, cells, {LOOK: [Outlook(0.0, shown[r]) for r in shares]}, {LOOK: minutes})


def trip(remedy: str) -> float:
    """Return what a wrong remedy costs: a second trip, and a quarter of a part in vain."""
    return SHIPPED.second_trip + SHIPPED.cost(remedy)


def test_a_check_that_tells_everything_costs_its_minutes_for_each_bit() -> None:
    """Closed form: evenly open remedies are one bit, here of mass one."""
    shares = {CABLE: 0.5, SENSOR: 0.5}
    found = prices(shares, {CABLE: (("wrong", 1.0),), SENSOR: (("right", 1.0),)})
    assert isclose(found.price(shares), A_BIT * 4.0, rel_tol=ROUNDING)


def test_a_check_that_tells_half_costs_its_minutes_over_what_does_not_overlap() -> None:
    """Closed form: the Bhattacharyya coefficient of (0.8, 0.2) and (0, 1) is the root of 0.2; the entropy of 0.7."""
    shares = {CABLE: 0.7, SENSOR: 0.3}
    found = prices(shares, {CABLE: (("wrong", 0.8), ("right", 0.2)), SENSOR: (("right", 1.0),)})
    bits = -(0.7 * log2(0.7) + 0.3 * log2(0.3))
    assert isclose(found.price(shares), A_BIT * 4.0 / (1.0 - sqrt(0.2)) * bits, rel_tol=ROUNDING)


def test_what_no_check_tells_costs_what_stopping_costs() -> None:
    """The rule: a rival that shows the same is not worth a minute."""
    shares = {CABLE: 0.6, SENSOR: 0.4}
    found = prices(shares, {CABLE: (("right", 1.0),), SENSOR: (("right", 1.0),)})
    assert isclose(found.price(shares), 0.4 * trip(CABLE), rel_tol=ROUNDING)
    assert isclose(found.stopping(shares), 0.4 * trip(CABLE), rel_tol=ROUNDING)


def test_a_check_dearer_than_a_second_trip_is_left() -> None:
    """The smaller of both prices."""
    shares = {CABLE: 0.9, SENSOR: 0.1}
    found = prices(shares, {CABLE: (("wrong", 1.0),), SENSOR: (("right", 1.0),)}, minutes=1000.0)
    assert isclose(found.price(shares), 0.1 * trip(CABLE), rel_tol=ROUNDING)


def test_one_of_two_needed_repairs_saves_part_of_the_second_trip() -> None:
    """The reading after the first repair says that something is still wrong."""
    shares = {CABLE: 0.6, BOTH: 0.4}
    found = prices(shares, {CABLE: (("right", 1.0),), BOTH: (("right", 1.0),)})
    assert isclose(found.stopping(shares), 0.4 * (1.0 - HALF_DONE) * trip(CABLE), rel_tol=ROUNDING)
    assert isclose(found.price(shares), found.stopping(shares), rel_tol=ROUNDING)


def test_nothing_open_costs_nothing() -> None:
    """Closed form."""
    found = prices({CABLE: 1.0}, {CABLE: (("right", 1.0),)})
    assert found.price({CABLE: 1.0}) == found.stopping({CABLE: 1.0}) == found.price({}) == 0.0


def test_a_rival_that_nothing_tells_from_a_likelier_one_costs_that_ones_repair_in_vain() -> None:
    """Three remedies, a look that tells the first from both others: what is left between these is the dearer trip."""
    cock, gauge = "open-cock", "replace-gauge"
    shares = {cock: 0.4, SENSOR: 0.38, gauge: 0.22}
    right: Bins = (("right", 1.0),)
    found = prices(shares, {cock: (("wrong", 1.0),), SENSOR: right, gauge: right})
    bits = -(0.4 * log2(0.4 / 0.78) + 0.38 * log2(0.38 / 0.78))
    assert isclose(found.price(shares), A_BIT * 4.0 * bits + 0.22 * trip(SENSOR), rel_tol=ROUNDING)
    assert found.price({SENSOR: 0.38, gauge: 0.22}) < found.price(shares), "the look lowers what is still to be paid"
