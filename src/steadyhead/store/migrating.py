"""Climbs the revisions by Alembic's own operations, without its folders and settings.

Rules
-----
1. All steps happen in the caller's transaction: a migration that fails leaves the database as it was.
2. Only steps after the database's own version are taken, in the order of the ladder.
"""

from __future__ import annotations

from collections.abc import Sequence
from types import ModuleType

from alembic.migration import MigrationContext
from alembic.operations import Operations
from sqlalchemy import Connection, delete

from steadyhead.store.migrations import revisions
from steadyhead.store.tables import version


def climb(connection: Connection, found: str, ladder: Sequence[ModuleType] | None = None) -> None:
    """Bring the lasting tables from version `found` to the last of the ladder.

    Parameters
    ----------
    connection
        With a transaction that may write.
    found
        The version that the database is of.
    ladder
        The revisions; the program's own where left out.
    """
    steps = [step for step in (revisions() if ladder is None else ladder) if step.revision > found]
    with Operations.context(MigrationContext.configure(connection)):
        for step in steps:
            step.upgrade()
    if steps:
        connection.execute(delete(version))
        connection.execute(version.insert().values(version_num=steps[-1].revision))
