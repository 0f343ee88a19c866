"""The commands of the record itself: backup, restore, doctor."""

# ruff: noqa: FBT002, PLC0415 - typer makes a switch of a boolean default; what is heavy is imported when it runs

from __future__ import annotations

from typing import Annotated

import typer

from steadyhead.cli.page import width
from steadyhead.cli.printing import Json, show, show_json

Data = Annotated[
    str | None,
    typer.Option(
        "--data",
        metavar="FILE",
        help="The record. Else STEADYHEAD_DATA, else steadyhead.db in your folder of data.",
        show_default=False,
    ),
]


def add_to(app: typer.Typer) -> None:
    """Add the commands to the program."""
    for work, short, example in (
        (backup, "Write a proved copy of the record.", "backup monday.db"),
        (restore, "Put a backup in the record's place.", "restore monday.db"),
        (doctor, "Say whether the record is sound.", "doctor --bundle bundle.json"),
    ):
        app.command(short_help=short, epilog=f"Example: steadyhead {example}")(work)


def backup(
    file: Annotated[str, typer.Argument(metavar="FILE", help="The copy's name; nothing may be there yet.")],
    data: Data = None,
    as_json: Json = False,
) -> None:
    """Write a copy of the whole record, photos and all, into one file, and prove it; the app may go on meanwhile."""
    from steadyhead.cli.record_work import backup_of

    found, lines = backup_of(file, data, width())
    show_json(found) if as_json else show(lines)


def restore(
    file: Annotated[str, typer.Argument(metavar="FILE", help="A backup.")],
    data: Data = None,
    as_json: Json = False,
) -> None:
    """Prove a backup, set the present record aside, and put the backup in its place. Close the app first."""
    from steadyhead.cli.record_work import restored_from

    found, lines = restored_from(file, data, width())
    show_json(found) if as_json else show(lines)


def doctor(
    data: Data = None,
    rebuild: Annotated[bool, typer.Option("--rebuild", help="Make what lists show anew from the facts first.")] = False,
    bundle: Annotated[
        str | None,
        typer.Option(
            "--bundle", metavar="FILE", help="Write what a bug report needs, no word of yours.", show_default=False
        ),
    ] = None,
    as_json: Json = False,
) -> None:
    """Say whether the record is sound: the database, its photos, and whether lists say what the facts say.

    Ends with exit code 2 where it is not.
    """
    from steadyhead.cli.record_work import examined

    found, lines = examined(data, bundle, width(), rebuild=rebuild)
    show_json(found) if as_json else show(lines)
    if not found["sound"]:
        raise typer.Exit(2)
