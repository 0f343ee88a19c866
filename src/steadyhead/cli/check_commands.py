"""The commands of a sensor check: plan, enter, take, show, adjust."""

# ruff: noqa: FBT002, PLC0415 - typer makes a switch of a boolean default; what is heavy is imported when it runs

from __future__ import annotations

from typing import Annotated

import typer

from steadyhead.cli.page import width
from steadyhead.cli.printing import Json, show, show_json

group = typer.Typer(
    name="sensor-check",
    help="Check a transducer over its range: what to take, what came out, what to set.",
    short_help="Check a transducer over its range.",
    epilog="Example: steadyhead sensor-check plan check.toml",
    rich_markup_mode=None,
    no_args_is_help=True,
)

File = Annotated[str, typer.Argument(metavar="FILE", help="A check file; - reads standard input.", show_default=False)]
OwnFile = Annotated[str, typer.Argument(metavar="FILE", help="A check file.", show_default=False)]
Region = Annotated[
    str, typer.Option("--region", help="Whose words: north-america (transducer, tank) or elsewhere (sensor, vessel).")
]
RuleName = Annotated[
    str,
    typer.Option(
        "--rule",
        help="How it is decided: guard-band (sure, or cannot tell), simple (by the tolerance alone), specific-risk "
        "(19 in 20 sure).",
    ),
]
Trace = Annotated[bool, typer.Option("--trace", help="Show formula, inputs and source of every figure.")]
KeepLow = Annotated[bool, typer.Option("--keep-low", help="Change the upper end of the setting only.")]
NORTH_AMERICA, GUARD_BAND = "north-america", "guard-band"


def add_to(app: typer.Typer) -> None:
    """Add the commands to the program."""
    for work, short, example in (
        (plan, "Say which points to take, and what this gauge can decide.", "plan check.toml --purpose quick"),
        (enter, "Enter points one by one; each is kept at once.", "enter check.toml"),
        (take, "Take points from a table (CSV).", "take check.toml points.csv"),
        (show_check, "Say whether the transducer is good.", "show check.toml --full"),
        (adjust, "Work out a new range setting.", "adjust check.toml --keep-low"),
    ):
        name = "show" if work is show_check else work.__name__
        group.command(name=name, short_help=short, epilog=f"Example: steadyhead sensor-check {example}")(work)
    app.add_typer(group)


def plan(
    file: File,
    purpose: Annotated[
        str | None,
        typer.Option(
            "--purpose",
            help="quick (3 levels), full (6), repeat (6, three times), laboratory (11, three times); else the file's.",
            show_default=False,
        ),
    ] = None,
    rule: RuleName = GUARD_BAND,
    as_json: Json = False,
    region: Region = NORTH_AMERICA,
) -> None:
    """Say first what this gauge can decide at all, then which points to take, in which order, and what to heed."""
    from steadyhead.cli.check_screens import plan_screen
    from steadyhead.cli.check_work import check_named, planned_of, speaker_for
    from steadyhead.service.sensorcheck.as_json import planned_json

    check = check_named(file)
    speaker = speaker_for(check, region)
    found = planned_of(check, purpose, rule)
    show_json(planned_json(check.run, found, speaker)) if as_json else show(plan_screen(found, speaker, width()))


def enter(
    file: Annotated[str, typer.Argument(metavar="FILE", help="A check file, made if it is not there.")],
    rule: RuleName = GUARD_BAND,
    as_json: Json = False,
    region: Region = NORTH_AMERICA,
) -> None:
    """Ask for one point after the other, keep each at once, and say what came out.

    Type again, undo, skip, help or quit. Leave it at any time (quit, Ctrl-C): the same command goes on where it stood.
    """
    from steadyhead.cli.check_entering import enter_at_terminal
    from steadyhead.cli.check_work import rule_named

    enter_at_terminal(file, rule_named(rule), region, as_json=as_json)


def take(
    file: OwnFile,
    points: Annotated[str, typer.Argument(metavar="POINTS", help="A table of points; - reads standard input.")],
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Read it, and write nothing.")] = False,
    as_json: Json = False,
    region: Region = NORTH_AMERICA,
) -> None:
    """Add the points of a table to a check file: a first line with columns and units, then a line for each point."""
    from steadyhead.cli.check_work import speaker_for, taken

    check, count = taken(file, points, write=not dry_run)
    if as_json:
        show_json({"schema": 1, "kind": "take", "file": file, "added": count, "points": len(check.run.points)})
        return
    show([speaker_for(check, region).tell("points-taken", count=count, file=file)])


def show_check(
    file: File,
    *,
    full: Annotated[bool, typer.Option("--full", help="Show levels, kinds of error, and the uncertainty.")] = False,
    earlier: Annotated[
        list[str] | None,
        typer.Option(
            "--earlier", metavar="FILE", help="An earlier check of the same serial number: tells its drift.",
            show_default=False,
        ),
    ] = None,
    monte_carlo: Annotated[
        bool, typer.Option("--monte-carlo", help="Check the uncertainty, and what it decides, by Monte Carlo.")
    ] = False,
    rule: RuleName = GUARD_BAND,
    trace: Trace = False,
    as_json: Json = False,
    region: Region = NORTH_AMERICA,
) -> None:
    """Say in five lines whether the transducer is good; with --full, everything that this stands on."""
    from steadyhead.cli.check_drawn_screen import drawn_screen
    from steadyhead.cli.check_screens import drift_screen, full_screen, lines_screen, more_lines, trace_screen
    from steadyhead.cli.check_work import check_named, drift_of, looked_at, opinions_of, speaker_for
    from steadyhead.service.sensorcheck.as_json import looked_json

    check = check_named(file)
    speaker = speaker_for(check, region)
    found, drift = looked_at(check, rule), drift_of(check, earlier or [])
    opinions = opinions_of(found) if monte_carlo else ()
    answer = looked_json(found, speaker, trace=trace, drift=drift, opinions=opinions)
    if as_json:
        show_json(answer)
        return
    door = full or trace
    show([
        *(full_screen if door else lines_screen)(found, speaker, width()),
        *(drift_screen(drift, speaker, width()) if drift is not None else ()),
        *(drawn_screen(opinions, speaker, width()) if opinions else ()),
        *(trace_screen(answer["trace"], speaker, width()) if trace else ()),
        *(() if door else more_lines(speaker, width())),
    ])  # fmt: skip


def adjust(
    file: File,
    *,
    keep_low: KeepLow = False,
    rule: RuleName = GUARD_BAND,
    trace: Trace = False,
    as_json: Json = False,
    region: Region = NORTH_AMERICA,
) -> None:
    """Work out the controller's range setting that suits this transducer, and what would still be wrong after it."""
    from steadyhead.cli.check_screens import adjust_screen, trace_screen
    from steadyhead.cli.check_work import check_named, looked_at, speaker_for
    from steadyhead.service.sensorcheck.as_json import adjusted_json

    check = check_named(file)
    speaker = speaker_for(check, region)
    found = looked_at(check, rule, keep_low=keep_low)
    answer = adjusted_json(found, speaker, trace=trace)
    if as_json:
        show_json(answer)
        return
    steps = trace_screen(answer["trace"], speaker, width()) if trace else []
    show([*adjust_screen(found, speaker, width()), *steps])
