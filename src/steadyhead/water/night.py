"""What a night tells of leaks: two pressures and two readings of the water meter, and what they can and cannot prove.

Rules
-----
1. What needs no leak is not counted: half a division of the gauge at each reading, air that cools by some kelvin over a
   night, and, where nobody waited ten minutes after the pump had stopped, the air that its filling had warmed.
2. What is left of the fall is a loss. Where only the warm air could explain it, nothing is decided: the clock must
   start later.
3. While the pump may start by itself the gauge tells nothing: only the meter does.
4. The meter tells the side. Water that passed it went to the house; a loss without it lies before it: at the pump, its
   check valve, the tank, the relief valve. A slow drip may pass a meter uncounted.
5. A valve that was shut and does not hold tells no side by itself.
6. Where the tank's size and pre-charge are known, the fall is so much water (Boyle, at one temperature): held against
   the meter it tells whether that is all of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from steadyhead.figures import ARITHMETIC, COMMON_PRACTICE, Figure, given
from steadyhead.messages import Message, message
from steadyhead.published.source import Source
from steadyhead.published.standard_atmosphere import SEA_LEVEL_PA

PSI_PA = 6894.757293168361
#: Half a division of 2 psi, as a gauge of 0 to 100 or 160 psi has them (common practice) [Pa].
HALF_A_DIVISION_PA = PSI_PA
#: How far a tank's air may cool from evening to morning (common practice) [K], and from where [K].
COOLS_K, EVENING_K = 5.0, 293.15
#: Most that the pressure falls by itself after a quick filling, without a leak: 2 to 4 psi after 40 to 60 psi, in ten
#: minutes (common practice) [Pa].
WARM_AIR_PA = 4.0 * PSI_PA
#: Of what a fall is worth in water, so much through the meter is all of it: tank and pre-charge are known to a quarter.
ALL_OF_IT = 0.75
SHORT_S = 4 * 3600.0
VERDICTS = (
    "tight", "pump-side", "house-side", "both", "either", "house-draws", "no-draw", "rises", "unclear", "contradicts",
    "nothing",
)  # fmt: skip
YES, NO, UNKNOWN = "yes", "no", "unknown"
HOUSE_VALVE, ALL_TAPS = "house-valve", "all-taps"
BOYLE = Source(cite="R. Boyle's law: pressure times volume of a gas is constant", locator="at one temperature",
               seen="original")  # fmt: skip
GAY_LUSSAC = Source(cite="Gay-Lussac's law: pressure of a gas by its temperature", locator="at one volume",
                    seen="original")  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Night:
    """What was read, and how it stood.

    Parameters
    ----------
    start_pa, end_pa, over_s
        Gauge pressures in the evening and in the morning [Pa], and the time between [s].
    shut
        ``house-valve`` or ``all-taps``.
    holds
        Whether the valve that was shut holds: ``yes``, ``no``, ``unknown``.
    pump_off
        Whether the pump was off all night.
    waited
        Whether it was ten minutes or more from the pump's stop to the first reading.
    drawn_m3
        What the meter counted [m3]; None where there is none.
    tank_m3, precharge_pa
        The tank's volume [m3] and its gauge pre-charge [Pa]; None where nobody knows.
    air_pa
        The air's pressure there [Pa].
    """

    start_pa: float
    end_pa: float
    over_s: float
    shut: str = HOUSE_VALVE
    holds: str = UNKNOWN
    pump_off: str = YES
    waited: str = UNKNOWN
    drawn_m3: float | None = None
    tank_m3: float | None = None
    precharge_pa: float | None = None
    air_pa: float = SEA_LEVEL_PA


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """What a night tells.

    Parameters
    ----------
    verdict
        One of `VERDICTS`.
    says
        In messages: the figures first, then what they tell, then what to do, then what they cannot tell.
    fall, per_hour, needs_no_leak, loss
        Figures with their descent [Pa], [Pa/h as Pa], [Pa], [Pa].
    lost
        The fall as water [m3]; None where the tank is not known.
    """

    verdict: str
    says: tuple[Message, ...]
    fall: Figure
    per_hour: Figure
    needs_no_leak: Figure
    loss: Figure
    lost: Figure | None = None

    @property
    def tight(self) -> bool:
        """Whether nothing was lost on either side."""
        return self.verdict == "tight"


def judge(night: Night) -> Judged:
    """Return what a night tells.

    Examples
    --------
    >>> from steadyhead.quantities import parse
    >>> start, end = parse("60 psi", "pressure"), parse("52 psi", "pressure")
    >>> judge(Night(start_pa=start, end_pa=end, over_s=8 * 3600, waited="yes", holds="yes")).verdict
    'pump-side'
    """
    start, end = (given(name, value, "pressure", "card") for name, value in _pressures(night))
    over = given("night-hours", night.over_s / 3600.0, "number", "card")
    fall = Figure(
        name="night-fall", value=start.value - end.value, dimension="pressure", formula="night-start - night-end",
        inputs=(start, end),
    )  # fmt: skip
    per_hour = Figure(
        name="night-per-hour", value=fall.value / over.value, dimension="pressure", formula="night-fall / night-hours",
        inputs=(fall, over),
    )  # fmt: skip
    small = _needs_no_leak(night, start)
    loss = Figure(
        name="night-loss", value=max(0.0, fall.value - small.value), dimension="pressure",
        formula="night-fall - night-no-leak", inputs=(fall, small),
    )  # fmt: skip
    lost = _water(night, start, end)
    verdict = _verdict(night, fall.value, lost)
    says = _says(night, verdict, fall, lost)
    return Judged(
        verdict=verdict, says=says, fall=fall, per_hour=per_hour, needs_no_leak=small, loss=loss, lost=lost
    )


def _pressures(night: Night) -> tuple[tuple[str, float], tuple[str, float]]:
    return ("night-start", night.start_pa), ("night-end", night.end_pa)


def _cool_pa(night: Night) -> float:
    """Return by how much the pressure falls where the air cools and no water goes [Pa]."""
    return (night.start_pa + night.air_pa) * COOLS_K / EVENING_K


def _steady_pa(night: Night) -> float:
    """Return the fall that needs neither a leak nor warm air [Pa]."""
    return hypot(HALF_A_DIVISION_PA, HALF_A_DIVISION_PA) + _cool_pa(night)


def _needs_no_leak(night: Night, start: Figure) -> Figure:
    """Return the fall that needs no leak: the gauge's reading, the night's cooling, the air that a filling warmed."""
    half = given("night-half-division", HALF_A_DIVISION_PA, "pressure", "usual", COMMON_PRACTICE)
    air = given("barometer", night.air_pa, "pressure", "usual", COMMON_PRACTICE)
    cools = given("night-cools", COOLS_K / EVENING_K, "number", "usual", COMMON_PRACTICE)
    cooling = Figure(
        name="night-cooling", value=_cool_pa(night), dimension="pressure",
        formula="(night-start + barometer) * night-cools", inputs=(start, air, cools), source=GAY_LUSSAC,
    )  # fmt: skip
    warm_pa = 0.0 if night.waited == YES else WARM_AIR_PA
    warm = given("night-warm-air", warm_pa, "pressure", "usual", COMMON_PRACTICE)
    return Figure(
        name="night-no-leak", value=_steady_pa(night) + warm_pa, dimension="pressure",
        formula="sqrt(2) * night-half-division + night-cooling + night-warm-air", inputs=(half, cooling, warm),
        source=ARITHMETIC,
    )  # fmt: skip


def _water(night: Night, start: Figure, end: Figure) -> Figure | None:
    """Return what the fall is worth in water out of the tank, by Boyle's law; None where the tank is not known."""
    if night.tank_m3 is None or night.precharge_pa is None:
        return None
    air = given("barometer", night.air_pa, "pressure", "usual", COMMON_PRACTICE)
    tank = given("tank-volume", night.tank_m3, "volume", "card")
    charge = given("precharge", night.precharge_pa, "pressure", "card")
    whole = night.tank_m3 * (night.precharge_pa + night.air_pa)
    value = whole * (1.0 / (night.end_pa + night.air_pa) - 1.0 / (night.start_pa + night.air_pa))
    return Figure(
        name="night-lost", value=max(0.0, value), dimension="volume",
        formula="tank-volume * (precharge + barometer) * (1 / (night-end + barometer) - 1 / (night-start + barometer))",
        inputs=(tank, charge, start, end, air), source=BOYLE,
    )  # fmt: skip


def _verdict(night: Night, fall_pa: float, lost: Figure | None) -> str:
    """Return what a night tells, by the rules at the head of this module."""
    ran = night.drawn_m3 is not None and night.drawn_m3 > 0.0
    if night.pump_off == NO:
        return "nothing" if night.drawn_m3 is None else "house-draws" if ran else "no-draw"
    steady, warm = _steady_pa(night), 0.0 if night.waited == YES else WARM_AIR_PA
    if fall_pa < -steady:
        return "rises"
    if fall_pa <= steady:
        return "contradicts" if ran else "tight"
    return "unclear" if fall_pa <= steady + warm else _side(night, lost, ran=ran)


def _side(night: Night, lost: Figure | None, *, ran: bool) -> str:
    """Return on which side of the meter, or of the valve, a loss lies."""
    valve = night.shut == HOUSE_VALVE
    if ran:
        whole = lost is None or lost.value <= 0.0 or (night.drawn_m3 or 0.0) >= ALL_OF_IT * lost.value
        return "house-side" if whole else "both"
    if night.drawn_m3 is not None or (valve and night.holds == YES):
        return "pump-side"
    return "either"


def _says(night: Night, verdict: str, fall: Figure, lost: Figure | None) -> tuple[Message, ...]:
    hours = night.over_s / 3600.0
    told = [_fell(fall.value, hours)]
    if night.drawn_m3 is not None:
        told.append(message("night-drawn", drawn=night.drawn_m3, rate=night.drawn_m3 / hours))
    if lost is not None and lost.value > 0.0:
        told.append(message("night-worth", drawn=lost.value))
    told += [message(f"night-{verdict}"), message(f"night-{verdict}-then")]
    if night.over_s < SHORT_S:
        told.append(message("night-short", hours=hours))
    if night.waited != YES and verdict not in {"tight", "unclear", "nothing", "no-draw", "house-draws", "rises"}:
        told.append(message("night-warm", warm=WARM_AIR_PA))
    if night.drawn_m3 == 0.0 and verdict in {"pump-side", "no-draw", "tight"}:
        told.append(message("night-drip"))
    return tuple(told)


def _fell(fall_pa: float, hours: float) -> Message:
    if fall_pa < 0.0:
        return message("night-rose", fall=-fall_pa, hours=hours)
    return message("night-fell", fall=fall_pa, hours=hours, rate=fall_pa / hours)
