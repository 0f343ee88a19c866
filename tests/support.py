"""What several tests need: where the checkout stands, which files it tracks, and tools that may be missing."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path
from typing import NoReturn

import pytest

ROOT = Path(__file__).resolve().parent.parent


#: Set by `scripts/long.py`: property tests of what takes seconds look at many more examples.
LONG = bool(os.environ.get("STEADYHEAD_LONG"))


def examples(short: int, long: int) -> int:
    """Return how many examples a property of something slow gets: few in the suite, many in `scripts/long.py`."""
    return long if LONG else short


def require_tool(name: str) -> str:
    """Return the path of the command `name`; without it skip on a laptop, and fail in CI, where all must run."""
    found = shutil.which(name)
    if found is None:
        cannot_run(f"the command `{name}` is not installed")
    return found


def cannot_run(reason: str) -> NoReturn:
    """Skip the test with its reason on a laptop; fail it in CI, where nothing may be skipped in silence."""
    if os.environ.get("CI"):
        pytest.fail(f"{reason}, and in CI this must run", pytrace=False)
    pytest.skip(reason)


def project_files(*suffixes: str) -> list[Path]:
    """Return the files that belong to the project (tracked, or new and not ignored), of these suffixes or of all."""
    command = [require_tool("git"), "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
    names = subprocess.run(command, check=True, cwd=ROOT, capture_output=True, encoding="utf-8").stdout.split("\0")
    files = (ROOT / name for name in sorted(set(names)) if name)
    return [file for file in files if file.is_file() and (not suffixes or file.suffix in suffixes)]
