"""Finds every message that the package can make, by reading its source: id, where it stands, which values it has."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import steadyhead

PACKAGE = Path(steadyhead.__file__).parent
MAKERS = {"message": None, "refusal": "because", "Message": None, "tell": None}


@dataclass(frozen=True)
class Made:
    """One place that makes a message; `id` is the source text of the id where that is no plain text."""

    id: str
    plain: bool
    values: frozenset[str]
    open: bool
    where: str


def made() -> list[Made]:
    """Return every message of the package."""
    found: list[Made] = []
    for file in sorted(PACKAGE.rglob("*.py")):
        if file.name != "messages.py" and "words" not in file.parts[-2:-1]:
            found += _made_in(file)
    return found


def _made_in(file: Path) -> Iterator[Made]:
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and _name(node.func) in MAKERS:
            yield from _ids(node, file)


def _name(function: ast.expr) -> str:
    return function.attr if isinstance(function, ast.Attribute) else getattr(function, "id", "")


def _ids(call: ast.Call, file: Path) -> Iterator[Made]:
    key = MAKERS[_name(call.func)]
    named = {word.arg: word.value for word in call.keywords if word.arg is not None}
    id_ = named.pop(key) if key is not None else call.args[0]
    given = frozenset(named) | (frozenset({"got", "must_be", "dimension"}) if key else frozenset())
    open_ = any(word.arg is None for word in call.keywords)
    where = f"{file.relative_to(PACKAGE).as_posix()}:{call.lineno}"
    for branch in (id_.body, id_.orelse) if isinstance(id_, ast.IfExp) else (id_,):
        plain = isinstance(branch, ast.Constant)
        text = str(branch.value) if isinstance(branch, ast.Constant) else ast.unparse(branch)
        yield Made(text, plain, given, open_, where)
