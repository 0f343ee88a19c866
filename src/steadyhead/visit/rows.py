"""One row of a table read by the loader's own kinds, outside any file: what could be read, and what is wrong.

Rules
-----
1. A key that the table does not have is passed over: a newer version wrote it.
2. What cannot be read is told with its path, and left out of the values; the rest is used.
3. A required key that is missing is told too.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, NamedTuple

from steadyhead.errors import InputError
from steadyhead.messages import Message, message
from steadyhead.visit.keys import Table
from steadyhead.visit.kinds import Known, wrong_type
from steadyhead.visit.layout import Path
from steadyhead.visit.tables import plain


class ReadRow(NamedTuple):
    """The values of a row under their names in the record, and everything that is wrong with it."""

    values: dict[str, Any]
    problems: tuple[tuple[Path, Message], ...]


def read_row(raw: object, table: Table, known: Known, inner: Iterable[Table] = ()) -> ReadRow:
    """Return what a row of a table says.

    Parameters
    ----------
    raw
        The row as a file or a fact has it.
    table
        The table.
    known
        What else is known to its values; the row itself is put in here.
    inner
        Tables that may stand inside others; those of this table are read as rows of their own.

    Examples
    --------
    >>> from steadyhead.visit.check_keys import POINT
    >>> found = read_row({"reference": "62", "direction": "up"}, POINT, Known("voltage", False, {}))
    >>> found.values, [path for path, _ in found.problems]
    ({'direction': 'up'}, [('check-point', 'reference')])
    """
    path: Path = (table.name,)
    row = plain(raw)
    if not isinstance(row, dict):
        return ReadRow({}, ((path, wrong_type(row, f"a table: {table.title}")),))
    values: dict[str, Any] = {}
    problems: list[tuple[Path, Message]] = []
    for key in table.keys:
        if key.name in row:
            try:
                values[key.attribute] = key.kind.read(row[key.name], known._replace(row=row))
            except InputError as error:
                problems.append(((*path, key.name), error.message))
        elif key.required:
            problems.append(((*path, key.name), message("key-missing", key=key.name, must_be=key.kind.says())))
    for each in (each for each in inner if each.inside == table.name and each.name in row):
        found = read_row(row[each.name], each, known)
        problems += [((*path, *deeper), why) for deeper, why in found.problems]
        if not any(key.required and key.attribute not in found.values for key in each.keys):
            values[each.name] = found.values
    return ReadRow(values, tuple(problems))
