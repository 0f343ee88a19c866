"""Check the types of package, tests and scripts, strictly: ``python3 scripts/typecheck.py``."""

import sys

import environment

if __name__ == "__main__":
    sys.exit(environment.check(["mypy", *(sys.argv[1:] or ["src", "tests", "scripts", "run.py"])]))
