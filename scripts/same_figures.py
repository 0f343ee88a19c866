"""Check that other Pythons of this machine give the examples the same figures, to 1e-9.

Rules
-----
1. Every Python that the package supports is looked for on the path and among pyenv's; one that is not here is named.
2. The figures are made in this run by the checkout's own Python, never committed.
3. The engine needs the standard library alone, so that a bare Python will do.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import environment

#: The engine and the tests' own comparison, for whatever Python runs this.
sys.path[:0] = [str(environment.ROOT), str(environment.ROOT / "src")]

#: Minor versions of Python 3 that are compared.
VERSIONS = (11, 12, 13, 14)
#: Differences that are shown of one example.
SHOWN = 3
_VERSION = "import sys; print(*sys.version_info[:2], sep='.')"


def main() -> int:
    """Compare all Pythons that are here; return 1 where one gives another figure."""
    environment.ensure("test")
    own = figures_of(environment.python())
    failed = False
    for minor in VERSIONS:
        if _is(environment.python(), minor):
            environment.say(f"Python 3.{minor}: the checkout's own, which the others are compared with")
            continue
        python = found(minor)
        if python is None:
            environment.say(f"Python 3.{minor}: not on this machine, skipped")
            continue
        off = compared(own, figures_of(python))
        failed = failed or bool(off)
        told = "\n  ".join(["other figures", *off]) if off else f"the same figures of {len(own)} examples"
        environment.say(f"Python 3.{minor} ({python}): {told}")
    return int(failed)


def found(minor: int) -> Path | None:
    """Return a Python of a version that really starts, or None."""
    pyenv = Path(os.environ.get("PYENV_ROOT", Path.home() / ".pyenv")) / "versions"
    on_path = shutil.which(f"python3.{minor}")
    places = [*([Path(on_path)] if on_path else []), *sorted(pyenv.glob(f"3.{minor}.*/bin/python"))]
    return next((place for place in places if _is(place, minor)), None)


def _is(python: Path, minor: int) -> bool:
    done = subprocess.run([python, "-c", _VERSION], check=False, capture_output=True, encoding="utf-8")
    return done.stdout.strip() == f"3.{minor}"


def write_figures(python: Path, file: Path) -> None:
    """Write the figures of all examples, as a Python makes them from the checkout's sources."""
    command = [str(python), "-m", "tests.diagnosis.figures", str(file)]
    places = {"PYTHONPATH": str(environment.ROOT / "src"), "PYTHONDONTWRITEBYTECODE": "1"}
    subprocess.run(command, check=True, cwd=environment.ROOT, env=os.environ | places)


def figures_of(python: Path) -> dict[str, dict[str, object]]:
    """Return the figures of all examples, as a Python makes them."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "figures.json"
        write_figures(python, file)
        read: dict[str, dict[str, object]] = json.loads(file.read_text(encoding="utf-8"))
    return read


def compared(own: dict[str, dict[str, object]], other: dict[str, dict[str, object]]) -> list[str]:
    """Return the first differences of each example."""
    from tests.diagnosis.figures import differences  # noqa: PLC0415 - stands on the path set above

    return [line for name in own for line in differences(own[name], other.get(name, {}))[:SHOWN]]


if __name__ == "__main__":
    sys.exit(main())
