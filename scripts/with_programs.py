"""Run the tests that drive another program: the circuit simulator ngspice, or the system's own Chromium.

``python3 scripts/with_programs.py ngspice`` and ``... chromium``; further arguments go to pytest. `python3 run.py test`
leaves them out, so that it ends in minutes and wants nothing but Python.
"""

from __future__ import annotations

import sys

import environment

#: Where the tests of each program stand.
WHERE: dict[str, tuple[str, ...]] = {
    "ngspice": ("tests/loop", "tests/benchmarks"),
    "chromium": ("tests/browser",),
}


def main(arguments: list[str]) -> int:
    """Run one program's tests; return the exit code."""
    if not arguments or arguments[0] not in WHERE:
        environment.say(f"{' '.join(arguments) or 'nothing'}: must be one of {', '.join(WHERE)}")
        return 2
    environment.ensure("test")
    program, *more = arguments
    return environment.check(["pytest", "-q", "-m", program, *WHERE[program], *more])


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
