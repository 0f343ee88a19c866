"""Edits the text of a visit or check file: adds a row, takes one out, changes one, leaves every other byte as it is.

Rules
-----
1. A row is added after the last of its table; a comment directly above the next table stays with that table.
2. Taking a row out takes its header and keys; no line that is only a comment is ever lost.
3. A key that stays keeps its place and the comment behind it.
4. New lines end as the file's other lines do.
5. The text is known to be sound; what an edit makes of it is read and checked again by the caller.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from steadyhead.visit.check_keys import CHECK_FILE
from steadyhead.visit.keys import TABLES
from steadyhead.visit.kinds import quoted
from steadyhead.visit.layout import Layout, scan
from steadyhead.visit.record import Action

#: Where a table stands in a file: the visit file's first, then what only a check file has, its points last.
_RANK = {name: rank for rank, name in enumerate(dict.fromkeys(each.name for each in (*TABLES, *CHECK_FILE.tables)))}
_BARE = re.compile(r"[A-Za-z0-9_-]+")
_BOM = "\ufeff"

RowValue = str | bool | int | float | tuple[str, ...] | None


class Change(NamedTuple):
    """Text from `start` to `end` that gives way to `new`."""

    start: int
    end: int
    new: str


def with_row(text: str, table: str, row: Mapping[str, RowValue]) -> str | None:
    """Return `text` with one more row of a table, or None where its rows are written as an inline list."""
    layout = _layout(text)
    if (table,) in layout.spans:
        return None
    end = _line_end_of_line(text)
    lines = [f"[[{table}]]", *(statement(name, value) for name, value in row.items() if value is not None)]
    at = _end_of_table(text, layout, table)
    before = "" if at == 0 else end if text[:at].endswith("\n") else end * 2
    return _changed(text, [Change(at, at, before + "".join(line + end for line in lines))])


def without_reading(text: str, number: int, actions: Iterable[Action]) -> str | None:
    """Return `text` without a reading, each action still between the readings it stood between; None where inline."""
    layout = _layout(text)
    changes = _row_taken_out(text, layout, "reading", number)
    if changes is None:
        return None
    for index, action in enumerate(actions):
        span = layout.spans.get(("action", index, "after_reading"))
        if span and action.after_reading >= number:
            changes.append(Change(*span, str(action.after_reading - 1)))
    return _changed(text, changes)


def without_row(text: str, table: str, number: int) -> str | None:
    """Return `text` without one row of a table (from 1), or None where its rows are written as an inline list."""
    changes = _row_taken_out(text, _layout(text), table, number)
    return None if changes is None else _changed(text, changes)


def _row_taken_out(text: str, layout: Layout, table: str, number: int) -> list[Change] | None:
    if (table,) in layout.spans:
        return None
    header = dict(layout.headers)[table, number - 1]
    changes = [_whole_lines(text, header, header)]
    changes += [_whole_lines(text, *span) for path, span in layout.spans.items() if path[:2] == (table, number - 1)]
    changes[0] = _with_blank_line_before(text, changes[0])
    return changes


def with_reading_replaced(text: str, number: int, row: Mapping[str, RowValue]) -> str | None:
    """Return `text` with other keys and values in a reading, or None where it is written inline."""
    layout = _layout(text)
    if ("reading",) in layout.spans:
        return None
    here = {path[2]: span for path, span in layout.spans.items() if path[:2] == ("reading", number - 1)}
    wanted = {name: value for name, value in row.items() if value is not None}
    changes = [
        Change(*span, _value(wanted[str(name)])) if name in wanted else _whole_lines(text, *span)
        for name, span in here.items()
    ]
    added = [statement(name, value) for name, value in wanted.items() if name not in here]
    last = max((span[1] for span in here.values()), default=dict(layout.headers)["reading", number - 1])
    changes.append(_inserted_after(text, last, added))
    return _changed(text, changes)


def with_row_values(text: str, table: str, number: int, values: Mapping[str, RowValue]) -> str | None:
    """Return `text` with other values in one row of a table (from 1), or None where its rows are inline."""
    layout = _layout(text)
    if (table,) in layout.spans:
        return None
    here = {path[2]: span for path, span in layout.spans.items() if path[:2] == (table, number - 1)}
    changes = [Change(*here[name], _value(value)) for name, value in values.items() if name in here]
    added = [statement(name, value) for name, value in values.items() if name not in here]
    last = max((span[1] for span in here.values()), default=dict(layout.headers)[table, number - 1])
    return _changed(text, [*changes, _inserted_after(text, last, added)])


def with_value(text: str, table: str, key: str, value: RowValue) -> str | None:
    """Return `text` with one key of a table that stands once, or None where the table is written inline."""
    layout = _layout(text)
    if (table, key) in layout.spans:
        return _changed(text, [Change(*layout.spans[table, key], _value(value))])
    header = dict(layout.headers).get((table,))
    if header is None and any(path[:1] == (table,) for path in layout.spans):
        return None
    if header is not None:
        here = [end for path, (_, end) in layout.spans.items() if path[:1] == (table,)]
        return _changed(text, [_inserted_after(text, max([header, *here]), [statement(key, value)])])
    end, at = _line_end_of_line(text), _end_of_table(text, layout, table)
    before = "" if at == 0 else end if text[:at].endswith("\n") else end * 2
    return _changed(text, [Change(at, at, f"{before}[{table}]{end}{statement(key, value)}{end}")])


def _layout(text: str) -> Layout:
    """Return the layout of `text`; a byte-order mark is blank to it, so that places stay true."""
    return scan(text.replace(_BOM, " ", 1) if text.startswith(_BOM) else text)


def _line_end_of_line(text: str) -> str:
    return "\r\n" if "\r\n" in text else "\n"


def statement(name: str, value: RowValue) -> str:
    """Return the line that gives a key its value.

    >>> statement("controller.supply", "V+")
    '"controller.supply" = "V+"'
    """
    return f"{name if _BARE.fullmatch(name) else quoted(name)} = {_value(value)}"


def _value(value: RowValue) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, tuple):
        return "[" + ", ".join(quoted(word) for word in value) + "]"
    return quoted(value) if isinstance(value, str) else str(value)


def _end_of_table(text: str, layout: Layout, table: str) -> int:
    """Return the end of the last line that belongs to the table, or to one that a file has before it."""
    starts = [start for _, start in layout.headers] + [len(text)]
    ranks = [_RANK.get(str(path[0]), -1) if path else -1 for path, _ in layout.headers]
    last = max((place for place, rank in enumerate(ranks) if rank <= _RANK.get(table, 0)), default=None)
    if last is None:
        return _content_end(text, len(text))
    following = starts[last + 1]
    if following < len(text):
        following = _above_comments(text, layout, following)
    return _content_end(text, following)


def _above_comments(text: str, layout: Layout, header: int) -> int:
    """Return the start of the comment lines that stand directly above a header."""
    floor = max((end for _, end in layout.spans.values() if end <= header), default=0)
    start = text.rfind("\n", 0, header) + 1
    while start > floor:
        above = text.rfind("\n", 0, start - 1) + 1
        if above < floor or not text[above:start].lstrip().startswith("#"):
            break
        start = above
    return start


def _content_end(text: str, end: int) -> int:
    """Return the end of the last line before `end` that is not blank, its line end included."""
    kept = len(text[:end].rstrip())
    line_end = text.find("\n", kept, end)
    return end if line_end < 0 else line_end + 1


def _whole_lines(text: str, start: int, end: int) -> Change:
    """Return the change that takes out the lines from `start` to `end`."""
    first = text.rfind("\n", 0, start) + 1
    last = text.find("\n", end)
    return Change(first, len(text) if last < 0 else last + 1, "")


def _with_blank_line_before(text: str, change: Change) -> Change:
    """Return the change, with the blank line above it taken out too."""
    above = text.rfind("\n", 0, max(change.start - 1, 0)) + 1
    is_blank = above < change.start and not text[above : change.start].strip()
    return change._replace(start=above) if is_blank else change


def _inserted_after(text: str, place: int, lines: list[str]) -> Change:
    """Return the change that adds lines after the one where `place` stands."""
    end = _line_end_of_line(text)
    at = text.find("\n", place)
    if at < 0:
        return Change(len(text), len(text), "".join(end + line for line in lines))
    return Change(at + 1, at + 1, "".join(line + end for line in lines))


def _changed(text: str, changes: list[Change]) -> str:
    for change in sorted(changes, reverse=True):
        text = text[: change.start] + change.new + text[change.end :]
    return text
