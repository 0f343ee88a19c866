"""Lets ``python -m steadyhead`` be the command."""

import sys

from steadyhead.cli.entry import main

if __name__ == "__main__":
    sys.exit(main())
