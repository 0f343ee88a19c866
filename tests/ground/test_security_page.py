"""The page that says which attack each test tries: every test that it names exists, and every requirement says why."""

from __future__ import annotations

import re

from tests.support import ROOT

PAGE = ROOT / "docs" / "security.md"
NAMED = re.compile(r"`(test_\w+)`")


def rows() -> list[list[str]]:
    """Return the rows of the page's table: number, what is asked, whether it applies, how, tests."""
    lines = PAGE.read_text(encoding="utf-8").splitlines()
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines if re.match(r"\| \d", line)]


def test_every_test_that_the_page_names_exists() -> None:
    """By its definition in the folder of tests."""
    written = "\n".join(path.read_text(encoding="utf-8") for path in (ROOT / "tests").rglob("test_*.py"))
    named = {name for row in rows() for name in NAMED.findall(row[4])}
    assert {name for name in named if f"def {name}(" not in written} == set()
    assert len(named) > 30


def test_every_requirement_says_how_it_is_met_or_why_not() -> None:
    """Five cells; what applies has a reason, and so has what does not."""
    for row in rows():
        assert len(row) == 5, row
        assert row[2] in {"yes", "no", "in part"}, row
        assert row[3], row


def test_every_attack_of_the_two_files_stands_on_the_page() -> None:
    """What is tried there is told here; what a joined phone may do is told in the manual instead."""
    tries = (ROOT / "tests" / "web" / "test_attacks.py").read_text(encoding="utf-8")
    named = PAGE.read_text(encoding="utf-8")
    assert [name for name in re.findall(r"^def (test_\w+)\(", tries, re.MULTILINE) if f"`{name}`" not in named] == []
