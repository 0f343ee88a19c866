"""How a sensor's signal reaches an input that was set for another: as it is, by a setting, or over a resistor.

Everything that decides which signal may go to which input lives in this file.

Rules
-----
1. The input is taken to be set for the signal of the sensor that stands there now.
2. The same signal goes as it is. Another signal of the same kind needs its ends set; volts that lie between the
   ends that are set will also do with another range.
3. A signal above the top of what the input is set for is no volts to try: without a setting for it, no.
4. Milliamps into a volts input go over a resistor from signal to common: the largest of `RESISTORS` whose volts at the
   top of the signal are not above the input's. The input's own resistance lies beside it.
5. Volts into a milliamps input are shorted by its resistor: without a setting for volts, no.
6. Whether the input can be set to other signals is `settable`; where nobody looked, look.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple

from steadyhead.messages import message
from steadyhead.setup.finding import CHECK, FITS, NO, WITH_WORK, Finding, Grade
from steadyhead.visit.record import Signal, SignalKind, Visit

Told = dict[str, float | str]

#: Resistors that turn milliamps into volts [ohm]: 1-5 V, and what is left below a 4.5 V end (common practice).
RESISTORS = (500.0, 250.0, 220.0, 120.0, 100.0)
#: The least resistance of a volts input that nobody measured [ohm] (common practice; as the engine takes it).
LEAST_INPUT_OHM = 50e3
#: Two ends that differ by no more than this part of the span are one.
SAME = 1e-3
#: A conversion resistor is at least this many times what it turns into heat (common practice).
RATING = 2.0
#: Ratings of the resistors that are carried [W] (common practice).
RATINGS_W = (0.25, 0.5, 1.0, 2.0, 3.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """How the signal gets in.

    Parameters
    ----------
    id
        ``direct``, ``ends`` (its ends are set, or the range is), ``setting`` (the input is set to another kind), or
        ``resistor``; ``none`` where there is no way.
    kind
        What the input takes it for.
    low, high
        What stands at the input at the two ends of the sensor's range [V or A].
    resistor_ohm
        The conversion resistor from signal to common [ohm].
    across_ohm
        That resistor with the input's own resistance beside it, where that is known [ohm].
    heat_w, shorted_w
        What it turns into heat at the top of the signal, and with the whole supply on it [W].
    """

    id: Literal["direct", "ends", "setting", "resistor", "none"]
    kind: SignalKind
    low: float
    high: float
    resistor_ohm: float | None = None
    across_ohm: float | None = None
    heat_w: float | None = None
    shorted_w: float | None = None

    @property
    def works(self) -> bool:
        """Whether there is a way."""
        return self.id != "none"


class _Ends(NamedTuple):
    """What stands at the input at both ends of the sensor's range, and what the input takes it for."""

    kind: SignalKind
    low: float
    high: float

    def way(self, id_: Literal["direct", "ends", "setting", "none"]) -> Way:
        return Way(id=id_, kind=self.kind, low=self.low, high=self.high)


def way_in(visit: Visit, new: Signal) -> tuple[Way, tuple[Finding, ...]]:
    """Return how a new sensor's signal reaches this system's input, and what is to be said of it."""
    own = visit.sensor.signal
    if (own.kind == "current") == (new.kind == "current"):
        return _same_kind(visit, new)
    if own.kind == "current" or visit.fitting.settable:
        return _other_kind(visit, new)
    return _by_resistor(visit, new)


def same_ends(own: Signal, new: Signal) -> bool:
    """Tell whether two signals have the same ends.

    >>> volts = Signal(kind="voltage", low=1.0, high=5.0, wires=3)
    >>> same_ends(volts, volts), same_ends(volts, Signal(kind="voltage", low=0.0, high=5.0, wires=3))
    (True, False)
    """
    near = SAME * (own.high - own.low)
    return abs(own.low - new.low) <= near and abs(own.high - new.high) <= near


def _same_kind(visit: Visit, new: Signal) -> tuple[Way, tuple[Finding, ...]]:
    own, settable = visit.sensor.signal, visit.fitting.settable
    ends = _Ends(own.kind, new.low, new.high)
    told: Told = {"was_kind": own.kind, "was_low": own.low, "was_high": own.high, **ends._asdict()}
    if same_ends(own, new):
        return ends.way("direct"), (_finding(FITS, "van-signal-same", told), *_rest(FITS, visit, new))
    if new.high > own.high + SAME * (own.high - own.low):
        grade, id_ = _asked(settable)
        found = _finding(grade, f"van-signal-above-{id_}", told)
        return ends.way("none" if grade == NO else "setting"), (found, *_rest(grade, visit, new))
    return ends.way("ends"), (_finding(WITH_WORK, "van-signal-other-ends", told), *_rest(WITH_WORK, visit, new))


def _rest(grade: Grade, visit: Visit, new: Signal) -> tuple[Finding, ...]:
    return () if grade == NO else (*_referred(visit, new), *_dead_zero(visit, new))


def _asked(settable: bool | None) -> tuple[Grade, str]:  # noqa: FBT001 - three answers, none of them a switch
    return {True: (WITH_WORK, "settable"), False: (NO, "not"), None: (CHECK, "unknown")}[settable]


def _other_kind(visit: Visit, new: Signal) -> tuple[Way, tuple[Finding, ...]]:
    """Return what setting the input to another kind of signal comes to."""
    own = visit.sensor.signal
    ends = _Ends(new.kind, new.low, new.high)
    grade, id_ = _asked(visit.fitting.settable)
    told: Told = {"was_kind": own.kind, "was_low": own.low, "was_high": own.high, **ends._asdict()}
    found = _finding(grade, f"van-signal-kind-{id_}", told)
    return ends.way("none" if grade == NO else "setting"), (found, *_rest(grade, visit, new))


def _by_resistor(visit: Visit, new: Signal) -> tuple[Way, tuple[Finding, ...]]:
    own = visit.sensor.signal
    ohm = next((each for each in RESISTORS if each * new.high <= own.high * (1 + SAME)), None)
    if ohm is None:
        ends = _Ends(new.kind, new.low, new.high)
        return ends.way("none"), (_finding(NO, "van-signal-no-resistor", {**ends._asdict(), "top": own.high}),)
    beside = visit.controller.input_resistance_ohm
    both = ohm if beside is None else ohm * beside / (ohm + beside)
    supply = visit.controller.supply_v
    heat, short = new.high**2 * ohm, None if supply is None else supply**2 / ohm
    way = Way(
        id="resistor", kind=own.kind, low=both * new.low, high=both * new.high, resistor_ohm=ohm, across_ohm=both,
        heat_w=heat, shorted_w=short,
    )  # fmt: skip
    told: Told = {"ohm": ohm, "low": way.low, "high": way.high, "watts": rating_w(heat), "heat": heat}
    id_ = "van-signal-resistor" if short is None else "van-signal-resistor-short"
    told |= {} if short is None else {"short": short}
    return way, (_finding(WITH_WORK, id_, told), *_rest(WITH_WORK, visit, new))


def rating_w(heat_w: float) -> float:
    """Return the least usual rating of a resistor that turns `heat_w` into heat [W].

    >>> rating_w(0.1), rating_w(0.2)
    (0.25, 0.5)
    """
    return next((each for each in RATINGS_W if each >= RATING * heat_w), RATING * heat_w)


def _referred(visit: Visit, new: Signal) -> tuple[Finding, ...]:
    """Return what comes of volts that follow the supply, on an input that does not, or the other way round."""
    follows = input_follows(visit)
    sends = new.kind == "ratiometric"
    if visit.sensor.signal.kind == "current" or (visit.fitting.settable and new.kind == "current"):
        return ()
    if follows is None:
        same = new.kind == visit.sensor.signal.kind
        return () if same else (_finding(CHECK, "van-signal-reference-unknown", {}),)
    if follows == sends:
        return ()
    return (_finding(WITH_WORK, "van-signal-follows" if sends else "van-signal-stands-still", {}),)


def input_follows(visit: Visit) -> bool | None:
    """Return whether the input measures against the sensor's supply; None where nobody knows."""
    if visit.controller.reference is None:
        return None
    return visit.controller.reference == "ratiometric"


def mixes_references(visit: Visit, new: Signal) -> bool:
    """Tell whether the display hangs on the supply: one of sensor and input follows it, the other does not."""
    if visit.sensor.signal.kind == "current" or (visit.fitting.settable and new.kind == "current"):
        return False
    follows = input_follows(visit)
    if follows is None:
        return new.kind != visit.sensor.signal.kind
    return follows != (new.kind == "ratiometric")


def _dead_zero(visit: Visit, new: Signal) -> tuple[Finding, ...]:
    """Return that nothing at the bottom of the signal cannot be told from a broken wire, where it could before."""
    lost = new.low <= 0.0 < visit.sensor.signal.low
    return (_finding(WITH_WORK, "van-signal-dead-zero", {}),) if lost else ()


def _finding(grade: Grade, id_: str, values: Told) -> Finding:
    return Finding("signal", grade, message(id_, **values))
