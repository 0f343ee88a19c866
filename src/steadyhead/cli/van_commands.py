"""The commands of the van: list, add, set, off, for."""

# ruff: noqa: FBT002, PLC0415 - typer makes a switch of a boolean default; what is heavy is imported when it runs

from __future__ import annotations

from typing import Annotated

import typer

from steadyhead.cli.page import width
from steadyhead.cli.printing import Json, show, show_json
from steadyhead.cli.record_commands import Data

group = typer.Typer(
    name="van",
    help="The transducers on the van: what is there, and what will do at a system.",
    short_help="What on my van will do?",
    epilog="Example: steadyhead van for visit.toml",
    rich_markup_mode=None,
    no_args_is_help=True,
)
NORTH_AMERICA = "north-america"
Region = Annotated[
    str, typer.Option("--region", help="Whose words: north-america (transducer, tank) or elsewhere (sensor, vessel).")
]
Stock = Annotated[str, typer.Argument(metavar="STOCK", help="Its id, as `van list` prints it; or its name.")]
Fields = Annotated[
    list[str] | None,
    typer.Argument(
        metavar="KEY=VALUE...",
        help='Such as count=2 range="0..150 psi" signal="4..20 mA" accuracy="1 %" supply="9..30 V" thread="1/4 NPT" '
        "adapters='G 1/4' plug=m12-a approval=nsf-61,nsf-372 stands='300 psi' pins.supply=1 pins.signal=2 note=...",
        show_default=False,
    ),
]


def add_to(app: typer.Typer) -> None:
    """Add the commands to the program."""
    for name, work, short, example in (
        ("list", list_, "List what is on the van.", "list"),
        ("add", add, "Put one on the list.", 'add "House, 150 psi" signal="4..20 mA" range="0..150 psi" count=2'),
        ("set", set_, "Put a line of the list right.", 'set "House, 150 psi" count=3'),
        ("off", off, "Take a line off the list.", 'off "House, 150 psi"'),
        ("for", for_, "Say what will do at a system.", "for visit.toml"),
    ):
        group.command(name=name, short_help=short, epilog=f"Example: steadyhead van {example}")(work)
    app.add_typer(group)


def list_(data: Data = None, as_json: Json = False, region: Region = NORTH_AMERICA) -> None:
    """List what is on the van, with ids and how many are left."""
    from steadyhead.cli.van_work import listed

    found, lines = listed(data, region, width())
    show_json(found) if as_json else show(lines)


def add(
    name: Annotated[str, typer.Argument(metavar="NAME", help="What the van calls it.")],
    fields: Fields = None,
    data: Data = None,
    as_json: Json = False,
) -> None:
    """Put a kind of transducer on the list. Signal and range are needed; leave out what nobody knows."""
    from steadyhead.cli.van_work import added

    found, lines = added(name, fields or [], data, width())
    show_json(found) if as_json else show(lines)


def set_(stock: Stock, fields: Fields = None, data: Data = None, as_json: Json = False) -> None:
    """Put a line of the list right: what is left out keeps its value, KEY= makes it unknown."""
    from steadyhead.cli.van_work import put_right

    found, lines = put_right(stock, fields or [], data, width())
    show_json(found) if as_json else show(lines)


def off(stock: Stock, data: Data = None, as_json: Json = False) -> None:
    """Take a line off the list; what was fitted from it stays on record."""
    from steadyhead.cli.van_work import taken_off

    found, lines = taken_off(stock, data, width())
    show_json(found) if as_json else show(lines)


def for_(
    visit: Annotated[
        str, typer.Argument(metavar="VISIT_OR_FILE", help="A visit's id (see `visits`), last, or a visit file.")
    ],
    data: Data = None,
    as_json: Json = False,
    region: Region = NORTH_AMERICA,
) -> None:
    """Say what on the van will do at a system, the best first: what to enter, which pin goes where, why not.

    Relieve the pressure, lock out and prove dead before a transducer is changed.
    """
    from steadyhead.cli.van_work import held_against

    found, lines = held_against(visit, data, region, width())
    show_json(found) if as_json else show(lines)
