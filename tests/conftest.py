"""How Hypothesis searches: without a clock, the same everywhere in CI, and briefly in a browser's slower Python."""

import os
import sys

from hypothesis import settings

settings.register_profile("laptop", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True, database=None, print_blob=True)
settings.register_profile("browser", deadline=None, derandomize=True, database=None, max_examples=10)


def profile() -> str:
    """Return the profile of this home."""
    if sys.platform == "emscripten":
        return "browser"
    return "ci" if os.environ.get("CI") else "laptop"


settings.load_profile(profile())
