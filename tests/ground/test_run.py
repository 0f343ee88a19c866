"""`python3 run.py` sets itself up, and leaves what is right alone."""

from __future__ import annotations

import ast
import os
import runpy
import subprocess
import sys
from pathlib import Path

import pytest

import environment
from tests.support import ROOT, cannot_run

RUN = ROOT / "run.py"


@pytest.fixture
def checkout(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Point the set-up at a checkout of its own, with a recipe and an empty `.venv`."""
    monkeypatch.setattr(environment, "ROOT", tmp_path)
    monkeypatch.setattr(environment, "VENV", tmp_path / ".venv")
    monkeypatch.setattr(environment, "RECIPE", (tmp_path / "pyproject.toml", tmp_path / "constraints.txt"))
    monkeypatch.setattr(environment, "python", lambda: Path(sys.executable))
    for file in environment.RECIPE:
        file.write_text("first\n", encoding="utf-8")
    environment.VENV.mkdir()
    return tmp_path


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[list[str]]:
    """Note every installation that is asked for, instead of doing it."""
    commands: list[list[str]] = []

    def note(command: list[str]) -> None:
        commands.append(command)
        environment.VENV.mkdir(exist_ok=True)

    monkeypatch.setattr(environment, "stop_unless_done", note)
    return commands


def test_the_first_file_can_be_read_by_pythons_that_it_refuses() -> None:
    """Python 3.4's grammar, which `ast` still knows; it lets f-strings pass, so they are sought."""
    tree = ast.parse(RUN.read_text(encoding="utf-8"), feature_version=(3, 4))
    assert not [node for node in ast.walk(tree) if isinstance(node, (ast.JoinedStr, ast.AnnAssign, ast.NamedExpr))]


def test_an_older_python_is_told_what_is_needed(monkeypatch: pytest.MonkeyPatch) -> None:
    """The promise of the README: 3.11 or newer."""
    monkeypatch.setattr(sys, "version_info", (3, 10, 13, "final", 0))
    with pytest.raises(SystemExit, match=r"needs Python 3\.11 or newer; this one is 3\.10"):
        runpy.run_path(str(RUN))


@pytest.mark.usefixtures("checkout")
def test_a_folder_without_a_stamp_is_no_environment() -> None:
    """A set-up that was cut off has no stamp (rule 2)."""
    assert not environment.is_ready("")
    assert not environment.has_working_python()


@pytest.mark.usefixtures("checkout")
def test_nothing_is_installed_twice(asked: list[list[str]]) -> None:
    """Rule 3: the stamp of the same recipe is enough."""
    environment.ensure()
    first = len(asked)
    environment.ensure()
    assert first > 0
    assert len(asked) == first


@pytest.mark.parametrize("file", ["pyproject.toml", "constraints.txt"])
def test_a_changed_recipe_is_installed_again(checkout: Path, asked: list[list[str]], file: str) -> None:
    """Rule 1: both files are the recipe."""
    environment.install("")
    (checkout / file).write_text("second\n", encoding="utf-8")
    assert not environment.is_ready("")
    environment.install("")
    assert environment.is_ready("")
    assert len(asked) == 2


def test_a_moved_checkout_is_installed_again(checkout: Path, asked: list[list[str]]) -> None:
    """Rule 1: an editable install remembers the folder it was made from."""
    environment.install("")
    assert asked
    with pytest.MonkeyPatch.context() as moved:
        moved.setattr(environment, "ROOT", checkout / "elsewhere")
        assert not environment.is_ready("")


@pytest.mark.usefixtures("checkout")
def test_who_has_the_libraries_of_the_tests_has_the_package_too(asked: list[list[str]]) -> None:
    """The test extra holds the package itself, so that `run.py` after `run.py test` installs nothing."""
    environment.install("test")
    assert asked[0][-2:] == ["-e", f"{environment.ROOT}[test,laptop]"]
    assert environment.is_ready("")
    assert not environment.is_ready("dev")


@pytest.mark.usefixtures("checkout")
def test_a_failed_installation_leaves_no_stamp(monkeypatch: pytest.MonkeyPatch) -> None:
    """Rule 4, with a command that ends with exit code 3."""
    failing = [sys.executable, "-c", "raise SystemExit(3)"]
    done = environment.stop_unless_done
    monkeypatch.setattr(environment, "stop_unless_done", lambda _: done(failing))
    with pytest.raises(SystemExit, match="3"):
        environment.install("")
    assert not environment.is_ready("")


@pytest.mark.parametrize(
    ("given", "command"),
    [
        (["diagnose", "a b.visit"], [*environment.console_script(), "diagnose", "a b.visit"]),
        ([], [*environment.console_script(), "app"]),
        (["test"], [str(environment.python()), "-m", "pytest", *environment.SPREAD, *environment.NO_OTHER_PROGRAM]),
        (["test", "-k", "x"], [str(environment.python()), "-m", "pytest", *environment.SPREAD, "-k", "x"]),
    ],
)
def test_arguments_are_handed_on_as_they_are(
    given: list[str], command: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """`python3 run.py ARGS` is `steadyhead ARGS`, the app without any; after `test` they go to pytest."""
    became: list[list[str]] = []

    def become(words: list[str]) -> int:
        became.append(words)
        return 7

    monkeypatch.setattr(environment, "ensure", lambda *_: None)
    monkeypatch.setattr(os, "chdir", lambda *_: None)
    monkeypatch.setattr(environment, "replace_process", become)
    assert environment.run(given) == 7
    assert became == [command]


@pytest.mark.laptop
def test_it_runs_from_another_folder_and_hands_on_the_exit_code(tmp_path: Path) -> None:
    """From a folder with a space in its name: pytest's own exit code 4, workers aside, for a path that isn't there."""
    if not environment.is_ready("test"):
        cannot_run("this checkout has no finished `.venv` of its own")
    folder = tmp_path / "with a space"
    folder.mkdir()
    command = [sys.executable, str(RUN), "test", "-n", "0", "no-such-file.py"]
    done = subprocess.run(command, check=False, cwd=folder, capture_output=True, encoding="utf-8")
    assert done.returncode == 4, done.stdout + done.stderr
