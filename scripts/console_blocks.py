"""What a document shows of a terminal is run: the commands of its ``console`` blocks, and the output under them.

Rules
-----
1. Only fenced blocks labelled ``console`` count; set-up that a test cannot repeat stands in blocks labelled ``sh``.
2. A line that starts with ``$ `` is a command: ``steadyhead ...`` or ``python3 run.py ...``, without pipes; ``< FILE``
   at its end is what is typed into it.
3. The lines under a command are what it prints (stdout, then stderr) on a terminal of 80 columns without colour;
   a line ``...`` stands for any number of lines.
4. A command with nothing under it must only end well. ``# exit code 2`` behind a command says that it does not.
5. `scripts/docs.py --write` replaces the lines under a command where they differ; one line is enough to begin with.
6. Every document's commands run one after the other in one copy of the checkout's examples.
"""

from __future__ import annotations

import os
import re
import shlex
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

_BLOCK = re.compile(r"^```console\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_TYPED = re.compile(r"\s+<\s*(\S+)$")
_EXIT_CODE = re.compile(r"\s+# exit code (\d+)$")
_TERMINAL = {"COLUMNS": "80", "LINES": "24", "NO_COLOR": "1", "TERM": "dumb", "PYTHONUTF8": "1", "LC_ALL": "C.UTF-8"}
#: No company's own estimates: what is shown is what everybody gets.
_TERMINAL["STEADYHEAD_COMPANY"] = "none"
_STARTS = (["steadyhead"], ["python3", "run.py"])
#: What an installed console script does, with the package of any Python.
_COMMAND = "import sys; from steadyhead.cli.entry import main; sys.argv[0] = 'steadyhead'; sys.exit(main())"


@dataclass(frozen=True, slots=True)
class Shown:
    """One command of a document, with the output shown under it; `output` is empty where none is shown."""

    document: str
    line: str
    output: tuple[str, ...]

    @property
    def command(self) -> str:
        """The command without the remark on its exit code."""
        return _EXIT_CODE.sub("", self.line)

    @property
    def typed(self) -> str | None:
        """Name of the file with what is typed into it, None where nothing is."""
        found = _TYPED.search(self.command)
        return found[1] if found else None

    @property
    def exit_code(self) -> int:
        """The exit code that the document promises."""
        found = _EXIT_CODE.search(self.line)
        return int(found[1]) if found else 0


@dataclass(frozen=True, slots=True)
class Seen:
    """What really came: exit code and lines."""

    exit_code: int
    output: tuple[str, ...]


def documents(root: Path) -> list[Path]:
    """Return the documents whose commands are run: the ones a reader starts with, and the manual."""
    return sorted([*root.glob("*.md"), *root.glob("docs/**/*.md")])


def shown_in(document: Path) -> list[Shown]:
    """Return every command of a document, in its order."""
    text = document.read_text(encoding="utf-8")
    return [shown for block in _BLOCK.finditer(text) for shown in _commands(document.name, block[1])]


def _commands(document: str, block: str) -> Iterator[Shown]:
    """Yield the commands of one block."""
    for part in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
        line, *output = part.rstrip("\n").split("\n")
        yield Shown(document, line, tuple(text.rstrip() for text in output) if any(output) else ())


def run(shown: Shown, folder: Path, python: Path) -> Seen:
    """Run one command in `folder` with the package of `python`."""
    words = shlex.split(_TYPED.sub("", shown.command))
    start = next((start for start in _STARTS if words[: len(start)] == start), None)
    if start is None:
        reason = f"{shown.document}: `{shown.command}` must start with `steadyhead` or `python3 run.py`"
        raise LookupError(reason)
    done = subprocess.run(
        [python, "-c", _COMMAND, *words[len(start) :]],
        check=False,
        cwd=folder,
        env=os.environ | _TERMINAL,
        input="" if shown.typed is None else (folder / shown.typed).read_text(encoding="utf-8"),
        capture_output=True,
        encoding="utf-8",
    )
    lines = (done.stdout + done.stderr).rstrip().split("\n")
    return Seen(done.returncode, tuple(line.rstrip() for line in lines))


def agrees(shown: Shown, seen: Seen) -> bool:
    """Tell whether the document shows what came.

    >>> agrees(Shown("README.md", "steadyhead x", ("one", "...", "four")), Seen(0, ("one", "two", "three", "four")))
    True
    >>> agrees(Shown("README.md", "steadyhead x", ("one", "four")), Seen(0, ("one", "two", "three", "four")))
    False
    """
    if shown.exit_code != seen.exit_code:
        return False
    pattern = "".join(r"(?:.*\n)*?" if line == "..." else re.escape(line) + r"\n" for line in shown.output)
    return not shown.output or re.fullmatch(pattern, "".join(f"{line}\n" for line in seen.output)) is not None


def working_copy(root: Path, folder: Path) -> Path:
    """Copy the examples into `folder`, where commands may write, and return it."""
    if (root / "examples").is_dir():
        shutil.copytree(root / "examples", folder / "examples")
    return folder


def write(document: Path, root: Path, python: Path) -> None:
    """Put the real output under every command that shows one."""
    text = document.read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as name:
        folder = working_copy(root, Path(name))
        fresh = _BLOCK.sub(lambda block: _rewritten(document, block[1], folder, python), text)
    document.write_text(fresh, encoding="utf-8")


def _rewritten(document: Path, block: str, folder: Path, python: Path) -> str:
    """Return one block with what its commands print today; an output with ``...`` stays while it still agrees."""
    lines = []
    for shown in _commands(document.name, block):
        seen = run(shown, folder, python)
        kept = shown if not shown.output or agrees(shown, seen) else replace(shown, output=seen.output)
        lines += [f"$ {kept.line}", *kept.output]
    return "\n".join(["```console", *lines, "```"])
