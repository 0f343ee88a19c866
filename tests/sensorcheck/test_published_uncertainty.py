"""Published results of uncertainty, to every digit printed, through the budget: one test each.

Where a source says how it was seen: ``memory``, ``republished`` (whose copy), as in `published_models`.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import combinations

import pytest
from uncertainties import umath

from steadyhead.sensorcheck.budget import Budget, budget_of
from steadyhead.sensorcheck.coverage import coverage_factor
from steadyhead.sensorcheck.inputs import certified, normal, repeated, resolved, within
from steadyhead.sensorcheck.measurand import Correlation
from steadyhead.sensorcheck.rounding import rounded
from steadyhead.sensorcheck.simultaneous import correlation_of, read_together
from tests.sensorcheck import published_models as models
from tests.sensorcheck.published_models import about, bounded, by_coefficients, result, total
from tests.sensorcheck.test_coverage import half_a_digit

Number = tuple[str, str, Callable[[], float]]


def row(budget: Budget, name: str) -> float:
    """Return the size of one input's contribution."""
    return next(abs(each.contribution) for each in budget.rows if each.input.name == name)


def unit(printed: str) -> float:
    """Return half a unit of the last printed digit, also of ``1.76e-6``."""
    mantissa, _, exponent = printed.partition("e")
    return half_a_digit(mantissa) * 10.0 ** int(exponent or "0")


# ------------------------------------------------------------ GUM, clauses 4 and 5 and annexes F and G: from memory


def voltmeter() -> Budget:
    """Return GUM 4.3.7, example 2, and 5.1.5: a voltmeter of 14e-6 of reading and 2e-6 of range, on 1 V."""
    half_width = 14e-6 * 0.928571 + 2e-6 * 1.0
    return budget_of(result(total("mean", "meter"), normal(about("mean"), 0.928571, 12e-6),
                            bounded("meter", 0.0, half_width)))  # fmt: skip


def ten_resistors(coefficient: float) -> Budget:
    """Return GUM 5.2.2, example: ten resistors of 1000 ohm and 100 mohm, calibrated against one standard."""
    names = [f"r{n}" for n in range(10)]
    pairs = tuple(
        Correlation(first=one, second=other, coefficient=coefficient) for one, other in combinations(names, 2)
    )
    inputs = [normal(about(name), 1000.0, 0.1) for name in names]
    return budget_of(result(total(*names), *inputs, correlations=pairs))


def three_factors() -> Budget:
    """Return GUM G.4.1, example: a product of three, known to 0.25, 0.57 and 0.82 % from 10, 5 and 15 readings."""
    return budget_of(
        result(
            lambda of: of["x1"] * of["x2"] * of["x3"],
            normal(about("x1"), 1.0, 0.0025, 9), normal(about("x2"), 1.0, 0.0057, 4),
            normal(about("x3"), 1.0, 0.0082, 14),
        )
    )  # fmt: skip


CLAUSES: list[Number] = [
    ("4.3.3 mass standard, 240 ug at three standard deviations [ug]", "80", lambda: certified(
        about("mass"), 1000.000325e6, 240.0, 3.0).standard_uncertainty),
    ("4.3.4 resistor, 129 uohm at 99 % [uohm]", "50", lambda: certified(
        about("resistor"), 10.000742e6, 129.0, coverage_factor(0.99)).standard_uncertainty),
    ("4.3.5 length, 10.07 to 10.15 mm one time in two [mm]", "0.06", lambda: certified(
        about("length"), 10.11, 0.04, coverage_factor(0.5)).standard_uncertainty),
    ("4.3.5 its factor", "1.48", lambda: 1 / coverage_factor(0.5)),
    ("4.3.7 expansion of copper, 0.40e-6 to each side [1e-6/K]", "0.23", lambda: within(
        about("alpha"), 16.52, 0.40).standard_uncertainty),
    ("4.3.7 voltmeter, half-width [uV]", "15", lambda: 1e6 * voltmeter().rows[1].input.spread),
    ("4.3.7 voltmeter, standard uncertainty [uV]", "8.7", lambda: 1e6 * row(voltmeter(), "meter")),
    ("5.1.5 voltmeter, combined [uV]", "15", lambda: 1e6 * voltmeter().combined),
    ("5.1.5 voltmeter, combined, relative [1e-6]", "16", lambda: 1e6 * voltmeter().combined / voltmeter().value),
    ("5.2.2 ten resistors of one standard [ohm]", "1.00", lambda: ten_resistors(1.0).combined),
    ("5.2.2 ten resistors, independent [ohm]", "0.32", lambda: ten_resistors(0.0).combined),
    ("F.2.2.1 resolution [of a step]", "0.29", lambda: resolved(about("reading"), 0.0, 1.0).standard_uncertainty),
    ("G.4.1 product, relative [%]", "1.03", lambda: 100 * three_factors().combined),
    ("G.4.1 product, degrees of freedom", "19.0", lambda: three_factors().dof),
    ("G.4.1 product, factor at 95 %", "2.09", lambda: three_factors().expanded(0.95).k),
    ("G.4.1 product, expanded [%]", "2.2", lambda: 100 * three_factors().expanded(0.95).expanded),
]  # fmt: skip


# ------------------------------------------------------------ GUM H.1: an end gauge


def h1(*, second_order: bool = False) -> Budget:
    """Return the budget of GUM H.1."""
    return budget_of(models.end_gauge(), second_order=second_order)


def second_order_of_h1(*, without: str) -> float:
    """Return what is added in second order when one more input is known exactly."""
    asked = models.end_gauge()
    inputs = tuple(one for one in asked.inputs if one.name not in without.split())
    rest = {one.name: one.estimate for one in asked.inputs}
    return budget_of(result(lambda of: asked.model({**rest, **of}), *inputs), second_order=True).second_order


#: JCGM 100:2008, annex H.1: republished (manual and tests of public metrology libraries), but for those said otherwise.
H1: list[Number] = [
    ("length [nm]", "50000838", lambda: h1().value),
    ("combined [nm]", "32", lambda: h1().combined),
    ("standard [nm]", "25", lambda: row(h1(), "ls")),
    ("difference [nm]", "9.7", lambda: budget_of(models.difference_of_end_gauges()).combined),
    ("difference of expansion [nm]", "2.9", lambda: row(h1(), "da")),
    ("difference of temperature [nm]", "16.6", lambda: row(h1(), "dt")),
    ("expansion itself [nm]", "0", lambda: row(h1(), "as")),
    ("temperature itself [nm]", "0", lambda: row(h1(), "theta")),
    ("degrees of freedom, cut down", "16", lambda: h1().expanded(0.99).dof),
    ("factor at 99 %", "2.92", lambda: h1().expanded(0.99).k),
    ("expanded at 99 %, from the rounded 32 nm [nm]", "93", lambda: h1().expanded(0.99).k * rounded(h1().combined)),
    ("combined, second order [nm]", "34", lambda: h1(second_order=True).combined),
    ("second order, difference of expansion x temperature (memory) [nm]", "11.7",
     lambda: second_order_of_h1(without="dt as")),
    ("second order, expansion x difference of temperature (memory) [nm]", "1.7",
     lambda: second_order_of_h1(without="da")),
    ("expanded at 99 %, second order, from the rounded 34 nm (memory) [nm]", "99",
     lambda: h1(second_order=True).expanded(0.99).k * rounded(h1(second_order=True).combined)),
]  # fmt: skip


# ------------------------------------------------------------ GUM H.2: resistance and reactance, read together


def h2(which: str) -> Budget:
    """Return the budget of one of the three results of GUM H.2."""
    inputs, pairs = read_together(tuple(map(about, ("v", "i", "phi"))), (models.H2_V, models.H2_I, models.H2_PHI))
    model = {
        "R": lambda of: of["v"] / of["i"] * umath.cos(of["phi"]),
        "X": lambda of: of["v"] / of["i"] * umath.sin(of["phi"]),
        "Z": lambda of: of["v"] / of["i"],
    }[which]
    return budget_of(result(model, *inputs, correlations=pairs))


#: JCGM 100:2008, annex H.2, tables H.2 to H.4: republished (docstring and tests of public libraries); the means, the
#: single uncertainties and the correlations of the results from memory.
H2: list[Number] = [
    ("R [ohm]", "127.732", lambda: h2("R").value),
    ("u(R) [ohm]", "0.071", lambda: h2("R").combined),
    ("X [ohm]", "219.847", lambda: h2("X").value),
    ("u(X) by its second way, each set by itself [ohm]", "0.295", lambda: repeated(about("x"), [
        v / i * math.sin(phi) for v, i, phi in zip(models.H2_V, models.H2_I, models.H2_PHI, strict=True)
    ]).standard_uncertainty),
    ("Z [ohm]", "254.260", lambda: h2("Z").value),
    ("u(Z) [ohm]", "0.236", lambda: h2("Z").combined),
    ("V [V] (memory)", "4.9990", lambda: h2("Z").rows[0].input.estimate),
    ("u(V) [V] (memory)", "0.0032", lambda: h2("Z").rows[0].input.standard_uncertainty),
    ("I [mA] (memory)", "19.6610", lambda: 1e3 * h2("Z").rows[1].input.estimate),
    ("u(I) [mA] (memory)", "0.0095", lambda: 1e3 * h2("Z").rows[1].input.standard_uncertainty),
    ("phi [rad] (memory)", "1.04446", lambda: h2("Z").rows[2].input.estimate),
    ("u(phi) [rad] (memory)", "0.00075", lambda: h2("Z").rows[2].input.standard_uncertainty),
    ("r(V, I)", "-0.36", lambda: h2("Z").measurand.correlation("v", "i")),
    ("r(V, phi)", "0.86", lambda: h2("Z").measurand.correlation("v", "phi")),
    ("r(I, phi)", "-0.65", lambda: h2("Z").measurand.correlation("i", "phi")),
    ("r(R, X)", "-0.588", lambda: correlation_of(h2("R"), h2("X"))),
    ("r(R, Z) (memory)", "-0.485", lambda: correlation_of(h2("R"), h2("Z"))),
    ("r(X, Z) (memory)", "0.993", lambda: correlation_of(h2("X"), h2("Z"))),
    ("degrees of freedom (another library's)", "4.0", lambda: h2("R").dof),
]  # fmt: skip


# ------------------------------------------------------------ others


def mass(*, second_order: bool) -> Budget:
    """Return the budget of JCGM 101, 9.3."""
    return budget_of(models.mass(), second_order=second_order)


def loss(x1: float, *, second_order: bool) -> Budget:
    """Return the budget of JCGM 101, 9.4, uncorrelated."""
    return budget_of(models.comparison_loss(x1), second_order=second_order)


#: JCGM 101:2008, clause 9, what its tables say of the linear way (GUF1) and of second order (GUF2); from memory, 9.2.2
#: and 9.2.3 republished (tests of a public library).
JCGM_101: list[Number] = [
    ("9.2.2 four normal, u", "2.0", lambda: budget_of(models.four("normal")).combined),
    ("9.2.2 four normal, interval", "3.92", lambda: budget_of(models.four("normal")).expanded(0.95).expanded),
    ("9.2.3 four rectangular, u", "2.0", lambda: budget_of(models.four("rectangular")).combined),
    ("9.2.3 four rectangular, interval", "3.92",
     lambda: budget_of(models.four("rectangular")).expanded(0.95).expanded),
    ("9.2.4 one wide, u", "10.1", lambda: budget_of(models.four("rectangular", 10.0)).combined),
    ("9.2.4 one wide, interval", "19.9", lambda: budget_of(models.four("rectangular", 10.0)).expanded(0.95).expanded),
    ("9.3 mass [mg]", "1.2340", lambda: mass(second_order=False).value),
    ("9.3 mass, u [mg]", "0.0539", lambda: mass(second_order=False).combined),
    ("9.3 mass, low [mg]", "1.1285",
     lambda: mass(second_order=False).value - mass(second_order=False).expanded(0.95).expanded),
    ("9.3 mass, high [mg]", "1.3395",
     lambda: mass(second_order=False).value + mass(second_order=False).expanded(0.95).expanded),
    ("9.3 mass, second order, u, its 0.0750 is cut off [mg]", "0.075", lambda: mass(second_order=True).combined),
    ("9.4 loss at 0 [1e-6]", "0", lambda: 1e6 * loss(0.0, second_order=False).value),
    ("9.4 loss at 0, u [1e-6]", "0", lambda: 1e6 * loss(0.0, second_order=False).combined),
    ("9.4 loss at 0, second order, u [1e-6]", "50", lambda: 1e6 * loss(0.0, second_order=True).combined),
    ("9.4 loss at 0.010 [1e-6]", "100", lambda: 1e6 * loss(0.010, second_order=False).value),
    ("9.4 loss at 0.010, u [1e-6]", "100", lambda: 1e6 * loss(0.010, second_order=False).combined),
    ("9.4 loss at 0.010, second order, u [1e-6]", "112", lambda: 1e6 * loss(0.010, second_order=True).combined),
    ("9.4 loss at 0.010, interval [1e-6]", "196",
     lambda: 1e6 * loss(0.010, second_order=False).expanded(0.95).expanded),
    ("9.4 loss at 0.010, second order, interval [1e-6]", "219",
     lambda: 1e6 * loss(0.010, second_order=True).expanded(0.95).expanded),
    ("9.4 loss at 0.050, u [1e-6]", "500", lambda: 1e6 * loss(0.050, second_order=False).combined),
    ("9.4 loss at 0.050, second order, u [1e-6]", "502", lambda: 1e6 * loss(0.050, second_order=True).combined),
    ("9.4 loss at 0.050, interval [1e-6]", "980",
     lambda: 1e6 * loss(0.050, second_order=False).expanded(0.95).expanded),
    ("9.4 loss at 0.050, second order, interval [1e-6]", "985",
     lambda: 1e6 * loss(0.050, second_order=True).expanded(0.95).expanded),
    ("9.5 gauge block [nm]", "838", lambda: budget_of(models.gauge_block()).value),
    ("9.5 gauge block, u [nm]", "32", lambda: budget_of(models.gauge_block()).combined),
    ("9.5 gauge block, degrees of freedom", "16", lambda: budget_of(models.gauge_block()).expanded(0.99).dof),
]


def of_ratio() -> Budget:
    """Return a fluorescence comparison of a national laboratory's course: y = x1 / x2 x yu. Republished."""
    return budget_of(
        result(
            lambda of: of["x1"] / of["x2"] * of["yu"],
            normal(about("x1"), 0.1820, 0.00093, 9), normal(about("x2"), 0.1823, 0.00058, 19),
            normal(about("yu"), 0.6978, 0.0026, 19),
        )
    )  # fmt: skip


def logarithm() -> Budget:
    """Return NPL report DEM-ES-011, 9.2: the logarithm of a rectangular input. Republished (a public library)."""
    return budget_of(result(lambda of: umath.log(of["x"]), bounded("x", 0.6, 0.5)))


#: Liberzon, course notebooks on engineering metrology: repeated readings at 10 kPa. Original.
PRESSURES = (
    10.02, 10.20, 10.26, 10.20, 10.22, 10.13, 9.97, 10.12, 10.09, 9.9, 10.05, 10.17, 10.42, 10.21, 10.23, 10.11, 9.98,
    10.10, 10.04, 9.81,
)  # fmt: skip
OTHERS: list[Number] = [
    ("course, two inputs, degrees of freedom", "12.8", lambda: budget_of(result(
        total("a", "b"), normal(about("a"), 1, 0.57, 9), normal(about("b"), 1, 0.25))).dof),
    ("course, fluorescence", "0.6967", lambda: of_ratio().value),
    ("course, fluorescence, u", "0.0049", lambda: of_ratio().combined),
    ("course, fluorescence, expanded", "0.0101", lambda: of_ratio().expanded(0.95).expanded),
    ("TN 1900 E13, expansion [1/K]", "1.7266e-5", lambda: budget_of(models.expansion()).value),
    ("TN 1900 E13, u [1/K]", "1.76e-6", lambda: budget_of(models.expansion()).combined),
    ("TN 1900 E3, viscosity [mPa s]", "5.69", lambda: budget_of(models.viscosity()).value),
    ("NUM manual 10, a constant", "5.67037e-8", lambda: budget_of(models.stefan_boltzmann()).value),
    ("NUM manual 10, u", "2.05e-13", lambda: budget_of(models.stefan_boltzmann()).combined),
    ("NPL logarithm", "-0.511", lambda: logarithm().value),
    ("NPL logarithm, u", "0.481", lambda: logarithm().combined),
    ("NPL logarithm, upper end", "0.432", lambda: logarithm().value + logarithm().expanded(0.95).expanded),
    ("EA-4/02 S2, weight, u [g]", "0.0293", lambda: budget_of(by_coefficients(*models.WEIGHT_10_KG)).combined),
    ("EA-4/02 S3, resistor [ohm] (memory)", "10000.178", lambda: budget_of(models.resistor_10_kohm()).value),
    ("EA-4/02 S3, resistor, u [mohm]", "8.33", lambda: 1e3 * budget_of(models.resistor_10_kohm()).combined),
    ("EA-4/02 S3, resistor, expanded [mohm]", "17", lambda: 2e3 * budget_of(models.resistor_10_kohm()).combined),
    ("EA-4/02 S4, gauge block, u [nm]", "36.4",
     lambda: 1e9 * budget_of(by_coefficients(*models.GAUGE_BLOCK_50_MM)).combined),
    ("EA-4/02 S4, gauge block, expanded [nm]", "73",
     lambda: 2e9 * budget_of(by_coefficients(*models.GAUGE_BLOCK_50_MM)).combined),
    ("EA-4/02 S5, thermocouple, u [K]", "0.64", lambda: budget_of(by_coefficients(*models.THERMOCOUPLE)).combined),
    ("EA-4/02 S5, thermocouple, expanded [K]", "1.3",
     lambda: 2 * budget_of(by_coefficients(*models.THERMOCOUPLE)).combined),
    ("EA-4/02 S6, power sensor, u", "0.0224", lambda: budget_of(by_coefficients(*models.POWER_SENSOR)).combined),
    ("EA-4/02 S6, power sensor, expanded", "0.045",
     lambda: 2 * budget_of(by_coefficients(*models.POWER_SENSOR)).combined),
    ("EA-4/02 S9, multimeter, u [V]", "0.030", lambda: budget_of(models.multimeter_100_v()).combined),
    ("EA-4/02 S11, block calibrator, u [mK]", "164", lambda: budget_of(models.block_calibrator()).combined),
    ("EA-4/02 S12.14, water meter, u", "9.1e-4", lambda: budget_of(models.water_meter()).combined),
    ("EA-4/02 S12.14, water meter, factor", "2.28", lambda: budget_of(models.water_meter()).expanded(0.9545).k),
    ("QUAM A1, flask, u [ml]", "0.07", lambda: budget_of(models.flask()).combined),
    ("QUAM A1, cadmium [mg/l]", "1002.7", lambda: budget_of(models.cadmium()).value),
    ("QUAM A1, cadmium, u [mg/l]", "0.9", lambda: budget_of(models.cadmium()).combined),
    ("QUAM A2, sodium hydroxide [mol/l]", "0.10214", lambda: budget_of(models.sodium_hydroxide()).value),
    ("QUAM A2, sodium hydroxide, u [mol/l]", "0.00010", lambda: budget_of(models.sodium_hydroxide()).combined),
    ("course, twenty pressures, mean [kPa]", "10.11", lambda: repeated(about("p"), PRESSURES).estimate),
]
def _ids(numbers: list[Number]) -> list[str]:
    return [name for name, _, _ in numbers]


def check(printed: str, worked_out: Callable[[], float]) -> None:
    """Compare a figure with a printed one: half a unit of the last digit, and what floats lose."""
    assert worked_out() == pytest.approx(float(printed), abs=unit(printed) * (1 + 1e-6))


@pytest.mark.parametrize(("name", "printed", "worked_out"), CLAUSES, ids=_ids(CLAUSES))
def test_the_examples_within_the_guide_s_clauses(name: str, printed: str, worked_out: Callable[[], float]) -> None:
    """JCGM 100:2008, examples in its clauses (from memory), to every digit printed."""
    assert name
    check(printed, worked_out)


@pytest.mark.parametrize(("name", "printed", "worked_out"), H1, ids=_ids(H1))
def test_the_end_gauge(name: str, printed: str, worked_out: Callable[[], float]) -> None:
    """JCGM 100:2008, annex H.1, to every digit printed."""
    assert name
    check(printed, worked_out)


@pytest.mark.parametrize(("name", "printed", "worked_out"), H2, ids=_ids(H2))
def test_resistance_and_reactance(name: str, printed: str, worked_out: Callable[[], float]) -> None:
    """JCGM 100:2008, annex H.2, to every digit printed."""
    assert name
    check(printed, worked_out)


@pytest.mark.parametrize(("name", "printed", "worked_out"), JCGM_101, ids=_ids(JCGM_101))
def test_what_the_supplement_says_of_the_linear_way(name: str, printed: str, worked_out: Callable[[], float]) -> None:
    """JCGM 101:2008, tables 2 to 11, columns of the GUM, to every digit printed."""
    assert name
    check(printed, worked_out)


@pytest.mark.parametrize(("name", "printed", "worked_out"), OTHERS, ids=_ids(OTHERS))
def test_other_published_budgets(name: str, printed: str, worked_out: Callable[[], float]) -> None:
    """NIST TN 1900, NPL DEM-ES-011, EA-4/02 M, EURACHEM/CITAC QUAM, two courses, to every digit printed."""
    assert name
    check(printed, worked_out)


def test_the_end_gauge_by_numerical_derivatives() -> None:
    """The same example, 32 nm, by the library's small steps."""
    budget = budget_of(models.end_gauge(), derivatives="numerical")
    assert budget.combined == pytest.approx(h1().combined, rel=1e-4)
    assert rounded(budget.combined) == 32.0


def test_the_whole_degrees_of_freedom_are_a_choice() -> None:
    """Student's t at 16 and at 16.7519 degrees of freedom, by another library (scipy)."""
    budget = h1()
    assert budget.expanded(0.99).k == pytest.approx(2.920781622, rel=1e-9)
    assert budget.expanded(0.99, whole_dof=False).k == pytest.approx(2.903548, rel=1e-5)


def test_the_linear_figure_of_the_reactance_is_another_library_s() -> None:
    """GTC 1.5.1 and the law of propagation written out: 0.2955817 ohm; the guide prints 0.295 from its second way."""
    assert h2("X").combined == pytest.approx(0.2955817, abs=5e-8)
