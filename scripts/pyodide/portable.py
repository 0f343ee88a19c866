"""Runs inside Pyodide: imports every module of the package, then every test that this Python can run.

Rules
-----
1. A test file is left out when it, or a file of the tests or the builders that it imports, imports what is not here: a
   library that is not among the unpacked wheels, or a module that needs processes, sockets or threads.
2. So is a test with the marker `laptop` or `ngspice`. What is left out is named, file by file, with the import that it
   wanted; nothing is skipped in silence.
3. The engine's own tests take half of the time, and what it answers is compared with CPython's figure by figure
   anyway: of `ENGINE` only the comparison runs, and all of it with ``--whole`` (`scripts/long.py`).
4. The heavy packages (`HEAVY`) want compiled libraries or processes: they are neither imported nor tested here.
"""

from __future__ import annotations

import ast
import importlib
import importlib.util
import pkgutil
import sys
import time
from functools import cache
from pathlib import Path

import pytest

SITE = Path("/site")
CHECKOUT = Path("/checkout")

#: Modules of the standard library that can be imported here but not used, or only the checkout's tools have.
UNUSABLE = frozenset({"subprocess", "socket", "threading", "multiprocessing", "venv", "ssl", "signal", "fcntl"})
#: The engine's own tests, and the one of them that compares its figures.
ENGINE, COMPARED = CHECKOUT / "tests" / "diagnosis", "test_same_figures.py"
#: Packages of ours that only a laptop and a company can import.
HEAVY = ("montecarlo", "pdf", "workers")
#: The switch that leaves nothing of the engine out.
WHOLE = "--whole"
#: The checkout's own helper scripts start processes.
SCRIPTS = frozenset(path.stem for path in (CHECKOUT / "scripts").glob("*.py"))


class LeaveOut:
    """A pytest plugin that leaves out the test files which cannot run here, and lists them at the end."""

    def __init__(self, *, whole: bool) -> None:
        self.left_out: dict[str, str] = {}
        self._whole = whole

    def pytest_ignore_collect(self, collection_path: Path) -> bool | None:
        """Ignore a test file that wants what is not here."""
        if any(SITE / "steadyhead" / heavy in (collection_path, *collection_path.parents) for heavy in HEAVY):
            return True
        if collection_path.suffix != ".py" or CHECKOUT / "tests" not in collection_path.parents:
            return None
        reason = self._reason(collection_path)
        if reason is None:
            return None
        self.left_out[str(collection_path.relative_to(CHECKOUT))] = reason
        return True

    def _reason(self, file: Path) -> str | None:
        """Return why a test file is left out, or None."""
        wanted = missing(file)
        if wanted is not None:
            return f"imports {wanted}"
        engine = file.parent == ENGINE and file.name.startswith("test_") and file.name != COMPARED
        return "runs with --whole" if engine and not self._whole else None

    def pytest_terminal_summary(self, terminalreporter: pytest.TerminalReporter) -> None:
        """Name what was left out."""
        terminalreporter.section(f"left out here: {len(self.left_out)} files")
        for file, reason in self.left_out.items():
            terminalreporter.line(f"{file} ({reason})")


@cache
def missing(file: Path) -> str | None:
    """Return the first import of a test file that cannot be had here, or None."""
    return next(filter(None, map(_missing_module, imports(file))), None)


def imports(file: Path) -> list[str]:
    """Return the modules that a file imports, in full."""
    found: list[str] = []
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.module:
            found += [node.module, *(f"{node.module}.{alias.name}" for alias in node.names)]
    return found


def _missing_module(name: str) -> str | None:
    top = name.partition(".")[0]
    if top in {"tests", "builders"}:
        file = CHECKOUT.joinpath(*name.split(".")).with_suffix(".py")
        # tests.support may import what starts processes: its fixtures say so when they are used.
        return missing(file) if file.is_file() and file.stem != "support" else None
    if is_heavy(name):
        return name
    if top in UNUSABLE or top in SCRIPTS or importlib.util.find_spec(top) is None:
        return top
    return None


def is_heavy(name: str) -> bool:
    """Tell whether a module, named in full, is one of the heavy packages or stands in one."""
    return any(f"{name}.".startswith(f"steadyhead.{heavy}.") for heavy in HEAVY)


def import_everything() -> int:
    """Import every module of the package but the heavy ones, and return how many there are."""
    package = importlib.import_module("steadyhead")
    every = [module.name for module in pkgutil.walk_packages(package.__path__, "steadyhead.")]
    names = [name for name in every if not is_heavy(name)]
    for name in names:
        if not name.endswith(".__main__"):
            importlib.import_module(name)
    return len(names)


def main(arguments: list[str]) -> int:
    """Import and test; return pytest's exit code."""
    started = time.perf_counter()
    count = import_everything()
    print(f"Python {sys.version.split()[0]}: imported {count} modules in {time.perf_counter() - started:.1f} s")
    # A dependency that brings a plugin is imported by now, too late to be rewritten; only one plugin is wanted anyway.
    plugins = ["--disable-plugin-autoload", "-p", "_hypothesis_pytestplugin", "-p", "no:cacheprovider"]
    settings = ["-c", str(CHECKOUT / "pyproject.toml"), *plugins, "-m", "not laptop and not ngspice"]
    places = [str(CHECKOUT / "tests"), str(SITE / "steadyhead")]
    own = [argument for argument in arguments if argument != WHOLE]
    return int(pytest.main([*settings, *places, *own], plugins=[LeaveOut(whole=WHOLE in arguments)]))
