"""The project's own ``.venv``: made when it is missing, renewed when its recipe changed, otherwise left alone.

Rules
-----
1. The recipe is pyproject.toml, constraints.txt and the folder's own path (an editable install remembers it).
2. A stamp in ``.venv`` holds the recipe's digest for each extra; it is written last, so that a set-up that was cut off
   has none and is made anew.
3. Where the stamp is right nothing is installed, no network is asked, and the command replaces this process.
4. A failed installation says what failed and leaves no stamp.
"""

from __future__ import annotations

import hashlib
import os
import shlex
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
RECIPE = (ROOT / "pyproject.toml", ROOT / "constraints.txt")
WINDOWS = os.name == "nt"

#: A worker for each core. Each begins with half of the files, since a file's tests share what is worked out once; who
#: is done takes over from the other's end, so that none waits alone.
SPREAD = ("-n", "auto", "--dist", "worksteal")
#: What `python3 run.py test` alone runs: all that needs no other program. Those have stages of their own (`.ci/run`).
NO_OTHER_PROGRAM = ("-m", "not chromium and not ngspice and not manual")
#: What each extra brings with it: who has the tests' libraries has the plain package too.
INCLUDES: dict[str, tuple[str, ...]] = {
    "": (),
    "laptop": ("",),
    "test": ("laptop", ""),
    "dev": ("test", "laptop", ""),
}


def run(arguments: list[str]) -> int:
    """Run ``steadyhead`` with `arguments`, the app without any, the test suite for ``test``; return the exit code."""
    try:
        return set_up_and_run(arguments)
    except KeyboardInterrupt:
        say("Stopped. What was begun is done anew the next time.")
        return 130


def set_up_and_run(arguments: list[str]) -> int:
    """Do the two steps; on POSIX the second never comes back."""
    if arguments[:1] == ["test"]:
        ensure("test")
        os.chdir(ROOT)
        return replace_process([str(python()), "-m", "pytest", *SPREAD, *(arguments[1:] or NO_OTHER_PROGRAM)])
    ensure("laptop")
    return replace_process([*console_script(), *(arguments or ["app"])])


def ensure(extra: str = "") -> None:
    """Make sure that ``.venv`` holds the package, its locked dependencies and the `extra`'s."""
    if is_ready(extra):
        return
    if not has_working_python():
        make_venv()
    install(extra)


def is_ready(extra: str) -> bool:
    """Tell whether the stamp for `extra` is the one that today's recipe asks for, and a Python stands behind it."""
    try:
        return python().exists() and stamp(extra).read_text(encoding="utf-8") == digest()
    except FileNotFoundError:
        return False


def digest() -> str:
    """Return the recipe's digest."""
    recipe = hashlib.sha256(str(ROOT).encode())
    for file in RECIPE:
        recipe.update(file.read_bytes())
    return recipe.hexdigest()


def project() -> dict[str, list[str]]:
    """Return what pyproject.toml says of the project."""
    table: dict[str, list[str]] = tomllib.loads(RECIPE[0].read_text(encoding="utf-8"))["project"]
    return table


def stamp(extra: str) -> Path:
    """Return the file that says which recipe was installed for `extra`."""
    return VENV / f"installed-{extra or 'package'}"


def python(venv: Path = VENV) -> Path:
    """Return the Python of a virtual environment."""
    return venv / "Scripts" / "python.exe" if WINDOWS else venv / "bin" / "python"


def console_script() -> list[str]:
    """Return how ``steadyhead`` is started, without a shell and however long the path is."""
    if WINDOWS:
        return [str(VENV / "Scripts" / "steadyhead.exe")]
    return [str(python()), str(VENV / "bin" / "steadyhead")]


def has_working_python() -> bool:
    """Tell whether ``.venv`` was finished once and its Python still starts, with pip."""
    if not any(stamp(extra).exists() for extra in INCLUDES) or not python().exists():
        return False
    return subprocess.run([python(), "-m", "pip", "--version"], check=False, capture_output=True).returncode == 0


def make_venv() -> None:
    """Make ``.venv`` anew, with this Python."""
    say(f"Making {VENV}")
    if VENV.exists():
        shutil.rmtree(VENV)
    stop_unless_done([sys.executable, "-m", "venv", str(VENV)])


def install(extra: str) -> None:
    """Install the checkout itself, with its locked dependencies and those of `extra`."""
    extras = ",".join(each for each in (extra, *INCLUDES[extra]) if each)
    wanted = f"{ROOT}[{extras}]" if extras else str(ROOT)
    say(f"Installing Steadyhead{' and the libraries for: ' + extras if extras else ''} (once; needs a network)")
    kept = [each for each in INCLUDES if is_ready(each)]
    for each in INCLUDES:
        stamp(each).unlink(missing_ok=True)
    constraints = str(ROOT / "constraints.txt")
    stop_unless_done([str(python()), "-m", "pip", "install", "-qq", "-c", constraints, "-e", wanted])
    for each in {extra, *INCLUDES[extra], *kept}:
        stamp(each).write_text(digest(), encoding="utf-8")


def stop_unless_done(command: list[str]) -> None:
    """Run `command`; where it fails, end with its exit code and say what failed."""
    code = subprocess.run(command, check=False, stdin=subprocess.DEVNULL).returncode
    if code:
        say(f"This failed with exit code {code}: {' '.join(command)}")
        raise SystemExit(code)


def check(command: list[str]) -> int:
    """Run one of the project's checks from the checkout's folder, say which, and return its exit code."""
    ensure("dev")
    say("$ " + shlex.join(command))
    return subprocess.run([str(tool(command[0])), *command[1:]], check=False, cwd=ROOT).returncode


def tool(name: str) -> Path:
    """Return a command of the virtual environment."""
    return python().with_name(f"{name}.exe" if WINDOWS else name)


def replace_process(command: list[str]) -> int:
    """Become `command` where the system can do that; elsewhere run it and return its exit code."""
    if not WINDOWS:
        sys.stdout.flush()
        os.execv(command[0], command)  # noqa: S606 - no shell is wanted
    return subprocess.run(command, check=False).returncode


def say(text: str) -> None:
    """Tell the person what goes on, on stderr: stdout belongs to the command."""
    print(text, file=sys.stderr, flush=True)
