"""Times one whole diagnosis, as a technician waits for it, beside a circuit simulator on the same kind of loop.

Run
---
::

    python benchmarks/diagnose.py
    python benchmarks/diagnose.py --runs 9 --command steadyhead --check
    python benchmarks/diagnose.py --against ../steadyhead-of-last-month

It prints, side by side and as ratios: the whole process ``steadyhead diagnose examples/house-damp-cable.toml --json``,
ngspice's 5,000 operating points of a three-wire loop in one process, the peak memory of both, and how much longer
``steadyhead --version`` takes than Python itself; then whole visits in one process as the app asks for them, reading by
reading: the first answer, and the next check after each further reading; ``--against`` another checkout too.

Rules
-----
1. Every figure is of a whole process, from start to end, and the best of several runs, which take turns, so that a busy
   machine hurts all alike.
2. ngspice is used as fast as it goes: one circuit, altered and solved in place, every plot destroyed, output thrown
   away, and a circuit so written that no point needs its conductances stepped, which takes ten times as long.
3. Each operating point is another loop: leak and pressure are altered, as a diagnosis does.
4. Visits are timed by the processor's seconds, each answer the best of the runs; the loaded package and its tables are
   not counted, what the app remembers from reading to reading is.
"""

from __future__ import annotations

import argparse
import os
import shlex
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
EXAMPLE = ROOT / "examples" / "house-damp-cable.toml"
POINTS = 5000
#: What a diagnosis may take of ngspice's time, of memory [MB], and ``--version`` beyond bare Python [s].
MOST_RATIO, MOST_MEGABYTES, MOST_START_S = 1.5, 120.0, 0.1
#: What an installed console script does, with the package of this checkout.
#: Visits that are played, and what a next check should take on the average [s].
NEXT_S = 0.5
#: An answer that takes less is one of a mended loop, where nothing is weighed.
MENDED_S = 0.05
PLAYED = ("amplified-frost-damage", "booster-corroded-terminal", "house-cock-left-shut", "house-damp-cable")
#: Plays the files that it is given, reading by reading with one memory, and prints each answer's seconds.
PLAY = """
import sys, time
from dataclasses import replace
from pathlib import Path
from steadyhead.diagnosis.memory import Memory
from steadyhead.visit import parse_visit
from steadyhead.web.views.asking import thought
from steadyhead.words import USUAL

for name in sys.argv[1:]:
    visit, memory, taken = parse_visit(Path(name).read_text(encoding="utf-8"), name).visit, Memory(), []
    for count in range(len(visit.readings) + 1):
        done = tuple(action for action in visit.actions if action.after_reading <= count)
        begun = time.process_time()
        thought(memory, replace(visit, readings=visit.readings[:count], actions=done), USUAL, assumed=False)
        taken.append(time.process_time() - begun)
    print(*taken)
"""
SCRIPT = "import sys; from steadyhead.cli.entry import main; sys.argv[0] = 'steadyhead'; sys.exit(main())"

#: A three-wire sensor with a limited push-pull output, three cores, an input with clamps and pull-up, and damp.
CIRCUIT = """\
* three-wire loop
Vsource ideal 0 5
Rsource ideal t_supply 4
Rother t_supply 0 1meg
Rsupply t_supply n_supply 1.3
Rsignal t_signal n_signal 1.3
Rcommon 0 n_common 1.3
Vpart part 0 0.48
Rdraw n_supply n_common 1k
Bstage n_supply n_signal I=8e-3*tanh(((0.1+0.8*v(part))*v(n_supply,n_common)-v(n_signal,n_common))/(220*8e-3))
Rleak n_signal n_common 150
Rin t_signal 0 100k
Rpull t_supply t_signal 6meg
Vrail rail 0 5.6
Dhigh t_signal rail clamp
Dlow 0 t_signal clamp
.model clamp D(is=1e-14)
.options itl1=500
.control
set noprintheader
"""


@dataclass(frozen=True, slots=True)
class Cost:
    """What a process took: from start to end [s], and its most memory [MB]."""

    seconds: float
    megabytes: float


@dataclass(frozen=True, slots=True)
class Played:
    """What visits took, answer by answer, in one process: those of an open visit, not of one that is mended [s]."""

    first: tuple[float, ...]
    further: tuple[float, ...]

    def told(self, name: str) -> str:
        """Return a line of the table."""
        means = [sum(each) / len(each) for each in (self.first, self.further)]
        return (
            f"{name:<22} {means[0]:6.2f} s {max(self.first):6.2f} s    "
            f"{means[1]:6.2f} s {max(self.further):6.2f} s"
        )


def played(roots: Sequence[Path], runs: int) -> list[Played]:
    """Return the best of several plays of each checkout, which take turns."""
    files = [str(ROOT / "examples" / f"{name}.toml") for name in PLAYED]
    best_of: list[list[list[float]]] = [[] for _ in roots]
    for _ in range(runs):
        for number, root in enumerate(roots):
            env = {**os.environ, "PYTHONPATH": str(root / "src")}
            done = subprocess.run([sys.executable, "-c", PLAY, *files], env=env, capture_output=True, check=True)
            rows = [[float(each) for each in line.split()] for line in done.stdout.decode().splitlines()]
            known = best_of[number] or rows
            best_of[number] = [
                [min(pair) for pair in zip(old, new, strict=True)] for old, new in zip(known, rows, strict=True)
            ]
    return [
        Played(tuple(row[0] for row in rows), tuple(each for row in rows for each in row[1:] if each > MENDED_S))
        for rows in best_of
    ]


def visits_table(found: Sequence[Played], against: Path | None) -> list[str]:
    """Return the lines to print of visits that were played: here, and in the other checkout where there is one."""
    lines = [
        "",
        f"{len(PLAYED)} visits in one process    first answer          next check",
        f"{'':<22}   mean    worst       mean    worst",
    ]
    lines += [found[0].told("here"), f"  a next check should take {NEXT_S} s on the average"]
    if against is not None:
        here, there = (sum(each.first) + sum(each.further) for each in found)
        lines += [found[1].told(against.name), f"  ratio of all of it      {here / there:6.2f}"]
    return lines


def cost_of(command: Sequence[str]) -> Cost:
    """Return what one run of a command takes; its output is thrown away."""
    env = {**os.environ, "PYTHONPATH": str(ROOT / "src")}
    start = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=env)
    _, status, usage = os.wait4(process.pid, 0)
    seconds = time.perf_counter() - start
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit(f"{shlex.join(command)} ended with exit code {process.returncode}")
    unit = 1e6 if sys.platform == "darwin" else 1e6 / 1024
    return Cost(seconds, usage.ru_maxrss / unit)


def best(commands: dict[str, Sequence[str]], runs: int) -> dict[str, Cost]:
    """Return each command's shortest time and least memory, the commands taking turns."""
    found: dict[str, list[Cost]] = {name: [] for name in commands}
    for _ in range(runs):
        for name, command in commands.items():
            found[name].append(cost_of(command))
    return {
        name: Cost(min(c.seconds for c in costs), min(c.megabytes for c in costs)) for name, costs in found.items()
    }


def netlist() -> str:
    """Return the circuit and its control lines: for each point, leak and pressure altered, solved, plot destroyed."""
    steps = [
        f"alter rleak = {100 + k}\nalter vpart = {0.3 + 0.4 * k / POINTS:.5f}\nop\ndestroy all" for k in range(POINTS)
    ]
    return CIRCUIT + "\n".join(steps) + "\nquit\n.endc\n.end\n"


def ngspice() -> str:
    """Return the path of ngspice's command."""
    found = shutil.which("ngspice")
    if found is None:
        raise SystemExit("the command ngspice is not installed (Debian: ngspice)")
    return found


def solves_in_place(command: Sequence[str]) -> bool:
    """Tell whether ngspice solved every point, none of them by stepping its conductances."""
    done = subprocess.run(command, capture_output=True, check=True, encoding="utf-8", errors="replace")
    said = done.stdout + done.stderr
    return said.count("No. of Data Rows : 1") == POINTS and "gmin step" not in said and "aborted" not in said


def measured(command: str | None, runs: int) -> dict[str, Cost]:
    """Return what each of the four processes takes."""
    ours = [sys.executable, "-c", SCRIPT] if command is None else shlex.split(command)
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "loop.cir"
        file.write_text(netlist(), encoding="utf-8")
        spice = [ngspice(), "-b", str(file)]
        if not solves_in_place(spice):
            raise SystemExit("ngspice did not solve every point in place: no fair comparison")
        return best(
            {
                "diagnose": [*ours, "diagnose", str(EXAMPLE), "--json"],
                "ngspice": spice,
                "version": [*ours, "--version"],
                "python": [sys.executable, "-c", "pass"],
            },
            runs,
        )


def table(found: dict[str, Cost]) -> tuple[list[str], bool]:
    """Return the lines to print, and whether every limit is kept."""
    ours, spice = found["diagnose"], found["ngspice"]
    ratio, start = ours.seconds / spice.seconds, found["version"].seconds - found["python"].seconds
    kept = ratio <= MOST_RATIO and ours.megabytes <= MOST_MEGABYTES and start <= MOST_START_S
    return [
        f"diagnose {EXAMPLE.name} --json     {ours.seconds:6.2f} s  {ours.megabytes:6.1f} MB",
        f"ngspice, {POINTS} operating points           {spice.seconds:6.2f} s  {spice.megabytes:6.1f} MB",
        f"  ratio of times                          {ratio:6.2f}    at most {MOST_RATIO}",
        f"  memory                                  {ours.megabytes:6.1f} MB at most {MOST_MEGABYTES:.0f}",
        f"--version                                 {found['version'].seconds:6.3f} s",
        f"Python alone                              {found['python'].seconds:6.3f} s",
        f"  more                                    {start:6.3f} s  at most {MOST_START_S}",
    ], kept


def main(words: Sequence[str] | None = None) -> int:
    """Measure and print; return 1 where a limit is not kept and ``--check`` was given."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--runs", type=int, default=5, help="of which the best counts")
    parser.add_argument("--command", help="an installed command in place of this checkout's package")
    parser.add_argument("--against", type=Path, help="another checkout, whose visits are played too")
    parser.add_argument("--check", action="store_true", help="end with 1 where a limit is not kept")
    options = parser.parse_args(words)
    lines, kept = table(measured(options.command, options.runs))
    print("\n".join(lines))
    roots = [ROOT] if options.against is None else [ROOT, options.against.resolve()]
    print("\n".join(visits_table(played(roots, options.runs), options.against)))
    return 0 if kept or not options.check else 1


if __name__ == "__main__":
    sys.exit(main())
