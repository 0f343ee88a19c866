"""The commands that end a visit, list what comes back by itself, and say what the visit before left open."""

# ruff: noqa: PLC0415 - what is heavy is imported when it runs

from __future__ import annotations

from typing import Annotated

import typer

from steadyhead.cli.page import width
from steadyhead.cli.printing import Json, show, show_json
from steadyhead.cli.record_commands import Data


def add_to(app: typer.Typer) -> None:
    """Add the commands to the program."""
    app.command("follow-ups", short_help="List what comes back by itself.", epilog="Example: steadyhead follow-ups")(
        follow_ups
    )
    app.command(
        "end",
        short_help="Say how a visit ended.",
        epilog='Example: steadyhead end last declined --by "Mr Dahl" --offered "a new sensor"',
    )(end)
    app.command(
        "left-open",
        short_help="Show what the visit before left open, or leave it out.",
        epilog="Example: steadyhead left-open last --leave-out",
    )(left_open)


def follow_ups(
    data: Data = None,
    as_json: Json = False,  # noqa: FBT002 - typer makes a switch of it
) -> None:
    """List what comes back by itself, what is due first first: nights, watches, temporary things, parts, services."""
    from steadyhead.cli.ending_work import follow_ups_said

    found, lines = follow_ups_said(data, width())
    show_json(found) if as_json else show(lines)


def end(
    visit: Annotated[str, typer.Argument(metavar="VISIT", help="Its id, as `visits` lists it; `last` is the first.")],
    state: Annotated[
        str,
        typer.Argument(
            metavar="STATE", help="proved-on-site, night-pending, watching, made-safe, declined; open opens it again."
        ),
    ],
    *,
    fault: Annotated[
        str, typer.Option("--fault", help="What it was (see `faults`); for a visit that is mended.", show_default=False)
    ] = "",
    due: Annotated[
        str, typer.Option("--due", metavar="DAY", help="When it comes back, such as 2026-05-05.", show_default=False)
    ] = "",
    shut: Annotated[
        str, typer.Option("--shut", help="Over the night: house-valve or all-taps.", show_default=False)
    ] = "",
    ring: Annotated[str, typer.Option("--ring", help="Whom the customer rings.", show_default=False)] = "",
    off: Annotated[
        list[str] | None,
        typer.Option("--off", help="What is off: pump, drive, controls, water, suction.", show_default=False),
    ] = None,
    told: Annotated[str, typer.Option("--told", help="Who was told.", show_default=False)] = "",
    by: Annotated[str, typer.Option("--by", help="Who declined.", show_default=False)] = "",
    offered: Annotated[str, typer.Option("--offered", help="What was offered.", show_default=False)] = "",
    note: Annotated[str, typer.Option("--note", help="What else is to be said.", show_default=False)] = "",
    data: Data = None,
    as_json: Json = False,
) -> None:
    """Say how a visit ended. What is left temporary is said in the app, with its tag."""
    from steadyhead.cli.ending_work import Said, ended

    says = {"off": off, "told": told, "by": by, "offered": offered, "note": note}
    asked = Said(visit=visit, state=state, fault=fault, due=due, night={"shut": shut, "ring": ring}, says=says)
    found, lines = ended(asked, data, width())
    show_json(found) if as_json else show(lines)


def left_open(
    visit: Annotated[str, typer.Argument(metavar="VISIT", help="Its id, as `visits` lists it; `last` is the first.")],
    *,
    leave_out: Annotated[bool, typer.Option("--leave-out", help="Leave it out of this visit's odds.")] = False,
    count: Annotated[bool, typer.Option("--count", help="Let it count again.")] = False,
    data: Data = None,
    as_json: Json = False,
) -> None:
    """Show what the visit before, which was left watched, lends to this one's odds; leave it out, or let it count."""
    from steadyhead.cli.left_open_work import left_open_said

    found, lines = left_open_said(visit, data, width(), leave_out=leave_out, count=count)
    show_json(found) if as_json else show(lines)
