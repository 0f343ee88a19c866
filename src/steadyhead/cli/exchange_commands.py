"""The commands that bring a visit out of the record and into it: visits, export, import."""

# ruff: noqa: PLC0415 - what is heavy is imported when it runs

from __future__ import annotations

from typing import Annotated

import typer

from steadyhead.cli.page import width
from steadyhead.cli.printing import Json, show, show_json
from steadyhead.cli.record_commands import Data

File = Annotated[
    str, typer.Argument(metavar="FILE", help="A whole visit, NAME.visit; all, NAME.visits; or a visit file, NAME.toml.")
]


def add_to(app: typer.Typer) -> None:
    """Add the commands to the program."""
    app.command("visits", short_help="List the visits of the record.", epilog="Example: steadyhead visits farm")(visits)
    app.command(
        "export", short_help="Write a whole visit into one file.", epilog="Example: steadyhead export last farm.visit"
    )(export_)
    app.command(
        "import", short_help="Take a visit into the record.", epilog="Example: steadyhead import farm.visit"
    )(import_)


def visits(
    text: Annotated[
        str, typer.Argument(metavar="[TEXT]", help="Only visits whose complaint holds this.", show_default=False)
    ] = "",
    data: Data = None,
    as_json: Json = False,  # noqa: FBT002 - typer makes a switch of it
) -> None:
    """List the visits of the record, the one that was written to last first."""
    from steadyhead.cli.exchange_work import visits_said

    found, lines = visits_said(text, data, width())
    show_json(found) if as_json else show(lines)


def export_(
    visit: Annotated[
        str, typer.Argument(metavar="VISIT", help="Its id, as `visits` lists it; `last` is the first, `all` is all.")
    ],
    file: Annotated[
        str, typer.Argument(metavar="FILE", help="NAME.visit, of all NAME.visits; nothing may be there yet.")
    ],
    data: Data = None,
    as_json: Json = False,  # noqa: FBT002 - typer makes a switch of it
) -> None:
    """Write a whole visit into one file: the visit file, every fact, every photo. `all` writes everything."""
    from steadyhead.cli.exchange_work import exported

    found, lines = exported(visit, file, data, width())
    show_json(found) if as_json else show(lines)


def import_(
    file: File,
    data: Data = None,
    as_json: Json = False,  # noqa: FBT002 - typer makes a switch of it
) -> None:
    """Take a visit into the record. A whole visit that is there already is brought together with what stands."""
    from steadyhead.cli.exchange_work import imported

    found, lines = imported(file, data, width())
    show_json(found) if as_json else show(lines)
