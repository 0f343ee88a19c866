"""The commands: what each is called, what it takes, and the one line of work that it does.

Everything that is printed is made elsewhere; what is heavy is imported when a command runs.
"""

# ruff: noqa: FBT002, PLC0415 - typer makes a switch of a boolean default; what is heavy is imported when it runs

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from steadyhead.cli import (
    app_command,
    check_commands,
    ending_commands,
    exchange_commands,
    keeping_commands,
    offline_commands,
    paper_command,
    record_commands,
    sync_command,
    tank_command,
    tonight_command,
    van_commands,
)
from steadyhead.cli.page import width
from steadyhead.cli.printing import Json, show, show_json

if TYPE_CHECKING:
    from steadyhead.words import Manner

app = typer.Typer(
    name="steadyhead",
    help="Finds what is at fault in the pressure-sensor loop of a constant-pressure water system, and proves it.",
    epilog="Local codes and a licensed person come first.",
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["--help", "-h"], "max_content_width": 80},
)

File = Annotated[str, typer.Argument(metavar="FILE", help="A visit file; - reads standard input.", show_default=False)]
Region = Annotated[
    str, typer.Option("--region", help="Whose words: north-america (transducer, tank) or elsewhere (sensor, vessel).")
]
Company = Annotated[
    str | None,
    typer.Option(
        "--company",
        metavar="FILE",
        help="The company's own estimates; none for the shipped ones. Else STEADYHEAD_COMPANY, else company.toml in "
        "your folder of settings.",
        show_default=False,
    ),
]
NORTH_AMERICA = "north-america"


def _manner(region: str) -> Manner:
    from steadyhead.cli.manner import manner

    return manner(region)


@app.callback(invoke_without_command=True)
def start(
    context: typer.Context,
    version: Annotated[bool, typer.Option("--version", help="Print the version.")] = False,
) -> None:
    """Find what is at fault in the pressure-sensor loop of a constant-pressure water system, and prove it.

    Without a command: a worked example.
    """
    from steadyhead import __version__

    if version:
        typer.echo(f"steadyhead {__version__}")
        raise typer.Exit
    if context.invoked_subcommand is None:
        from steadyhead.cli.worked_example import worked_example

        show(worked_example(width()))


@app.command(
    short_help="Say what is at fault, and what to check next.",
    epilog="Example: steadyhead diagnose visit.toml --region elsewhere",
)
def diagnose(
    file: File,
    company: Company = None,
    steps: Annotated[bool, typer.Option("--trace", help="Show the steps that led to the answer, too.")] = False,
    as_json: Json = False,
    region: Region = NORTH_AMERICA,
) -> None:
    """Say what is most likely at fault, whether it is proved, and which check to make next."""
    from steadyhead.cli.company_input import estimates_of
    from steadyhead.cli.visit_input import visit_file
    from steadyhead.service.diagnosis import diagnose_visit, speaker_of

    visit = visit_file(file).visit
    speaker = speaker_of(visit, _manner(region))
    estimates = estimates_of(company)
    if as_json:
        show_json(diagnose_visit(visit, _manner(region), estimates, steps=steps))
        return
    from steadyhead.cli.diagnose_screen import diagnose_screen
    from steadyhead.cli.trace_screen import trace_screen
    from steadyhead.diagnosis.diagnose import diagnosed
    from steadyhead.diagnosis.trace import trace

    found = diagnosed(visit, estimates)
    show(diagnose_screen(visit, found.answer, speaker, width()))
    if steps:
        show(["", *trace_screen(visit, trace(found), speaker, width())])


@app.command(short_help="Go through a visit check by check.", epilog="Example: steadyhead guide visit.toml")
def guide(
    file: Annotated[str, typer.Argument(metavar="FILE", help="A visit file, made if it is not there.")],
    company: Company = None,
    as_json: Json = False,
    region: Region = NORTH_AMERICA,
) -> None:
    """Ask for one reading after the other until the fault is found, mended and proved; every answer is kept at once.

    Leave it at any time (quit, Ctrl-C): the same command goes on where it stood.
    """
    from steadyhead.cli.company_input import estimates_of
    from steadyhead.cli.guide_loop import guide_at_terminal
    from steadyhead.service.guide.state import Guide

    begun = Guide(name=file, manner=_manner(region), estimates=estimates_of(company))
    guide_at_terminal(begun, width(), as_json=as_json)


@app.command(
    short_help="Say how each reading moved one suspect.", epilog="Example: steadyhead why visit.toml sensor-low"
)
def why(
    file: File,
    fault: Annotated[
        str | None,
        typer.Argument(
            metavar="[FAULT]",
            help="A suspect, such as sensor-low (see `faults`); without one, what each reading ruled out.",
            show_default=False,
        ),
    ] = None,
    company: Company = None,
    as_json: Json = False,
    region: Region = NORTH_AMERICA,
) -> None:
    """Say how each reading moved one suspect, what speaks for and against it, and what would prove it or clear it.

    Without a suspect: what led after each reading, and what it ruled out.
    """
    from steadyhead.cli.company_input import estimates_of
    from steadyhead.cli.visit_input import visit_file
    from steadyhead.cli.why_command import course_said, reasons_said

    visit, estimates = visit_file(file).visit, estimates_of(company)
    said = reasons_said(visit, fault, region, estimates) if fault else course_said(visit, region, estimates)
    show_json(said[0]) if as_json else show(said[1])


@app.command(
    short_help="Say what every point should read.", epilog='Example: steadyhead expect visit.toml --pressure "48 psi"'
)
def expect(
    file: File,
    pressure: Annotated[
        str | None,
        typer.Option("--pressure", help='Pressure at the sensor, such as "48 psi"; else the last gauge reading.'),
    ] = None,
    as_json: Json = False,
    region: Region = NORTH_AMERICA,
) -> None:
    """Say what every point should read now, were nothing wrong, and the signal over the whole range."""
    from steadyhead.cli.visit_input import visit_file
    from steadyhead.service.diagnosis import speaker_of
    from steadyhead.service.expecting import expect as expectation_of
    from steadyhead.service.expecting import expectation_json

    visit = visit_file(file).visit
    speaker = speaker_of(visit, _manner(region))
    expected = expectation_of(visit, pressure)
    if as_json:
        show_json(expectation_json(expected, visit.pressure_unit))
        return
    from steadyhead.cli.expect_screen import expect_screen

    show(expect_screen(visit, expected, speaker, width()))


@app.command(
    "check-file", short_help="Say what is wrong with a visit file.", epilog="Example: steadyhead check-file visit.toml"
)
def check_file(file: File, as_json: Json = False) -> None:
    """Say what is wrong with a visit file: every problem with its line, its key and what would do."""
    from steadyhead.cli.manner import usual_speaker
    from steadyhead.cli.visit_input import visit_file

    found = visit_file(file)
    count = len(found.visit.readings)
    if as_json:
        show_json({"file": found.name, "fine": True, "readings": count})
    else:
        show([usual_speaker().tell("file-fine", file=found.name, count=count)])


@app.command(short_help="List every fault of the loop.", epilog="Example: steadyhead faults --region elsewhere")
def faults(company: Company = None, as_json: Json = False, region: Region = NORTH_AMERICA) -> None:
    """List every fault of the loop: what it looks like, what mends it, how often its family is met."""
    from steadyhead.cli.company_input import estimates_of
    from steadyhead.cli.list_screens import faults_screen
    from steadyhead.service.lists import faults_json

    speaker = _manner(region).speaker()
    found = faults_json(speaker, estimates_of(company))
    show_json(found) if as_json else show(faults_screen(found, speaker, width()))


@app.command(short_help="List every check, its minutes and needs.", epilog="Example: steadyhead checks --json")
def checks(company: Company = None, as_json: Json = False, region: Region = NORTH_AMERICA) -> None:
    """List every check: its minutes, the drive's state, and what it needs."""
    from steadyhead.cli.company_input import estimates_of
    from steadyhead.cli.list_screens import checks_screen
    from steadyhead.service.lists import checks_json

    speaker = _manner(region).speaker()
    found = checks_json(speaker, estimates_of(company))
    show_json(found) if as_json else show(checks_screen(found, speaker, width()))


@app.command(
    short_help="Show the published tables and their sources.", epilog="Example: steadyhead tables conductor-awg"
)
def tables(
    name: Annotated[str | None, typer.Argument(metavar="[NAME]", help="One table.", show_default=False)] = None,
    as_json: Json = False,
) -> None:
    """Show the published tables that the program stands on, with their sources."""
    from steadyhead.cli.list_screens import table_screen, tables_screen
    from steadyhead.cli.manner import usual_speaker
    from steadyhead.service.lists import table_json, table_named, tables_json

    if name is None:
        show_json(tables_json()) if as_json else show(tables_screen(tables_json(), usual_speaker(), width()))
        return
    table = table_named(name)
    show_json(table_json(table)) if as_json else show(table_screen(table, usual_speaker(), width()))


@app.command(
    short_help="Say what to load before the drive.", epilog="Example: steadyhead pack visit.toml --company company.toml"
)
def pack(file: File, company: Company = None, as_json: Json = False, region: Region = NORTH_AMERICA) -> None:
    """Say which parts and instruments to load, so that a second trip is least likely."""
    from steadyhead.cli.company_input import estimates_of
    from steadyhead.cli.visit_input import visit_file
    from steadyhead.service.diagnosis import speaker_of
    from steadyhead.service.packing import pack_json

    visit = visit_file(file).visit
    speaker = speaker_of(visit, _manner(region))
    found = pack_json(visit, estimates_of(company))
    if as_json:
        show_json(found)
        return
    from steadyhead.cli.pack_screen import pack_screen

    show(pack_screen(visit, found, speaker, width()))


@app.command(
    short_help="Show every estimate, and the company's own.",
    epilog="Example: steadyhead estimates visit.toml --company company.toml",
)
def estimates(
    file: Annotated[
        str | None,
        typer.Argument(metavar="[FILE]", help="A visit file: what the company's figures do to it.", show_default=False),
    ] = None,
    company: Company = None,
    as_json: Json = False,
    region: Region = NORTH_AMERICA,
) -> None:
    """Show every estimate with its reason, as shipped and as the company has it; with a visit, what that changes."""
    from steadyhead.cli.company_input import company_of
    from steadyhead.cli.company_screens import effect_screen, estimates_screen
    from steadyhead.service.diagnosis import speaker_of
    from steadyhead.service.estimating import effect_json, estimates_json

    own = company_of(company)
    if file is None:
        found = estimates_json(own)
        show_json(found) if as_json else show(estimates_screen(found, _manner(region).speaker(), width()))
        return
    from steadyhead.cli.visit_input import visit_file

    visit = visit_file(file).visit
    effect = effect_json(visit, own)
    show_json(effect) if as_json else show(effect_screen(effect, speaker_of(visit, _manner(region)), width()))


@app.command(
    short_help="Learn from closed visits, or take that back.",
    epilog="Example: steadyhead learn visits --company company.toml --dry-run",
)
def learn(
    folder: Annotated[
        str | None, typer.Argument(metavar="[FOLDER]", help="A folder of visit files.", show_default=False)
    ] = None,
    company: Company = None,
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Show what would move, and write nothing.")] = False,
    undo: Annotated[bool, typer.Option("--undo", help="Take the last lesson back.")] = False,
    as_json: Json = False,
) -> None:
    """Learn from closed visits how often each fault is met and what each check takes, and keep it for the company."""
    from steadyhead.cli.learn_command import learn_from, take_back

    found, lines = take_back(company) if undo else learn_from(folder, company, write=not dry_run)
    show_json(found) if as_json else show(lines)


record_commands.add_to(app)
exchange_commands.add_to(app)
sync_command.add_to(app)
ending_commands.add_to(app)
keeping_commands.add_to(app)
check_commands.add_to(app)
van_commands.add_to(app)
paper_command.add_to(app)
tonight_command.add_to(app)
tank_command.add_to(app)
offline_commands.add_to(app)
app_command.add_to(app)
