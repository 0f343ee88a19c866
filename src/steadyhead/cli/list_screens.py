"""The screens that list what the program knows: faults, checks, published tables."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import Any

from steadyhead.cli.page import columns, paragraph
from steadyhead.published.source import Source, Table
from steadyhead.words import Speaker
from steadyhead.words.saying import sentence


def faults_screen(faults: Iterable[dict[str, Any]], speaker: Speaker, wide: int) -> list[str]:
    """Return the faults, family by family."""
    lines: list[str] = []
    for _, group in groupby(faults, key=lambda fault: fault["family"]):
        members = list(group)
        share = f"{members[0]['family_per_100_calls']:g}"
        head = speaker.tell("family-head", family=sentence(members[0]["family_name"]), share=share)
        lines += [head, *(line for fault in members for line in _fault(fault, speaker, wide)), ""]
    return [*lines, *paragraph(speaker.tell("shares-note"), wide)]


def _fault(fault: dict[str, Any], speaker: Speaker, wide: int) -> Iterator[str]:
    yield from paragraph(f"{sentence(fault['name'])} [{_id_and_wires(fault, speaker)}]", wide, "  ", "    ")
    heads = (speaker.tell("looks"), speaker.tell("then"))
    broad = max(map(len, heads))
    for head, text in zip(heads, (fault["looks"], fault["remedy_name"]), strict=True):
        yield from paragraph(text, wide, f"      {head:<{broad}} ")


def _id_and_wires(fault: dict[str, Any], speaker: Speaker) -> str:
    if len(fault["wires"]) > 1:
        return str(fault["fault"])
    only = speaker.tell("two-wires-only") if fault["wires"] == [2] else speaker.tell("three-wires-only")
    return f"{fault['fault']}, {only}"


def checks_screen(checks: Iterable[dict[str, Any]], speaker: Speaker, wide: int) -> list[str]:
    """Return the checks: minutes, drive state, what is needed."""
    heads = {
        "arrangement": speaker.tell("hook-ups-head"),
        "measure": speaker.tell("covers-on-head"),
        "item": speaker.tell("looks-head"),
    }
    lines: list[str] = []
    for kind, group in groupby(checks, key=lambda check: check["kind"]):
        lines += [heads[kind], *(line for check in group for line in _check(check, speaker, wide)), ""]
    states = "; ".join(f"{id_}: {speaker.name('state', id_)}" for id_ in ("auto", "stopped", "off"))
    notes = (speaker.tell("states-note", list=states), speaker.tell("minutes-note"))
    return [*lines, *(line for note in notes for line in paragraph(note, wide))]


def _check(check: dict[str, Any], speaker: Speaker, wide: int) -> Iterator[str]:
    needs = " / ".join(speaker.name("instrument", each) for each in check["needs_one_of"])
    name = f"{sentence(check['name'])} [{check['id']}]" + (
        f", {speaker.tell('with-one-of', list=needs)}" if needs else ""
    )
    spent = f"{check['minutes']:.0f}" if check["minutes"] >= 1 else "<1"
    yield from paragraph(name, wide, f"  {spent:>2} min  {check['drive']:<7}  ")


def tables_screen(tables: Iterable[dict[str, Any]], speaker: Speaker, wide: int) -> list[str]:
    """Return the list of published tables."""
    rows = columns([(table["table"], table["title"]) for table in tables])
    return [*rows, "", *paragraph(speaker.tell("one-table"), wide)]


def table_screen(table: Table, speaker: Speaker, wide: int) -> list[str]:
    """Return one published table with its figures, what it may be asked, and its sources."""
    rows = [tuple(f"{cell:g}" if isinstance(cell, float) else str(cell) for cell in row) for row in table.rows]
    valid = "; ".join(f"{v.quantity} {v.low:g}..{v.high:g} {v.unit}".rstrip() for v in table.valid)
    lines = [table.title, "", *(f"  {row}" for row in columns(rows, table.columns)), ""]
    lines += paragraph(speaker.tell("valid-for", list=valid), wide) if valid else []
    lines += paragraph(table.note, wide) if table.note else []
    head = speaker.tell("source-head")
    for source in table.sources:
        lines += paragraph(_source(source, speaker), wide, f"{head} ")
    return lines


def _source(source: Source, speaker: Speaker) -> str:
    if source.seen == "republished":
        return speaker.tell("source-copied", cite=source.cite, locator=source.locator, via=source.via)
    if source.seen == "memory":
        return speaker.tell("source-remembered", cite=source.cite, locator=source.locator)
    return speaker.tell("source-read", cite=source.cite, locator=source.locator)
