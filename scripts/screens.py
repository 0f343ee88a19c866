"""Take a screenshot of every page of the app, narrow and wide, light and dark, into build/screens.

``python3 scripts/screens.py`` takes them in English; ``--language es`` in Spanish; ``--only van`` takes those pages
alone whose names hold a word. What is taken, and how, stands in tests/browser/screens.py.
"""

from __future__ import annotations

import shutil
import sys

import environment

FOLDER = environment.ROOT / "build" / "screens"


def main(arguments: list[str]) -> int:
    """Take them anew; return the exit code."""
    environment.ensure("test")
    if not arguments:
        shutil.rmtree(FOLDER, ignore_errors=True)
    return environment.check(["python", "-m", "tests.browser.screens", str(FOLDER), *arguments])


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
