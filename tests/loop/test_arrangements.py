"""What each arrangement opens, joins and leaves: rules 2 to 7 of `steadyhead.loop.wiring`, as they are met."""

from __future__ import annotations

import pytest

from steadyhead.errors import FloatingNodeError
from steadyhead.loop.faults import FAULTS, faults_of
from steadyhead.loop.parts import Leak
from steadyhead.loop.readings import MEGOHMS_TOP, at_rest, dead_volts, milliammeter, ohms
from steadyhead.loop.wiring import circuit, has_own_sensor, noise_reaches
from steadyhead.published.conductors import conductor_ohm_per_m
from tests.loop.benches import PSI, THREE, amplified, faulty, three_wire, three_wire_current, two_wire, volt
from tests.loop.random_loops import STANCES

MAKES = (three_wire, amplified, two_wire, three_wire_current)
GOOD_SPARES = ("spare-at-plug", "spare-at-controller")


def test_no_fault_raises_in_any_arrangement_at_any_size_or_place() -> None:
    """Every fault of the table, at the ends and the middle of its scale, at each place, in each arrangement."""
    for make in MAKES:
        draft = make()
        for fault in faults_of(len(draft.wires), draft.sensor.kind):
            for place, _ in fault.places:
                for part in (0.0, 0.5, 1.0):
                    severity = fault.severity.at(part) if fault.severity else 0.0
                    loop = faulty(make(), fault.id, severity, place).built(60 * PSI)
                    for stance in STANCES:
                        source = loop.screen.high if stance == "source-at-controller" else None
                        at_rest(loop, stance, source)


@pytest.mark.parametrize("fault", ["sensor-shorted", "sensor-open", "sensor-frozen"])
@pytest.mark.parametrize("stance", GOOD_SPARES)
def test_a_spare_leaves_the_fault_of_the_sensor_behind(fault: str, stance: str) -> None:
    """A spare, open to the air, gives 0.5 V whatever is wrong inside the system's own sensor."""
    loop = faulty(three_wire(), fault, 0.9, "output").built(60 * PSI)
    assert volt(loop, "controller.signal", stance) == pytest.approx(0.5, abs=5e-3)


def test_a_spare_at_the_plug_keeps_what_is_wrong_in_the_cable_and_its_crimps() -> None:
    """A broken crimp stays with the cable; a contact that does not meet its pin parts with the sensor."""
    for place, expected in (("plug:crimp", 0.0), ("run", 0.0), ("terminal", 0.0), ("plug:mating", 0.5)):
        loop = faulty(three_wire(), "open-signal", 0.0, place).built(60 * PSI)
        assert volt(loop, "controller.signal", "spare-at-plug") == pytest.approx(expected, abs=5e-3)
        assert volt(loop, "controller.signal", "spare-at-controller") == pytest.approx(0.5, abs=5e-3)


@pytest.mark.parametrize("fault", ["open-common", "short-supply-common", "swapped-supply-common", "rotated-left"])
def test_a_temporary_cable_leaves_the_old_one_and_its_mistakes_behind(fault: str) -> None:
    """The lead on the floor lands right: 60 psi are 2.9 V again."""
    loop = faulty(three_wire(), fault, 1.0, "run").built(60 * PSI)
    assert volt(loop, "controller.signal", "temporary-cable") == pytest.approx(2.9, abs=0.01)


def test_damp_across_the_terminals_stays_with_every_wire_off_and_that_on_a_wire_goes_with_it() -> None:
    """Ohm's law: 20 ohm behind the 2 ohm of a supply of 5 V leave 4.545 V, as long as they are there."""
    for place, left in (("terminal:block", 5.0 * 20.0 / 22.0), ("terminal", 5.0)):
        loop = faulty(three_wire(), "short-supply-common", 0.0, place).built(50 * PSI)
        loop = loop._replace(leaks=tuple(leak._replace(ohm=20.0) for leak in loop.leaks))
        loop = loop._replace(supply=loop.supply._replace(volts=5.0, source_ohm=2.0, limit_a=1.0))
        assert volt(loop, "controller.supply", "all-lifted") == pytest.approx(left, abs=2e-3)


def test_damp_across_the_terminals_is_not_met_between_the_free_ends_of_a_cable() -> None:
    """Both ends free: past an insulation tester's scale, while the same damp at the wires' ends shows."""
    for place, shows in (("terminal:block", False), ("terminal", True)):
        loop = faulty(three_wire(), "leakage-supply-signal", 1000.0, place).built(0.0)
        assert (ohms(loop, "dead-both-free", "wire.supply", "wire.signal") < 1e5) is shows


def test_an_input_that_a_surge_joined_to_the_supply_lifts_the_signal_with_the_sensor_off() -> None:
    """A divider: 1000 ohm to the supply and the input's own to common."""
    draft = faulty(three_wire(), "controller-input-dead", 1000.0, "to-supply")
    loop = draft.built(50 * PSI)
    supply = volt(loop, "controller.supply", "sensor-unplugged")
    expected = supply * draft.input_ohm / (draft.input_ohm + 1000.0)
    assert volt(loop, "controller.signal", "sensor-unplugged") == pytest.approx(expected, rel=2e-3)


def test_a_pull_up_on_a_supply_apart_stays_up_where_the_sensors_supply_is_low() -> None:
    """The divider of pull-up and input hangs on 5 V still, or on a third of them."""
    for place, rail in (("apart", 5.0), ("", 5.0 / 3.0)):
        draft = three_wire()
        draft.pull_v, draft.pull_ohm, draft.input_ohm = 5.0, 100e3, 100e3
        loop = faulty(draft, "controller-supply-low", 1.0 / 3.0, place).built(50 * PSI)
        assert volt(loop, "controller.signal", "sensor-unplugged") == pytest.approx(rail / 2.0, abs=0.02)


def test_another_pinout_goes_with_the_sensor() -> None:
    """On a lead of its own the sensor is as wrong as before; a spare of the right make is right at once."""
    loop = faulty(three_wire(), "sensor-wrong-part", 2.0, "pinout").built(60 * PSI)
    assert loop.lands_on == {}
    for stance in ("connected", "temporary-cable"):
        assert abs(volt(loop, "controller.signal", stance) - 2.9) > 0.5
    assert volt(loop, "controller.signal", "spare-at-plug") == pytest.approx(0.5, abs=5e-3)


def test_the_supply_terminal_is_cleared_of_the_wire_that_sits_on_it() -> None:
    """With common on the supply terminal it is wire.common that hangs free, and wire.supply that sits on common."""
    loop = faulty(three_wire(), "swapped-supply-common").built(50 * PSI)
    links = {frozenset((a, b)) for a, b, _ in circuit(loop, "supply-terminal-clear").links}
    assert frozenset(("controller.supply", "wire.common")) not in links
    assert frozenset(("controller.common", "wire.supply")) in links


def test_the_meter_goes_into_whatever_wire_sits_on_the_signal_terminal() -> None:
    """A reversed two-wire sensor with a diode across it passes 24 V over some 265 ohm through the meter."""
    loop = faulty(two_wire(reverse="diode"), "reversed").built(50 * PSI)
    assert milliammeter(at_rest(loop, "meter-in-signal"), loop) == pytest.approx((24 - 0.6) / 265.4, rel=0.01)


def test_a_lifted_wire_takes_the_bad_contact_of_its_terminal_along() -> None:
    """The meter's clip is a good contact."""
    loop = faulty(two_wire(), "open-signal", 0.0, "terminal").built(50 * PSI)
    assert volt(loop, "controller.signal") == pytest.approx(0.0, abs=1e-3)
    assert milliammeter(at_rest(loop, "meter-in-signal"), loop) == pytest.approx(12e-3, abs=30e-6)


def test_a_vented_sensor_feels_nothing_unless_its_port_is_blocked() -> None:
    """Opening the cock's bleed frees what a shut cock locked in, not what a blocked port did."""
    for fault, expected in (("none", 0.5), ("sensor-cock-shut", 0.5), ("port-blocked", 2.1)):
        loop = faulty(three_wire(), fault, 0.4).built(60 * PSI, vented=True)
        assert volt(loop, "controller.signal", "vented") == pytest.approx(expected, abs=5e-3)


def test_looped_ohms_are_the_copper_of_both_wires() -> None:
    """12 m of 0.5 mm2 copper, there and back: 39.0 ohm/km at 20 degC (IEC 60228 class 5); two joints and a clip."""
    draft = three_wire()
    run = conductor_ohm_per_m(0.5e-6) * 12.0
    for wire in draft.wires.values():
        wire.run = run
    shown = ohms(draft.built(0.0), "dead-looped", "wire.supply", "wire.signal")
    assert shown == pytest.approx(2 * 12.0 * 0.0390 + 2 * 0.03 + 0.1, rel=1e-9)


@pytest.mark.parametrize("wire", THREE)
def test_an_open_wire_shows_no_loop_and_the_others_do(wire: str) -> None:
    """Past what any meter shows where the wire is broken; a few tenths of an ohm between the two whole ones."""
    loop = faulty(three_wire(), f"open-{wire}", 0.0, "plug:crimp").built(0.0)
    others = [name for name in THREE if name != wire]
    assert ohms(loop, "dead-looped", f"wire.{others[0]}", f"wire.{others[1]}") < 1.0
    assert ohms(loop, "dead-looped", f"wire.{wire}", f"wire.{others[0]}") > 1e9


def test_a_clean_cable_shows_no_insulation_fault() -> None:
    """Both ends free, nothing leaks: beyond an insulation tester's scale."""
    for make in MAKES:
        assert ohms(make().built(0.0), "dead-both-free", "wire.supply", "wire.signal") > MEGOHMS_TOP


def test_a_wet_joint_is_a_battery_that_reads_both_ways() -> None:
    """Volts change their sign with the leads; ohms differ, their mean is the joint's own.

    Here 10 kohm, tested with 10 microamperes.
    """
    draft = three_wire()
    draft.leaks.append(Leak(a="run.supply", b="run.signal", ohm=1e4, volts=0.05))
    loop = draft.built(0.0)
    one, other = ("wire.supply", "wire.signal"), ("wire.signal", "wire.supply")
    assert dead_volts(loop, "dead-both-free", *one) == pytest.approx(0.05, rel=2e-3)
    assert dead_volts(loop, "dead-both-free", *other) == pytest.approx(-0.05, rel=2e-3)
    there, back = ohms(loop, "dead-both-free", *one), ohms(loop, "dead-both-free", *other)
    assert there - back == pytest.approx(2 * 0.05 / 1e-5, rel=1e-3)
    assert (there + back) / 2 == pytest.approx(1e4 + 0.1, rel=1e-6)


def test_damp_makes_a_battery_and_a_hard_short_does_not() -> None:
    """Rule 3 of `steadyhead.loop.fault_cable`."""
    for fault, wet in (("leakage-supply-signal", True), ("short-supply-signal", False)):
        loop = faulty(three_wire(), fault, 40.0, "run").built(0.0)
        assert (abs(dead_volts(loop, "dead-both-free", "wire.supply", "wire.signal")) > 0.02) is wet


def test_a_two_wire_core_leaks_to_common_by_the_screen_or_by_earth() -> None:
    """Without a screen a controller that is not earthed feels nothing of it; with one it does."""
    shown = {
        (shield, bond): volt(
            faulty(two_wire(shield=shield, earth_ohm=bond), "short-signal-common", 250.0, "run").built(50 * PSI),
            "controller.signal",
        )
        for shield in (True, False)
        for bond in (0.1, 1e8)
    }
    assert shown[True, 0.1] == shown[True, 1e8] == pytest.approx(1.5, abs=0.01)
    assert shown[False, 0.1] == pytest.approx(1.5, abs=0.01)
    assert shown[False, 1e8] == pytest.approx(3.0, abs=0.01)


def test_a_screen_is_a_point_that_can_be_measured_and_a_missing_one_is_named() -> None:
    """The error names the point as files and labels do."""
    assert at_rest(two_wire(shield=True).built(0.0), "connected").volt("shield") == pytest.approx(0.0, abs=1e-6)
    operation = at_rest(two_wire().built(0.0), "connected")
    for point in ("shield", "wire.common", "sensor.common"):
        for ask in (operation.volt, lambda name: at_rest(two_wire().built(0.0), "connected").between(name, "earth")):
            with pytest.raises(FloatingNodeError) as refused:
                ask(point)
            assert refused.value.message.values["point"] == point
        with pytest.raises(FloatingNodeError, match=point):
            operation.ohms_between(point, "controller.common")


def test_noise_comes_by_the_cable() -> None:
    """What the cable picks up reaches the input while the drive runs and the cable is on it."""
    assert {stance for stance in STANCES if noise_reaches(stance)} == {"connected", "meter-in-signal"}
    assert {stance for stance in STANCES if noise_reaches(stance, "fixed-speed")} == {
        "connected", "sensor-unplugged", "supply-terminal-clear", "meter-in-signal", "vented", "spare-at-plug",
    }  # fmt: skip
    assert not any(noise_reaches(stance, drive) for stance in STANCES for drive in ("stopped", "off"))


def test_the_own_sensor_is_in_the_circuit_where_it_is() -> None:
    """Five arrangements leave it in its place."""
    assert {stance for stance in STANCES if has_own_sensor(stance)} == {
        "connected", "supply-terminal-clear", "meter-in-signal", "vented", "temporary-cable",
    }  # fmt: skip


def test_every_fault_but_silence_moves_something() -> None:
    """A fault that changes no number of a draft would be no fault; `none` and `vacuum` change the pressure alone."""
    for fault in FAULTS:
        makes = [make for make in MAKES if fault in faults_of(len(make().wires), make().sensor.kind)]
        changed = [
            faulty(make(), fault.id, fault.severity.at(0.9) if fault.severity else 0.0, fault.places[0][0]) != make()
            for make in makes
        ]
        assert all(changed) is (fault.id not in {"none", "vacuum"}), fault.id


def test_a_two_wire_sensor_sends_its_own_current_whatever_it_lets_through_before_it_wakes() -> None:
    """At 0 psi 4 mA flow, and none of what it wakes with when its polarity is reversed."""
    awake = two_wire(wakes_v=3.0, works_v=10.0, wakes_a=3.5e-3)
    assert volt(awake.built(0.0), "controller.signal") == pytest.approx(1.0, abs=0.01)
    turned = faulty(two_wire(wakes_v=3.0, works_v=10.0, wakes_a=3.5e-3), "reversed").built(0.0)
    assert volt(turned, "controller.signal") == pytest.approx(0.0, abs=1e-3)
