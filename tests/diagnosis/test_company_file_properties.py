"""Whatever stands in a company's file, it is read or refused with errors of ours, and what was written reads back."""

from __future__ import annotations

from typing import Any

import tomlkit
from hypothesis import given
from hypothesis import strategies as st

from steadyhead.diagnosis.company import with_learnt
from steadyhead.diagnosis.company_file import parse_company
from steadyhead.diagnosis.estimates import SECTIONS, SHIPPED
from steadyhead.diagnosis.learning import NOT_PROVED, PROVED, Learnt
from steadyhead.errors import CompanyFileError, InputError, Problem
from steadyhead.loop.faults import FAULTS

ROWS = [(section, name) for section, rows in SHIPPED.rows.items() for name in rows]
TIMED = [place for place in ROWS if SECTIONS[place[0]].unit == "min"]
SCALARS = st.one_of(
    st.integers(),
    st.just(10**400),
    st.floats(),
    st.booleans(),
    st.sampled_from(["4 min", "4", "-1 h", "1e999 s", "4 psi", "", "sensor-low", "\x1b[2J"]),
    st.text(st.characters(codec="utf-8", exclude_categories=["Cc"]), max_size=20),
)
VALUES = st.recursive(
    SCALARS,
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.sampled_from(["value", "reason", "took", "visit", "fault", "x"]), inner, max_size=3)
    ),
    max_leaves=6,
)
TABLES = st.sampled_from([*SECTIONS, "learnt", "schema", "famillies"])
KEYS = st.sampled_from([*(name for _, name in ROWS), "vizit", "visit", "fault", "counts", "took"])


@given(st.text(max_size=300))
def test_no_text_ends_in_anything_but_estimates_or_a_refusal(text: str) -> None:
    """A property: only errors of ours."""
    _read_or_refuse(text)


@given(st.dictionaries(TABLES, VALUES | st.dictionaries(KEYS, VALUES, max_size=4), max_size=5))
def test_no_value_in_any_place_ends_in_anything_else(tables: dict[str, Any]) -> None:
    """A property: only errors of ours, each with a line that exists."""
    try:
        text = tomlkit.dumps({"schema": 1, **tables})
    except (ValueError, TypeError):
        return
    _read_or_refuse(text)


@given(st.sampled_from(ROWS), SCALARS)
def test_no_figure_of_a_row_ends_in_anything_else(row: tuple[str, str], value: float | str | bool) -> None:
    """A property: only errors of ours, also for a number that no float can hold."""
    _read_or_refuse(tomlkit.dumps({"schema": 1, row[0]: {row[1]: value}}))


def _read_or_refuse(text: str) -> None:
    problems: tuple[Problem, ...] | None = None
    rows = set(SHIPPED.rows)
    try:
        rows = set(parse_company(text).estimates.rows)
    except CompanyFileError as error:
        problems = error.problems
    except InputError:
        return
    assert rows == set(SHIPPED.rows)
    if problems is not None:
        assert problems
        assert all(problem.line is None or 1 <= problem.line <= text.count("\n") + 1 for problem in problems)


LESSON = st.lists(
    st.builds(
        Learnt,
        visit=st.text("0123456789abcdef", min_size=32, max_size=32),
        fault=st.sampled_from([*(fault.id for fault in FAULTS), "none-of-these", "sensor-open+vacuum"]),
        counts=st.sampled_from([PROVED, NOT_PROVED]),
        second_trip=st.none() | st.booleans(),
        took=st.lists(st.tuples(st.sampled_from(TIMED), st.floats(0.0, 600.0)), max_size=4).map(tuple),
    ),
    max_size=4,
)


@given(LESSON)
def test_what_was_learnt_reads_back(lesson: list[Learnt]) -> None:
    """A round trip; timings stand together by their row, minutes to a thousand-millionth."""
    found = parse_company(with_learnt("", tuple(lesson))).learnt
    assert [(e.visit, e.fault, e.counts, e.second_trip) for e in found] == [
        (e.visit, e.fault, e.counts, e.second_trip) for e in lesson
    ]
    for one, other in zip(found, lesson, strict=True):
        expected = sorted(other.took)
        assert [place for place, _ in sorted(one.took)] == [place for place, _ in expected]
        assert all(abs(a - b) < 1e-9 for (_, a), (_, b) in zip(sorted(one.took), expected, strict=True))
