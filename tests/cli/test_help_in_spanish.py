"""The help of every command, and what is wrong with a command line, in the language of the environment."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest
from typer.main import get_command

from builders.translations import english_left
from steadyhead.cli.app import app
from steadyhead.cli.command_line import EXAMPLE, OF_THE_LIBRARY, help_texts
from steadyhead.cli.refused_line import KINDS
from tests.cli.terminal import Ended, Terminal

pytestmark = pytest.mark.laptop  # needs the builders beside the package


def _paths(command: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:  # noqa: ANN401 - typer's own
    """Yield what is typed for a command and for every one below it."""
    yield path
    for name, each in getattr(command, "commands", {}).items():
        yield from _paths(each, (*path, name))


EVERY = tuple(_paths(get_command(app)))
#: English texts of the help that could not stand in a Spanish one by chance: those of several words.
SENTENCES = tuple(text for text in help_texts() if len(re.findall(r"[a-z]{2,}", text)) > 2)
#: Ids that are typed, and would be English words elsewhere.
TYPED = {"not", "for", "in-house", "beside", "to", "on"}


def help_of(terminal: Terminal, path: tuple[str, ...], language: str, monkeypatch: pytest.MonkeyPatch) -> Ended:
    """Return how a command's help ended."""
    monkeypatch.setenv("STEADYHEAD_LANGUAGE", language)
    return terminal.run(*path, "--help")


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("path", EVERY, ids=" ".join)
def test_the_help_of_a_command_is_eighty_columns_wide(
    terminal: Terminal, monkeypatch: pytest.MonkeyPatch, path: tuple[str, ...], language: str
) -> None:
    """The width of a plain terminal; it tells how the command is used."""
    ended = help_of(terminal, path, language, monkeypatch)
    assert (ended.code, ended.err) == (0, "")
    assert ended.out.startswith({"en": "Usage: ", "es": "Uso: "}[language] + " ".join(("steadyhead", *path)))
    assert [line for line in ended.out.splitlines() if len(line) > 80] == []


@pytest.mark.parametrize("path", EVERY, ids=" ".join)
def test_no_english_is_left_in_a_command_s_spanish_help(
    terminal: Terminal, monkeypatch: pytest.MonkeyPatch, path: tuple[str, ...]
) -> None:
    """No sentence of the English help, none of the words that only English has; an example is typed as it stands."""
    said = help_of(terminal, path, "es", monkeypatch).out
    line = " ".join(said.split())
    assert [text for text in SENTENCES if text in line] == []
    assert [text for text in OF_THE_LIBRARY if f"{text} " in f"{line} "] == []
    assert EXAMPLE not in said
    told = re.sub(r"^  [a-z-]+  ", "", said.partition("Ejemplo:")[0], flags=re.MULTILINE)
    assert set(english_left(told)) - TYPED == set()


@pytest.mark.parametrize(
    ("words", "told", "dicho"),
    [
        (("diagnos",), "There is no command diagnos.", "No hay ninguna orden diagnos."),
        (("van", "of"), "Nearest: off.", "Lo más parecido: off."),
        (("diagnose", "--regio", "x"), "There is no option --regio here.", "ninguna opción --regio"),
        (("diagnose",), "FILE is missing.", "Falta ARCHIVO."),
        (("diagnose", "a", "b"), "Too much was typed: b.", "Se escribió de más: b."),
        (("diagnose", "a", "--json=3"), "--json takes no value.", "--json no lleva valor."),
        (("diagnose", "a", "--company"), "--company needs a value behind it.", "--company necesita un valor detrás."),
        (("app", "--port", "x"), "x is no whole number. --port must be one.", "x no es un número entero."),
        (("app", "--port", "99999"), "99999 will not do. --port must be within", "99999 no sirve. --port debe estar"),
        (("diagnose", "nowhere.toml"), "There is no file nowhere.toml.", "No hay ningún archivo nowhere.toml."),
    ],
    ids=lambda words: " ".join(words) if isinstance(words, tuple) else None,
)
def test_a_command_line_that_cannot_be_read_is_told_in_the_language_of_the_environment(
    terminal: Terminal, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...], told: str, dicho: str
) -> None:
    """Exit code 2, nothing on stdout, and every kind of refusal has its sentence."""
    for language, sentence in (("en", told), ("es", dicho)):
        monkeypatch.setenv("STEADYHEAD_LANGUAGE", language)
        ended = terminal.run(*words)
        assert (ended.code, ended.out) == (2, "")
        assert sentence in " ".join(ended.err.split())
        assert [line for line in ended.err.splitlines() if len(line) > 80] == []
        assert language == "en" or "Usage" not in ended.err


def test_every_kind_of_refusal_is_met_above() -> None:
    """As many kinds as lines; the last line is no kind of the library's."""
    lines = next(mark.args[1] for mark in _marks() if mark.name == "parametrize")
    assert len(lines) - 2 == len(KINDS)


def _marks() -> list[pytest.Mark]:
    return list(test_a_command_line_that_cannot_be_read_is_told_in_the_language_of_the_environment.pytestmark)  # type: ignore[attr-defined]


def test_a_language_that_is_not_here_is_told_in_english(terminal: Terminal, monkeypatch: pytest.MonkeyPatch) -> None:
    """Of a help, too."""
    ended = help_of(terminal, (), "xx", monkeypatch)
    assert (ended.code, ended.out) == (2, "")
    assert "There is no language xx here. The languages: en, es." in ended.err


def test_the_commands_of_the_record_speak_spanish(
    terminal: Terminal, monkeypatch: pytest.MonkeyPatch, tmp_path: Any  # noqa: ANN401 - a path
) -> None:
    """An empty record, its copy, and what comes back by itself: nothing."""
    monkeypatch.setenv("STEADYHEAD_DATA", str(tmp_path / "record.db"))
    monkeypatch.setenv("STEADYHEAD_LANGUAGE", "es")
    for words, said in (
        (("visits",), "Todavía no hay ninguna visita"),
        (("follow-ups",), "No hay nada pendiente."),
        (("backup", str(tmp_path / "copy.db")), "Copia"),
        (("doctor",), "Sano: nada mal."),
    ):
        assert said in terminal.run(*words).out
