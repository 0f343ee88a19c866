"""What pressure truly stood at the sensor, from what the reference showed: the one place where that is worked out.

Rules
-----
1. To the reference's reading is added what its certificate says, and the weight of what stands between it and the
   sensor: a gauge above the sensor shows too little, one below it too much.
2. Between two points of a certificate its correction goes along a straight line; beyond its ends it stays.
3. Pressures are gauge pressures here. The range of an absolute or sealed sensor is moved by the air: what was measured,
   else the standard air of the altitude, else that of sea level, which is then told (`air_told`).
4. A metre of water weighs 9806.65 Pa (1000 kg/m3, standard gravity). Drinking water from 0 to 30 °C anywhere on earth
   is within 0.7 % of that: `WATER_WITHIN`.
5. Air in the line weighs by its density at that pressure, as a perfect gas at 15 °C: at 7 bar some 0.1 kPa a metre.
"""

from __future__ import annotations

from bisect import bisect_right

from steadyhead.figures import COMMON_PRACTICE, Figure, given
from steadyhead.messages import Message, message
from steadyhead.published import standard_atmosphere
from steadyhead.published.pressure_factors import SOURCE as WATER_SOURCE
from steadyhead.published.source import Source
from steadyhead.published.standard_atmosphere import GAS_CONSTANT_J_PER_MOL_K, MOLAR_MASS_KG_PER_MOL, SEA_LEVEL_PA
from steadyhead.sensorcheck.run import Certificate, CheckRun, Conditions, Reference
from steadyhead.visit.record import Gauge, Interval, Sensor

GRAVITY_M_PER_S2 = standard_atmosphere.GRAVITY_M_PER_S2
WATER_PA_PER_M = 9806.65  #: conventional water: 1000 kg/m3 under standard gravity
#: How far a metre of drinking water may be from that, as a fraction: 995.6 kg/m3 at 30 °C, gravity 9.780 to 9.832.
WATER_WITHIN = 0.007
LINE_AIR_K = 288.15

_NO_REFERENCE = Reference(gauge=Gauge())
_CERTIFICATE = Source(cite="the instrument's own calibration certificate", locator="corrections", seen="original")


def height_correction_pa(conditions: Conditions, reference_pa: float) -> float:
    """Return what the height of the reference adds to its reading [Pa]: ``weight of a metre x height``.

    Parameters
    ----------
    conditions
        Height of the reference above the sensor, and what stands between them.
    reference_pa
        The reference's reading [Pa gauge]; it matters for air only.

    Examples
    --------
    >>> round(height_correction_pa(Conditions(height_m=3.048), 0.0) / 6894.757, 2)  # ten feet of water, in psi
    4.34
    """
    return conditions.height_above_m * weight_pa_per_m(conditions, reference_pa)


def weight_pa_per_m(conditions: Conditions, reference_pa: float) -> float:
    """Return what a metre of what stands between reference and sensor weighs [Pa/m].

    References
    ----------
    Water: NIST SP 811, appendix B, conventional metre of water. Air: perfect gas, constants of the U.S. Standard
    Atmosphere, 1976 (from memory).
    """
    if conditions.medium == "water":
        return WATER_PA_PER_M
    absolute = max(reference_pa + air_pa(conditions), 0.0)
    density = absolute * MOLAR_MASS_KG_PER_MOL / (GAS_CONSTANT_J_PER_MOL_K * LINE_AIR_K)
    return density * GRAVITY_M_PER_S2


def air_pa(conditions: Conditions) -> float:
    """Return the pressure of the air [Pa absolute]: measured, else that of the altitude, else that of sea level.

    Raises
    ------
    RangeOfValidityError
        An altitude outside -5000..11000 m.

    Examples
    --------
    >>> round(air_pa(Conditions(altitude_m=1000.0)))
    89876
    """
    if conditions.barometer_pa is not None:
        return conditions.barometer_pa
    return SEA_LEVEL_PA if conditions.altitude_m is None else standard_atmosphere.pressure_pa(conditions.altitude_m)


def air_told(run: CheckRun) -> tuple[Message, ...]:
    """Return what must be said of the air: that it was assumed, where the sensor depends on it and nobody looked."""
    conditions = run.conditions
    known = conditions.barometer_pa is not None or conditions.altitude_m is not None
    return () if known or run.sensor.reference == "gauge" else (message("air-pressure-assumed", air=SEA_LEVEL_PA),)


def correction_at(certificate: Certificate | None, reading: float) -> float:
    """Return what a certificate adds to a reading, in the reading's own unit; without one, nothing.

    Examples
    --------
    >>> correction_at(Certificate(expanded=0.1, at=(0.0, 10.0), correction=(0.0, -0.2)), 5.0)
    -0.1
    """
    if certificate is None:
        return 0.0
    at, corrections = certificate.at, certificate.correction
    if len(at) < 2 or reading <= at[0]:
        return corrections[0]
    if reading >= at[-1]:
        return corrections[-1]
    after = bisect_right(at, reading)
    share = (reading - at[after - 1]) / (at[after] - at[after - 1])
    return corrections[after - 1] + share * (corrections[after] - corrections[after - 1])


def pressure_at_sensor(run: CheckRun, number: int) -> Figure:
    """Return the pressure at the sensor at a point, as a figure.

    ``reading + correction + height``, each left out where it is nothing.

    Parameters
    ----------
    run
        The check.
    number
        Which point, from 1.
    """
    point, conditions = run.points[number - 1], run.conditions
    parts = [given("reference-reading", point.reference_pa, "pressure", f"point {number}")]
    if run.reference.certificate is not None:
        correction = correction_at(run.reference.certificate, point.reference_pa)
        parts.append(given("reference-correction", correction, "pressure", "certificate", _CERTIFICATE))
    if conditions.height_above_m:
        parts.append(height_figure(conditions, point.reference_pa))
    return Figure(
        name="pressure-at-sensor", value=sum(each.value for each in parts), dimension="pressure",
        formula=" + ".join(each.name for each in parts), inputs=tuple(parts), source=COMMON_PRACTICE,
    )  # fmt: skip


def height_figure(conditions: Conditions, reference_pa: float) -> Figure:
    """Return what the height of the reference adds to its reading, as a figure."""
    water = conditions.medium == "water"
    source = WATER_SOURCE if water else standard_atmosphere.SOURCE
    return Figure(
        name="height-correction", value=height_correction_pa(conditions, reference_pa), dimension="pressure",
        formula="reference-height x weight-per-metre", source=source,
        inputs=(
            given("reference-height", conditions.height_above_m, "length", "conditions"),
            given("weight-per-metre", weight_pa_per_m(conditions, reference_pa), "pressure", conditions.medium, source),
        ),
    )  # fmt: skip


def range_ends(run: CheckRun) -> tuple[Figure, Figure]:
    """Return both ends of the sensor's range as gauge pressures here.

    An absolute sensor's are lower by the air, a sealed one's by what the air differs from that at sea level.
    """
    range_, reference = run.sensor.range, run.sensor.reference
    low = given("range-low", range_.low, "pressure", "plate")
    high = given("range-high", range_.high, "pressure", "plate")
    if reference == "gauge":
        return low, high
    air = given("air-pressure", air_pa(run.conditions), "absolute-pressure", _air_whence(run.conditions))
    sealed_at = given("sealed-at", SEA_LEVEL_PA if reference == "sealed" else 0.0, "absolute-pressure", "plate")
    moved = air.value - sealed_at.value
    return (_moved("range-low-here", low, moved, (air, sealed_at)),
            _moved("range-high-here", high, moved, (air, sealed_at)))  # fmt: skip


def range_here(sensor: Sensor, conditions: Conditions) -> Interval:
    """Return the sensor's range as gauge pressures here [Pa], plain; `range_ends` has it with its descent."""
    low, high = range_ends(CheckRun(sensor=sensor, reference=_NO_REFERENCE, conditions=conditions))
    return Interval(low.value, high.value)


def _moved(name: str, end: Figure, moved: float, air: tuple[Figure, Figure]) -> Figure:
    return Figure(
        name=name, value=end.value - moved, dimension="pressure", formula=f"{end.name} - air-pressure + sealed-at",
        inputs=(end, *air), source=COMMON_PRACTICE,
    )  # fmt: skip


def _air_whence(conditions: Conditions) -> str:
    if conditions.barometer_pa is not None:
        return "conditions"
    return "altitude" if conditions.altitude_m is not None else "assumed"
