"""Every language says every text: whole, with the same values, and in its own words."""

from __future__ import annotations

import gettext
import shutil
import subprocess
import sys
from io import BytesIO
from pathlib import Path

import pytest

import steadyhead
from builders import translations
from steadyhead.words.catalogue import texts
from steadyhead.words.speaker import languages

pytestmark = pytest.mark.laptop  # needs the builders, and the translators' files beside the package

#: The languages that must say every text that there is; the others may lag behind, in English.
WHOLE: tuple[str, ...] = ("es",)
EVERY = translations.languages()


def said(language: str) -> dict[str, str]:
    """Return what the translators wrote."""
    return translations.translated(language)


@pytest.mark.parametrize("language", EVERY)
def test_every_translation_keeps_the_values_the_end_and_the_spaces_of_its_text(language: str) -> None:
    """The English text itself."""
    wrong = {english: translations.faults(english, other) for english, other in said(language).items()}
    assert {english: faults for english, faults in wrong.items() if faults} == {}


@pytest.mark.parametrize("language", EVERY)
def test_no_english_word_is_left_in_a_translation(language: str) -> None:
    """A list of words that only English has, from memory; what is typed stands between « and »."""
    left = {other: translations.english_left(other) for other in said(language).values()}
    assert {other: words for other, words in left.items() if words} == {}


@pytest.mark.parametrize("language", EVERY)
def test_the_committed_file_is_what_the_translators_files_make(language: str) -> None:
    """Run ``python -m builders.translations --write`` after a change to a ``.po`` file."""
    path = translations.LOCALES / language / "LC_MESSAGES" / "steadyhead.mo"
    assert path.read_bytes() == translations.mo_bytes(language, said(language))


@pytest.mark.parametrize("language", EVERY)
def test_what_gettext_reads_is_what_the_translators_wrote(language: str) -> None:
    """The standard library's own reader."""
    spoken = gettext.GNUTranslations(BytesIO(translations.mo_bytes(language, said(language))))
    assert {english: spoken.gettext(english) for english in said(language)} == said(language)


@pytest.mark.parametrize("language", WHOLE)
def test_every_text_has_its_translation(language: str) -> None:
    """The list for translators."""
    assert translations.missing(language) == []


@pytest.mark.parametrize("language", WHOLE)
def test_the_translators_files_hold_the_texts_of_today(language: str) -> None:
    """Run ``python -m builders.translations --write`` after a change to an English text."""
    stale = [path.name for path, content in translations.files(language).items() if path.read_bytes() != content]
    assert stale == []


def test_every_language_with_sources_is_there_at_run_time() -> None:
    """The folders of both."""
    assert languages() == ("en", *EVERY)


def test_a_language_is_read_from_inside_an_archive_too(tmp_path: Path) -> None:
    """A phone imports the package from one archive: the package packed, and asked by a Python of its own."""
    package = Path(steadyhead.__file__).parent
    archive = shutil.make_archive(str(tmp_path / "site"), "zip", package.parent, package.name)
    code = (
        f"import sys; sys.path.insert(0, {archive!r}); import steadyhead.words.speaker as s; "
        "print(s.__file__, *s.languages(), s.translations('es').info()['language'])"
    )
    asked = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, encoding="utf-8")
    place, *found = asked.stdout.split()
    assert place.startswith(archive)
    assert found == ["en", *EVERY, "es"]


def test_every_text_stands_in_one_file_for_translators() -> None:
    """The list for translators, counted."""
    found = [text for module in translations.by_module().values() for text in module]
    assert sorted(found) == list(translations.every_text())
    assert set(found) > set(texts())


def test_a_text_that_moved_keeps_its_translation_and_a_new_one_comes_in_empty(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Three texts by hand: one that stays, one that moves to another module, one that is new; and one that is gone."""
    monkeypatch.setattr(translations, "SOURCES", tmp_path)
    monkeypatch.setattr(translations, "LOCALES", tmp_path / "made")
    monkeypatch.setattr(translations, "by_module", lambda: {"one": ("stay", "move"), "two": ("gone",)})
    said_first = {"stay": "quedarse", "move": "mover", "gone": "ido"}
    (tmp_path / "es").mkdir()
    for module in ("one", "two"):
        (tmp_path / "es" / f"{module}.po").write_bytes(translations.po_bytes("es", module, said_first))
    monkeypatch.setattr(translations, "by_module", lambda: {"one": ("stay",), "three": ("move", "new")})
    translations.write("es")
    assert sorted(path.name for path in (tmp_path / "es").iterdir()) == ["one.po", "three.po"]
    assert translations.translated("es") == {"stay": "quedarse", "move": "mover"}
    assert b'msgid "new"\nmsgstr ""\n' in (tmp_path / "es" / "three.po").read_bytes()


@pytest.mark.parametrize(
    ("other", "fault"),
    [
        ("Presión: {got}.", "other values"),
        ("Presión: {got:pressure} {got:pressure}.", "other values"),
        ("Presión: {got:pressure}", "another end"),
        (" Presión: {got:pressure}.", "another beginning or end of space"),
        ("Presión:\t{got:pressure}.", "a control character"),
    ],
)
def test_a_faulty_translation_is_found(other: str, fault: str) -> None:
    """Faults by hand."""
    assert translations.faults("Pressure: {got:pressure}.", other) == [fault]


def test_a_value_may_stand_elsewhere_in_another_language() -> None:
    """Two values turned round."""
    assert translations.faults("{red:point} to {black:point}.", "A {black:point} desde {red:point}.") == []
