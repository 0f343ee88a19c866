"""The floors of the package, and the promise that all of it runs inside a browser."""

from __future__ import annotations

import ast
import sys
from pathlib import Path

import pytest

from tests.support import ROOT

SOURCE = ROOT / "src" / "steadyhead"
#: Libraries with a pure-Python wheel, for every package and for some alone; only the command line may draw on a
#: terminal, open a port and hear a signal, only what answers inside a browser may use the browser's own event loop,
#: only the workers are processes, and only what makes the phone's site runs other programs.
PURE = {"steadyhead"}
ALONE = {
    "cli": {"asyncio", "signal", "socket", "ssl", "typer", "uvicorn"},
    "documents": {"jinja2", "markupsafe", "segno"},
    "montecarlo": {"numpy"},
    "offline": {"anyio", "asyncio", "js", "pyodide", "starlette"},
    "offline/make": {"subprocess"},
    "sensorcheck": {"uncertainties"},
    "store": {"sqlalchemy", "alembic"},
    "pdf": {"typst"},
    "web": {"jinja2", "markupsafe", "starlette"},
    "workers": {"asyncio", "concurrent", "multiprocessing", "signal", "threading"},
}
#: Parts of the standard library that a browser's Python lacks, or that start threads and processes.
NOT_IN_A_BROWSER = {
    "_thread", "asyncio", "concurrent", "ctypes", "curses", "dbm", "fcntl", "grp", "multiprocessing", "pty", "pwd",
    "readline", "resource", "select", "selectors", "signal", "socket", "socketserver", "ssl", "subprocess", "syslog",
    "termios", "threading", "tkinter", "venv",
}  # fmt: skip


def modules() -> list[Path]:
    """Return every module of the package."""
    return sorted(SOURCE.rglob("*.py"))


def imported_by(module: Path) -> set[str]:
    """Return the top names of all that a module imports, wherever in it the import stands."""
    tree = ast.parse(module.read_text(encoding="utf-8"))
    plain = [alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names]
    froms = [node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) and node.module]
    return {name.partition(".")[0] for name in [*plain, *froms]}


def test_every_module_imports_only_what_a_browser_has() -> None:
    """The promise of ARCHITECTURE: the standard library less what needs a system, and pure-Python wheels."""
    standard = set(sys.stdlib_module_names) - NOT_IN_A_BROWSER
    foreign = {}
    for module in modules():
        first, second = (*module.relative_to(SOURCE).parts, "")[:2]
        allowed = standard | PURE | ALONE.get(first, set()) | ALONE.get(f"{first}/{second}", set())
        strange = imported_by(module) - allowed
        if strange:
            foreign[module.relative_to(SOURCE).as_posix()] = sorted(strange)
    assert foreign == {}


def test_no_module_imports_by_a_relative_name() -> None:
    """A full name says from which floor it comes."""
    relative = [
        module.name
        for module in modules()
        for node in ast.walk(ast.parse(module.read_text(encoding="utf-8")))
        if isinstance(node, ast.ImportFrom) and node.level
    ]
    assert relative == []


def test_no_module_is_longer_than_400_lines() -> None:
    """The house's own limit: one idea a module."""
    long = {
        module.relative_to(SOURCE).as_posix(): lines
        for module in modules()
        if (lines := len(module.read_text(encoding="utf-8").splitlines())) > 400
    }
    assert long == {}


@pytest.mark.laptop
def test_the_floors_stand(monkeypatch: pytest.MonkeyPatch) -> None:
    """The contracts of pyproject.toml, by import-linter."""
    from importlinter.cli import lint_imports  # noqa: PLC0415 - a compiled library, which the browser's Python lacks

    monkeypatch.chdir(ROOT)
    # It would silence every other log of this process.
    monkeypatch.setattr("importlinter.cli._configure_logging", lambda _: None)
    assert lint_imports(config_filename="pyproject.toml", no_cache=True) == 0
