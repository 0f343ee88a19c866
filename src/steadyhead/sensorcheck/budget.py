"""The uncertainty of a result by the GUM: a budget with one row for each input.

Rules
-----
1. Sensitivity coefficients are the model's own derivatives, taken by the library ``uncertainties``; never by hand.
2. ``u_c^2 = sum_i sum_j c_i c_j u_i u_j r_ij``: correlated inputs included, with their signs.
3. Effective degrees of freedom are Welch and Satterthwaite's. Their formula holds for independent contributions only:
   inputs that are correlated count as one contribution together, with the least degrees of freedom of its members.
4. Degrees of freedom are told to one decimal and then cut down to a whole number before k is looked up (18.999 are 19),
   as the GUM allows.
5. Terms of second order are added where asked for; they suppose symmetric, independent, nearly normal inputs.
6. A share is how much of the variance a row answers for. All shares together are 1; correlation can make one negative.
7. Every figure has its descent: the expanded uncertainty leads down to each half-width and each certificate.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from uncertainties import ufloat, wrap

from steadyhead.errors import SensorCheckError
from steadyhead.figures import Figure, given
from steadyhead.messages import message
from steadyhead.published.source import Source
from steadyhead.sensorcheck.coverage import coverage_factor
from steadyhead.sensorcheck.inputs import GUM, Input
from steadyhead.sensorcheck.measurand import Measurand

Derivatives = Literal["automatic", "numerical"]


def _gum(locator: str) -> Source:
    return Source(cite=GUM, locator=locator, seen="memory")


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One input's place in a budget.

    Parameters
    ----------
    input
        The input itself.
    sensitivity
        How far the result moves for each unit of it.
    share
        Part of the result's variance that it answers for.
    """

    input: Input
    sensitivity: float
    share: float

    @property
    def contribution(self) -> float:
        """Standard uncertainty that it gives the result, with the sign of its sensitivity [unit of the result]."""
        return self.sensitivity * self.input.standard_uncertainty + 0.0  # never minus nothing

    def figure(self, dimension: str) -> Figure:
        """Return the contribution as a figure of the result's dimension."""
        sensitivity = Figure(
            name="sensitivity",
            value=self.sensitivity,
            dimension="number",
            formula=f"derivative of the result by {self.input.name}",
            inputs=(self.input.figure,),
            source=_gum("5.1.3"),
        )
        return Figure(
            name="contribution",
            value=self.contribution,
            dimension=dimension,
            formula="sensitivity standard-uncertainty",
            inputs=(sensitivity, self.input.uncertainty_figure),
            source=_gum("5.1.3, equation (11a)"),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Expanded:
    """An interval about the result: plus and minus `expanded`, which is `k` times the combined uncertainty.

    `dof` are the degrees of freedom that k was looked up with; `figure` has the descent of it all.
    """

    coverage: float
    dof: float
    k: float
    expanded: float
    figure: Figure


@dataclass(frozen=True)
class Budget:
    """The uncertainty budget of one result.

    Parameters
    ----------
    measurand
        What was asked.
    rows
        One for each input, in the order of the inputs.
    value
        The result [SI].
    first_order
        Combined standard uncertainty without terms of second order [SI].
    second_order
        Square root of what the terms of second order add to the variance [SI]; 0 where nobody asked.
    dof
        Effective degrees of freedom of the combined uncertainty; infinite where nothing was estimated from readings.
    """

    measurand: Measurand
    rows: tuple[Row, ...]
    value: float
    first_order: float
    second_order: float
    dof: float

    @property
    def combined(self) -> float:
        """Combined standard uncertainty [SI]."""
        return math.hypot(self.first_order, self.second_order)

    @property
    def whole_dof(self) -> float:
        """Effective degrees of freedom, to one decimal and then cut down to a whole number."""
        return math.floor(round(self.dof, 1)) if math.isfinite(self.dof) else self.dof

    @cached_property
    def figure(self) -> Figure:
        """The result with its descent."""
        asked = self.measurand
        return Figure(
            name=asked.name,
            value=self.value,
            dimension=asked.dimension,
            formula=asked.formula,
            inputs=(*(row.input.figure for row in self.rows), *asked.constants),
            source=asked.source,
            standard_uncertainty=self.combined,
        )

    @cached_property
    def combined_figure(self) -> Figure:
        """The combined standard uncertainty with its descent: the contributions, and what each comes from."""
        formula = "sqrt(sum of contribution^2)"
        if self.measurand.correlations:
            formula = "sqrt(sum of contribution^2 + 2 sum of contribution_i contribution_j correlation_ij)"
        inputs = [row.figure(self.measurand.dimension) for row in self.rows]
        if self.second_order:
            formula += ", and the terms of second order"
            inputs.append(self._second_order_figure)
        return Figure(
            name="combined-uncertainty",
            value=self.combined,
            dimension=self.measurand.dimension,
            formula=formula,
            inputs=tuple(inputs),
            source=_gum("5.1.2 and 5.2.2, equations (10) and (13)"),
        )

    @property
    def _second_order_figure(self) -> Figure:
        return Figure(
            name="second-order",
            value=self.second_order,
            dimension=self.measurand.dimension,
            formula="sqrt(sum of (f_ij^2 / 2 + f_i f_ijj) u_i^2 u_j^2)",
            inputs=tuple(row.input.uncertainty_figure for row in self.rows),
            source=_gum("5.1.2, note, and H.1.7"),
        )

    def expanded(self, coverage: float = 0.95, *, whole_dof: bool = True) -> Expanded:
        """Return the interval about the result that covers the true value with a stated probability.

        ``U = k u_c``, ``k = t_p(nu_eff)``.

        Parameters
        ----------
        coverage
            Probability, between 0 and 1.
        whole_dof
            Cut the degrees of freedom down to a whole number before k is looked up.

        Raises
        ------
        RangeOfValidityError
            The coverage is not between 0 and 1.

        References
        ----------
        JCGM 100:2008, 6.2.1, G.4.1 and G.6.4.
        """
        dof = self.whole_dof if whole_dof else self.dof
        k = coverage_factor(coverage, dof)
        factor = Figure(
            name="coverage-factor",
            value=k,
            dimension="number",
            formula="quantile of Student's t at (1 + coverage) / 2, effective-dof",
            inputs=(given("coverage", coverage, "percent", "rule"), self._dof_figure),
            source=_gum("G.3 and G.6.4"),
        )
        figure = Figure(
            name="expanded-uncertainty",
            value=k * self.combined,
            dimension=self.measurand.dimension,
            formula="coverage-factor combined-uncertainty",
            inputs=(factor, self.combined_figure),
            source=_gum("6.2.1, equation (18)"),
        )
        return Expanded(coverage=coverage, dof=dof, k=k, expanded=figure.value, figure=figure)

    @property
    def _dof_figure(self) -> Figure:
        inputs = (row.input for row in self.rows)
        return Figure(
            name="effective-dof",
            value=self.dof,
            dimension="number",
            formula="combined-uncertainty^4 / sum of (contribution^4 / dof)",
            inputs=tuple(given("dof", one.dof, "number", one.whence, one.source) for one in inputs),
            source=_gum("G.4.1, equation (G.2b)"),
        )

    def as_input(self, name: str, part: str = "") -> Input:
        """Return the result as an input of another measurand, with its degrees of freedom and its descent."""
        return Input(
            name=name,
            estimate=self.value,
            spread=self.combined,
            dimension=self.measurand.dimension,
            kind="normal" if math.isinf(self.dof) else "t",
            dof=self.dof,
            part=part,
            of=(given("standard-uncertainty", self.combined, self.measurand.dimension, self.measurand.name),),
            whence=self.measurand.name,
            source=self.measurand.source,
        )


def budget_of(measurand: Measurand, *, second_order: bool = False, derivatives: Derivatives = "automatic") -> Budget:
    """Return the uncertainty budget of a measurand.

    ``u_c^2 = sum_i sum_j c_i c_j u_i u_j r_ij``, ``nu_eff = u_c^4 / sum_g (u_g^4 / nu_g)`` over groups of inputs.

    Parameters
    ----------
    measurand
        The model with its inputs.
    second_order
        Add the terms of second order.
    derivatives
        ``automatic``: exact, through the model's own arithmetic. ``numerical``: by small steps, for a model that calls
        something the library cannot follow.

    Raises
    ------
    SensorCheckError
        ``model-has-no-answer``; ``correlations-impossible``: coefficients that no set of inputs can have together;
        ``second-order-correlated``: terms of second order of correlated inputs.

    Notes
    -----
    The terms of second order suppose that the inputs are independent and symmetric; those of one input with itself are
    exact for a normal one.

    Examples
    --------
    >>> from steadyhead.sensorcheck.inputs import About, normal
    >>> from steadyhead.sensorcheck.measurand import Measurand
    >>> length, width = (normal(About(name=name, dimension="length"), 2.0, 0.1) for name in ("length", "width"))
    >>> area = Measurand(name="area", dimension="area", formula="length width",
    ...     model=lambda of: of["length"] * of["width"], inputs=(length, width))
    >>> budget = budget_of(area)
    >>> budget.value, round(budget.combined, 4), [round(row.share, 3) for row in budget.rows]
    (4.0, 0.2828, [0.5, 0.5])

    References
    ----------
    JCGM 100:2008, 5.1.2, 5.2.2, G.4.1 and H.1.7.
    """
    value = measurand.at(measurand.estimates)
    slopes = _slopes(measurand, measurand.estimates, derivatives)
    added = _second_order(measurand, slopes, derivatives) if second_order else 0.0
    parts = {one.name: slopes[one.name] * one.standard_uncertainty for one in measurand.inputs}
    variances = {
        name: part * math.fsum(measurand.correlation(name, other) * each for other, each in parts.items())
        for name, part in parts.items()
    }
    variance = math.fsum(variances.values())
    if variance < -1e-12 * math.fsum(part * part for part in parts.values()):
        raise SensorCheckError(message("correlations-impossible", result=measurand.name))
    variance = max(variance, 0.0)
    rows = tuple(
        Row(
            input=one,
            sensitivity=slopes[one.name],
            share=variances[one.name] / variance + 0.0 if variance else 0.0,
        )
        for one in measurand.inputs
    )
    return Budget(measurand, rows, value, math.sqrt(variance), math.sqrt(added), _dof(measurand, variances))


def _slopes(measurand: Measurand, at: Mapping[str, float], derivatives: Derivatives) -> dict[str, float]:
    """Return the model's derivative by each input at these figures."""
    variables = {name: ufloat(figure, 1.0) for name, figure in at.items()}
    if derivatives == "automatic":
        answer = measurand.model(variables)
    else:
        answer = wrap(lambda *figures: measurand.model(dict(zip(at, figures, strict=True))))(*variables.values())
    found = getattr(answer, "derivatives", {})  # a model that takes none of its inputs answers a plain figure
    return {name: float(found.get(variable, 0.0)) for name, variable in variables.items()}


def _second_order(measurand: Measurand, slopes: Mapping[str, float], derivatives: Derivatives) -> float:
    """Return what the terms of second order add to the variance."""
    if any(pair.coefficient for pair in measurand.correlations):
        raise SensorCheckError(message("second-order-correlated", result=measurand.name))
    u = {one.name: one.standard_uncertainty for one in measurand.inputs}
    added = []
    for moved in (one for one in measurand.inputs if one.standard_uncertainty):
        above, below = (
            _slopes(measurand, {**measurand.estimates, moved.name: moved.estimate + step}, derivatives)
            for step in (u[moved.name], -u[moved.name])
        )
        for name, slope in slopes.items():
            bend = u[name] * (above[name] - below[name]) / 2.0
            turn = u[name] * (above[name] - 2.0 * slope + below[name])
            added.append(bend * bend / 2.0 + slope * u[name] * turn)
    return max(math.fsum(added), 0.0)


def _dof(measurand: Measurand, variances: Mapping[str, float]) -> float:
    """Return Welch and Satterthwaite's degrees of freedom, correlated inputs taken together."""
    whole = math.fsum(variances.values())
    if not whole > 0.0:
        return math.inf
    loose = 0.0
    for group in measurand.groups():
        variance = math.fsum(variances[one.name] for one in group)
        loose += (variance / whole) ** 2 / min(one.dof for one in group)
    return max(1.0 / loose, min(one.dof for one in measurand.inputs)) if loose else math.inf
