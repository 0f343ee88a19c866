"""The command of a pressure tank: what it gives between stop and wake, and how often the pump starts for it."""

# ruff: noqa: PLC0415 - what is heavy is imported when it runs

from __future__ import annotations

from typing import Annotated

import typer

from steadyhead.cli.page import paragraph, width
from steadyhead.cli.printing import Json, show, show_json


def add_to(program: typer.Typer) -> None:
    """Add the command to the program."""
    example = 'Example: steadyhead tank --volume "85 gal" --precharge "28 psi" --wake "30 psi" --stop "50 psi"'
    program.command(name="tank", short_help="Say what a pressure tank gives, and the pump's starts.", epilog=example)(
        run
    )


def run(
    *,
    volume: Annotated[
        str, typer.Option("--volume", help='The tank\'s whole volume, such as "85 gal" or "300 L".', show_default=False)
    ] = "",
    precharge: Annotated[
        str, typer.Option("--precharge", help='Its air with no water in it, such as "28 psi".', show_default=False)
    ] = "",
    wake: Annotated[str, typer.Option("--wake", help="Where the pump wakes (cuts in).", show_default=False)] = "",
    stop: Annotated[str, typer.Option("--stop", help="Where it stops (cuts out).", show_default=False)] = "",
    draw: Annotated[
        str, typer.Option("--draw", help='What is drawn, such as "1 gpm" or "4 L/min".', show_default=False)
    ] = "",
    refill: Annotated[
        str, typer.Option("--refill", help="What the pump gives between wake and stop.", show_default=False)
    ] = "",
    motor: Annotated[
        str, typer.Option("--motor", help="small (up to 3/4 hp) or large (above).", show_default=False)
    ] = "",
    unit: Annotated[str, typer.Option("--unit", help="Unit of the pressures: psi, bar or kPa.")] = "psi",
    as_json: Json = False,
    region: Annotated[
        str,
        typer.Option("--region", help="Whose words: north-america (transducer, tank) or elsewhere (sensor, vessel)."),
    ] = "north-america",
) -> None:
    """Say how much water a pressure tank gives between stop and wake, and how often the pump starts for it.

    Volume, pre-charge, wake and stop must be known. With what is drawn and what the pump gives it counts the starts.
    """
    told = dict(locals())
    from steadyhead.cli.manner import manner
    from steadyhead.cli.tonight_screen import refused_by_option
    from steadyhead.errors import AnswersError
    from steadyhead.service.tank import tank_json, work_out_tank
    from steadyhead.water.tank import QUESTIONS

    speaker = manner(region, unit=unit).speaker()
    try:
        found = work_out_tank({each.key: told[each.key] for each in QUESTIONS})
    except AnswersError as error:
        raise refused_by_option(error) from error
    if as_json:
        show_json(tank_json(found, speaker))
    else:
        show([line for each in found.says for line in paragraph(speaker.say(each), width())])
