"""The templates say only what has a sentence, and every sentence of the app is said somewhere."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import steadyhead.web
from steadyhead.words import web_english
from steadyhead.words.names import NAMES
from steadyhead.words.sentences import ENGLISH

FOLDER = Path(steadyhead.web.__file__).parent
TEMPLATES = sorted((FOLDER / "templates").glob("*.html"))


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda path: path.name)
def test_a_template_says_only_what_has_a_sentence_or_a_name(template: Path) -> None:
    """Every ``say('...')`` and every ``name('...', ...)``."""
    text = template.read_text(encoding="utf-8")
    assert {id_ for id_ in re.findall(r"say\('([^']+)'", text) if id_ not in ENGLISH} == set()
    assert {kind for kind in re.findall(r"name\('([^']+)'", text) if kind not in NAMES} == set()


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda path: path.name)
def test_a_template_holds_no_word_of_its_own(template: Path) -> None:
    """What is left without tags and without what is put in: the program's own name, and signs."""
    text = re.sub(r"\{%.*?%\}|\{\{.*?\}\}|\{#.*?#\}", "", template.read_text(encoding="utf-8"), flags=re.DOTALL)
    left = re.sub(r"<[^>]*>", " ", text)
    assert set(re.findall(r"[A-Za-z]{2,}", left)) <= {"Steadyhead"}


def test_every_sentence_of_the_app_is_said_somewhere() -> None:
    """The sources and the templates; the offline app says some of them too."""
    sources = [*FOLDER.parent.rglob("*.py"), *TEMPLATES]
    text = "".join(path.read_text(encoding="utf-8") for path in sources if path.parent.name != "words")
    assert {id_ for id_ in web_english.ENGLISH if f"\"{id_}\"" not in text and f"'{id_}'" not in text} == set()
