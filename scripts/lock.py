"""Write constraints.txt anew: the newest versions that pyproject.toml allows, as one set that was installed together.

Run it when a dependency is added or should be renewed, then run everything else: ``python3 scripts/lock.py``.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

import environment

HEAD = """\
# The versions that `python3 run.py` and every check install, on every system. Written by scripts/lock.py.
"""
#: Wanted on other systems than the one that writes the lock, or for building the wheel.
ALSO = ("colorama", "hatchling", "editables")


def main() -> None:
    """Install every extra into a new environment without constraints, and write what came."""
    with tempfile.TemporaryDirectory() as folder:
        environment.stop_unless_done([sys.executable, "-m", "venv", folder])
        python = environment.python(Path(folder))
        wanted = f"{environment.ROOT}[company,laptop,test,dev]"
        environment.stop_unless_done([str(python), "-m", "pip", "install", "-qq", wanted, *ALSO])
        command = [str(python), "-m", "pip", "freeze", "--exclude", "steadyhead"]
        frozen = subprocess.run(command, check=True, capture_output=True, encoding="utf-8").stdout
    (environment.ROOT / "constraints.txt").write_text(HEAD + frozen, encoding="utf-8")
    print(f"constraints.txt: {len(frozen.splitlines())} packages")


if __name__ == "__main__":
    main()
