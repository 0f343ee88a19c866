"""What the commands of a sensor check do: files in, use cases asked, files out."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import cast, get_args

from steadyhead.cli.manner import manner
from steadyhead.cli.visit_input import STDIN
from steadyhead.errors import UnknownWordError
from steadyhead.messages import message
from steadyhead.sensorcheck.conformity import Rule, RuleKind
from steadyhead.sensorcheck.file import CheckFile, load_check, parse_check, save_check
from steadyhead.sensorcheck.from_csv import points_from_csv
from steadyhead.sensorcheck.points import PURPOSES
from steadyhead.sensorcheck.second_opinion import SecondOpinion, second_opinions
from steadyhead.service.sensorcheck.looking import Drift, Looked, drift, look
from steadyhead.service.sensorcheck.planning import Planned, planned
from steadyhead.visit.nearest import nearest_first, shown
from steadyhead.visit.toml_text import LARGEST, read_bytes
from steadyhead.words import Speaker

RULES: tuple[str, ...] = get_args(RuleKind)


def check_named(name: str) -> CheckFile:
    """Return the check file called `name`; ``-`` is standard input.

    Raises
    ------
    InputError
        It cannot be read, or is no check file.
    """
    return parse_check(_typed(), "standard input") if name == STDIN else load_check(name)


def _typed() -> bytes:
    return sys.stdin.buffer.read(LARGEST + 1)


def speaker_for(check: CheckFile, region: str) -> Speaker:
    """Return who speaks of a check: in its sensor's unit of pressure."""
    return manner(region).speaker(pressure_unit=check.pressure_unit, wires=check.run.sensor.signal.wires)


def rule_named(name: str) -> Rule:
    """Return a decision rule by its name.

    Raises
    ------
    UnknownWordError
        ``rule-unknown``.
    """
    if name not in RULES:
        words, nearest = nearest_first(name, RULES)
        raise UnknownWordError(message("rule-unknown", got=shown(name), must_be=words, nearest=nearest))
    return Rule(kind=cast("RuleKind", name))


def planned_of(check: CheckFile, purpose: str | None, rule: str) -> Planned:
    """Return the plan of a check, for another purpose than the file's where one is named.

    Raises
    ------
    UnknownWordError
        ``purpose-unknown`` or ``rule-unknown``.
    """
    wanted = check.purpose if purpose is None else purpose
    if wanted not in PURPOSES:
        words, nearest = nearest_first(wanted, PURPOSES)
        raise UnknownWordError(message("purpose-unknown", got=shown(wanted), must_be=words, nearest=nearest))
    decided_by = rule_named(rule)
    return planned(check.run, check.allowed, PURPOSES[wanted].id, unit=check.pressure_unit, rule=decided_by)


def looked_at(check: CheckFile, rule: str, *, keep_low: bool = False) -> Looked:
    """Return everything that a check says."""
    return look(check.run, rule_named(rule), scaled=check.controller.scaled, keep_low=keep_low)


def opinions_of(found: Looked) -> tuple[SecondOpinion, ...]:
    """Return what a Monte Carlo run of this home says of each level."""
    from steadyhead.bootstrap import drawer, what_is_here  # noqa: PLC0415 - few ask for it

    return tuple(second_opinions(found.judged, drawer(what_is_here())))


def drift_of(check: CheckFile, earlier: Sequence[str]) -> Drift | None:
    """Return how the sensor drifted since earlier checks; None where none were named."""
    if not earlier:
        return None
    runs = [load_check(name).run for name in earlier]
    return drift([*runs, check.run], check.run.serial)


def taken(file: str, points: str, *, write: bool) -> tuple[CheckFile, int]:
    """Return a check file with the points of a table after its own, and how many; kept unless it was a trial.

    Raises
    ------
    InputError
        The file or the table is refused; nothing was written.
    """
    check = load_check(file)
    name, run = "standard input" if points == STDIN else points, check.run
    data = _typed() if points == STDIN else read_bytes(Path(points))
    table = points_from_csv(data, run.sensor, name, scale=run.reference.scale)
    for row in table.rows:
        check = check.with_point(row)
    if write:
        save_check(check, file)
    return check, len(table.rows)
