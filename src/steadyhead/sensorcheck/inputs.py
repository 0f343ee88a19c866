"""What a result depends on: each input with its estimate, how well it is known, and as which distribution.

Rules
-----
1. An input is told once and used three times: in the budget by its standard uncertainty, in a Monte Carlo run by its
   distribution, on paper by the figures that it came from.
2. A distribution is described by its `spread`: the half-width of the bounded ones, the standard uncertainty of the
   normal one, and of Student's t its scale, which is the standard uncertainty by the GUM.
3. Degrees of freedom are infinite unless somebody counted readings or said how sure the uncertainty itself is.
4. What two inputs have in common is told by a third input that both depend on, or, where only a coefficient is known,
   by a `steadyhead.sensorcheck.measurand.Correlation`.

Distributions
-------------
===============  =================================================================  ==========================
kind             what is known                                                      standard uncertainty
===============  =================================================================  ==========================
``normal``       a certificate, or many small causes                                ``spread``
``rectangular``  limits, and nothing within them: a grade, a class, a resolution    ``spread / sqrt(3)``
``triangular``   limits, the middle likelier                                        ``spread / sqrt(6)``
``arcsine``      a swing between limits: a temperature under control                ``spread / sqrt(2)``
``trapezoidal``  limits; flat over the middle `shape` of them                       ``spread sqrt((1 + b^2) / 6)``
``uncertain``    limits that are themselves known to `shape` of their half-width    ``spread sqrt((3 + d^2) / 9)``
``t``            the mean of few readings                                           ``spread`` (the scale)
===============  =================================================================  ==========================
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from steadyhead.errors import SensorCheckError
from steadyhead.figures import Figure, given
from steadyhead.messages import message
from steadyhead.published.source import Source

Kind = Literal["normal", "rectangular", "triangular", "arcsine", "trapezoidal", "uncertain", "t"]
#: Of what somebody said of an instrument or a place, and no table.
AS_GIVEN = Source(cite="as given", locator="no table", seen="original")
GUM = "JCGM 100:2008, Guide to the expression of uncertainty in measurement"
SUPPLEMENT = "JCGM 101:2008, Supplement 1 to the Guide, Propagation of distributions using a Monte Carlo method"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Kind:
    """A kind of distribution: its formula in the words of a figure, and where it stands."""

    formula: str
    cite: str
    locator: str

    @property
    def source(self) -> Source:
        """Where the formula stands."""
        return Source(cite=self.cite, locator=self.locator, seen="memory")


KINDS: dict[Kind, _Kind] = {
    "normal": _Kind(formula="expanded / k", cite=GUM, locator="4.3.3"),
    "rectangular": _Kind(formula="half-width / sqrt(3)", cite=GUM, locator="4.3.7"),
    "triangular": _Kind(formula="half-width / sqrt(6)", cite=GUM, locator="4.3.9"),
    "arcsine": _Kind(formula="half-width / sqrt(2)", cite=SUPPLEMENT, locator="6.4.6"),
    "trapezoidal": _Kind(formula="half-width sqrt((1 + shape^2) / 6)", cite=GUM, locator="4.3.9"),
    "uncertain": _Kind(formula="half-width sqrt((3 + shape^2) / 9)", cite=SUPPLEMENT, locator="6.4.3"),
    "t": _Kind(formula="standard-deviation / sqrt(count)", cite=GUM, locator="4.2.3"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """One input of a model.

    Parameters
    ----------
    name
        The name that the model knows it by; an id, with a name in words.
    estimate
        What it is taken for [SI].
    spread
        Half-width, standard uncertainty or scale, as the kind of its distribution says [SI].
    dimension
        An id of `steadyhead.quantities.DIMENSIONS`, ``percent`` for a fraction, or ``number``.
    kind
        Kind of its distribution.
    shape
        Of a trapezoid how much of it is flat, of uncertain limits how well they are known [fraction of half-width].
    dof
        Degrees of freedom of its standard uncertainty.
    part
        What it belongs to, for whoever asks what would help: ``reference``, ``meter``, ``sensor``, ``place``.
    of
        The figures that its spread came from.
    whence
        Where its estimate comes from: ``reading 3``, ``plate``, ``certificate``.
    source
        Who says so.
    """

    name: str
    estimate: float
    spread: float
    dimension: str
    kind: Kind = "normal"
    shape: float = 0.0
    dof: float = math.inf
    part: str = ""
    of: tuple[Figure, ...] = ()
    whence: str = "assumed"
    source: Source = AS_GIVEN

    def __post_init__(self) -> None:
        _require(self)

    @property
    def standard_uncertainty(self) -> float:
        """Standard uncertainty of the estimate [SI]."""
        return self.spread * _PER_SPREAD[self.kind](self.shape)

    @property
    def figure(self) -> Figure:
        """The estimate, as a figure that tells where it comes from."""
        return Figure(
            name=self.name,
            value=self.estimate,
            dimension=self.dimension,
            whence=self.whence,
            source=self.source,
            standard_uncertainty=self.standard_uncertainty,
        )

    @property
    def uncertainty_figure(self) -> Figure:
        """The standard uncertainty, as a figure that tells how it was worked out; given as it is, it is given."""
        kind = KINDS[self.kind]
        made_of = self.of or (given("standard-uncertainty", self.spread, self.dimension, self.whence, self.source),)
        if made_of[0].name == "standard-uncertainty":
            return made_of[0]
        return Figure(
            name="standard-uncertainty",
            value=self.standard_uncertainty,
            dimension=self.dimension,
            formula=kind.formula,
            inputs=made_of,
            source=kind.source,
        )


def _of_one(_: float) -> float:
    return 1.0


#: Standard uncertainty for a spread of 1, by kind, from the shape.
_PER_SPREAD = {
    "normal": _of_one,
    "rectangular": lambda _: 1.0 / math.sqrt(3.0),
    "triangular": lambda _: 1.0 / math.sqrt(6.0),
    "arcsine": lambda _: 1.0 / math.sqrt(2.0),
    "trapezoidal": lambda flat: math.sqrt((1.0 + flat * flat) / 6.0),
    "uncertain": lambda loose: math.sqrt((3.0 + loose * loose) / 9.0),
    "t": _of_one,
}


def _require(one: Input) -> None:
    """Refuse an input that cannot be."""
    if not (math.isfinite(one.estimate) and math.isfinite(one.spread) and one.spread >= 0.0):
        got = f"{one.estimate:g} ± {one.spread:g}"
        raise SensorCheckError(message("input-not-finite", input=one.name, got=got))
    if not one.dof >= 1.0:
        raise SensorCheckError(message("input-without-freedom", input=one.name, got=one.dof))
    if not 0.0 <= one.shape <= 1.0:
        raise SensorCheckError(message("input-shape-impossible", input=one.name, got=one.shape))


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """What every input has beside its figures: its name, its dimension, and what a reader may ask of it."""

    name: str
    dimension: str
    part: str = ""
    whence: str = "assumed"
    source: Source = AS_GIVEN


def exactly(about: About, estimate: float) -> Input:
    """Return an input that nobody doubts."""
    return _made(about, estimate, 0.0)


def normal(about: About, estimate: float, standard_uncertainty: float, dof: float = math.inf) -> Input:
    """Return an input with a standard uncertainty that somebody gave.

    Parameters
    ----------
    about
        Its name and where it comes from.
    estimate, standard_uncertainty
        What it is taken for, and how well [SI].
    dof
        Degrees of freedom of the standard uncertainty; finite ones make it Student's t where it is drawn.

    References
    ----------
    JCGM 101:2008, 6.4.9.7 (from memory).
    """
    of = (given("standard-uncertainty", standard_uncertainty, about.dimension, about.whence, about.source),)
    made = _made(about, estimate, standard_uncertainty, dof=dof, of=of)
    return made if math.isinf(dof) else replace(made, kind="t")


def certified(about: About, estimate: float, expanded: float, k: float = 2.0) -> Input:
    """Return an input from a certificate that gives an expanded uncertainty and its factor k: ``u = U / k``.

    References
    ----------
    JCGM 100:2008, 4.3.3.
    """
    if not k > 0.0:
        raise SensorCheckError(message("input-factor-impossible", input=about.name, got=k))
    of = (
        given("expanded-uncertainty", expanded, about.dimension, about.whence, about.source),
        given("coverage-factor", k, "number", about.whence, about.source),
    )
    return _made(about, estimate, expanded / k, of=of)


def within(
    about: About,
    estimate: float,
    half_width: float,
    kind: Kind = "rectangular",
    *,
    shape: float = 0.0,
    dof: float = math.inf,
) -> Input:
    """Return an input that lies within limits: ``estimate - half_width`` to ``estimate + half_width``.

    Parameters
    ----------
    about
        Its name and where it comes from.
    estimate, half_width
        The middle of its limits, and how far they are from it [SI].
    kind
        One of the bounded kinds.
    shape
        Of a trapezoid and of uncertain limits, see `Input`.
    dof
        Degrees of freedom, where somebody judged how sure the limits are: ``1 / (2 (du/u)^2)``.

    Examples
    --------
    >>> round(within(About(name="grade", dimension="pressure"), 0.0, 3.0).standard_uncertainty, 4)
    1.7321

    References
    ----------
    JCGM 100:2008, 4.3.7 to 4.3.9 and G.4.2.
    """
    of = [given("half-width", half_width, about.dimension, about.whence, about.source)]
    if kind in {"trapezoidal", "uncertain"}:
        of.append(given("shape", shape, "number", about.whence, about.source))
    made = _made(about, estimate, half_width, dof=dof, of=tuple(of))
    return replace(made, kind=kind, shape=shape)


def resolved(about: About, estimate: float, step: float) -> Input:
    """Return an input that was read off in steps: within half a step of the reading, ``u = step / (2 sqrt(3))``.

    Examples
    --------
    >>> round(resolved(About(name="reading", dimension="pressure"), 0.0, 1.0).standard_uncertainty, 3)
    0.289

    References
    ----------
    JCGM 100:2008, F.2.2.1.
    """
    return within(about, estimate, step / 2.0)


def repeated(about: About, readings: Sequence[float]) -> Input:
    """Return the mean of repeated readings: ``u = s / sqrt(n)`` with ``n - 1`` degrees of freedom.

    Parameters
    ----------
    about
        Its name and where it comes from.
    readings
        Two or more, taken independently of one another [SI].

    Raises
    ------
    SensorCheckError
        ``input-needs-readings``: fewer than two.

    Examples
    --------
    >>> mean = repeated(About(name="reading", dimension="number"), (10.0, 11.0, 12.0))
    >>> mean.estimate, round(mean.standard_uncertainty, 4), mean.dof
    (11.0, 0.5774, 2)

    References
    ----------
    JCGM 100:2008, 4.2.1 to 4.2.3.
    """
    count = len(readings)
    if count < 2:
        raise SensorCheckError(message("input-needs-readings", input=about.name, got=count))
    mean = math.fsum(readings) / count
    deviation = math.sqrt(math.fsum((one - mean) ** 2 for one in readings) / (count - 1))
    return scattered(about, mean, deviation, count=count, dof=count - 1)


def scattered(about: About, mean: float, deviation: float, *, count: float, dof: float) -> Input:
    """Return a mean of `count` readings whose standard deviation is known from elsewhere too, with `dof` of its own.

    References
    ----------
    JCGM 100:2008, 4.2.4 (pooled estimate) and H.3.6.
    """
    of = (
        given("standard-deviation", deviation, about.dimension, about.whence, about.source),
        given("count", count, "number", about.whence, about.source),
    )
    made = _made(about, mean, deviation / math.sqrt(count), dof=dof, of=of)
    return replace(made, kind="t")


def _made(
    about: About, estimate: float, spread: float, *, dof: float = math.inf, of: tuple[Figure, ...] = ()
) -> Input:
    return Input(
        name=about.name,
        estimate=estimate,
        spread=spread,
        dimension=about.dimension,
        dof=dof,
        part=about.part,
        of=of,
        whence=about.whence,
        source=about.source,
    )
