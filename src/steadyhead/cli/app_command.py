"""The command that opens the app: what it is given on the command line."""

# ruff: noqa: PLC0415 - what is heavy is imported when it runs

from __future__ import annotations

from typing import Annotated

import typer

from steadyhead.cli.printing import Json
from steadyhead.cli.record_commands import Data

NORTH_AMERICA = "north-america"


def add_to(program: typer.Typer) -> None:
    """Add the command to the program."""
    example = "Example: steadyhead app --port 0"
    add = program.command(name="app", short_help="Open the app in the browser.", epilog=example)
    add(run)


def run(
    *,
    port: Annotated[
        int | None,
        typer.Option("--port", min=0, max=65535, help="Where to listen; 0 for any free port.", show_default="8240"),
    ] = None,
    data: Data = None,
    no_open: Annotated[bool, typer.Option("--no-open", help="Print the address only.")] = False,
    as_json: Json = False,
    host: Annotated[
        bool, typer.Option("--host", help="Let phones on the local network join, by a code shown at this computer.")
    ] = False,
    address: Annotated[
        str | None,
        typer.Option(
            "--address", help="As --host, at this one of the computer's own addresses.", show_default="found"
        ),
    ] = None,
    phone: Annotated[
        str | None,
        typer.Option(
            "--phone", metavar="DIR", help="Let phones take the app along: what `offline build` made.",
            show_default=False,
        ),
    ] = None,
    name: Annotated[
        str | None,
        typer.Option(
            "--name", help="The name of this computer that the certificate is made out to.", show_default=False
        ),
    ] = None,
    certificate: Annotated[
        str | None,
        typer.Option(
            "--certificate", metavar="FILE", help="A certificate that the phones trust (PEM): they come by https.",
            show_default=False,
        ),
    ] = None,
    key: Annotated[
        str | None, typer.Option("--key", metavar="FILE", help="The certificate's key (PEM).", show_default=False)
    ] = None,
    region: Annotated[
        str,
        typer.Option("--region", help="Whose words: north-america (transducer, tank) or elsewhere (sensor, vessel)."),
    ] = NORTH_AMERICA,
) -> None:
    """Open the app: visits, readings, the next check, the report, in this computer's browser.

    It is served to this computer alone and needs no network, unless --host lets phones join. A new record begins with
    an invented visit to try things out on, which one click takes out. Ctrl-C ends it; nothing that was kept is lost.
    """
    from steadyhead.cli.manner import manner
    from steadyhead.cli.securing import secured
    from steadyhead.cli.serving import Serving, serve
    from steadyhead.words import Manner

    speaker, given = manner(region).speaker(), secured(name, certificate, key)
    host = host or address is not None or given is not None
    serve(
        Serving(
            port=port, data=data, opens=not no_open, as_json=as_json, manner=Manner(region=region), speaker=speaker,
            host=host, address=address, site=phone, secured=given,
        )
    )  # fmt: skip
