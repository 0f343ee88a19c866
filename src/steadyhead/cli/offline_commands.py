"""The commands that make the app ready for a phone that takes it along: offline build, offline serve."""

# ruff: noqa: PLC0415 - what is heavy is imported when it runs

from __future__ import annotations

from typing import Annotated

import typer

from steadyhead.cli.printing import Json

group = typer.Typer(
    name="offline",
    help="The app for a phone that takes it along: it works there without any network.",
    short_help="Make the app ready for a phone without a network.",
    epilog="Example: steadyhead offline build phone",
    rich_markup_mode=None,
    no_args_is_help=True,
)


def add_to(app: typer.Typer) -> None:
    """Add the commands to the program."""
    group.command("build", short_help="Make the folder.", epilog="Example: steadyhead offline build phone")(build)
    group.command("serve", short_help="Hand the folder out.", epilog="Example: steadyhead offline serve phone")(serve)
    app.add_typer(group)


def build(
    folder: Annotated[str, typer.Argument(metavar="DIR", help="What is made: empty, not there yet, or an older one.")],
    pyodide: Annotated[
        str | None,
        typer.Option("--pyodide", metavar="FOLDER", help="Pyodide's files; else npm fetches them.", show_default=False),
    ] = None,
    wheels: Annotated[
        str | None,
        typer.Option("--wheels", metavar="FOLDER", help="The libraries; else pip fetches them.", show_default=False),
    ] = None,
    as_json: Json = False,  # noqa: FBT002 - typer makes a switch of it
) -> None:
    """Make a folder with the whole app, for a phone to keep: any web server with a secure address can hand it out.

    It takes Node.js. Nothing is there until all of it is; the same version of the app makes the same bytes anywhere.
    """
    from steadyhead.cli.offline_work import built

    built(folder, pyodide, wheels, as_json=as_json)


def serve(
    folder: Annotated[str, typer.Argument(metavar="DIR", help="What `offline build` made.")] = "phone",
    port: Annotated[
        int | None,
        typer.Option("--port", min=0, max=65535, help="Where to listen; 0 for any free port.", show_default="8241"),
    ] = None,
    no_open: Annotated[bool, typer.Option("--no-open", help="Print the address only.")] = False,  # noqa: FBT002 - a switch
    as_json: Json = False,  # noqa: FBT002 - typer makes a switch of it
) -> None:
    """Hand the folder out to this computer's own browser, to try it.

    A phone keeps it only from a secure address (https): docs/offline.md tells how it gets one. Ctrl-C ends it.
    """
    from steadyhead.cli.offline_work import served

    served(folder, port, opens=not no_open, as_json=as_json)
