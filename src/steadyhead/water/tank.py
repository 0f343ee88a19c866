"""What a pressure tank gives between stop and wake, and how often the pump starts for it while little is drawn.

Rules
-----
1. The air in the tank is a gas at one temperature (Boyle), so every pressure is absolute: gauge and barometer.
2. Below its pre-charge a tank is empty: where the pump wakes lower than that, nothing is left to give in between.
3. One turn is the emptying by what is drawn and the filling by what the pump gives beyond it; so many turns an hour are
   so many starts. They are most where half of what the pump gives is drawn.
4. Where nobody knows what the pump gives, its filling takes no time: the starts are then the most that there can be.
5. What is not known is left out, and what it would tell with it; the three pressures and the volume must be there.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from steadyhead.errors import AnswersError, InputError, Problem, QuantityError, UnknownWordError
from steadyhead.figures import ARITHMETIC, COMMON_PRACTICE, Figure, given
from steadyhead.messages import Message, message
from steadyhead.published.pump_starts import SOURCE, most_starts_an_hour
from steadyhead.published.standard_atmosphere import SEA_LEVEL_PA
from steadyhead.quantities import parse
from steadyhead.water.night import BOYLE

HOUR_S = 3600.0
SMALL, LARGE = "small", "large"
MOTORS = (SMALL, LARGE)
#: Least pre-charge as a part of the stop pressure: 65 to 75 % of the set pressure (common practice).
LEAST_PRECHARGE = 0.65


class AskedOfTank(NamedTuple):
    """One question: its key, and its dimension or its words; `must` is one that has to be answered."""

    key: str
    dimension: str = ""
    words: tuple[str, ...] = ()
    must: bool = False


QUESTIONS: tuple[AskedOfTank, ...] = (
    AskedOfTank("volume", "volume", must=True),
    AskedOfTank("precharge", "pressure", must=True),
    AskedOfTank("wake", "pressure", must=True),
    AskedOfTank("stop", "pressure", must=True),
    AskedOfTank("draw", "flow"),
    AskedOfTank("refill", "flow"),
    AskedOfTank("motor", words=MOTORS),
)
QUESTION = {each.key: each for each in QUESTIONS}


@dataclass(frozen=True, slots=True, kw_only=True)
class Tank:
    """A tank and its pump.

    Parameters
    ----------
    volume
        The tank's whole volume, empty of water [m3].
    precharge, wake, stop
        Its air with no water in it; where the pump starts, and stops [Pa].
    draw, refill
        What is drawn, and what the pump gives between wake and stop [m3/s]; None where nobody knows.
    motor
        ``small`` up to 3/4 hp, ``large`` above; None where nobody knows.
    air
        The barometer [Pa].
    """

    volume: float
    precharge: float
    wake: float
    stop: float
    draw: float | None = None
    refill: float | None = None
    motor: str | None = None
    air: float = SEA_LEVEL_PA


@dataclass(frozen=True, slots=True, kw_only=True)
class TankTold:
    """What a tank gives: its figures with their descent, and what is said of them, the most important first."""

    figures: tuple[Figure, ...]
    says: tuple[Message, ...]


def tank_from(texts: Mapping[str, str]) -> Tank:
    """Return the tank that some answers tell; an empty one is unknown.

    Raises
    ------
    AnswersError
        One or more cannot be used or are lacking; its problems name each by its key.

    Examples
    --------
    >>> tank_from({"volume": "80 L", "precharge": "2 bar", "wake": "2.5 bar", "stop": "3 bar"}).draw is None
    True
    """
    found: dict[str, float | str] = {}
    problems: list[Problem] = []
    for key, text in texts.items():
        try:
            if text.strip():
                found[key] = _read(key, text.strip())
        except InputError as error:
            problems.append(Problem(error.message, key, None))
    wrong = {each.key for each in problems}
    lacking = [each.key for each in QUESTIONS if each.must and each.key not in found and each.key not in wrong]
    problems += [Problem(message("tank-lacks"), key, None) for key in lacking]
    if not problems and float(found["stop"]) <= float(found["wake"]):
        problems.append(Problem(message("tank-stop-below-wake"), "stop", None))
    if problems:
        raise AnswersError(message("tonight-refused", file="tank", count=len(problems)), tuple(problems))
    return Tank(**found)  # type: ignore[arg-type]  # each key was read by its own question


def _read(key: str, text: str) -> float | str:
    asked = QUESTION.get(key)
    if asked is None:
        raise UnknownWordError(message("word-unknown", got=key, must_be=tuple(QUESTION), nearest=()))
    if asked.words:
        if text not in asked.words:
            raise UnknownWordError(message("word-unknown", got=text, must_be=asked.words, nearest=()))
        return text
    value = parse(text, asked.dimension)
    if value <= 0:
        raise QuantityError(message("tonight-not-above-zero", got=text))
    return value


def tank_told(tank: Tank) -> TankTold:
    """Return what a tank gives, and how often its pump starts.

    Examples
    --------
    >>> psi, gallon = 6894.757293168361, 0.003785411784
    >>> told = tank_told(Tank(volume=85 * gallon, precharge=28 * psi, wake=30 * psi, stop=50 * psi))
    >>> round(told.figures[0].value / gallon, 1)
    25.1
    """
    drawn = _drawdown(tank)
    figures, says = [drawn], [_gives(tank, drawn), *_charge(tank)]
    if drawn.value > 0.0:
        figures += [*_at_draw(tank, drawn), *_worst(tank, drawn)]
        says += _starts(tank, {each.name: each for each in figures})
    return TankTold(figures=tuple(figures), says=tuple(says))


def _drawdown(tank: Tank) -> Figure:
    """Return the water between stop and wake, or between stop and empty where the pre-charge is above the wake [m3]."""
    air = given("barometer", tank.air, "pressure", "usual", COMMON_PRACTICE)
    volume = given("tank-volume", tank.volume, "volume", "card")
    charge = given("precharge", tank.precharge, "pressure", "card")
    wake, stop = (given(f"tank-{key}", getattr(tank, key), "pressure", "card") for key in ("wake", "stop"))
    emptied = max(tank.wake, tank.precharge) + tank.air
    value = tank.volume * (tank.precharge + tank.air) * (1.0 / emptied - 1.0 / (tank.stop + tank.air))
    return Figure(
        name="tank-drawdown", value=max(0.0, value), dimension="volume",
        formula="tank-volume * (precharge + barometer) * "
        "(1 / (max(tank-wake, precharge) + barometer) - 1 / (tank-stop + barometer))",
        inputs=(volume, charge, wake, stop, air), source=BOYLE,
    )  # fmt: skip


def _at_draw(tank: Tank, drawn: Figure) -> list[Figure]:
    """Return how long the tank lasts at what is drawn [s], and the starts of an hour [1/h]; none where unknown."""
    if tank.draw is None:
        return []
    draw = given("tank-draw", tank.draw, "flow", "card")
    lasts = Figure(
        name="tank-lasts", value=drawn.value / tank.draw, dimension="time", formula="tank-drawdown / tank-draw",
        inputs=(drawn, draw), source=ARITHMETIC,
    )  # fmt: skip
    inputs: tuple[Figure, ...] = (lasts,)
    if tank.refill is None:
        formula, turn = "1 h / tank-lasts", lasts.value
    elif tank.draw >= tank.refill:
        return [lasts]
    else:
        refill = given("tank-refill", tank.refill, "flow", "card")
        formula, inputs = "1 h / (tank-lasts + tank-drawdown / (tank-refill - tank-draw))", (lasts, drawn, refill, draw)
        turn = lasts.value + drawn.value / (tank.refill - tank.draw)
    starts = Figure(
        name="tank-starts", value=HOUR_S / turn, dimension="number", formula=formula, inputs=inputs, source=ARITHMETIC
    )
    return [lasts, starts]


def _worst(tank: Tank, drawn: Figure) -> list[Figure]:
    """Return the most starts that any draw can make in an hour [1/h]; none where nobody knows what the pump gives."""
    if tank.refill is None:
        return []
    refill = given("tank-refill", tank.refill, "flow", "card")
    return [
        Figure(
            name="tank-most-starts", value=HOUR_S * tank.refill / (4.0 * drawn.value), dimension="number",
            formula="1 h * tank-refill / (4 * tank-drawdown)", inputs=(refill, drawn), source=ARITHMETIC,
        )
    ]  # fmt: skip


def _gives(tank: Tank, drawn: Figure) -> Message:
    if drawn.value <= 0.0:
        return message("tank-nothing", precharge=tank.precharge, stop=tank.stop)
    lower = max(tank.wake, tank.precharge)
    return message("tank-gives", drawn=drawn.value, stop=tank.stop, wake=lower)


def _charge(tank: Tank) -> list[Message]:
    """Return what is to be said of the pre-charge."""
    if tank.precharge > tank.wake:
        return [message("tank-charge-high", precharge=tank.precharge, wake=tank.wake)]
    if tank.precharge < LEAST_PRECHARGE * tank.stop and tank.precharge < 0.9 * tank.wake:
        return [message("tank-charge-low", precharge=tank.precharge)]
    return []


def _starts(tank: Tank, figures: Mapping[str, Figure]) -> list[Message]:
    """Return what is to be said of how often the pump starts."""
    told: list[Message] = []
    if tank.draw is not None:
        told.append(message("tank-lasts", draw=tank.draw, lasts=figures["tank-lasts"].value / 60.0))
        if "tank-starts" not in figures:
            told.append(message("tank-never-stops"))
        else:
            starts = figures["tank-starts"].value
            known, most = message("tank-starts", starts=starts), message("tank-starts-at-most", starts=starts)
            told.append(most if tank.refill is None else known)
    worst = figures.get("tank-most-starts")
    if worst is not None:
        told.append(message("tank-most-starts", starts=worst.value))
        told.append(_allowed(tank, worst.value))
    return told


def _allowed(tank: Tank, starts: float) -> Message:
    """Return whether a motor may start so often, or what would tell."""
    if tank.motor is None:
        small, large = most_starts_an_hour(small=True), most_starts_an_hour(small=False)
        return message("tank-motor-unknown", small=small, large=large)
    most = most_starts_an_hour(small=tank.motor == SMALL)
    if starts <= most:
        return message("tank-starts-right", most=most, cite=SOURCE.cite)
    needed = HOUR_S * (tank.refill or 0.0) / (4.0 * most)
    return message("tank-starts-often", most=most, needed=needed, cite=SOURCE.cite)
