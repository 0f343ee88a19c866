"""The screens that list what the program knows: faults, checks, published tables."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import Any

from steadyhead.cli.page import columns, paragraph, sentence
from steadyhead.published.source import Source, Table
from steadyhead.words import Speaker

_SEEN = {"original": "", "republished": ", read in a copy: {via}", "memory": ", from memory"}
#: What a group of checks is called, in the order of the list.
_KINDS = {
    "arrangement": "Hook-ups: set up, and one reading",
    "measure": "With the covers on",
    "item": "Looks",
}


def faults_screen(faults: Iterable[dict[str, Any]], wide: int) -> list[str]:
    """Return the faults, family by family."""
    lines: list[str] = []
    for _, group in groupby(faults, key=lambda fault: fault["family"]):
        members = list(group)
        head = f"{sentence(members[0]['family_name'])}: {members[0]['family_per_100_calls']:g} in 100 calls"
        lines += [head, *(line for fault in members for line in _fault(fault, wide)), ""]
    return [
        *lines,
        *paragraph("Shares are our own estimates (common practice), to be put right by your own visits.", wide),
    ]


def _fault(fault: dict[str, Any], wide: int) -> Iterator[str]:
    only = {(2,): ", two wires only", (3,): ", three wires only"}.get(tuple(fault["wires"]), "")
    yield from paragraph(f"{sentence(fault['name'])} [{fault['fault']}{only}]", wide, "  ", "    ")
    yield from paragraph(f"{fault['looks']}", wide, "      looks: ")
    yield from paragraph(f"{fault['remedy_name']}", wide, "      then:  ")


def checks_screen(checks: Iterable[dict[str, Any]], speaker: Speaker, wide: int) -> list[str]:
    """Return the checks: minutes, drive state, what is needed."""
    lines: list[str] = []
    for kind, group in groupby(checks, key=lambda check: check["kind"]):
        lines += [_KINDS[kind], *(line for check in group for line in _check(check, speaker, wide)), ""]
    states = [f"{id_}: {speaker.name('state', id_)}" for id_ in ("auto", "stopped", "off")]
    return [*lines, *paragraph(f"Drive {'; '.join(states)}.", wide), *paragraph(_MINUTES, wide)]


_MINUTES = (
    "Minutes are our own estimates; a site's walk from panel to plug changes them. Setting up is paid once, "
    "each further reading there takes a minute."
)


def _check(check: dict[str, Any], speaker: Speaker, wide: int) -> Iterator[str]:
    needs = [speaker.name("instrument", each) for each in check["needs_one_of"]]
    name = f"{sentence(check['name'])} [{check['id']}]" + (f", with {' or '.join(needs)}" if needs else "")
    spent = f"{check['minutes']:.0f}" if check["minutes"] >= 1 else "<1"
    yield from paragraph(name, wide, f"  {spent:>2} min  {check['drive']:<7}  ")


def tables_screen(tables: Iterable[dict[str, Any]], wide: int) -> list[str]:
    """Return the list of published tables."""
    rows = columns([(table["table"], table["title"]) for table in tables])
    return [*rows, "", *paragraph("One of them with its figures and sources: steadyhead tables NAME", wide)]


def table_screen(table: Table, wide: int) -> list[str]:
    """Return one published table with its figures, what it may be asked, and its sources."""
    rows = [tuple(f"{cell:g}" if isinstance(cell, float) else str(cell) for cell in row) for row in table.rows]
    valid = [f"{v.quantity} from {v.low:g} to {v.high:g} {v.unit}".rstrip() for v in table.valid]
    lines = [table.title, "", *(f"  {row}" for row in columns(rows, table.columns)), ""]
    lines += paragraph(f"Valid: {'; '.join(valid)}.", wide) if valid else []
    lines += paragraph(table.note, wide) if table.note else []
    for source in table.sources:
        lines += paragraph(_source(source), wide, "Source: ")
    return lines


def _source(source: Source) -> str:
    return f"{source.cite}, {source.locator}{_SEEN[source.seen].format(via=source.via)}."
