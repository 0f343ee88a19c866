"""The commands that keep what a visit brings beside its readings: a repair, a night, a photo, the birth readings."""

# ruff: noqa: PLC0415 - what is heavy is imported when it runs

from __future__ import annotations

from typing import Annotated

import typer

from steadyhead.cli.page import width
from steadyhead.cli.printing import Json, show, show_json
from steadyhead.cli.record_commands import Data

Visit = Annotated[str, typer.Argument(metavar="VISIT", help="Its id, as `visits` lists it; `last` is the first.")]


def add_to(app: typer.Typer) -> None:
    """Add the commands to the program."""
    app.command(
        "repair",
        short_help="Say what was mended in a visit.",
        epilog="Example: steadyhead repair last replace-sensor --place plug --part transducer --serial K-4471",
    )(repair)
    app.command(
        "night",
        short_help="Keep what a night's card says, and judge it.",
        epilog='Example: steadyhead night last --start "60 psi" --end "52 psi" --evening 22:00 --morning 06:30',
    )(night)
    app.command(
        "photo",
        short_help="Keep a photo with a visit.",
        epilog="Example: steadyhead photo last plate.jpg --shows plate",
    )(photo)
    app.command(
        "birth",
        short_help="Keep a system's numbers while all is well, or show them.",
        epilog='Example: steadyhead birth last "set=50 psi" "supply=5.02 V"',
    )(birth)


def repair(
    visit: Visit,
    remedy: Annotated[
        str, typer.Argument(metavar="REMEDY", help="What was mended: an id of `faults`, such as replace-sensor.")
    ],
    *,
    place: Annotated[
        str, typer.Option("--place", help="terminal, run, plug, sensor, drive, pipe, or in words.", show_default=False)
    ] = "",
    done: Annotated[str, typer.Option("--done", help="What exactly.", show_default=False)] = "",
    part: Annotated[
        list[str] | None,
        typer.Option("--part", help="A part that was fitted; again for each further part.", show_default=False),
    ] = None,
    serial: Annotated[
        list[str] | None,
        typer.Option("--serial", help="Its serial number, in the order of the parts.", show_default=False),
    ] = None,
    old: Annotated[
        list[str] | None,
        typer.Option("--old", help="The old part's serial number, in the same order.", show_default=False),
    ] = None,
    authorised: Annotated[str, typer.Option("--authorised", help="Who said yes.", show_default=False)] = "",
    quoted: Annotated[str, typer.Option("--quoted", help="What it was quoted at.", show_default=False)] = "",
    tugged: Annotated[bool, typer.Option("--tugged", help="Every wire landed again was tugged.")] = False,
    data: Data = None,
    as_json: Json = False,
) -> None:
    """Say what was mended, after the readings so far. Its cautions stand first: read them before you mend.

    Several parts of one repair are told in one call: --part and --serial for each, "" where a number is not known.
    """
    from steadyhead.cli.keeping_work import repaired

    texts = {"place": place, "done": done, "authorised": authorised, "quoted": quoted}
    fitted = {"part": part or [], "serial": serial or [], "old": old or []}
    found, lines = repaired(visit, remedy, (texts, fitted, tugged), data, width())
    show_json(found) if as_json else show(lines)


def night(
    visit: Visit,
    *,
    start: Annotated[str, typer.Option("--start", help="Gauge in the evening.", show_default=False)] = "",
    end: Annotated[str, typer.Option("--end", help="Gauge in the morning.", show_default=False)] = "",
    evening: Annotated[str, typer.Option("--evening", help="When, such as 22:00.", show_default=False)] = "",
    morning: Annotated[str, typer.Option("--morning", help="When, such as 06:30.", show_default=False)] = "",
    meter_from: Annotated[str, typer.Option("--meter-from", help="Water meter, evening.", show_default=False)] = "",
    meter_to: Annotated[str, typer.Option("--meter-to", help="Water meter, morning.", show_default=False)] = "",
    tank: Annotated[str, typer.Option("--tank", help="The tank's volume.", show_default=False)] = "",
    charge: Annotated[str, typer.Option("--charge", help="Its pre-charge.", show_default=False)] = "",
    shut: Annotated[str, typer.Option("--shut", help="house-valve or all-taps.", show_default=False)] = "",
    holds: Annotated[
        str, typer.Option("--holds", help="That valve holds: yes, no or unknown.", show_default=False)
    ] = "",
    pump_off: Annotated[
        str, typer.Option("--pump-off", help="The pump was off: yes, no or unknown.", show_default=False)
    ] = "",
    waited: Annotated[
        str, typer.Option("--waited", help="Ten minutes were waited: yes, no or unknown.", show_default=False)
    ] = "",
    data: Data = None,
    as_json: Json = False,
) -> None:
    """Keep what the customer's card says of a night, and say what it tells. Entered again, it is put right."""
    from steadyhead.cli.keeping_work import night_kept_and_told
    from steadyhead.service.record.night import Card

    more = {
        "meter_from": meter_from, "meter_to": meter_to, "tank": tank, "charge": charge, "shut": shut, "holds": holds,
        "pump_off": pump_off, "waited": waited,
    }  # fmt: skip
    card = Card(start=start, end=end, evening=evening, morning=morning, more=more)
    found, lines = night_kept_and_told(visit, card, data, width())
    show_json(found) if as_json else show(lines)


def photo(
    visit: Visit,
    file: Annotated[str, typer.Argument(metavar="FILE", help="A JPEG, PNG or WebP.")],
    *,
    says: Annotated[str, typer.Option("--says", help="What it shows, in a few words.", show_default=False)] = "",
    shows: Annotated[
        str, typer.Option("--shows", help="Its kind: display, plate, wiring, part, place ...", show_default=False)
    ] = "",
    stage: Annotated[str, typer.Option("--stage", help="as-found or as-left.", show_default=False)] = "",
    data: Data = None,
    as_json: Json = False,
) -> None:
    """Keep a photo with a visit. Only the picture is kept: where and with what it was taken is left out."""
    from steadyhead.cli.keeping_work import photo_kept

    found, lines = photo_kept(visit, file, {"says": says, "shows": shows, "stage": stage}, data, width())
    show_json(found) if as_json else show(lines)


def birth(
    visit: Visit,
    numbers: Annotated[
        list[str] | None, typer.Argument(metavar="[NUMBER=FIGURE]...", help="Such as «set=50 psi»; none shows them.")
    ] = None,
    *,
    data: Data = None,
    as_json: Json = False,
) -> None:
    """Keep a system's numbers while all is well, for a later visit to be held against; without any, show them."""
    from steadyhead.cli.keeping_work import birth_kept_or_shown

    found, lines = birth_kept_or_shown(visit, numbers or [], data, width())
    show_json(found) if as_json else show(lines)
