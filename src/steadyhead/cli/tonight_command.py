"""The command of water tonight: what can run until the part comes; its options are the questions."""

# ruff: noqa: PLC0415 - what is heavy is imported when it runs

from __future__ import annotations

from typing import Annotated

import typer

from steadyhead.cli.page import width
from steadyhead.cli.printing import Json, show, show_json


def add_to(program: typer.Typer) -> None:
    """Add the command to the program."""
    example = 'Example: steadyhead tonight --broken sensor --spare yes --set-pressure "50 psi"'
    program.command(name="tonight", short_help="Say what can run until the part comes.", epilog=example)(run)


def run(
    *,
    serves: Annotated[
        str,
        typer.Option("--serves", help="Who gets the water: house, building, dependent or fire.", show_default=False),
    ] = "",
    broken: Annotated[
        str, typer.Option("--broken", help="What is broken: sensor, cable, input or drive.", show_default=False)
    ] = "",
    pump: Annotated[str, typer.Option("--pump", help="centrifugal or positive-displacement.", show_default=False)] = "",
    draws: Annotated[str, typer.Option("--draws", help="From where: well or main.", show_default=False)] = "",
    watch: Annotated[
        str, typer.Option("--watch", help="Who watches: nobody, daily, in-house or beside.", show_default=False)
    ] = "",
    relief: Annotated[
        str,
        typer.Option(
            "--relief", help="Relief valve: proven (seen to pass the whole flow), fitted or none.", show_default=False
        ),
    ] = "",
    dry_run: Annotated[
        str,
        typer.Option(
            "--dry-run", help="Dry-run stop: independent (of the sensor), by-sensor or none.", show_default=False
        ),
    ] = "",
    hand_speed: Annotated[
        str,
        typer.Option("--hand-speed", help="The drive runs at a fixed speed by hand: yes or no.", show_default=False),
    ] = "",
    run_input: Annotated[
        str, typer.Option("--run-input", help="It starts and stops from a contact: yes or no.", show_default=False)
    ] = "",
    switch: Annotated[
        str, typer.Option("--switch", help="A pressure switch is at hand: yes or no.", show_default=False)
    ] = "",
    switch_low_cut: Annotated[
        str, typer.Option("--switch-low-cut", help="It has a low-pressure cut-off: yes or no.", show_default=False)
    ] = "",
    lead: Annotated[
        str, typer.Option("--lead", help="A known-good lead is at hand: yes or no.", show_default=False)
    ] = "",
    spare: Annotated[
        str, typer.Option("--spare", help="A spare sensor that suits is at hand: yes or no.", show_default=False)
    ] = "",
    spare_approved: Annotated[
        str, typer.Option("--spare-approved", help="Approved for drinking water: yes or no.", show_default=False)
    ] = "",
    set_pressure: Annotated[
        str, typer.Option("--set-pressure", help='Set pressure, such as "50 psi".', show_default=False)
    ] = "",
    relief_set: Annotated[
        str, typer.Option("--relief-set", help='Relief valve opens at, such as "100 psi".', show_default=False)
    ] = "",
    weakest: Annotated[
        str, typer.Option("--weakest", help="The most that the weakest part may carry.", show_default=False)
    ] = "",
    tank_plate: Annotated[
        str, typer.Option("--tank-plate", help="The most on the tank's plate.", show_default=False)
    ] = "",
    gauge_top: Annotated[str, typer.Option("--gauge-top", help="Top of the gauge's scale.", show_default=False)] = "",
    shut_off: Annotated[
        str, typer.Option("--shut-off", help='Shut-off head on the curve, such as "550 ft".', show_default=False)
    ] = "",
    rated_hertz: Annotated[
        str, typer.Option("--rated-hertz", help='Rated hertz, such as "60 Hz".', show_default=False)
    ] = "",
    lift: Annotated[
        str,
        typer.Option("--lift", help='From the water up to the gauge: "100 ft" or "80..110 ft".', show_default=False),
    ] = "",
    incoming: Annotated[
        str, typer.Option("--incoming", help='Pressure that comes in: "30 psi" or "20..45 psi".', show_default=False)
    ] = "",
    test_hertz: Annotated[str, typer.Option("--test-hertz", help="No-flow test: hertz.", show_default=False)] = "",
    test_pressure: Annotated[
        str, typer.Option("--test-pressure", help="No-flow test: gauge.", show_default=False)
    ] = "",
    least_hertz: Annotated[
        str, typer.Option("--least-hertz", help="Lowest hertz by the leaflet.", show_default=False)
    ] = "",
    duty_flow: Annotated[
        str, typer.Option("--duty-flow", help='A point of the curve: flow, such as "12 gpm".', show_default=False)
    ] = "",
    duty_head: Annotated[str, typer.Option("--duty-head", help="Its head.", show_default=False)] = "",
    needed_flow: Annotated[
        str, typer.Option("--needed-flow", help="Flow that the house needs.", show_default=False)
    ] = "",
    relief_flow: Annotated[
        str, typer.Option("--relief-flow", help="Flow that the relief valve passes.", show_default=False)
    ] = "",
    spare_range: Annotated[
        str, typer.Option("--spare-range", help='The spare\'s range, such as "0..150 psi".', show_default=False)
    ] = "",
    spare_accuracy: Annotated[
        str, typer.Option("--spare-accuracy", help='Its accuracy, such as "1 %".', show_default=False)
    ] = "",
    cut_out: Annotated[str, typer.Option("--cut-out", help="The switch's cut-out.", show_default=False)] = "",
    unit: Annotated[str, typer.Option("--unit", help="Unit of the pressures: psi, bar or kPa.")] = "psi",
    as_json: Json = False,
    region: Annotated[
        str,
        typer.Option("--region", help="Whose words: north-america (transducer, tank) or elsewhere (sensor, vessel)."),
    ] = "north-america",
) -> None:
    """Say what can run until the part comes, within which limits, what protects no longer and who must watch.

    Leave out what nobody knows: the answer says what to find out. Never for pumps that feed sprinklers or hydrants.
    """
    told = dict(locals())
    from steadyhead.cli.manner import manner
    from steadyhead.cli.tonight_screen import answered, tonight_screen
    from steadyhead.service.tonight import tonight_json
    from steadyhead.water.known import QUESTIONS, field_of

    speaker = manner(region, unit=unit).speaker()
    found = answered({each.key: told[field_of(each.key)] for each in QUESTIONS})
    show_json(tonight_json(found, speaker)) if as_json else show(tonight_screen(found, speaker, width()))
