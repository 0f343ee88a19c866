"""Whatever is thrown at the loader, it answers with a visit or with an error of ours."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import tomlkit
from hypothesis import given
from hypothesis import strategies as st

from steadyhead.errors import InputError, Problem, VisitFileError
from steadyhead.visit import parse_visit
from steadyhead.visit.keys import INNER_TABLES, TABLES
from steadyhead.visit.layout import scan

ROOT = Path(__file__).parents[2]
TEXTS = [
    path.read_text(encoding="utf-8")
    for path in sorted([*(ROOT / "examples").glob("*.toml"), Path(__file__).parent / "edit_me.toml"])
]
WORDS = sorted({key.name for table in (*TABLES, *INNER_TABLES) for key in table.keys} | {t.name for t in TABLES})
SNIPPETS = [
    '"',
    "'",
    '"""',
    "[",
    "]",
    "[[",
    "{",
    "}",
    "=",
    "\n",
    "\r",
    "#",
    ".",
    ",",
    "\0",
    "\\",
    "nan",
    "1e999",
    "-",
    "Ω",
    "\ud7ff",
]


def _visit_or_refusal(text: str | bytes) -> None:
    """Load it; a refusal names lines that exist, and anything but a visit or a refusal ends the test."""
    lines = len(text.split(b"\n") if isinstance(text, bytes) else text.split("\n"))
    problems: tuple[Problem, ...] | None = None
    try:
        parse_visit(text)
    except VisitFileError as error:
        problems = error.problems
    except InputError:
        return
    if problems is not None:
        assert problems
        assert all(problem.line is None or 1 <= problem.line <= lines for problem in problems)


@given(st.binary(max_size=400))
def test_no_bytes_end_in_anything_but_a_visit_or_a_refusal(data: bytes) -> None:
    """A property: only errors of ours."""
    _visit_or_refusal(data)


@given(st.text(max_size=400))
def test_no_text_ends_in_anything_but_a_visit_or_a_refusal(text: str) -> None:
    """A property: only errors of ours."""
    _visit_or_refusal(text)


@given(st.lists(st.sampled_from([*SNIPPETS, *WORDS, " ", "1", "true", "\n"]), max_size=80))
def test_no_heap_of_toml_pieces_ends_in_anything_else(pieces: list[str]) -> None:
    """A property: only errors of ours."""
    _visit_or_refusal("".join(pieces))


@given(st.data())
def test_no_damaged_example_ends_in_anything_else(data: st.DataObject) -> None:
    """A property: cut, doubled or overwritten anywhere, a sound file stays a visit or is refused."""
    text = data.draw(st.sampled_from(TEXTS))
    for _ in range(data.draw(st.integers(1, 4))):
        start = data.draw(st.integers(0, len(text)))
        end = min(len(text), start + data.draw(st.integers(0, 40)))
        new = data.draw(
            st.one_of(st.sampled_from([*SNIPPETS, *WORDS]), st.text(max_size=8), st.just(text[start:end] * 2))
        )
        text = text[:start] + new + text[end:]
    _visit_or_refusal(text)


TREES = st.recursive(
    st.one_of(
        st.text(max_size=12),
        st.booleans(),
        st.integers(),
        st.floats(),
        st.datetimes(),
        st.sampled_from(["48 psi", "OL", "volts"]),
    ),
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(st.sampled_from(WORDS), inner, max_size=5)),
    max_leaves=20,
)


@given(st.dictionaries(st.sampled_from(WORDS), TREES, max_size=6))
def test_no_tree_of_values_ends_in_anything_else(tree: dict[str, Any]) -> None:
    """A property, over TOML that another library wrote: sound syntax, wild meaning."""
    _visit_or_refusal(tomlkit.dumps({"schema": 1, **tree}))


@given(st.dictionaries(st.text(min_size=1, max_size=6), TREES, max_size=6))
def test_the_scan_finds_every_key_that_a_parser_finds(tree: dict[str, Any]) -> None:
    """Expected: the keys that the standard library's parser finds in what another library wrote."""
    text = tomlkit.dumps(tree)
    lines = scan(text).lines

    def walk(value: Any, path: tuple[str | int, ...]) -> None:  # noqa: ANN401 - a tree of anything
        assert not path or path in lines
        items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
        for name, inner in items:
            walk(inner, (*path, name))

    walk(tomllib.loads(text), ())
