"""The command that puts a visit on paper: what it is given on the command line."""

# ruff: noqa: PLC0415 - typer makes a switch of a boolean default; what is heavy is imported when it runs

from __future__ import annotations

from typing import Annotated

import typer

from steadyhead.cli.manner import manner
from steadyhead.cli.page import width
from steadyhead.cli.printing import Json, show, show_json
from steadyhead.cli.record_commands import Data

NORTH_AMERICA = "north-america"


def add_to(program: typer.Typer) -> None:
    """Add the command to the program."""
    example = "Example: steadyhead paper visit.toml customer -o report.pdf"
    program.command(name="paper", short_help="Put a visit on paper: text, HTML or PDF.", epilog=example)(run)


def run(
    visit: Annotated[
        str,
        typer.Argument(
            metavar="VISIT_OR_FILE",
            help="A visit's id (see `visits`), last, or a visit file; or quick-guide, the help of every page.",
        ),
    ],
    kind: Annotated[
        str,
        typer.Argument(
            metavar="[KIND]",
            help="Which paper: customer, office, next, warranty, certificate, reading-card, tag or night-card.",
            show_default=False,
        ),
    ] = "",
    *,
    output: Annotated[
        str | None,
        typer.Option(
            "--output",
            "-o",
            metavar="FILE",
            help="Write it: FILE.pdf or FILE.html. Else it is printed as text.",
            show_default=False,
        ),
    ] = None,
    trace: Annotated[bool, typer.Option("--trace", help="Tell how each figure was made, too.")] = False,
    sheet: Annotated[
        str, typer.Option("--sheet", help="a4, letter or a6; else what is usual for this paper.", show_default=False)
    ] = "",
    decimal: Annotated[str, typer.Option("--decimal", help="The decimal sign: . or ,", show_default=False)] = "",
    unit: Annotated[
        str,
        typer.Option(
            "--unit",
            help="Unit of every pressure: psi, bar, kPa, mH2O or ftH2O; else the plate's.",
            show_default=False,
        ),
    ] = "",
    company: Annotated[
        str | None,
        typer.Option("--company", metavar="FILE", help="The company's own; see `estimates`.", show_default=False),
    ] = None,
    data: Data = None,
    as_json: Json = False,
    region: Annotated[
        str,
        typer.Option("--region", help="Whose words: north-america (transducer, tank) or elsewhere (sensor, vessel)."),
    ] = NORTH_AMERICA,
) -> None:
    """Put a visit on paper: a report for one reader, a reading card, a tag, a certificate.

    Every figure can be followed down to what was read (--trace). The paper carries a hash of its content and a QR code
    that leads back to the visit.
    """
    from steadyhead.cli.paper_work import Asked, put_on_paper

    asked = Asked(
        visit=visit, kind=kind, output=output, trace=trace, sheet=sheet, decimal=decimal, company=company, data=data,
        manner=manner(region, unit=unit),
    )  # fmt: skip
    found, lines = put_on_paper(asked, width())
    show_json(found) if as_json else show(lines)
