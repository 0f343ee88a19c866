"""What a fault of a part changes: the sensor, the controller, a setting, the water at the sensor, an instrument."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from benchmarks.truth.case import Case, Fault
from benchmarks.truth.draw import spread
from benchmarks.truth.wiring_faults import PINOUTS, order_of

Change = dict[str, Any]
Draw = Callable[[Case, random.Random], tuple[Change, Fault]]


def _sensor(case: Case, fault: Fault, **change: Any) -> tuple[Change, Fault]:
    return {"sensor": replace(case.sensor, **change)}, fault


def _sign(rng: random.Random) -> int:
    return rng.choice((-1, 1))


def sensor_open(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """Its supply pin or its output is open inside."""
    if case.kind == "two-wire" or rng.random() < 0.6:
        return _sensor(case, Fault(severity="no current"), supply_open=True)
    return _sensor(case, Fault(severity="output open"), output_open=True)


def sensor_shorted(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """It is burnt through between its supply pins, or from its output to common."""
    ohm = spread(rng, 1, 60)
    if case.kind == "two-wire" or rng.random() < 0.7:
        return _sensor(case, Fault(severity=f"supply {ohm:.0f} ohm"), short_ohm=ohm)
    return _sensor(case, Fault(severity=f"output {ohm:.0f} ohm"), output_short_ohm=ohm, output_open=True)


def sensor_low(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """It is dead at its lower limit while it still draws its current."""
    if case.kind == "two-wire":
        fraction = (rng.uniform(0.2, 3.7) - 4) / 16
    else:
        fraction = (rng.uniform(0, 0.04) * case.signal.supply_v - case.signal.low) / case.signal.span
    floor = min(case.sensor.floor, fraction) if case.kind == "two-wire" else -1.0
    return _sensor(case, Fault(severity=f"at {fraction:.0%}"), stuck=fraction, floor=floor)


def sensor_high(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """It is dead at its upper limit."""
    ceiling = (rng.uniform(20.6, 28) - 4) / 16 if case.kind == "two-wire" else rng.uniform(1.04, 1.2)
    return _sensor(case, Fault(severity=f"at {ceiling:.0%}"), stuck=ceiling, ceiling=max(ceiling, case.sensor.ceiling))


def sensor_zero_shift(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """Its zero has moved."""
    shift = _sign(rng) * spread(rng, 0.06, 0.35)
    return _sensor(case, Fault(severity=f"{shift:+.0%} of span"), zero=shift)


def sensor_span_shift(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """Its span has changed."""
    gain = rng.choice((rng.uniform(0.5, 0.85), rng.uniform(1.15, 1.6)))
    return _sensor(case, Fault(severity=f"x {gain:.2f}"), gain=gain)


def sensor_frozen(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """It shows one pressure for ever."""
    fraction = rng.uniform(0.0, 0.95)
    return _sensor(case, Fault(severity=f"at {fraction:.0%}"), stuck=fraction)


def sensor_wet_vent(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """Water in its vent moves its zero."""
    shift = _sign(rng) * spread(rng, 0.05, 0.15)
    return _sensor(case, Fault(severity=f"{shift:+.0%} of span", found_by={"moisture": 0.35}), zero=shift)


def sensor_wrong_part(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """Another range, another reference, another signal, or another pinout than the plate should say."""
    kind = rng.choice(("range", "range", "absolute", "signal", "pinout"))
    seen = {"range-setting": 0.8}
    if kind == "range":
        factor = rng.choice((0.5, 0.67, 1.5, 2.0, 3.0))
        return _sensor(case, Fault(severity=f"range x {factor}", found_by=seen), range_factor=factor)
    if kind == "absolute" or case.kind == "two-wire":
        return _sensor(case, Fault(severity="absolute", found_by=seen), pressure_shift=14.7)
    if kind == "signal":
        low, high = rng.choice(((0.0, 5.0), (1.0, 5.0))) if case.signal.high < 5 else (0.5, 4.5)
        return _sensor(
            case, Fault(severity=f"{low}..{high} V", found_by={"input-setting": 0.6, **seen}), low=low, high=high
        )
    pins = order_of(rng.choice(PINOUTS))
    return {"cable": replace(case.cable, pins=pins)}, Fault(severity=f"pinout {pins}")


def supply_dead(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """No volts, or a ghost of some."""
    volts = rng.choice((0.0, rng.uniform(0.0, 0.3)))
    return {"supply": replace(case.supply, volts=volts, source_ohm=spread(rng, 100, 1e4))}, Fault(severity="dead")


def supply_low(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """Too few volts, whatever hangs on it."""
    volts = case.signal.supply_v * rng.uniform(0.3, 0.85)
    return {"supply": replace(case.supply, volts=volts)}, Fault(severity=f"{volts:.1f} V")


def supply_weak(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """Right when idle, gone under a sensor's current."""
    limit = spread(rng, 0.0004, 0.004) if case.kind == "three-wire" else spread(rng, 0.002, 0.012)
    change = replace(case.supply, limit_a=limit, source_ohm=spread(rng, 100, 3000), law="soft", other_load_a=0.0)
    return {"supply": change}, Fault(severity=f"{limit * 1e3:.1f} mA")


def other_load(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """Another device on the terminal pulls it down."""
    ohm = case.supply.volts / case.supply.limit_a * spread(rng, 0.01, 0.5)
    return {"supply": replace(case.supply, other_load_ohm=ohm)}, Fault(severity=f"{ohm:.0f} ohm")


def input_dead(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """Burnt to common, burnt open, or a converter that says one thing."""
    kind = rng.choice(("burnt", "open", "stuck"))
    stuck = rng.choice((case.signal.low - case.signal.span * 0.25, case.signal.high + case.signal.span * 0.15))
    if kind == "burnt":
        ohm = spread(rng, 2, 60 if case.kind == "two-wire" else 300)
        return {"input": replace(case.input, ohm=ohm)}, Fault(severity=f"{ohm:.0f} ohm")
    if kind == "open" and case.kind == "two-wire":
        return {"input": replace(case.input, ohm=5e6, clamp_v=40.0)}, Fault(severity="burden open")
    return {"input": replace(case.input, stuck=stuck)}, Fault(severity="converter stuck")


def input_shifted(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """Its converter is off by a gain or an offset."""
    shift = _sign(rng) * spread(rng, 0.06, 0.3)
    if rng.random() < 0.5:
        return {"input": replace(case.input, gain=1 + shift)}, Fault(severity=f"gain {shift:+.0%}")
    return {"input": replace(case.input, offset=shift * case.signal.span)}, Fault(severity=f"offset {shift:+.0%}")


def _setting(case: Case, fault: Fault, **change: Any) -> tuple[Change, Fault]:
    return {"setting": replace(case.setting, **change)}, fault


def setting_range(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """Scaled for another sensor."""
    top = case.range_psi[1] * rng.choice((0.5, 0.6, 0.667, 0.75, 1.333, 1.5, 1.6, 2.0, 2.5, 3.0))
    return _setting(case, Fault(severity=f"0..{top:.0f} psi", found_by={"range-setting": 0.97}), scaled=(0.0, top))


def setting_signal_kind(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """The slide switch, or the parameter, stands for another signal."""
    seen = {"input-setting": 0.95}
    if rng.random() < 0.5:
        if case.kind == "three-wire":
            burden = rng.choice((100.0, 250.0, 500.0))
            fault = Fault(severity="switch on mA", found_by=seen)
            return _setting(case, fault, shunt_ohm=burden, ends=(0.004, 0.020), reads_current=True)
        ohm = spread(rng, 1e4, 2e5)
        changed = {"input": replace(case.input, ohm=ohm, nominal_ohm=ohm, clamp_v=12.0, clamp_ohm=2000.0)}
        return {**changed, "setting": replace(case.setting, ends=(0.0, 10.0))}, Fault(
            severity="switch on volts", found_by=seen
        )
    if case.kind == "two-wire":
        ends = rng.choice(((0.0, 0.020), (0.0, 0.010)))
    else:
        ends = rng.choice(tuple(e for e in ((0.0, 5.0), (0.0, 10.0), (1.0, 5.0)) if e != case.setting.ends))
    return _setting(case, Fault(severity=f"set for {ends}", found_by=seen), ends=ends)


def setting_input(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """Another input is chosen: it floats near nothing, or shows something else."""
    value = rng.choice((-case.signal.low / case.signal.span, rng.uniform(-0.1, 1.1)))
    return _setting(
        case, Fault(severity=f"other input at {value:.0%}", found_by={"input-setting": 0.95}), other_input=value
    )


def setting_offset(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """An old trim is left in."""
    offset = _sign(rng) * spread(rng, 0.06, 0.35) * case.range_psi[1]
    return _setting(case, Fault(severity=f"{offset:+.0f} psi", found_by={"input-setting": 0.95}), offset_psi=offset)


def setting_unit(case: Case, _rng: random.Random) -> tuple[Change, Fault]:
    """The figure is in another unit than the screen says."""
    factor = 14.5038 if case.unit == "bar" else 0.0689476
    signs = {"range-setting": 0.8, "input-setting": 0.6}
    return _setting(case, Fault(severity=f"x {factor}", found_by=signs), unit_factor=factor)


def setting_simulated(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """A fixed feedback is left on."""
    value = rng.uniform(0, 0.9) * case.range_psi[1]
    return _setting(case, Fault(severity=f"{value:.0f} psi", found_by={"input-setting": 0.95}), simulated_psi=value)


def _water(case: Case, fault: Fault, **change: Any) -> tuple[Change, Fault]:
    return {"water": replace(case.water, **change)}, fault


def _elsewhere(case: Case, rng: random.Random) -> float:
    return rng.choice((0.0, rng.uniform(0, 0.4), rng.uniform(1.25, 1.9))) * case.water.gauge_psi


def port_blocked(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """Silt or ice in the port: the sensor keeps a pressure of its own, also when vented."""
    pressure = _elsewhere(case, rng)
    return _water(
        case, Fault(severity=f"keeps {pressure:.0f} psi", found_by={"port": 0.9}), sensor_psi=pressure, trapped=True
    )


def cock_shut(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """The cock is shut: a trapped pressure, which the vent lets go."""
    pressure = _elsewhere(case, rng)
    fault = Fault(severity=f"keeps {pressure:.0f} psi", found_by={"cock": 0.98})
    return {**_water(case, fault, sensor_psi=pressure)[0], "cock": True}, fault


def tap_wrong_side(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """The sensor hangs on the wrong side of a check valve, a filter or a reducing valve."""
    pressure = case.water.gauge_psi * rng.choice((rng.uniform(0.0, 0.75), rng.uniform(1.25, 1.7)))
    return _water(case, Fault(severity=f"sees {pressure:.0f} psi", found_by={"tap-place": 0.9}), sensor_psi=pressure)


def vacuum(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """The column has fallen: less than nothing at the sensor."""
    pressure = -rng.uniform(8, 13.5)
    return _water(case, Fault(severity=f"{pressure:.0f} psi"), gauge_psi=pressure, sensor_psi=pressure)


def site_gauge_wrong(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """The gauge on the wall is stuck, or its zero is out."""
    if rng.random() < 0.5:
        stuck = rng.uniform(0, 0.8) * case.gauge.high
        return {"gauge": replace(case.gauge, stuck=stuck)}, Fault(severity="stuck", found_by={"gauge-zero": 0.95})
    zero = _sign(rng) * spread(rng, 0.05, 0.3) * case.gauge.high
    return {"gauge": replace(case.gauge, zero_psi=zero)}, Fault(
        severity=f"{zero:+.0f} psi", found_by={"gauge-zero": 0.95}
    )


def meter_wrong(case: Case, rng: random.Random) -> tuple[Change, Fault]:
    """A flat battery makes every reading high, or the milliamp fuse is blown."""
    seen = {"meter-check": 0.97}
    if case.kind == "two-wire" and rng.random() < 0.6:
        return {"meter": replace(case.meter, fuse_blown=True)}, Fault(severity="fuse blown", found_by=seen)
    gain = rng.choice((rng.uniform(1.1, 1.6), rng.uniform(0.3, 0.85)))
    meter = replace(case.meter, volts_gain=gain, milliamps_gain=gain, ohms_gain=gain)
    return {"meter": meter}, Fault(severity=f"x {gain:.2f}", found_by=seen)


PARTS: dict[str, Draw] = {
    "sensor-open": sensor_open,
    "sensor-shorted": sensor_shorted,
    "sensor-low": sensor_low,
    "sensor-high": sensor_high,
    "sensor-zero-shift": sensor_zero_shift,
    "sensor-span-shift": sensor_span_shift,
    "sensor-frozen": sensor_frozen,
    "sensor-wet-vent": sensor_wet_vent,
    "sensor-wrong-part": sensor_wrong_part,
    "controller-supply-dead": supply_dead,
    "controller-supply-low": supply_low,
    "controller-supply-weak": supply_weak,
    "other-load": other_load,
    "controller-input-dead": input_dead,
    "controller-input-shifted": input_shifted,
    "setting-range": setting_range,
    "setting-signal-kind": setting_signal_kind,
    "setting-input": setting_input,
    "setting-offset": setting_offset,
    "setting-unit": setting_unit,
    "setting-simulated": setting_simulated,
    "port-blocked": port_blocked,
    "sensor-cock-shut": cock_shut,
    "tap-wrong-side": tap_wrong_side,
    "vacuum": vacuum,
    "site-gauge-wrong": site_gauge_wrong,
    "meter-wrong": meter_wrong,
}


def break_part(case: Case, fault_id: str, rng: random.Random) -> Case:
    """Return the case with a fault of a part in it."""
    change, fault = PARTS[fault_id](case, rng)
    kept = tuple(old for old in case.faults if old.id != "none")
    return replace(case, **change, faults=(*kept, replace(fault, id=fault_id)))
