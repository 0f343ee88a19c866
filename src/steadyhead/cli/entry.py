"""Where every command begins, and every way in which one ends.

Rules
-----
1. ``--version`` answers before anything heavy is imported.
2. 0: done. 1: a mistake of the program, told in one line. 2: the input is at fault, each problem in a line of its own.
   130: the person stopped it.
3. Errors go to stderr as text, also with ``--json``; stdout then stays empty. Nobody sees a traceback, unless
   ``STEADYHEAD_DEBUG=1`` asks for it.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Sequence

from steadyhead import __version__

STOPPED = 130


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code.

    Parameters
    ----------
    arguments
        What stands after the program's name; the process's own where left out.
    """
    words = list(sys.argv[1:] if arguments is None else arguments)
    if words == ["--version"]:
        sys.stdout.write(f"steadyhead {__version__}\n")
        return 0
    _speak_to_any_terminal()
    return guarded(lambda: _run(words))


def guarded(run: Callable[[], int]) -> int:
    """Return the exit code of `run`, whatever happens in it."""
    try:
        return run()
    except KeyboardInterrupt:
        return STOPPED
    except Exception as error:
        if os.environ.get("STEADYHEAD_DEBUG") == "1":
            raise
        return _failed(error)


def _run(words: list[str]) -> int:
    from steadyhead.cli.command_line import run  # noqa: PLC0415 - not needed by --version

    try:
        return run(words)
    except SystemExit as end:
        return end.code if isinstance(end.code, int) else 0


def _failed(error: Exception) -> int:
    from steadyhead.cli.problems import failure  # noqa: PLC0415 - needed only when something is wrong

    code, text = failure(error)
    sys.stderr.write(f"{text}\n")
    return code


def _speak_to_any_terminal() -> None:
    """Let a sign that this terminal cannot show be replaced, instead of ending the program."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")
