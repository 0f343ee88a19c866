"""Two faults at once: their remedies, their cells, their physics, when they are opened, and what is told of them."""

from __future__ import annotations

from itertools import combinations
from math import isclose

import pytest

from steadyhead.diagnosis.answer import Suspect
from steadyhead.diagnosis.belief import Belief, Weighed, believe
from steadyhead.diagnosis.besides import besides
from steadyhead.diagnosis.cells import BY_ID, Cell, Part, cells, double, of_pair, single
from steadyhead.diagnosis.looking import look
from steadyhead.diagnosis.makes import DIMENSIONS, Latents
from steadyhead.diagnosis.observing import Pressure, Question, Stance, observations
from steadyhead.diagnosis.opening import LIKELIEST, believed, likeliest, needed, opened, worst_chance
from steadyhead.diagnosis.pairs import (
    AFTERMATH,
    CAUSES,
    cause_of,
    common_pairs,
    left_over,
    pair_id,
    pair_remedy,
    root_of,
    together,
)
from steadyhead.diagnosis.verdict import proved
from steadyhead.loop.faults import FAULTS
from tests.diagnosis.visits import (
    BARE_BOOSTER,
    BARE_HOUSE,
    BOOSTER,
    HOUSE,
    VAN,
    answer,
    gauge,
    odds,
    reading,
    signal,
    supply,
    system,
)

PSI = 6894.757293168361  #: Pa, NIST SP 811 appendix B (from memory)
MAKE = (0.5,) * DIMENSIONS
SIGNAL = Question("volts", "connected", "controller.signal", "controller.common")
UNPLUGGED = Question("volts", "sensor-unplugged", "controller.signal", "controller.common")
AT_50 = Stance("connected", None, Pressure(50 * PSI, 0.0, "gauge"))


def shown(cell: Cell, *questions: Question, arrangement: str = "connected", text: str = HOUSE) -> list[float]:
    """Return what a cell shows at 50 psi."""
    stance = Stance(arrangement, None, AT_50.pressure)
    return look(system(text), cell, Latents(), stance, questions).values


def plain(fault: str, place: str = "", size: float = 0.5) -> Part:
    """Return a part in the middle of its size."""
    return Part(fault, place, size, 0.1 if BY_ID[fault].severity else 0.0)


# ids and remedies


def test_a_pairs_id_and_remedy_are_sorted_and_one_remedy_is_told_once() -> None:
    """The contract: `a+b` with sorted ids, `x+y`, or `x` where both are the same."""
    cell = double(plain("sensor-open", "output"), plain("controller-input-dead", "converter"), 1.0, MAKE)
    assert (cell.fault, cell.remedy) == ("controller-input-dead+sensor-open", "replace-board+replace-sensor")
    assert pair_remedy("repair-cable", "repair-cable") == "repair-cable"


@pytest.mark.parametrize("text", [BARE_HOUSE, BARE_BOOSTER])
def test_every_pair_with_a_cause_is_of_two_faults_of_this_loop_and_stands_once(text: str) -> None:
    """The table of faults: a two-wire loop has no common wire to swap; a pair in two causes would count twice."""
    told = system(text)
    here = {fault.id for fault in FAULTS if told.wires in fault.wires}
    pairs = common_pairs(told.wires, told.kind)
    ids = [pair_id(pair.first.id, pair.second.id) for pair in pairs]
    assert len(ids) == len(set(ids))
    assert {part for id_ in ids for part in id_.split("+")} <= here
    assert all(together(pair.first, pair.second) for pair in pairs)


@pytest.mark.parametrize("text", [BARE_HOUSE, BARE_BOOSTER])
def test_pairs_with_one_cause_are_eight_to_ten_of_a_hundred_calls_at_most(text: str) -> None:
    """Common practice: 10 to 15 of 100 calls are a root with its consequence, the water side's among them."""
    told = system(text)
    share = sum(cell.weight for cell in cells(told) if len(cell.parts) == 2)
    assert 0.05 < share < 0.10
    assert sum(cause.per_100 for cause in CAUSES) < 10.0


def test_every_cause_has_its_share_its_faults_and_its_reason() -> None:
    """The tables speak of the same words; a share of nothing would never be suspected."""
    for cause in CAUSES:
        assert cause.per_100 > 0.0
        assert cause.reason
        assert {*cause.first, *cause.second} <= set(BY_ID)
        assert all(any(p.startswith(cause.place) for p, _ in BY_ID[f].places) for f in cause.first)


def test_what_a_repair_leaves_behind_is_of_the_tables() -> None:
    """The table of faults and its remedies."""
    assert set(AFTERMATH) <= {fault.remedy for fault in FAULTS}
    assert {fault for rows in AFTERMATH.values() for fault, _, _ in rows} <= set(BY_ID)
    assert all(0.0 < chance <= 0.05 for rows in AFTERMATH.values() for _, chance, _ in rows)


# cells


@pytest.mark.parametrize("pair", [("leakage-supply-signal", "sensor-zero-shift"), ("sensor-open", "reversed")])
def test_the_cells_of_a_pair_share_its_weight_and_cover_both_sizes(pair: tuple[str, str]) -> None:
    """Closed form: a Latin hypercube begins at as many different sizes as cells, in each of its columns."""
    found = of_pair(BY_ID[pair[0]], BY_ID[pair[1]], 0.3)
    assert isclose(sum(cell.weight for cell in found), 0.3, rel_tol=1e-12)
    for fault in pair:
        if BY_ID[fault].severity:
            assert len({part.start for cell in found for part in cell.parts if part.fault == fault}) == len(found)


def test_a_wet_plug_is_wet_at_the_plug() -> None:
    """The cause's own words."""
    wet = [c for c in cells(system(BARE_HOUSE)) if c.fault == "leakage-supply-signal+sensor-low"]
    assert wet
    assert all(part.place.startswith("plug") for c in wet for part in c.parts if part.damp)


def test_what_was_set_comes_about_before_what_broke() -> None:
    """A shorted input stays shorted whatever its switch says: 20 mA/250 ohm would be 5 V, a few ohm leave none."""
    broken, switched = plain("controller-input-dead", "shorted", 0.1), plain("setting-signal-kind", "switch")
    for given in ((broken, switched), (switched, broken)):
        cell = double(*given, 1.0, MAKE)
        assert [part.fault for part in cell.parts] == ["setting-signal-kind", "controller-input-dead"]
        assert shown(cell, SIGNAL, text=BOOSTER)[0] < 0.2


# physics by hand


def test_a_leak_over_a_sensor_stuck_low_still_holds_the_unplugged_signal_up() -> None:
    """Ohm's law: with the plug off, 5 V stand over the leak and 100 kohm of input; a stuck sensor plays no part there.

    A leak of 1414 ohm (the middle of 40 ohm to 50 kohm, by logarithm) leaves 5 V x 100/(100 + 1.41) = 4.93 V; source
    resistance, pull-up and a wet joint's volts (0.1 V) move it by less than 0.15 V.
    """
    pair = double(plain("leakage-supply-signal", "plug:crimp"), plain("sensor-low"), 1.0, MAKE)
    alone = single(plain("sensor-low"), 1.0, MAKE)
    assert isclose(shown(pair, UNPLUGGED, arrangement="sensor-unplugged")[0], 4.93, abs_tol=0.15)
    assert shown(alone, UNPLUGGED, arrangement="sensor-unplugged")[0] < 0.5


def test_a_dead_sensor_hides_a_dead_input() -> None:
    """Kirchhoff: what a converter does not see changes no volts; both loops show the same, fault or no fault."""
    dead = plain("sensor-open", "output")
    pair = double(dead, plain("controller-input-dead", "converter"), 1.0, MAKE)
    assert isclose(shown(pair, SIGNAL)[0], shown(single(dead, 1.0, MAKE), SIGNAL)[0], abs_tol=1e-9)


def test_a_stuck_converter_shows_its_own_figure_whatever_the_sensor_does() -> None:
    """Exact arithmetic: half way from -15 % to 130 % is 57.5 % of 0..100 psi; no volt of the loop is moved by it."""
    display, stuck = Question("displayed-pressure"), plain("controller-input-dead", "stuck")
    alone = single(stuck, 1.0, MAKE)
    pair = double(plain("sensor-open", "output"), stuck, 1.0, MAKE)
    for cell in (alone, pair):
        assert isclose(shown(cell, display)[0], 57.5 * PSI, rel_tol=1e-6)
    assert shown(alone, SIGNAL)[0] > shown(pair, SIGNAL)[0] + 1.0


def test_two_shifts_add_up() -> None:
    """Exact arithmetic: a sensor's zero and a converter's are summed in the display, 100 psi of span to one."""
    display = Question("displayed-pressure")
    parts = plain("sensor-zero-shift", size=0.6), plain("controller-input-shifted", size=0.7)
    none, first, second = (single(part, 1.0, MAKE) for part in (plain("none"), *parts))
    base, one, other, both = (shown(c, display)[0] for c in (none, first, second, double(*parts, 1.0, MAKE)))
    assert isclose(one - base, 0.07 * 100 * PSI, rel_tol=0.02)  # 0.6 of -0.35..0.35 is 0.07 of span
    assert isclose(other - base, 0.16 * 100 * PSI, rel_tol=0.02)  # 0.7 of -0.4..0.4 is 0.16
    assert isclose(both - base, (one - base) + (other - base), rel_tol=0.02)


def test_each_part_has_a_size_of_its_own() -> None:
    """Exact arithmetic: a tenth of -0.4..0.4 is 8 psi of 100, of -0.35..0.35 it is 7; the input comes first by id."""
    display = Question("displayed-pressure")
    cell = double(plain("sensor-zero-shift", size=0.6), plain("controller-input-shifted", size=0.7), 1.0, MAKE)
    base, first, second = (
        look(system(HOUSE), cell, z, AT_50, (display,)).values[0]
        for z in (Latents(), Latents(severity=1.0), Latents(second=1.0))
    )
    assert isclose(first - base, 8.0 * PSI, rel_tol=0.02)
    assert isclose(second - base, 7.0 * PSI, rel_tol=0.02)


# when others are opened


def weighed(fault: str, share: float, *misfits: float) -> Weighed:
    """Return a cell after its readings."""
    return Weighed(single(plain(fault), 1.0, MAKE), share, Latents(), tuple(enumerate(misfits, 1)))


def test_the_chance_of_two_readings_off_is_that_of_the_binomial() -> None:
    """Closed form: a twentieth of normal numbers passes 1.96 deviations; two of three by 3 x 0.05^2 x 0.95 + 0.05^3."""
    found = worst_chance([weighed("sensor-low", 1.0, 0.1, 1.959963984540054, 7.0)])
    assert isclose(found, 3 * 0.05**2 * 0.95 + 0.05**3, rel_tol=1e-9)


def test_one_reading_far_off_opens_no_pair_and_two_do() -> None:
    """The rule: one reading may have been a slip."""
    told = system(HOUSE)

    def asks(*misfits: float) -> bool:
        return needed(told, Belief([weighed("sensor-low", 1.0, *misfits)], [], 0.0, 0.0))

    assert not asks(0.5, 0.5, 9.0)
    assert asks(0.5, 9.0, 9.0)
    assert not asks()


def test_no_pair_is_opened_where_one_fault_explains_all() -> None:
    """The rule; a leak of 260 ohm explains these: 4.98 V with the plug off can come from nothing else."""
    told = system(HOUSE + VAN + gauge("48 psi") + signal("3.60 V") + signal("4.98 V", "sensor-unplugged"))
    seen = observations(told)
    assert not needed(told, believe(told, cells(told), seen))


#: Sensor power that stands with the sensor on it and falls with nothing on it, and a signal of nothing that unplugged
#: stands at 5 V.
TWO_TROUBLES = (
    HOUSE + VAN + gauge("50 psi") + signal("0.50 V") + supply("4.98 V") + signal("4.99 V", "sensor-unplugged")
    + supply("2.00 V", "all-lifted") + supply("2.00 V", "supply-terminal-clear")
)  # fmt: skip


def test_readings_that_no_single_fault_explains_open_pairs() -> None:
    """Kirchhoff: with less on it a supply stands no lower, whatever is at fault; the readings contradict."""
    told = system(TWO_TROUBLES)
    seen = observations(told)
    first = believe(told, cells(told), seen)
    assert needed(told, first)
    found = believed(told, seen)
    known = {cell.fault for cell in cells(told)}
    assert {w.cell.fault for w in found.before} - known
    assert isclose(sum(w.share for w in found.after), 1.0, rel_tol=1e-9)


def test_eight_faults_are_joined_by_twos_and_none_of_them_twice() -> None:
    """Counting: eight faults make at most 28 pairs."""
    told = system(TWO_TROUBLES)
    belief = believe(told, cells(told), observations(told))
    faults = likeliest(belief)
    ids = {cell.fault for cell in opened(told, belief)}
    assert len(faults) == len(set(faults)) == LIKELIEST
    assert ids <= {pair_id(a, b) for a, b in combinations(faults, 2)}
    assert all(cause_of(*id_.split("+")) is None for id_ in ids)


#: The sensor was dead, a new one is on and reads 2.50 V at 50 psi, and the display still shows nothing.
STILL_WRONG = (
    HOUSE + VAN + gauge("50 psi") + reading("displayed-pressure", "-12.5 psi") + signal("0.00 V") + supply("4.99 V")
    + '[[action]]\nremedy = "replace-sensor"\nafter_reading = 4\n'
    + gauge("50 psi") + reading("displayed-pressure", "-12.5 psi") + signal("2.50 V")
)  # fmt: skip


def test_a_repair_that_did_not_cure_opens_pairs_and_names_what_it_had_hidden() -> None:
    """The rule, and exact arithmetic: 2.50 V at 50 psi is a healthy signal; what shows nothing is the drive's input."""
    found = answer(STILL_WRONG)
    told = system(STILL_WRONG)
    known = {cell.fault for cell in cells(told)}
    assert set(odds(found)) - known
    assert found["verdict"]["remedy"] == "replace-board" or found["suspects"][0]["fault"] == "setting-input"
    after, before = odds(found), odds(answer(HOUSE + VAN + gauge("50 psi") + reading("displayed-pressure", "-12.5 psi")
                                             + signal("2.50 V")))  # fmt: skip
    ratio = after["controller-input-dead"] / after["setting-input"]
    assert ratio > 1.5 * before["controller-input-dead"] / before["setting-input"]


def test_what_a_mended_part_hid_is_likelier_by_its_cause() -> None:
    """Closed form: of the calls that `replace-sensor` mends, the input died with the sensor in `per_100` of them."""
    told = system(BARE_HOUSE)
    pairs = common_pairs(told.wires, told.kind)
    odds_before = {"sensor-open": 0.2, "sensor-low": 0.1, "controller-input-dead": 0.04}
    found = left_over(frozenset(("replace-sensor",)), pairs, odds_before)
    share = sum(pair.per_100 for pair in pairs if pair.second.id == "controller-input-dead") / 100.0
    assert isclose(found["controller-input-dead"], share / 0.3, rel_tol=1e-9)


# what is told


def test_the_root_is_named_where_one_fault_caused_the_other() -> None:
    """The table of causes: wrong wires cook a sensor; a surge takes both."""
    cooked, surge = root_of("sensor-open", "swapped-supply-common"), root_of("sensor-open", "controller-input-dead")
    assert cooked is not None
    assert surge is not None
    assert cooked.values == {"root": "swapped-supply-common", "consequence": "sensor-open"}
    assert surge.values["root"] is None
    assert root_of("sensor-open", "vacuum") is None


def test_a_second_fault_behind_the_first_is_told_before_anybody_leaves() -> None:
    """Exact arithmetic: of 0.9 in which the sensor is needed 0.1 need the board too: a ninth; below 2 % is not told."""
    suspects = [
        Suspect(fault="sensor-open", remedy="replace-sensor", probability=0.79),
        Suspect(fault="none", remedy="none", probability=0.1),
        Suspect(fault="controller-input-dead+sensor-open", remedy="replace-board+replace-sensor", probability=0.1),
        Suspect(fault="leakage-supply-signal+sensor-low", remedy="repair-cable+replace-sensor", probability=0.01),
    ]
    (told,) = besides(suspects, "replace-sensor")
    assert told.values["fault"] == "controller-input-dead"
    assert told.values["remedy"] == "replace-board"
    assert isclose(float(str(told.values["share"])), 0.1 / 0.9, rel_tol=1e-9)


def test_what_does_the_same_and_more_is_no_rival_of_a_proof() -> None:
    """The rule: the sensor is needed either way; a rival that does something else must have fallen tenfold."""
    before = {"replace-sensor": 0.3, "replace-board+replace-sensor": 0.02, "repair-cable": 0.3}
    now = {"replace-sensor": 0.93, "replace-board+replace-sensor": 0.06, "repair-cable": 0.005}
    assert proved(now, before, "replace-sensor")
    assert not proved({**now, "repair-cable": 0.3}, before, "replace-sensor")
    assert not proved({"replace-sensor": 0.6, "replace-board+replace-sensor": 0.4}, before, "replace-sensor")


def test_that_it_is_none_of_these_is_never_proved() -> None:
    """The rule: a cause that nobody named has no reading that convicts it."""
    before = {"look-further": 0.02, "replace-sensor": 0.5, "repair-cable": 0.48}
    now = {"look-further": 0.998, "replace-sensor": 0.001, "repair-cable": 0.001}
    assert not proved(now, before, "look-further")
    swapped = {"repair-cable": 0.998, "replace-sensor": 0.001, "look-further": 0.001}
    assert proved(swapped, before, "repair-cable")
