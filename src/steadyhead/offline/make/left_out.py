"""Which files of the app and of its libraries a browser never reads: they are left out of what a phone fetches.

Rules
-----
1. What only people, compilers, tests or a terminal read is left out: sources, types, licences stay with the wheels.
2. So is what a browser's Python can't run: compiled libraries, processes, databases other than SQLite.
3. A module that names what is left out is replaced by one that does not (`REPLACED`).
"""

from __future__ import annotations

from pathlib import PurePosixPath

#: Endings that nothing asks for at run time.
ENDINGS = frozenset({".pyc", ".pyi", ".pyx", ".pxd", ".c", ".h", ".so", ".pyd", ".tab", ".typed", ".zi"})
#: Folders that are left out wherever they stand: the libraries' help for tests, and what an interpreter wrote.
FOLDERS = frozenset({"testing", "__pycache__"})
#: Of a wheel's own description only this is read at run time: its version, and what it plugs in where.
DESCRIPTION = frozenset({"METADATA", "entry_points.txt"})
#: Folders and files that are left out, by their place in the archive.
PLACES = (
    "alembic/__main__.py", "alembic/ddl/mssql.py", "alembic/ddl/mysql.py", "alembic/ddl/oracle.py",
    "alembic/ddl/postgresql.py", "alembic/templates", "mako/cmd.py", "mako/ext", "segno/cli.py",
    "sqlalchemy/dialects/mssql", "sqlalchemy/dialects/mysql", "sqlalchemy/dialects/oracle",
    "sqlalchemy/dialects/postgresql", "sqlalchemy/dialects/type_migration_guidelines.txt",
    "steadyhead/__main__.py", "steadyhead/cli", "steadyhead/montecarlo", "steadyhead/offline/build.py",
    "steadyhead/offline/make", "steadyhead/offline/site", "steadyhead/pdf", "steadyhead/workers",
    "tzdata/zoneinfo/leapseconds", "uncertainties/unumpy",
)  # fmt: skip
#: Modules that stand here with another text than in their wheel. Alembic imports the dialect of every database.
REPLACED = {
    "alembic/ddl/__init__.py": b"from . import sqlite\nfrom .impl import DefaultImpl as DefaultImpl\n",
}


def wanted(name: str) -> bool:
    """Tell whether anything reads a file at run time.

    Parameters
    ----------
    name
        Its place in the archive.

    Examples
    --------
    >>> wanted("steadyhead/loop/circuit.py"), wanted("steadyhead/cli/app.py"), wanted("idna/py.typed")
    (True, False, False)
    """
    file = PurePosixPath(name)
    top, *inside = file.parts
    if top.endswith(".dist-info"):
        return len(inside) == 1 and file.name in DESCRIPTION
    if top.endswith(".data") or file.suffix in ENDINGS or FOLDERS & set(file.parts):
        return False
    return not any(name == place or name.startswith(f"{place}/") for place in PLACES)
