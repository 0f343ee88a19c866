"""How Hypothesis searches: without a clock, the same everywhere in CI, and briefly in a browser's slower Python.

And each belief and each answer is worked out once for all tests, in all workers (`tests.once`), and each template of a
page compiled once (`tests.compiled`).
"""

import os
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings

from tests.compiled import each_template_once
from tests.once import each_once

settings.register_profile("laptop", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True, database=None, print_blob=True)
settings.register_profile("browser", deadline=None, derandomize=True, database=None, max_examples=10)


def profile() -> str:
    """Return the profile of this home."""
    if sys.platform == "emscripten":
        return "browser"
    return "ci" if os.environ.get("CI") else "laptop"


settings.load_profile(profile())


@pytest.fixture(autouse=True, scope="session")
def _each_once(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Keep what the engine says, once the modules that ask it are imported; workers of one run share them."""
    with each_once(shared_folder(tmp_path_factory)), each_template_once():
        yield


def shared_folder(tmp_path_factory: pytest.TempPathFactory) -> Path | None:
    """Return the folder that the workers of this run share, None where it has no workers."""
    if "PYTEST_XDIST_WORKER" not in os.environ:
        return None
    found = tmp_path_factory.getbasetemp().parent / "once"
    found.mkdir(exist_ok=True)
    return found
