"""The documents lead somewhere, and every change is told in the way that the change log can take."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

from tests.support import ROOT

LINK = re.compile(r"\[[^\]]*\]\(([^)#\s]+)(?:#[^)]*)?\)")
DOCUMENTS = sorted([*ROOT.glob("*.md"), *ROOT.glob("docs/**/*.md")])
SETTINGS = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("document", DOCUMENTS, ids=lambda path: path.name)
def test_every_link_within_the_project_leads_to_a_file(document: Path) -> None:
    """The files that stand in the checkout."""
    targets = LINK.findall(document.read_text(encoding="utf-8"))
    within = [target for target in targets if "://" not in target]
    assert [target for target in within if not (document.parent / target).exists()] == []


def test_every_news_fragment_is_of_a_known_kind_and_says_something() -> None:
    """The kinds of pyproject.toml's change-log settings; a name is `number-or-+words.kind.md`."""
    kinds = {kind["directory"] for kind in SETTINGS["tool"]["towncrier"]["type"]}
    fragments = [file for file in (ROOT / "news").glob("*.md") if file.name != "README.md"]
    assert [file.name for file in fragments if file.name.split(".")[-2] not in kinds] == []
    assert [file.name for file in fragments if not file.read_text(encoding="utf-8").strip()] == []


def test_the_readme_gives_the_two_commands_of_a_fresh_machine() -> None:
    """The promise of the project: two commands and no more."""
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert "python3 run.py\n" in readme
    assert "python3 run.py test\n" in readme


def test_the_safety_line_stands_before_the_first_command() -> None:
    """Local codes and a licensed person come first, and fire pumps are out of scope."""
    before = (ROOT / "README.md").read_text(encoding="utf-8").partition("```")[0]
    assert "licensed person" in before
    assert "Fire pumps" in before
