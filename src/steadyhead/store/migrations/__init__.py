"""The revisions, oldest first: each brings the lasting tables one version further.

Rules
-----
1. A revision is an ordinary Alembic script: `revision`, `down_revision`, `upgrade()`. It is never changed once a
   release held it, and imports nothing of the tables as they are today.
2. The list is written here, not found in a folder, so that it is there also where the package is read from an archive.
3. What is derived (projections, triggers) is no part of it: that is made anew after the last step.
"""

from __future__ import annotations

from importlib import import_module
from types import ModuleType

REVISIONS = ("r0001_the_record", "r0002_what_is_pending")


def revisions() -> tuple[ModuleType, ...]:
    """Return the revisions, oldest first; Alembic is imported with them."""
    return tuple(import_module(f"{__name__}.{name}") for name in REVISIONS)
