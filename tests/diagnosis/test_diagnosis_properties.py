"""Properties of a diagnosis: order, labels, silence and repetition change nothing; no plausible reading breaks it."""

from __future__ import annotations

from math import isclose, isfinite

from hypothesis import HealthCheck, Phase, example, given, settings
from hypothesis import strategies as st

from steadyhead.service.diagnosis import diagnose_text
from tests.diagnosis.visits import (
    BARE_AMPLIFIED,
    BARE_BOOSTER,
    BARE_CURRENT,
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
    volts,
)
from tests.once import afresh
from tests.support import examples

#: A diagnosis takes a second or two: one example beside those that are written down, without shrinking; more of them
#: in `scripts/long.py`.
FEW = settings(max_examples=examples(1, 8), deadline=None, phases=(Phase.explicit, Phase.generate),
               suppress_health_check=list(HealthCheck))  # fmt: skip
SAME = 1e-9  #: of probability: sums of some hundred figures in another order

SEEN = (
    reading("displayed-pressure", "21.8 psi"), signal("1.37 V"), supply("4.99 V"),
    signal("0.00 V", "sensor-unplugged"), reading("inspection", "right", item="wiring-order"),
)  # fmt: skip
BEFORE = HOUSE + VAN + gauge("72 psi")


def same(first: dict[str, float], second: dict[str, float]) -> bool:
    """Tell whether two answers give every suspect the same odds."""
    return all(isclose(first.get(f, 0.0), second.get(f, 0.0), abs_tol=SAME) for f in {*first, *second})


@FEW
@example([*reversed(SEEN)])
@given(st.permutations(SEEN))
def test_the_order_of_independent_readings_changes_no_odds(order: list[str]) -> None:
    """A property of evidence; all of them at one gauge reading."""
    assert same(odds(answer(BEFORE + "".join(order))), odds(answer(BEFORE + "".join(SEEN))))


@settings(FEW, max_examples=examples(1, 4))
@given(st.text("abcdefghijklmnopqrstuvwxyz 0123456789+", min_size=1, max_size=12).filter(str.strip))
def test_another_label_changes_no_odds_and_no_check(label: str) -> None:
    """A property: labels are words for people."""
    read = gauge("50 psi") + reading("displayed-signal", "7.0 mA")
    plain = answer(BOOSTER + VAN + read)
    told = answer(BOOSTER + VAN + f'[labels]\n"controller.signal" = "{label.strip()}"\n' + read)
    assert odds(told) == odds(plain)
    kept = ("measure", "red", "black", "arrangement", "source", "item", "saves_minutes")
    rows = [[[each[key] for key in kept] for each in found["next_checks"]] for found in (plain, told)]
    assert rows[0] == rows[1]


def test_a_look_that_nobody_could_take_changes_no_odds() -> None:
    """A property: what every suspect lets one see alike tells nothing; `not-seen` is the file's own word for it."""
    text = BEFORE + SEEN[0] + SEEN[1]
    extra = reading("inspection", "not-seen", item="moisture") + reading("inspection", "not-seen", item="connections")
    assert same(odds(answer(text + extra)), odds(answer(text)))


def test_no_volts_between_two_ends_of_one_bond_change_nothing() -> None:
    """Ohm's law: common is bonded to earth, so every suspect lets 0 V be read between them."""
    text = BEFORE + SEEN[0] + SEEN[1]
    found = odds(answer(text + volts("controller.common", "earth", "0.00 V")))
    before = odds(answer(text))
    assert all(isclose(found.get(f, 0.0), before.get(f, 0.0), abs_tol=0.02) for f in {*found, *before})


def test_the_same_file_gets_the_same_answer_twice() -> None:
    """A property: nothing is drawn by chance, nothing is remembered."""
    text = BEFORE + SEEN[0] + SEEN[1]
    with afresh():
        assert diagnose_text(text) == diagnose_text(text)


KEYS = [
    line for line in HOUSE.strip().splitlines()
    if not line.startswith(("[", "schema", "signal", "range"))
]  # fmt: skip


@FEW
@example(set(KEYS))
@given(st.sets(st.sampled_from(KEYS)))
def test_any_optional_key_may_be_left_out(gone: set[str]) -> None:
    """The contract: only signal and range are required of a system."""
    text = "\n".join(line for line in HOUSE.splitlines() if line not in gone)
    found = answer(text + "\n" + VAN + gauge("48 psi") + SEEN[0] + SEEN[1])
    assert isclose(sum(odds(found).values()), 1.0, abs_tol=SAME)


# random plausible readings

NUMBER = st.floats(-0.5, 1.5)
THREE = st.sampled_from(["controller.supply", "controller.signal", "sensor.supply", "sensor.signal", "sensor.common"])
LIVE = st.sampled_from(["connected", "sensor-unplugged", "spare-at-plug", "temporary-cable", "vented"])
PAIRS = st.sampled_from([("supply", "signal"), ("supply", "common"), ("signal", "common")])


@st.composite
def three_wire_reading(draw: st.DrawFn) -> str:  # noqa: PLR0911 - one line for each kind of reading
    """Return any reading that a three-wire system allows."""
    kind = draw(st.sampled_from(["volts", "ohms", "display", "shown", "look", "gauge", "source"]))
    figure = draw(NUMBER)
    if kind == "volts":
        return volts(draw(THREE), "controller.common", f"{figure * 6:.2f} V", draw(LIVE))
    if kind == "ohms":
        red, black = draw(PAIRS)
        value = draw(st.sampled_from(["OL", "0.4 ohm", "150 ohm", "4.7 kohm", "1.2 Mohm"]))
        where = draw(st.sampled_from(["dead-both-free", "dead-looped"]))
        return reading("ohms", value, arrangement=where, red=f"wire.{red}", black=f"wire.{black}")
    if kind == "gauge":
        return gauge(draw(st.sampled_from([f"{figure * 60 + 30:.1f} psi", "0 psi on its stop pin", "40..55 psi"])))
    if kind == "display":
        return reading("displayed-pressure", f"{figure * 100:.1f} psi")
    if kind == "source":
        held = {"arrangement": "source-at-controller", "source": "2.5 V"}
        return reading("displayed-pressure", f"{figure * 100:.1f} psi", **held)
    if kind == "shown":
        return reading("displayed-fault", draw(st.sampled_from(["none", "low-signal", "high-signal", "dry-run"])))
    item = draw(st.sampled_from(["connections", "moisture", "cock", "wiring-order", "wiggle", "meter-check"]))
    return reading("inspection", draw(st.sampled_from(["right", "wrong", "not-seen"])), item=item)


@settings(FEW, max_examples=examples(2, 40))
@given(st.sampled_from([HOUSE, BARE_HOUSE, BARE_AMPLIFIED]), st.lists(three_wire_reading(), max_size=5))
def test_no_plausible_reading_of_three_wires_breaks_the_diagnosis(system: str, readings: list[str]) -> None:
    """The contract of every answer: sums, order, a verdict, figures that are figures."""
    sound(answer(system + VAN + "".join(readings)))


@st.composite
def two_wire_reading(draw: st.DrawFn) -> str:
    """Return any reading that a current loop allows."""
    kind = draw(st.sampled_from(["volts", "milliamps", "signal", "look", "gauge"]))
    figure = draw(NUMBER)
    if kind == "volts":
        point = draw(st.sampled_from(["controller.supply", "controller.signal"]))
        return volts(point, "controller.common", f"{figure * 20:.2f} V", draw(LIVE))
    if kind == "milliamps":
        return reading("milliamps", f"{abs(figure) * 16:.2f} mA", arrangement="meter-in-signal")
    if kind == "signal":
        return reading("displayed-signal", f"{abs(figure) * 16:.2f} mA")
    if kind == "gauge":
        return gauge(f"{figure * 4 + 3:.1f} bar")
    return reading("inspection", draw(st.sampled_from(["right", "wrong"])), item="connections")


@settings(FEW, max_examples=examples(2, 40))
@given(st.sampled_from([BOOSTER, BARE_BOOSTER, BARE_CURRENT]), st.lists(two_wire_reading(), max_size=5))
def test_no_plausible_reading_of_a_current_loop_breaks_the_diagnosis(system: str, readings: list[str]) -> None:
    """The same of current loops."""
    sound(answer(system + VAN + "".join(readings)))


def sound(found: dict[str, object]) -> None:
    """Check what holds of every answer."""
    listed = odds(found)
    assert isclose(sum(listed.values()), 1.0, abs_tol=SAME)
    assert all(isfinite(p) and 0.0 <= p <= 1.0 for p in listed.values())
    verdict = found["verdict"]
    assert isinstance(verdict, dict)
    assert verdict["settled"] is (found["next_checks"] == [])
