"""The closed formula of the evidence, against the covariance form and against integration by brute force."""

from __future__ import annotations

import random
from collections.abc import Sequence
from itertools import pairwise, product
from math import erf, exp, isclose, log, pi, sqrt

import pytest

from steadyhead.diagnosis.evidence import LATENTS, SLIP, Line, evidence, inverted
from steadyhead.diagnosis.makes import Latents
from steadyhead.diagnosis.observing import Observation, Pressure, Question, Stance

ROUNDING = 1e-8  #: of a logarithm: elimination of a dozen rows in double precision
STANCE = Stance("connected", None, Pressure(0.0, 0.0, "nothing"))
Matrix = list[list[float]]


def line(number: int, residual: float, variance: float, slopes: Sequence[float], side: str = "") -> Line:
    """Return a reading as a straight line in the latents."""
    seen = Observation(number, Question("volts"), STANCE, 0.0, sqrt(variance), side=side)  # type: ignore[arg-type]
    padded = (*slopes, *[0.0] * (LATENTS - len(slopes)))
    return Line(seen, residual, variance, padded, 4.0)


def drawn(seed: int, readings: int) -> list[Line]:
    """Return random readings, at most six latents moving them."""
    rng = random.Random(seed)  # noqa: S311 - seeded
    return [
        line(k + 1, rng.gauss(0.0, 1.0), 10.0 ** rng.uniform(-3.0, 0.5), [rng.gauss(0.0, 1.0) for _ in range(6)])
        for k in range(readings)
    ]


def moved(lines: Sequence[Line], at: Latents) -> list[Line]:
    """Return the same straight lines, looked at from another point of the latents."""
    return [
        line(o.observation.number, o.residual - sum(s * z for s, z in zip(o.slopes, at, strict=True)), o.variance,
             o.slopes, o.observation.side)
        for o in lines
    ]  # fmt: skip


# the other way: covariance of the readings, latents integrated out


def covariance(lines: Sequence[Line]) -> Matrix:
    """Return the readings' covariance R + J J'."""
    return [
        [sum(a * b for a, b in zip(x.slopes, y.slopes, strict=True)) + (x.variance if x is y else 0.0) for y in lines]
        for x in lines
    ]


def solved(matrix: Matrix, right: Sequence[float]) -> tuple[list[float], float]:
    """Return the solution of a linear system and the logarithm of its determinant, by elimination with pivoting."""
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    size, log_det = len(rows), 0.0
    for k in range(size):
        best = max(range(k, size), key=lambda i: abs(rows[i][k]))
        rows[k], rows[best] = rows[best], rows[k]
        log_det += log(abs(rows[k][k]))
        for i in range(k + 1, size):
            factor = rows[i][k] / rows[k][k]
            rows[i] = [a - factor * b for a, b in zip(rows[i], rows[k], strict=True)]
    x = [0.0] * size
    for k in reversed(range(size)):
        x[k] = (rows[k][size] - sum(rows[k][j] * x[j] for j in range(k + 1, size))) / rows[k][k]
    return x, log_det


def log_density(lines: Sequence[Line]) -> float:
    """Return the logarithm of the normal density of the residuals, mean zero."""
    if not lines:
        return 0.0
    residuals = [o.residual for o in lines]
    x, log_det = solved(covariance(lines), residuals)
    quadratic = sum(a * b for a, b in zip(x, residuals, strict=True))
    return -0.5 * (quadratic + log_det + len(lines) * log(2.0 * pi))


def with_slips(lines: Sequence[Line]) -> float:
    """Return the logarithm of the evidence where any readings were slips, anywhere on their scale: all subsets."""
    terms = []
    for slipped in product((False, True), repeat=len(lines)):
        kept = [o for o, out in zip(lines, slipped, strict=True) if not out]
        broad = sum(log(SLIP / (1.6 * o.span)) for o, out in zip(lines, slipped, strict=True) if out)
        terms.append(len(kept) * log(1.0 - SLIP) + broad + log_density(kept))
    most = max(terms)
    return most + log(sum(exp(t - most) for t in terms))


#: What is left out, in logarithms, by the number of readings, many of them slips: two slips more or less than likely.
LEFT_OUT = {1: 1e-12, 2: 0.01, 3: 0.05, 5: 0.7, 7: 1.5}


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize("readings", LEFT_OUT)
def test_the_evidence_is_the_sum_over_all_slips_but_for_what_is_unlikely(seed: int, readings: int) -> None:
    """The covariance form of the same normal distribution, every subset of the readings slipped (naive twin).

    The closed form leaves terms out, so it is never above; the random readings disagree far more than any visit's.
    """
    lines = drawn(seed, readings)
    whole, found = with_slips(lines), evidence(lines, Latents()).along
    assert found <= whole + ROUNDING
    assert found >= whole - LEFT_OUT[readings]


@pytest.mark.parametrize("off", [10.0, 100.0, 1e4, 1e8])
def test_an_absurd_figure_costs_a_slip_however_far_off_it_is(off: float) -> None:
    """Closed form: set aside, it costs ``log(SLIP / (1.6 span))`` and leaves the others as they are."""
    others = [line(1, 0.1, 0.04, [0.3]), line(2, -0.2, 0.09, [0.0, 0.5])]
    alone = evidence(others, Latents())
    found = evidence([*others, line(3, off, 0.01, [0.2])], Latents())
    assert isclose(found.along, alone.along + log(SLIP / (1.6 * 4.0)), abs_tol=2e-3)
    assert all(isclose(a, b, abs_tol=1e-9) for a, b in zip(found.posterior, alone.posterior, strict=True))


@pytest.mark.parametrize("seed", range(6))
def test_how_far_a_reading_lies_from_what_the_rest_say_is_the_conditional_normals(seed: int) -> None:
    """The textbook's conditional mean and variance of one reading given the others, computed directly."""
    lines = [line(o.observation.number, 0.3 * o.residual, o.variance + 0.2, o.slopes) for o in drawn(seed, 6)]
    table = covariance(lines)
    for k, (number, misfit) in enumerate(evidence(lines, Latents()).misfits):
        rest = [i for i in range(6) if i != k]
        inner = [[table[i][j] for j in rest] for i in rest]
        gains, _ = solved(inner, [table[k][j] for j in rest])
        mean = sum(g * lines[i].residual for g, i in zip(gains, rest, strict=True))
        variance = table[k][k] - sum(g * table[k][i] for g, i in zip(gains, rest, strict=True))
        assert number == k + 1
        assert isclose(misfit, abs(lines[k].residual - mean) / sqrt(variance), rel_tol=1e-6)


@pytest.mark.parametrize("seed", range(6))
def test_the_latents_asked_for_are_the_mean_of_the_posterior(seed: int) -> None:
    """The gain form: E[z] = J' (R + J J')^-1 r."""
    lines = drawn(seed, 4)
    x, _ = solved(covariance(lines), [o.residual for o in lines])
    for k, value in enumerate(evidence(lines, Latents()).posterior):
        wanted = sum(o.slopes[k] * a for o, a in zip(lines, x, strict=True))
        assert isclose(value, wanted, abs_tol=1e-8)


@pytest.mark.parametrize("seed", range(6))
def test_the_evidence_of_straight_lines_does_not_depend_on_where_they_were_looked_at(seed: int) -> None:
    """A property: the same lines from another point are the same lines."""
    lines = drawn(seed, 5)
    rng = random.Random(seed + 50)  # noqa: S311 - seeded
    at = Latents(*[rng.gauss(0.0, 1.0) for _ in range(LATENTS)])
    first, second = evidence(lines, Latents()), evidence(moved(lines, at), at)
    assert isclose(first.along, second.along, abs_tol=ROUNDING, rel_tol=ROUNDING)
    assert all(isclose(a, b, abs_tol=1e-7) for a, b in zip(first.posterior, second.posterior, strict=True))


@pytest.mark.parametrize("seed", range(6))
def test_at_the_point_that_the_readings_ask_for_both_evidences_agree(seed: int) -> None:
    """Laplace's formula is exact for a normal distribution at its own top."""
    lines = drawn(seed, 5)
    top = evidence(lines, Latents()).posterior
    there = evidence(moved(lines, top), top)
    assert isclose(there.here, there.along, abs_tol=ROUNDING, rel_tol=ROUNDING)


def test_away_from_that_point_the_evidence_there_is_smaller() -> None:
    """A normal distribution has one top."""
    lines = drawn(1, 5)
    there = evidence(lines, Latents())
    assert there.here < there.along


def integral(values: Sequence[float], step: float) -> float:
    """Return the integral of equally spaced values by trapeziums."""
    return sum(0.5 * (a + b) * step for a, b in pairwise(values))


@pytest.mark.parametrize("seed", range(5))
def test_one_latent_integrated_by_brute_force_gives_the_same(seed: int) -> None:
    """Integration over twenty standard deviations in steps of a thousandth."""
    rng = random.Random(seed)  # noqa: S311 - seeded
    lines = [line(k + 1, rng.gauss(0.0, 0.5), 0.05, [rng.gauss(0.0, 1.0)]) for k in range(3)]
    step, values = 1e-3, []
    for k in range(-10_000, 10_001):
        z = k * step
        total = -0.5 * z * z - 0.5 * log(2.0 * pi)
        for o in lines:
            off = o.residual - o.slopes[0] * z
            total += -0.5 * (off * off / o.variance + log(2.0 * pi * o.variance))
        values.append(exp(total))
    assert isclose(log(integral(values, step)), log_density(lines), abs_tol=1e-6)


@pytest.mark.parametrize(("side", "residual"), [("above", -1.0), ("above", 1.5), ("below", 0.7), ("below", -2.0)])
def test_a_reading_past_the_scale_has_the_chance_of_lying_there(side: str, residual: float) -> None:
    """Integration by brute force over the one latent: how often the predicted figure lies past the end of the scale."""
    variance, slope, step, values = 0.3, 0.8, 1e-3, []
    past = 1.0 if side == "above" else -1.0
    for k in range(-10_000, 10_001):
        z = k * step
        beyond = past * (slope * z - residual) / sqrt(variance)
        values.append(exp(-0.5 * z * z) / sqrt(2.0 * pi) * 0.5 * (1.0 + erf(beyond / sqrt(2.0))))
    wanted = (1.0 - SLIP) * integral(values, step) + 0.3 * SLIP
    found = evidence([line(1, residual, variance, [slope], side)], Latents()).along
    assert isclose(found, log(wanted), abs_tol=1e-6)


def test_a_reading_past_the_scale_does_not_depend_on_where_it_was_looked_at() -> None:
    """A property: one straight line, nothing else read, seen from two points."""
    lines = [line(1, -1.0, 0.3, [0.8], "above")]
    at = Latents(1.5)
    assert isclose(evidence(lines, Latents()).along, evidence(moved(lines, at), at).along, abs_tol=ROUNDING)


def test_the_order_of_readings_changes_nothing() -> None:
    """A property of a joint density."""
    lines = drawn(3, 8)
    backwards = evidence(lines[::-1], Latents())
    assert isclose(backwards.along, evidence(lines, Latents()).along, abs_tol=ROUNDING)


def test_without_readings_nothing_is_learned() -> None:
    """The density of nothing is 1."""
    assert evidence([], Latents()).along == 0.0
    assert evidence([], Latents()).posterior == Latents()


@pytest.mark.parametrize("size", [1, 3, 7])
def test_an_inverse_times_its_matrix_is_one(size: int) -> None:
    """The definition of an inverse, and a determinant by another elimination."""
    rng = random.Random(size)  # noqa: S311 - seeded
    half = [[rng.gauss(0.0, 1.0) for _ in range(size)] for _ in range(size)]
    matrix = [[sum(a * b for a, b in zip(x, y, strict=True)) + (x is y) for y in half] for x in half]
    inverse, log_det = inverted(matrix)
    assert isclose(log_det, solved(matrix, [0.0] * size)[1], abs_tol=ROUNDING)
    for i, row in enumerate(matrix):
        for j in range(size):
            product = sum(a * inverse[k][j] for k, a in enumerate(row))
            assert isclose(product, float(i == j), abs_tol=ROUNDING)
