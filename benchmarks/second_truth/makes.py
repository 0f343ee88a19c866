"""Makes of devices: what differs between sensors, supplies, inputs and meters that are sold.

A tool sees none of these figures. Ranges are estimates of an experienced eye, common practice with no
source; they are wide on purpose, since a technician meets every make.
"""

from __future__ import annotations

from dataclasses import dataclass

from benchmarks.second_truth.streams import Stream


@dataclass(frozen=True, slots=True, kw_only=True)
class Signal:
    """What a sensor puts out at the two ends of its range; amperes count as milliamps."""

    text: str
    low: float
    high: float
    unit: str
    ratiometric: bool = False


RATIOMETRIC = Signal(text="0.5..4.5 V ratiometric", low=0.5, high=4.5, unit="V", ratiometric=True)
FIXED = Signal(text="0.5..4.5 V", low=0.5, high=4.5, unit="V")
ONE_FIVE = Signal(text="1..5 V", low=1.0, high=5.0, unit="V")
TEN_VOLT = Signal(text="0..10 V", low=0.0, high=10.0, unit="V")
LOOP = Signal(text="4..20 mA", low=4.0, high=20.0, unit="mA")


@dataclass(frozen=True, slots=True, kw_only=True)
class SensorMake:
    """One make of sensor, three-wire or two-wire."""

    signal: Signal
    quiet_a: float = 0.004  #: supply current of a three-wire sensor [A]
    least_v: float = 4.0  #: volts below which it stops working [V]
    starved: str = "common"  #: where the output goes when starved: common, supply, float
    out_ohm: float = 50.0
    source_a: float = 0.01
    sink_a: float = 0.01
    clip_low: float = 0.0  #: output clamps in the signal's unit, at nominal supply
    clip_high: float = 5.0
    output_diodes: bool = True
    reverse: str = "diode"  #: across, blocked, none; two-wire also series, bridge
    zero: float = 0.0  #: errors of this specimen, fraction of span
    span: float = 0.0


def three_wire_make(rng: Stream, signal: Signal, accuracy: float) -> SensorMake:
    """Draw a make of a three-wire sensor: an ASIC on 5 V, or a regulated amplifier on 12 or 24 V."""
    five = signal.ratiometric
    follower = rng.chance(0.12)  # an emitter follower sources well and sinks through a resistor only
    clip = rng.random()
    low, high = (0.0, 5.0) if five else (0.0, signal.high * 1.3)
    if clip < 0.45:
        low = rng.uniform(0.12, 0.27) if signal.low > 0 else rng.uniform(0.0, 0.05)
        high = rng.uniform(4.7, 4.9) if five else signal.high * rng.uniform(1.03, 1.1)
    elif clip < 0.8:
        low, high = rng.uniform(0.02, 0.1), (rng.uniform(4.88, 4.99) if five else signal.high * rng.uniform(1.1, 1.25))
    return SensorMake(
        signal=signal,
        quiet_a=rng.log_uniform(0.0018, 0.009) if five else rng.log_uniform(0.002, 0.012),
        least_v=rng.uniform(2.4, 4.3) if five else (signal.high * 0.7 + rng.uniform(1.0, 3.0)),
        starved=rng.weighted({"common": 0.6, "supply": 0.2, "float": 0.2}),
        out_ohm=rng.log_uniform(2.0, 1000.0),
        source_a=rng.log_uniform(0.004, 0.025),
        sink_a=rng.log_uniform(0.0001, 0.0006) if follower else rng.log_uniform(0.0025, 0.02),
        clip_low=low,
        clip_high=high,
        output_diodes=rng.chance(0.8),
        reverse=rng.weighted({"diode": 0.5, "blocked": 0.4, "none": 0.1} if five else {"blocked": 0.75, "diode": 0.25}),
        zero=rng.bounded(accuracy * 0.7),
        span=rng.bounded(accuracy * 0.7),
    )


def two_wire_make(rng: Stream, accuracy: float) -> SensorMake:
    """Draw a make of a two-wire current sensor."""
    return SensorMake(
        signal=LOOP,
        least_v=rng.uniform(6.5, 11.0),
        clip_low=rng.choice([rng.uniform(3.3, 3.6), rng.uniform(3.7, 3.95), rng.uniform(2.5, 3.3)]),
        clip_high=rng.choice([rng.uniform(20.4, 21.0), rng.uniform(21.0, 24.0), rng.uniform(24.0, 30.0)]),
        reverse=rng.weighted({"series": 0.5, "diode": 0.28, "none": 0.14, "bridge": 0.08}),
        zero=rng.bounded(accuracy * 0.7),
        span=rng.bounded(accuracy * 0.7),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplyMake:
    """How the sensor supply of a controller behaves, healthy."""

    nominal_v: float
    volts: float
    source_ohm: float
    limit_a: float
    kind: str  #: limit, fold-back, hiccup, fuse (self-resetting)
    hold_w: float = 0.5  #: what a tripped self-resetting fuse burns [W]
    other_a: float = 0.0  #: what other devices on the same supply draw, healthy [A]


def supply_make(rng: Stream, nominal_v: float) -> SupplyMake:
    """Draw a supply: a small regulator on 5 V, a larger or an unregulated one on 24 V."""
    kind = rng.weighted({"limit": 0.5, "fold-back": 0.17, "hiccup": 0.13, "fuse": 0.2})
    if nominal_v < 6:
        volts, ohms, limit = (
            nominal_v * (1 + rng.bounded(0.025)),
            rng.log_uniform(0.2, 12.0),
            rng.log_uniform(0.02, 0.2),
        )
    else:
        loose = nominal_v > 20 and rng.chance(0.25)
        volts = rng.uniform(24.5, 31.0) if loose else nominal_v * (1 + rng.bounded(0.05))
        ohms, limit = rng.log_uniform(0.5, 60.0), rng.log_uniform(0.03, 0.3)
    other = rng.uniform(0.001, 0.3 * limit) if rng.chance(0.3) else 0.0
    return SupplyMake(
        nominal_v=nominal_v,
        volts=volts,
        source_ohm=ohms,
        limit_a=limit + other,
        kind=kind,
        hold_w=rng.uniform(0.3, 0.9),
        other_a=other,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class InputMake:
    """How the controller's input loads, clamps and reads the signal."""

    current: bool
    ohms: float  #: to common: input resistance, or the true burden
    pull_up_ohm: float | None = None
    pull_up_v: float = 5.0
    clamp_v: float | None = None
    series_ohm: float = 4700.0  #: before the clamp of a voltage input
    limit_a: float | None = None  #: a current input that limits by itself
    ratio: bool = False  #: measures against the sensor's own supply
    full: float = 5.0  #: where its converter saturates, in V or mA
    gain: float = 1.0
    offset: float = 0.0


def input_make(rng: Stream, signal: Signal, nominal_ohm: float) -> InputMake:
    """Draw the input that belongs to a signal."""
    ohms = nominal_ohm * (1 + rng.bounded(0.01 if signal.unit == "mA" else 0.03))
    gain, offset = 1 + rng.bounded(0.004), rng.bounded(0.002)
    if signal.unit == "mA":
        return InputMake(
            current=True,
            ohms=ohms,
            clamp_v=rng.uniform(5.6, 12.0) if rng.chance(0.5) else None,
            limit_a=rng.uniform(0.025, 0.045) if rng.chance(0.3) else None,
            full=rng.uniform(21.5, 25.0),
            gain=gain,
            offset=offset * 16,
        )
    pulled = rng.chance(0.2) and signal.low > 0
    return InputMake(
        current=False,
        ohms=ohms,
        pull_up_ohm=rng.log_uniform(47e3, 1e6) if pulled else None,
        clamp_v=rng.choice([5.0, 5.0, None]) if signal.high <= 5 else rng.choice([12.0, None]),
        series_ohm=rng.log_uniform(1e3, 22e3),
        ratio=signal.ratiometric and rng.chance(0.55),
        full=5.0 if signal.ratiometric else signal.high * rng.uniform(1.03, 1.2),
        gain=gain,
        offset=offset * signal.high / 5,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class MeterMake:
    """A multimeter: what its paper says, and how this specimen errs."""

    volts_pct: float
    volts_digit: float
    amps_pct: float
    amps_digit: float
    ohms_pct: float
    ohms_digit: float
    counts: int  #: last digits that it allows itself
    full_counts: int
    volts_error: float = 0.0
    amps_error: float = 0.0
    ohms_error: float = 0.0
    burden_ohm: float = 5.0
    test_v: float = 1.0  #: open-circuit volts on ohms
    top_ohm: float = 40e6
    lead_ohm: float = 0.2


def meter_make(rng: Stream) -> MeterMake:
    """Draw a meter from a van: cheap, ordinary or good."""
    pct, digit, full = rng.weighted(
        {(0.8, 0.01, 2000): 0.2, (0.5, 0.001, 4000): 0.45, (0.3, 0.001, 6000): 0.2, (0.09, 0.001, 6000): 0.15}
    )
    return MeterMake(
        volts_pct=pct,
        volts_digit=digit,
        amps_pct=max(pct * 2, 0.5),
        amps_digit=0.01,
        ohms_pct=max(pct * 1.5, 0.4),
        ohms_digit=0.1,
        counts=rng.choice([2, 2, 3]),
        full_counts=full,
        volts_error=rng.bounded(pct / 100),
        amps_error=rng.bounded(max(pct * 2, 0.5) / 100),
        ohms_error=rng.bounded(max(pct * 1.5, 0.4) / 100),
        burden_ohm=rng.choice([1.5, 2.5, 6.0, 10.0, 12.0]) * rng.uniform(0.8, 1.4),
        test_v=rng.choice([0.45, 0.65, 1.2, 1.5, 2.7, 3.2]),
        top_ohm=rng.choice([20e6, 40e6, 60e6]),
        lead_ohm=rng.uniform(0.08, 0.35),
    )
