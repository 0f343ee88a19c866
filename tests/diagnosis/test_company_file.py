"""A company's file: what it may say, what it says wrong, and that it reads back."""

from __future__ import annotations

from math import isclose

import pytest

from steadyhead.diagnosis.company import NO_COMPANY, with_learnt
from steadyhead.diagnosis.company_file import parse_company
from steadyhead.diagnosis.estimates import SECTIONS, SHIPPED
from steadyhead.diagnosis.learning import Learnt
from steadyhead.errors import CompanyFileError

HEAD = "schema = 1\n"


def problems(text: str) -> list[tuple[int | None, str, str]]:
    """Return line, key and message id of everything that is wrong with a company's file."""
    with pytest.raises(CompanyFileError) as caught:
        parse_company(text)
    return [(problem.line, problem.key, problem.message.id) for problem in caught.value.problems]


def test_a_file_with_nothing_in_it_changes_nothing() -> None:
    """Rule 1: what is left out stays as shipped, to the very value."""
    assert parse_company(HEAD).estimates is SHIPPED
    assert NO_COMPANY.estimates is SHIPPED


def test_a_row_is_its_figure_or_a_figure_with_a_reason() -> None:
    """The words of this file."""
    own = parse_company(
        HEAD
        + '[families]\ndamp = 12\n[arrangements]\nvented = "25 min"\n'
        + 'dead-both-free = { value = "0.5 h", reason = "drives that stay charged" }\n'
    ).estimates
    assert own.families["damp"] == 12.0
    assert own.arrangements["vented"] == 25.0
    row = own.rows["arrangements"]["dead-both-free"]
    assert (row.value, row.reason) == (30.0, "drives that stay charged")
    assert own.families["sensor"] == SHIPPED.families["sensor"]


@pytest.mark.parametrize("section", list(SECTIONS))
def test_every_shipped_row_can_be_written_down(section: str) -> None:
    """A file that says what is shipped changes no figure."""
    minutes = SECTIONS[section].unit == "min"
    rows = SHIPPED.rows[section]
    lines = [f'"{name}" = ' + (f'"{row.value!r} min"' if minutes else repr(row.value)) for name, row in rows.items()]
    own = parse_company(HEAD + f"[{section}]\n" + "\n".join(lines) + "\n").estimates
    assert all(isclose(own.rows[section][name].value, row.value, rel_tol=1e-12) for name, row in rows.items())


def test_everything_that_is_wrong_is_told_at_once_with_its_line_and_key() -> None:
    """Lines and keys counted by hand."""
    text = (
        "[families]\n"  # 1; no schema at all
        "dampp = 3\n"  # 2
        "noise = 0\n"  # 3
        'vacuum = "3"\n'  # 4
        "[arangements]\n"  # 5
        "[arrangements]\n"  # 6
        "vented = 25\n"  # 7
        'connected = "-2 min"\n'  # 8
        'all-lifted = { val = "3 min" }\n'  # 9
        "[[learnt]]\n"  # 10
        'fault = "sensor"\n'  # 11
        'took = { "families.damp" = ["3 min"] }\n'  # 12
    )
    assert problems(text) == [
        (2, "[families] dampp", "key-unknown"),
        (3, "[families] noise", "outside-limits"),
        (4, "[families] vacuum", "value-wrong-type"),
        (5, "[arangements]", "table-unknown"),
        (7, "[arrangements] vented", "number-without-unit"),
        (8, "[arrangements] connected", "outside-limits"),
        (9, "[arrangements] all-lifted.val", "key-unknown"),
        (9, "[arrangements] all-lifted", "key-missing"),
        (10, "[[learnt]] 1", "key-missing"),
        (10, "[[learnt]] 1", "key-missing"),
        (11, "[[learnt]] 1 fault", "word-unknown"),
        (12, "[[learnt]] 1 took.families.damp", "took-unknown"),
        (None, "schema", "company-schema"),
    ]


def test_the_nearest_row_is_named_first() -> None:
    """A word with one letter too many."""
    with pytest.raises(CompanyFileError) as caught:
        parse_company(HEAD + "[families]\ndampp = 3\n")
    values = caught.value.problems[0].message.values
    assert values["got"] == "dampp"
    assert values["nearest"] == ("damp",)
    assert isinstance(values["must_be"], tuple)
    assert values["must_be"][0] == "damp"


@pytest.mark.parametrize("schema", ["2", "true", '"1"', "1.0"])
def test_another_schema_is_refused(schema: str) -> None:
    """Only the whole number 1 is this schema."""
    assert problems(f"schema = {schema}\n") == [(1, "schema", "company-schema")]


def test_no_row_can_exclude_a_fault() -> None:
    """Rule 3 of the estimates: shares are above zero."""
    assert problems(HEAD + "[families]\nsensor = 0.0\n[faults]\nsensor-low = 0\n") == [
        (3, "[families] sensor", "outside-limits"),
        (5, "[faults] sensor-low", "outside-limits"),
    ]


@pytest.mark.parametrize("figure", ["nan", "inf", "-inf", "1" + 400 * "0", "101", "-1"])
def test_no_figure_outside_its_ends_is_taken(figure: str) -> None:
    """Nor one that no float can hold, nor one that is no number."""
    assert problems(HEAD + f"[families]\nsensor = {figure}\n") == [(3, "[families] sensor", "outside-limits")]


def test_what_was_learnt_reads_back_and_the_rest_of_the_file_keeps_every_byte() -> None:
    """A round trip behind a text with a comment, without a line end at its end."""
    text = HEAD + "# ours\n[families]\ndamp = 12 # wet pits"
    learnt = (
        Learnt(visit="ab" * 16, fault="sensor-open+vacuum", counts=0.25, second_trip=True),
        Learnt(
            visit="cd" * 16, fault="none", counts=1.0,
            took=((("arrangements", "vented"), 25.1), (("readings", "meter"), 0.7), (("readings", "meter"), 1.3)),
        ),
    )  # fmt: skip
    after = with_learnt(text, learnt)
    assert after.startswith(text)
    assert "\n\n[[learnt]]" in after
    assert parse_company(after).learnt == learnt
    assert parse_company(after).own == parse_company(text).own


def test_a_file_with_windows_line_ends_keeps_them() -> None:
    """Every new line ends as the others do."""
    after = with_learnt("schema = 1\r\n", (Learnt(visit="ab", fault="none", counts=1.0),))
    assert "\n" not in after.replace("\r\n", "")
    assert len(parse_company(after).learnt) == 1
