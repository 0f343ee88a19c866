"""The limits within which a pump may run at a speed set by hand: how fast, and what stands at the surface then.

Rules
-----
1. With every tap shut the surface stays `KEPT_BELOW` of the weakest part, the tank's plate, the relief's set pressure
   and the gauge's scale, the pump at its strongest, the water at its highest: nobody's attention is needed for that.
2. A speed below `LEAST_HERTZ` is not used for long: bearings and cooling need their speed. Pressure below
   `LEAST_USEFUL_PA` is no water supply.
3. A positive-displacement pump is held by its relief alone: proven to pass the whole flow, and the speed stays where
   it does, and what the relief rises to stays within the weakest part and the tank's plate.
4. A lift that nobody knows is none at all for rule 1; how much reaches the surface is then unknown. One's own no-flow
   test without a lift holds up to its own speed and no further.
5. Limits are rounded to the safe side: a highest speed down to a tenth of a hertz.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from steadyhead.errors import RangeOfValidityError
from steadyhead.figures import COMMON_PRACTICE, Figure, given
from steadyhead.messages import Message, message
from steadyhead.water.curve import PARABOLA, TwoPoints
from steadyhead.water.known import QUESTION, Known, field_of
from steadyhead.water.similarity import RATIOS, SOURCE, Way
from steadyhead.water.statics import NOTHING, Between, PumpAtRest, shut_off_from_test_m, weight_pa

PSI = 6894.757  #: [Pa]

#: A tenth is kept below every part: a relief weeps before it opens, a tap that snaps shut knocks (common practice).
KEPT_BELOW = 0.9
#: What a spring-loaded relief may rise to over its set pressure while it passes all the water (common practice).
RELIEF_RISE = 1.25
#: Part of what a relief passes that is counted on (common practice).
RELIEF_COUNTED = 0.9
#: Common practice for submersible motors and their thrust bearings; the maker's leaflet comes first [Hz].
LEAST_HERTZ = 30.0
#: The least that waterworks practice keeps in a pipe that people drink from [Pa].
LEAST_USEFUL_PA = 20 * PSI
#: Least flow through a pump that runs: a tenth of its duty flow, at its speed (common practice).
LEAST_FLOW = 0.1

#: The two figures that whoever stands at the pump must know.
HAND_FIGURES = ("tonight-most", "tonight-limit")
#: What may not be overstepped, in the order in which a person looks for them.
PARTS = ("weakest", "tank-plate", "relief-set", "gauge-top")


@dataclass(frozen=True, slots=True, kw_only=True)
class Speeds:
    """What may be run by hand.

    Parameters
    ----------
    limit
        What the surface must never pass; `limited_by` is the part that says so.
    least, most
        Lowest and highest speed.
    at_most
        The most that the surface can come to at the highest speed, every tap shut.
    start
        Speed that just holds the set pressure with every tap shut; None where that is not known, or beyond `most`.
    gives
        The least that a pump in order presses to the surface at the highest speed, every tap shut; None: unknown.
    full
        What the surface could come to at the rated speed: why the highest speed is set in the drive. None: unknown.
    drawn
        What stands at the surface at the highest speed while the needed flow is drawn, friction aside.
    bleed
        Least flow while it runs.
    """

    limit: Figure
    limited_by: str
    least: Figure
    most: Figure
    at_most: Figure
    start: Figure | None = None
    gives: Figure | None = None
    full: Figure | None = None
    drawn: Figure | None = None
    bleed: Figure | None = None


def needed_for_speeds(known: Known) -> tuple[str, ...]:
    """Return the questions that must still be answered before a speed can be limited."""
    lacking = list(known.lacking("pump", "relief", "relief-set", "weakest", "gauge-top"))
    if known.pump == "positive-displacement":
        return (*lacking, *known.lacking("rated-hertz", "duty-flow", "relief-flow"))
    if known.test_hertz is None or known.test_pressure is None:
        lacking += known.lacking("shut-off", "rated-hertz")
    if known.draws is None and known.lift is None and known.incoming is None:
        lacking.append("draws")
    elif known.draws == "main":
        lacking += known.lacking("incoming")
    return tuple(lacking)


def speeds(known: Known) -> Speeds | Message:
    """Return the limits of a speed set by hand, or why there is none.

    Parameters
    ----------
    known
        What is known; nothing that `needed_for_speeds` names may lack.
    """
    if known.pump == "positive-displacement":
        return _displacement(known)
    return _centrifugal(known)


def told(known: Known, key: str, *, high: bool = False) -> Figure:
    """Return an answer as a figure; of two ends the lower one, or the higher."""
    value = getattr(known, field_of(key))
    if isinstance(value, Between):
        value = value.high if high else value.low
    return given(key, float(value), QUESTION[key].dimension, key)


def pressure_limit(known: Known) -> tuple[Figure, str]:
    """Return what the surface must never pass, and the part that says so."""
    parts = [told(known, key) for key in PARTS if getattr(known, field_of(key)) is not None]
    least = min(parts, key=lambda part: part.value)
    names = ", ".join(part.name for part in parts)
    figure = Figure(
        name="tonight-limit", value=KEPT_BELOW * least.value, dimension="pressure",
        formula=f"{KEPT_BELOW} min({names})", inputs=tuple(parts), source=COMMON_PRACTICE,
    )  # fmt: skip
    return figure, least.name


def _least(known: Known) -> Figure:
    if known.least_hertz is not None:
        return told(known, "least-hertz")
    return given("least-hertz", LEAST_HERTZ, "frequency", "common-practice", COMMON_PRACTICE)


# ---------------------------------------------------------------- a centrifugal pump


def _centrifugal(known: Known) -> Speeds | Message:
    pump, basis, cap = _pump(known)
    limit, by = pressure_limit(known)
    least = _least(known)
    try:
        most = pump.highest_hz(limit.value)
    except RangeOfValidityError:
        most = RATIOS.low * pump.rated_hz
    most = math.floor(most * 10.0 + 1e-9) / 10.0
    if most < least.value or most < RATIOS.low * pump.rated_hz:
        return message("tonight-too-slow", limit=limit.value, binds=by, least=least.value)
    reach = _reach(known)
    if reach and pump.surface_pa(most) < LEAST_USEFUL_PA:
        return message("tonight-too-little", most=most, gives=max(pump.surface_pa(most), 0.0), least=LEAST_USEFUL_PA)
    margin = given("head-margin", pump.margin, "percent", "common-practice", COMMON_PRACTICE)
    strong = (*basis, *_sides(known, strong=True), margin)
    weak = (*basis, *_sides(known, strong=False), margin)
    highest = Figure(
        name="tonight-most", value=most, dimension="frequency", inputs=(limit, *strong), source=SOURCE,
        formula="rated-hertz sqrt((tonight-limit - incoming + lift) / (shut-off (1 + head-margin)))",
    )  # fmt: skip
    return Speeds(
        limit=limit, limited_by=by, least=least, most=highest,
        at_most=_surface("tonight-at-most", pump.surface_most_pa(most), (highest, *strong), "+"),
        start=_start(known, pump, most, least.value) if reach and cap == math.inf else None,
        gives=_surface("tonight-gives", pump.surface_least_pa(most), (highest, *weak), "-") if reach else None,
        full=None if cap < math.inf else _surface("tonight-full", pump.surface_most_pa(pump.rated_hz), strong, "+"),
        drawn=_drawn(known, pump, highest) if reach else None, bleed=_bleed(known, highest),
    )  # fmt: skip


def _reach(known: Known) -> bool:
    """Return whether what comes to the surface is known: the water's level, or one's own test."""
    return known.lift is not None or known.draws == "main" or known.incoming is not None or _tested(known)


def _tested(known: Known) -> bool:
    return known.test_hertz is not None and known.test_pressure is not None


def _pump(known: Known) -> tuple[PumpAtRest, tuple[Figure, ...], float]:
    """Return the pump as it stands, the figures that say so, and the speed beyond which that is not known."""
    lift, incoming = known.lift or NOTHING, known.incoming or NOTHING
    if known.test_hertz is None or known.test_pressure is None:
        assert known.shut_off is not None  # noqa: S101 - the caller asked `needed_for_speeds`
        assert known.rated_hertz is not None  # noqa: S101 - the caller asked `needed_for_speeds`
        basis = (told(known, "shut-off"), told(known, "rated-hertz"))
        return _at_rest(known.shut_off, known.rated_hertz, (lift, incoming), "curve"), basis, math.inf
    beyond = math.inf if known.lift is not None or known.incoming is not None else known.test_hertz
    rated = known.rated_hertz if known.rated_hertz and beyond == math.inf else known.test_hertz
    head = shut_off_from_test_m(known.test_hertz, known.test_pressure - incoming.middle, lift.middle, rated)
    tests = (told(known, "test-hertz"), told(known, "test-pressure"), *_sides(known, strong=True))
    speed = given("rated-hertz", rated, "frequency", "plate" if known.rated_hertz == rated else "test-hertz")
    figure = Figure(
        name="shut-off", value=head, dimension="head", inputs=(*tests, speed), source=SOURCE,
        formula="(test-pressure - incoming + lift) (rated-hertz / test-hertz)^2",
    )  # fmt: skip
    return _at_rest(head, rated, (lift, incoming), "no-flow"), (figure, speed), beyond


def _sides(known: Known, *, strong: bool) -> tuple[Figure, ...]:
    """Return what else stands in a sum: the ends that make the most of it, or the least."""
    ends = (("lift", not strong), ("incoming", strong))
    return tuple(told(known, key, high=high) for key, high in ends if getattr(known, key) is not None)


def _at_rest(shut_off: float, rated: float, sides: tuple[Between, Between], way: Way) -> PumpAtRest:
    return PumpAtRest(shut_off_m=shut_off, rated_hz=rated, lift_m=sides[0], incoming_pa=sides[1], way=way)


def _surface(name: str, value: float, inputs: tuple[Figure, ...], sign: str) -> Figure:
    """Return a pressure at the surface at no flow; `sign` says whether the pump is taken at its strongest."""
    speed = "" if name == "tonight-full" else " (tonight-most / rated-hertz)^2"
    formula = f"shut-off (1 {sign} head-margin){speed} - lift + incoming"
    return Figure(name=name, value=max(value, 0.0), dimension="pressure", formula=formula, inputs=inputs, source=SOURCE)


def _start(known: Known, pump: PumpAtRest, most: float, least: float) -> Figure | None:
    """Return the speed that just holds the set pressure, where it is known and within the limits."""
    if known.set_pressure is None:
        return None
    try:
        start = max(pump.no_flow_hz(known.set_pressure), least)
    except RangeOfValidityError:
        return None
    if start > most:
        return None
    return Figure(
        name="tonight-start", value=start, dimension="frequency", source=SOURCE, inputs=(told(known, "set-pressure"),),
        formula="rated-hertz sqrt((set-pressure - incoming + lift) / shut-off)",
    )  # fmt: skip


def _drawn(known: Known, pump: PumpAtRest, most: Figure) -> Figure | None:
    """Return what stands at the surface while the needed flow is drawn, where a second point of the curve is known."""
    if known.duty_flow is None or known.duty_head is None or known.needed_flow is None or pump.way != "curve":
        return None
    points = TwoPoints(
        shut_off_m=pump.shut_off_m, duty_m=known.duty_head, duty_m3s=known.duty_flow, rated_hz=pump.rated_hz
    )
    try:
        head = points.head_m(known.needed_flow, most.value)
    except RangeOfValidityError:
        return None
    value = weight_pa(head - pump.lift_m.middle) + pump.incoming_pa.middle
    names = ("shut-off", "duty-head", "duty-flow", "needed-flow")
    return Figure(
        name="tonight-drawn", value=max(value, 0.0), dimension="pressure", source=PARABOLA,
        inputs=(most, *(told(known, name) for name in names)),
        formula="shut-off (tonight-most / rated-hertz)^2 - (shut-off - duty-head) (needed-flow / duty-flow)^2 - lift"
        " + incoming",
    )  # fmt: skip


def _bleed(known: Known, most: Figure) -> Figure | None:
    """Return the least flow while the pump runs, where its duty flow is known."""
    if known.duty_flow is None or known.rated_hertz is None:
        return None
    value = LEAST_FLOW * known.duty_flow * most.value / known.rated_hertz
    return Figure(
        name="tonight-bleed", value=value, dimension="flow", source=COMMON_PRACTICE,
        inputs=(most, told(known, "duty-flow"), told(known, "rated-hertz")),
        formula=f"{LEAST_FLOW} duty-flow tonight-most / rated-hertz",
    )  # fmt: skip


# ---------------------------------------------------------------- a positive-displacement pump


def _displacement(known: Known) -> Speeds | Message:
    if known.relief != "proven":
        return message("tonight-relief-unproven")
    opens, passes = told(known, "relief-set"), told(known, "relief-flow")
    flow, rated = told(known, "duty-flow"), told(known, "rated-hertz")
    risen = RELIEF_RISE * opens.value
    parts = [told(known, key) for key in ("weakest", "tank-plate") if getattr(known, field_of(key)) is not None]
    weak = min(parts, key=lambda part: part.value)
    if risen > weak.value:
        return message("tonight-relief-too-high", rises=risen, weak=weak.value, binds=weak.name)
    least = _least(known)
    most = rated.value * min(1.0, RELIEF_COUNTED * passes.value / flow.value)
    most = math.floor(most * 10.0 + 1e-9) / 10.0
    if most < least.value:
        return message("tonight-relief-too-small", least=least.value, most=most)
    highest = Figure(
        name="tonight-most", value=most, dimension="frequency", inputs=(passes, flow, rated), source=COMMON_PRACTICE,
        formula=f"rated-hertz min(1, {RELIEF_COUNTED} relief-flow / duty-flow)",
    )  # fmt: skip
    at_most = Figure(
        name="tonight-at-most", value=risen, dimension="pressure", inputs=(opens,), source=COMMON_PRACTICE,
        formula=f"{RELIEF_RISE} relief-set",
    )  # fmt: skip
    return Speeds(limit=at_most, limited_by="relief-set", least=least, most=highest, at_most=at_most)
