"""The command that brings this record together with another home's over the network: sync."""

# ruff: noqa: PLC0415 - what is heavy is imported when it runs

from __future__ import annotations

from typing import Annotated

import typer

from steadyhead.cli.page import width
from steadyhead.cli.printing import Json, show, show_json
from steadyhead.cli.record_commands import Data


def add_to(app: typer.Typer) -> None:
    """Add the command to the program."""
    app.command(
        "sync",
        short_help="Bring this record together with another computer's.",
        epilog="Example: steadyhead sync 192.168.1.5:8240 --code 12345678",
    )(sync)


def sync(
    address: Annotated[
        str, typer.Argument(metavar="ADDRESS", help="Where its app is reached, as it says under Settings, Phones.")
    ],
    code: Annotated[
        str, typer.Option(metavar="CODE", help="The code that it shows; needed the first time in a day.")
    ] = "",
    photos: Annotated[bool, typer.Option(help="Fetch the photos that are there, too.")] = True,  # noqa: FBT002
    data: Data = None,
    as_json: Json = False,  # noqa: FBT002 - typer makes a switch of it
) -> None:
    """Bring this record together with another computer's, both ways: what either has, both have afterwards.

    It may break off at any moment; run it again, and it goes on from there.
    """
    from steadyhead.cli.sync_work import synced

    found, lines = synced(address, code, data, width(), photos=photos)
    show_json(found) if as_json else show(lines)
