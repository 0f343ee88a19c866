"""What is imported when: nobody waits for a database library that is not used."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

import steadyhead

pytestmark = pytest.mark.laptop

HEAVY = ("sqlalchemy", "alembic", "mako")
#: What is run, and which of the libraries may be there then.
STEPS = {
    "import steadyhead.store": (),
    "from steadyhead.cli.entry import main; main(['tables', '--json'])": (),
    "from steadyhead.bootstrap import place_named; place_named(None)": (),
    "from steadyhead.bootstrap import *; open_home(place_named(FILE)).close()": ("sqlalchemy",),
    "from steadyhead.cli.entry import main; main(['doctor', '--data', FILE])": ("sqlalchemy",),
}


@pytest.mark.parametrize("step", STEPS)
def test_a_library_is_imported_only_where_it_is_used(step: str, tmp_path: Path) -> None:
    """Python's own list of modules, in a process of its own; a record that is of today's version needs no Alembic."""
    code = f"import sys\nFILE = {str(tmp_path / 'record.db')!r}\n{step}\nprint(*sys.modules, file=sys.stderr)"
    environment = {**os.environ, "PYTHONPATH": str(Path(steadyhead.__file__).parent.parent)}
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, env=environment, text=True)
    there = set(done.stderr.split())
    assert [name for name in HEAVY if name in there] == list(STEPS[step])
