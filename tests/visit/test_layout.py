"""The place of every key is found, however TOML lets it be written."""

from __future__ import annotations

import pytest

from steadyhead.visit.layout import scan

TEXT = '''\
schema = 1
"a b".c = 'x # no comment'   # a comment with "quotes" and [brackets]
[sensor] # title = "no"
range = "0..100 \\" psi"
text = """
not = "a key"
[nor a table]"""
also = \'\'\'one\'\'\'
[instruments]
gauge = { range = "x", "gr.ade" = { b = 1 } }
have = [
  "one", # first
  "two",
]
[[reading]]
value = "1"
[[reading]]
value = "2"
[reading.inner]
x = 1
'''


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("schema",), 1),
        (("a b", "c"), 2),
        (("sensor",), 3),
        (("sensor", "range"), 4),
        (("sensor", "text"), 5),
        (("sensor", "also"), 8),
        (("instruments", "gauge"), 10),
        (("instruments", "gauge", "gr.ade", "b"), 10),
        (("instruments", "have", 1), 13),
        (("reading", 0), 15),
        (("reading", 0, "value"), 16),
        (("reading", 1, "value"), 18),
        (("reading", 1, "inner", "x"), 20),
    ],
)
def test_a_key_is_found_on_its_line(path: tuple[str | int, ...], line: int) -> None:
    """Expected: counted by hand."""
    assert scan(TEXT).lines[path] == line


@pytest.mark.parametrize("path", [("not",), ("sensor", "not"), ("sensor", "title"), ("nor a table",)])
def test_what_stands_in_a_string_or_a_comment_is_no_key(path: tuple[str, ...]) -> None:
    """Expected: by TOML's rules."""
    assert path not in scan(TEXT).lines


def test_a_value_s_span_is_the_value() -> None:
    """Expected: the very text between the equals sign and the comment."""
    layout = scan(TEXT)
    start, end = layout.spans["instruments", "have"]
    assert TEXT[start:end] == '[\n  "one", # first\n  "two",\n]'
    start, end = layout.spans["a b", "c"]
    assert TEXT[start:end] == "'x # no comment'"


def test_a_missing_key_has_the_line_of_its_table() -> None:
    """Expected: the header's line; None where there is no table either."""
    assert scan(TEXT).line_of(("sensor", "signal")) == 3
    assert scan(TEXT).line_of(("cable", "length")) is None


@pytest.mark.parametrize(
    "text",
    [
        "x = " + "[" * 17,
        "x = " + "{a=" * 17,
        ".".join("a" * 18) + " = 1",
        "a . " * 40 + "b = 1",
        "[" + ".".join("a" * 18) + "]",
    ],
)
def test_what_is_nested_deeper_than_sixteen_is_told_with_its_line(text: str) -> None:
    """Expected: line 2; one level less is passed."""
    assert scan("y = 1\n" + text).too_deep == 2


def test_sixteen_levels_are_passed() -> None:
    """Expected: the limit itself is allowed."""
    assert scan("x = " + "[" * 16 + "]" * 16).too_deep is None
    assert scan(".".join("a" * 16) + " = 1").too_deep is None
