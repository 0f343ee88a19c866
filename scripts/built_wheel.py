"""Build the wheel and use it as a stranger would: a fresh environment, another folder, no checkout in sight.

``python3 scripts/built_wheel.py`` builds sdist and wheel into build/wheel, looks into the wheel, installs it beside its
locked dependencies, asks for its version, and diagnoses an example.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
import time
import zipfile
from pathlib import Path

import environment

BUILD = environment.ROOT / "build" / "wheel"
#: What a wheel must carry beside its modules: the mark that it has types, another language, and the licence.
MUST_HOLD = (
    "steadyhead/py.typed", "words/locale/es/LC_MESSAGES/steadyhead.mo", "licenses/LICENSE", "licenses/NOTICE",
)  # fmt: skip


def main() -> int:
    """Build, look, install, run; return the exit code."""
    environment.ensure("dev")
    wheel = build()
    look_into(wheel)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        steadyhead = install(wheel, folder / "a fresh environment")
        elsewhere = folder / "another folder"
        elsewhere.mkdir()
        run([str(steadyhead), "--version"], elsewhere)
        example = first_example()
        shutil.copy(example, elsewhere)
        run([str(steadyhead), "diagnose", example.name], elsewhere)
        say_start_up(steadyhead, elsewhere)
    return 0


def build() -> Path:
    """Build sdist and wheel, the wheel from the sdist, and return the wheel."""
    shutil.rmtree(BUILD, ignore_errors=True)
    run([str(environment.python()), "-m", "build", "--outdir", str(BUILD), str(environment.ROOT)], environment.ROOT, "")
    return next(BUILD.glob("*.whl"))


def look_into(wheel: Path) -> None:
    """End with a plain word where the wheel lacks what it must hold, or brings a second package along."""
    with zipfile.ZipFile(wheel) as archive:
        names = archive.namelist()
    lacking = [wanted for wanted in MUST_HOLD if not any(name.endswith(wanted) for name in names)]
    strange = sorted({name.split("/")[0] for name in names if not name.startswith("steadyhead")})
    if lacking or strange:
        environment.say(f"{wheel.name} lacks {lacking} and brings {strange}")
        raise SystemExit(1)
    environment.say(f"{wheel.name}: {len(names)} files, {wheel.stat().st_size / 1024:.0f} kB")


def install(wheel: Path, venv: Path) -> Path:
    """Install the wheel into a fresh environment and return its command."""
    run([sys.executable, "-m", "venv", str(venv)], wheel.parent)
    constraints = str(environment.ROOT / "constraints.txt")
    pip = [str(environment.python(venv)), "-m", "pip"]
    run([*pip, "install", "-qq", "-c", constraints, str(wheel)], wheel.parent)
    run([*pip, "check"], wheel.parent)
    return environment.python(venv).with_name("steadyhead.exe" if environment.WINDOWS else "steadyhead")


def first_example() -> Path:
    """Return the first example that a stranger would try."""
    return min((environment.ROOT / "examples").rglob("*.toml"))


def run(command: list[str], folder: Path, show: str | None = None) -> None:
    """Run a command in `folder`, say which, and end with its exit code where it fails."""
    environment.say("$ " + " ".join(Path(word).name if "/" in word or "\\" in word else word for word in command))
    quiet = subprocess.DEVNULL if show == "" else None
    code = subprocess.run(command, check=False, cwd=folder, stdin=subprocess.DEVNULL, stdout=quiet).returncode
    if code:
        environment.say(f"ended with exit code {code}")
        raise SystemExit(code)


def say_start_up(steadyhead: Path, folder: Path) -> None:
    """Print how much longer ``steadyhead --version`` takes than Python itself: the best of ten each."""
    bare = best_of_ten([str(environment.python(steadyhead.parent.parent)), "-c", "pass"], folder)
    own = best_of_ten([str(steadyhead), "--version"], folder)
    environment.say(f"start: Python {bare * 1000:.0f} ms, steadyhead --version {own * 1000:.0f} ms")


def best_of_ten(command: list[str], folder: Path) -> float:
    """Return the shortest run [s] of ten."""
    times = []
    for _ in range(10):
        start = time.perf_counter()
        subprocess.run(command, check=True, cwd=folder, stdout=subprocess.DEVNULL)
        times.append(time.perf_counter() - start)
    return min(times)


if __name__ == "__main__":
    sys.exit(main())
