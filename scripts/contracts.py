"""Check that each package imports only what stands below it: ``python3 scripts/contracts.py``.

The contracts stand in pyproject.toml; ARCHITECTURE.md says what they are for.
"""

import sys

import environment

if __name__ == "__main__":
    sys.exit(environment.check(["lint-imports", *sys.argv[1:]]))
