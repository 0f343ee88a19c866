"""How Hypothesis searches: without a clock, the same everywhere in CI, and briefly in a browser's slower Python.

And each belief is weighed once for all tests (`tests.once`).
"""

import os
import sys
from collections.abc import Iterator

import pytest
from hypothesis import settings

from tests.once import each_belief_once

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
def _each_belief_once() -> Iterator[None]:
    """Keep beliefs, once the modules that weigh them are imported."""
    with each_belief_once():
        yield
