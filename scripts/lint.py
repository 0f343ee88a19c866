"""Check the style rules of every Python file: ``python3 scripts/lint.py``, or with ``--fix`` mend what can be mended.

The rules, and the reason of each exemption, stand in pyproject.toml. Layout is not forced: published tables are aligned
as they are printed.
"""

import sys

import environment

if __name__ == "__main__":
    sys.exit(environment.check(["ruff", "check", *sys.argv[1:]]))
