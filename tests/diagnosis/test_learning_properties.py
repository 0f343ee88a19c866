"""What closed visits teach, against exact fractions and numerical integration, and its properties."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import exp, isclose, log

import pytest
from hypothesis import given
from hypothesis import strategies as st

from steadyhead.diagnosis.estimates import NONE_OF_THESE, SHIPPED, Row
from steadyhead.diagnosis.learning import NOT_PROVED, PROVED, TIMED, WORTH, Learnt, digest, learnt_of, updated
from steadyhead.diagnosis.priors import prior
from steadyhead.loop.faults import FAULTS, faults_of
from steadyhead.visit import dump_visit, parse_visit
from steadyhead.visit.record import Closed
from tests.diagnosis.visits import BARE_BOOSTER, BARE_HOUSE, OPENING

IDS = [fault.id for fault in FAULTS] + [NONE_OF_THESE]
FAMILY = {fault.id: fault.family for fault in FAULTS}
MINUTES = st.floats(0.0, 120.0)
PLACES = st.sampled_from([("arrangements", "vented"), ("readings", "meter"), ("inspections", "port")])
LESSONS = st.lists(
    st.builds(
        Learnt,
        visit=st.integers(0, 30).map(str),
        fault=st.sampled_from([*IDS, "sensor-open+vacuum"]),
        counts=st.sampled_from([PROVED, NOT_PROVED]),
        took=st.lists(st.tuples(PLACES, MINUTES), max_size=3).map(tuple),
    ),
    max_size=12,
    unique_by=lambda each: each.visit,
)


def test_odds_are_those_of_a_flat_dirichlet_over_all_faults() -> None:
    """Exact fractions of the conjugate rule, written anew without families: (100 p + n) / (100 + N)."""
    faults = faults_of(3, "ratiometric")
    everyone = {f.id for f in faults} | {NONE_OF_THESE}
    total = sum((Fraction(v) for v in SHIPPED.families.values()), Fraction(0))
    shares = {family: sum(Fraction(g.share) for g in FAULTS if g.family == family) for family in SHIPPED.families}
    share_of = {f.id: Fraction(f.share) / shares[f.family] for f in FAULTS}
    alpha = {f.id: 100 * Fraction(SHIPPED.families[f.family]) / total * share_of[f.id] for f in FAULTS}
    alpha[NONE_OF_THESE] = 100 * Fraction(SHIPPED.families[NONE_OF_THESE]) / total
    one = Fraction(1)
    met = {"sensor-open": 3 * one, "vacuum": Fraction(5, 4), "noise-pickup": one, NONE_OF_THESE: one}
    lesson = [Learnt(visit=f"a{k}", fault="sensor-open", counts=1.0) for k in range(3)]
    lesson += [Learnt(visit="b", fault="vacuum", counts=1.0), Learnt(visit="c", fault="vacuum", counts=0.25)]
    lesson += [Learnt(visit="d", fault="noise-pickup", counts=1.0), Learnt(visit="e", fault=NONE_OF_THESE, counts=1.0)]
    after = updated(SHIPPED, lesson)
    whole = 100 + sum(met.values())
    for fault, value in alpha.items():
        family = FAMILY.get(fault, NONE_OF_THESE)
        siblings = [f.id for f in FAULTS if f.family == family] or [fault]
        calls = after.families[family] / float(total)
        within = after.faults[fault] / sum(after.faults[s] for s in siblings) if fault in FAMILY else 1.0
        assert isclose(calls * within, float((value + met.get(fault, Fraction(0))) / whole), rel_tol=1e-12)
    assert set(prior(3, "ratiometric", after)) == everyone


def test_minutes_are_the_mean_of_a_gamma_conjugate_posterior() -> None:
    """Numerical integration over the mean, with the stated prior and gamma timings of another shape than one."""
    shape, guess, times = 3.0, 7.0, (25.0, 12.0, 18.0)

    def density(mean: float) -> float:
        """Return the logarithm of prior times likelihood at one mean, but for constants."""
        before = -(shape * TIMED + 2.0) * log(mean) - shape * TIMED * guess / mean
        return before + sum(-shape * log(mean) - shape * t / mean for t in times)

    grid = [0.5 + 0.01 * k for k in range(12000)]
    top = max(map(density, grid))
    weights = [exp(density(m) - top) for m in grid]
    expected = sum(m * w for m, w in zip(grid, weights, strict=True)) / sum(weights)
    lesson = [Learnt(visit=str(t), fault="none", counts=1.0, took=((("arrangements", "vented"), t),)) for t in times]
    a_thousandth_of_a_minute = 1e-3
    assert isclose(updated(SHIPPED, lesson).arrangements["vented"], expected, abs_tol=a_thousandth_of_a_minute)


@given(LESSONS, st.randoms(use_true_random=False))
def test_the_order_of_visits_changes_nothing(lesson: list[Learnt], shuffler: object) -> None:
    """A property of counting."""
    mixed = list(lesson)
    shuffler.shuffle(mixed)  # type: ignore[attr-defined]
    assert updated(SHIPPED, lesson) == updated(SHIPPED, mixed)


@given(LESSONS)
def test_a_visit_learnt_twice_counts_once(lesson: list[Learnt]) -> None:
    """The rule of the page."""
    assert updated(SHIPPED, [*lesson, *lesson]) == updated(SHIPPED, lesson)


@given(LESSONS)
def test_shares_keep_their_sums_and_stay_above_zero(lesson: list[Learnt]) -> None:
    """Calls are moved between families and never made; no fault is ever excluded."""
    after = updated(SHIPPED, lesson)
    assert isclose(sum(after.families.values()), sum(SHIPPED.families.values()), rel_tol=1e-12)
    assert isclose(sum(after.faults.values()), sum(SHIPPED.faults.values()), rel_tol=1e-12)
    assert min(*after.families.values(), *after.faults.values()) > 0.0


@given(st.sampled_from(IDS), st.integers(1, 5000))
def test_what_is_met_again_and_again_becomes_likelier_and_in_the_end_certain(fault: str, times: int) -> None:
    """The law of large numbers: the share tends to 1 as (100 p + n) / (100 + n)."""
    lesson = [Learnt(visit=str(k), fault=fault, counts=1.0) for k in range(times)]
    after = updated(SHIPPED, lesson)
    family = FAMILY.get(fault, NONE_OF_THESE)
    share = after.families[family] / sum(after.families.values())
    assert share >= times / (WORTH + times)
    assert share >= SHIPPED.families[family] / sum(SHIPPED.families.values())


def test_nothing_learnt_is_the_very_same_value() -> None:
    """Rule: no visit, no change."""
    assert updated(SHIPPED, []) is SHIPPED


CLOSING = '[closed]\nfault = "vacuum"\n'


@pytest.mark.parametrize(
    ("ending", "counts"),
    [
        ("", None),
        (CLOSING, NOT_PROVED),
        (CLOSING + "proved = true\n", PROVED),
        (CLOSING + "proved = false\n", NOT_PROVED),
    ],
)
def test_a_visit_counts_by_how_it_ended(ending: str, counts: float | None) -> None:
    """The rule of the page: not closed, nothing; proved, one; else a quarter."""
    found = learnt_of(parse_visit(BARE_HOUSE + ending).visit, SHIPPED)
    assert (None if found is None else found.counts) == counts


def test_a_pair_is_one_call_shared_by_its_two_in_any_order() -> None:
    """The rule of the page."""
    text = BARE_BOOSTER + '[closed]\nfault = "vacuum+sensor-open"\nproved = true\n'
    found = learnt_of(parse_visit(text).visit, SHIPPED)
    assert found is not None
    assert found.fault == "sensor-open+vacuum"
    halves = [Learnt(visit="1", fault="vacuum", counts=0.5), Learnt(visit="2", fault="sensor-open", counts=0.5)]
    assert updated(SHIPPED, [found]).families == updated(SHIPPED, halves).families


TIMED_VISIT = OPENING.replace('value = "48 psi"\n', 'value = "48 psi"\ntook = "1 min"\n') + (
    '[[reading]]\nmeasure = "volts"\nred = "controller.supply"\nblack = "controller.common"\nvalue = "5 V"\n'
    'took = "2 min"\n'
    '[[reading]]\nmeasure = "ohms"\nred = "wire.supply"\nblack = "wire.signal"\narrangement = "dead-both-free"\n'
    'value = "OL"\ntook = "31 min"\n'
    '[[reading]]\nmeasure = "volts"\nred = "sensor.supply"\nblack = "sensor.common"\nvalue = "5 V"\ntook = "18 min"\n'
    '[[reading]]\nmeasure = "volts"\nred = "sensor.signal"\nblack = "sensor.common"\nvalue = "2 V"\ntook = "30 s"\n'
    '[[reading]]\nmeasure = "inspection"\nitem = "port"\nvalue = "right"\ntook = "9 min"\n' + CLOSING
)  # fmt: skip


def test_what_a_check_took_is_charged_to_the_largest_part_of_it() -> None:
    """Worked by hand: less a minute for the reading, 5 for the way where the loop was set up as well."""
    found = learnt_of(parse_visit(TIMED_VISIT).visit, SHIPPED)
    assert found is not None
    assert found.took == (
        (("readings", "gauge-pressure"), 1.0),
        (("readings", "meter"), 2.0),
        (("arrangements", "dead-both-free"), 30.0),
        (("arrangements", "connected"), 12.0),
        (("readings", "meter"), 0.5),
        (("inspections", "port"), 9.0),
    )


def test_a_sites_own_walk_is_never_charged_to_a_row() -> None:
    """A walk that the file gives is the site's, no estimate of ours."""
    text = BARE_HOUSE + '[place]\nwalk = "3 min"\n' + (
        '[[reading]]\nmeasure = "volts"\nred = "controller.supply"\nblack = "controller.common"\nvalue = "5 V"\n'
        '[[reading]]\nmeasure = "volts"\nred = "sensor.supply"\nblack = "sensor.common"\nvalue = "5 V"\n'
        'took = "18 min"\n'
    ) + CLOSING  # fmt: skip
    found = learnt_of(parse_visit(text).visit, SHIPPED)
    assert found is not None
    assert found.took == ()


def test_comments_and_the_order_of_keys_change_no_digest_and_a_figure_does() -> None:
    """The same visit must not count twice because somebody tidied its file."""
    visit = parse_visit(OPENING + CLOSING).visit
    again = parse_visit("# tidied\n" + dump_visit(visit)).visit
    assert digest(visit) == digest(again)
    assert digest(visit) != digest(replace(visit, closed=Closed(fault="none")))


def test_a_figure_put_in_by_hand_is_the_prior_of_what_is_learnt() -> None:
    """Closed form: (5 x 20 + 30) / 6."""
    own = SHIPPED.replaced({("arrangements", "vented"): Row(20.0, "")})
    lesson = [Learnt(visit="1", fault="none", counts=1.0, took=((("arrangements", "vented"), 30.0),))]
    assert isclose(updated(own, lesson).arrangements["vented"], 130.0 / 6.0)
