"""What may run until the part comes: the order, the limits, and above all what is never offered."""

from __future__ import annotations

from itertools import product

import pytest

from steadyhead.visit.fact_kinds import PROTECTIONS
from steadyhead.water.tonight import BY_SENSOR, DRY_RUN, MODES
from tests.water.answered import HELICAL, SPARE, SWITCH, WELL, figures, reasons, thought, way

PSI = 6894.757  #: [Pa], as a national institute prints it
FOOT_PA = 0.3048 * 9806.4  #: a foot of cold water, by hand


def test_a_fire_pump_is_refused_before_anything_is_worked_out() -> None:
    """The rule: out of scope, whatever else is said."""
    found = thought({**SPARE, **SWITCH}, serves="fire")
    assert found.refused is not None
    assert found.refused.id == "tonight-fire-pump"
    assert found.ways == ()
    assert found.best is None


def test_with_nothing_known_it_is_made_safe_and_every_other_way_says_what_to_find_out() -> None:
    """Unknown is normal: it blocks, and is asked for."""
    found = thought({})
    assert found.best is not None
    assert found.best.mode == "made-safe"
    others = found.ways[:-1]
    assert all(each.possible == "unknown" and each.find and not each.limits for each in others)
    assert {each.id for each in found.tell} == {"tonight-if-fire", "tonight-tell-people"}


def test_the_ways_come_in_their_order_and_the_best_is_the_first_that_may_be_done() -> None:
    """The rule: the drive's own control before a switch, a switch before a speed by hand, off last."""
    assert tuple(each.mode for each in thought({}).ways) == MODES
    ladder = [({**SPARE, **SWITCH}, "spare-sensor"), (SWITCH, "pressure-switch"), (WELL, "fixed-speed")]
    for answers, mode in ladder:
        best = thought(answers).best
        assert best is not None
        assert best.mode == mode


def test_what_is_lost_is_named_in_the_records_own_words() -> None:
    """The record's list of protections."""
    assert {*BY_SENSOR, DRY_RUN} == set(PROTECTIONS)


# ---------------------------------------------------------------- a speed by hand


def test_the_limits_of_the_worked_example_by_hand() -> None:
    """By hand: 90 psi is 207.6 ft; 60 sqrt(307.6 / 605) = 42.78, down to 42.7 Hz; start 60 sqrt(215.3 / 550)."""
    found = figures(way("fixed-speed", WELL))
    assert found["tonight-limit"] == pytest.approx(90 * PSI)
    assert found["tonight-most"] == pytest.approx(42.7)
    assert found["tonight-start"] == pytest.approx(37.54, abs=0.02)
    assert found["tonight-full"] == pytest.approx((1.1 * 550 - 100) * FOOT_PA, rel=1e-4)
    assert found["tonight-gives"] == pytest.approx((0.9 * 550 * (42.7 / 60) ** 2 - 100) * FOOT_PA, rel=1e-4)


WEAKEST, RELIEFS = ("80 psi", "100 psi", "150 psi"), ("75 psi", "100 psi")
SYSTEMS = product(WEAKEST, RELIEFS, ("300 ft", "550 ft"), ("40 ft", "60..140 ft"))


@pytest.mark.parametrize(("weak", "relief", "shut_off", "lift"), list(SYSTEMS))
def test_no_way_by_hand_can_bring_the_surface_over_any_part(weak: str, relief: str, shut_off: str, lift: str) -> None:
    """Property: at the highest speed the strongest pump at the highest water stays a tenth below every part."""
    found = way("fixed-speed", WELL, weakest=weak, relief_set=relief, shut_off=shut_off, lift=lift)
    if found.possible == "yes":
        parts = [float(text.split()[0]) for text in (weak, relief, "160 psi")]
        assert figures(found)["tonight-at-most"] <= 0.9 * min(parts) * PSI * (1 + 1e-9)


def test_a_lift_that_nobody_knows_counts_as_none_and_asks_for_slower() -> None:
    """By hand: 60 sqrt(207.6 / 605) = 35.1 Hz; what reaches the surface is not told."""
    without = {key: text for key, text in WELL.items() if key != "lift"}
    found = way("fixed-speed", without)
    assert figures(found)["tonight-most"] == pytest.approx(35.1)
    assert not {"tonight-start", "tonight-gives"} & set(figures(found))
    assert "lift" in found.find


def test_ones_own_no_flow_test_stands_in_for_the_curve_and_holds_no_further_without_a_lift() -> None:
    """The rule: the speed that was tried is the highest; its pressure was seen."""
    answers = {key: text for key, text in WELL.items() if key not in {"shut-off", "rated-hertz", "lift"}}
    found = way("fixed-speed", answers, test_hertz="38 Hz", test_pressure="52 psi")
    assert found.possible == "yes"
    assert figures(found)["tonight-most"] == pytest.approx(38.0)
    assert figures(found)["tonight-at-most"] == pytest.approx(1.05 * 52 * PSI, rel=1e-6)


def test_a_main_needs_what_comes_in_and_adds_it() -> None:
    """By hand: limit 90 - 40 = 50 psi is 115.3 ft; 60 sqrt(115.3 / 132) = 56.08, down to 56.0 Hz."""
    booster = {**WELL, "draws": "main", "lift": "", "shut-off": "120 ft"}
    assert "incoming" in way("fixed-speed", booster).find
    assert figures(way("fixed-speed", booster, incoming="20..40 psi"))["tonight-most"] == pytest.approx(56.0)


@pytest.mark.parametrize(
    ("more", "because"),
    [
        ({"relief": "none"}, "tonight-no-relief"),
        ({"hand_speed": "no"}, "tonight-no-hand-speed"),
        ({"broken": "drive"}, "tonight-drive-dead"),
        ({"watch": "nobody"}, "tonight-watch-too-little"),
        ({"watch": "daily"}, "tonight-watch-too-little"),
        ({"dry_run": "by-sensor", "watch": "in-house"}, "tonight-watch-too-little"),
        ({"dry_run": "none", "watch": "in-house"}, "tonight-watch-too-little"),
        ({"weakest": "20 psi"}, "tonight-too-slow"),
        ({"weakest": "42 psi", "lift": "20 ft", "least_hertz": "26 Hz"}, "tonight-too-slow"),
        ({"lift": "300 ft", "shut_off": "310 ft"}, "tonight-too-little"),
    ],
)
def test_a_speed_by_hand_is_refused_where_it_could_hurt_or_be_of_no_use(more: dict[str, str], because: str) -> None:
    """The rules of safety, one by one."""
    found = way("fixed-speed", WELL, **more)
    assert found.possible == "no"
    assert because in reasons(found)
    assert found.limits == ()


def test_a_dry_run_stop_that_nobody_knows_counts_as_lost_and_takes_somebody_beside_it() -> None:
    """The rule: the unknown is taken as the worse."""
    without = {key: text for key, text in WELL.items() if key != "dry-run"}
    found = way("fixed-speed", without)
    assert found.watch == "beside"
    assert DRY_RUN in found.lost
    assert "dry-run" in found.find


def test_a_set_pressure_beyond_the_limits_is_said_with_what_can_be_had() -> None:
    """80 psi cannot be held below 0.9 x 100 psi with a tenth of margin on the head."""
    found = way("fixed-speed", WELL, set_pressure="85 psi")
    assert "tonight-start" not in figures(found)
    assert "tonight-do-lower" in {each.id for each in found.do}


def test_what_is_drawn_and_the_least_flow_are_told_where_the_curve_is_known() -> None:
    """By hand: 550 x 0.5065 - 250 x (6/12)^2 - 100 = 116 ft; a tenth of 12 gpm x 42.7/60 = 0.854 gpm."""
    found = figures(way("fixed-speed", WELL, duty_flow="12 gpm", duty_head="300 ft", needed_flow="6 gpm"))
    assert found["tonight-drawn"] == pytest.approx((550 * (42.7 / 60) ** 2 - 250 * 0.25 - 100) * FOOT_PA, rel=1e-4)
    assert found["tonight-bleed"] * 60 / 0.003785411784 == pytest.approx(0.854, abs=0.001)


@pytest.mark.parametrize("answers", [WELL, SWITCH, HELICAL])
def test_no_way_tells_to_bypass_anything(answers: dict[str, str]) -> None:
    """Every way that may run warns never to bypass, and reads the relief first where it hangs on it."""
    for each in thought(answers).ways[:-1]:
        assert "tonight-never-bypass" in {told.id for told in each.cautions}
        if each.possible == "yes":
            assert each.do[0].id == "tonight-do-read-relief"


# ---------------------------------------------------------------- a positive-displacement pump


@pytest.mark.parametrize(
    ("more", "because"),
    [
        ({"relief": "fitted"}, "tonight-relief-unproven"),
        ({"relief": "none"}, "tonight-no-relief"),
        ({"relief_set": "85 psi"}, "tonight-relief-too-high"),  # 1.25 x 85 = 106 psi
        ({"relief_flow": "5 gpm"}, "tonight-relief-too-small"),  # 60 x 0.9 x 5/10 = 27 Hz
        ({"watch": "in-house"}, "tonight-watch-too-little"),
    ],
)
def test_a_positive_displacement_pump_hangs_on_a_relief_that_was_proven(more: dict[str, str], because: str) -> None:
    """The rule: never against a closed valve; the relief passes it all, or nothing runs by hand."""
    found = way("fixed-speed", HELICAL, **more)
    assert found.possible == "no"
    assert because in reasons(found)


def test_a_positive_displacement_pump_runs_no_faster_than_its_relief_passes() -> None:
    """By hand: 60 x 0.9 x 10/10 = 54 Hz; 1.25 x 70 psi = 87.5 psi."""
    found = figures(way("fixed-speed", HELICAL))
    assert found["tonight-most"] == pytest.approx(54.0)
    assert found["tonight-at-most"] == pytest.approx(87.5 * PSI)


def test_a_pump_of_unknown_kind_is_asked_for_and_never_guessed() -> None:
    """Helical and centrifugal differ in what a shut tap does."""
    found = way("fixed-speed", {key: text for key, text in WELL.items() if key != "pump"})
    assert found.possible == "unknown"
    assert "pump" in found.find


# ---------------------------------------------------------------- switch, spare, lead


def test_a_switch_stops_the_pump_below_what_a_pump_in_order_gives() -> None:
    """By hand: (0.9 x 550 x (42.7/60)^2 - 100) ft is 65.3 psi; over 1.1 that is 59.4 psi."""
    found = way("pressure-switch", SWITCH)
    assert found.possible == "yes"
    assert figures(found)["tonight-cut-out"] == pytest.approx(59.4 * PSI, rel=2e-3)
    assert figures(found)["tonight-cut-out"] <= figures(found)["tonight-limit"]


def test_a_switch_that_is_set_too_high_is_turned_down() -> None:
    """70 psi is above the 59 psi that this pump surely comes over."""
    told = {each.id: each.values for each in way("pressure-switch", SWITCH, cut_out="70 psi").do}
    assert "tonight-do-lower-cut-out" in told
    assert told["tonight-do-cut"]["cut_out"] == pytest.approx(59.4 * PSI, rel=2e-3)


def test_a_switch_with_a_low_pressure_cut_off_stands_in_for_the_dry_run_stop() -> None:
    """The rule: then somebody in the house will do; without it somebody beside the pump."""
    bare = way("pressure-switch", SWITCH, dry_run="none", watch="in-house")
    assert bare.possible == "no"
    guarded = way("pressure-switch", SWITCH, dry_run="none", watch="in-house", switch_low_cut="yes")
    assert guarded.possible == "yes"
    assert DRY_RUN not in guarded.lost


@pytest.mark.parametrize(("key", "because"), [("switch", "tonight-no-switch"), ("run_input", "tonight-no-run-input")])
def test_no_switch_without_its_parts(key: str, because: str) -> None:
    """Neither a switch nor a contact to put it on."""
    assert because in reasons(way("pressure-switch", SWITCH, **{key: "no"}))


def test_a_spare_keeps_every_protection_and_is_re_scaled() -> None:
    """By hand: 50 of 150 psi is a third; 1 % of 150 psi is 1.5 psi."""
    found = way("spare-sensor", SPARE, spare_accuracy="1 %")
    assert found.possible == "yes"
    assert found.lost == ()
    assert figures(found)["tonight-set-share"] == pytest.approx(1 / 3)
    assert figures(found)["tonight-spare-error"] == pytest.approx(1.5 * PSI)
    scaled = next(each for each in found.do if each.id == "tonight-do-rescale")
    assert scaled.values == {"low": 0.0, "high": pytest.approx(150 * PSI)}


@pytest.mark.parametrize(
    ("more", "because"),
    [
        ({"broken": "cable"}, "tonight-not-that"),
        ({"spare": "no"}, "tonight-no-spare"),
        ({"spare_approved": "no"}, "tonight-spare-not-approved"),
        ({"spare_range": "0..55 psi"}, "tonight-spare-short"),
    ],
)
def test_a_spare_that_will_not_do_says_why(more: dict[str, str], because: str) -> None:
    """Another part is broken; none there; not for drinking water; 55 is less than 1.15 x 50 psi."""
    assert reasons(way("spare-sensor", SPARE, **more)) == {because}


def test_a_pump_that_could_burst_the_spare_at_full_speed_is_warned_of() -> None:
    """By hand: 219 psi at full speed against 1.5 x 100 psi, and against 1.5 x 150 psi."""
    def warned(range_: str) -> bool:
        cautions = way("spare-sensor", SPARE, spare_range=range_).cautions
        return "tonight-spare-could-burst" in {each.id for each in cautions}

    assert warned("0..100 psi")
    assert not warned("0..150 psi")


def test_a_good_lead_stands_in_for_a_broken_cable_alone() -> None:
    """The rule: it helps only where the cable is what failed."""
    assert way("temporary-lead", WELL, broken="cable", lead="yes").possible == "yes"
    assert reasons(way("temporary-lead", WELL, lead="yes")) == {"tonight-not-that"}


def test_people_who_depend_on_the_water_are_spoken_to_first() -> None:
    """The rule: dialysis, care, animals, a process."""
    assert [each.id for each in thought(WELL, serves="dependent").tell] == ["tonight-tell-dependents"]


@pytest.mark.parametrize("serves", ["house", "building", "dependent", ""])
@pytest.mark.parametrize("broken", ["sensor", "cable", "input", "drive", ""])
def test_it_can_always_be_made_safe_and_left_off(serves: str, broken: str) -> None:
    """The last way, whatever is known."""
    last = thought(WELL, serves=serves, broken=broken).ways[-1]
    assert (last.mode, last.possible, last.lost) == ("made-safe", "yes", ())
