"""Sets Steadyhead up beside this file and runs it: ``python3 run.py`` to open it, ``python3 run.py test`` to test it.

This file is written so that any Python 3 can read it, since its first duty is to tell an old one what is needed.
"""

import sys

NEEDED = (3, 11)

if sys.version_info < NEEDED:
    sys.exit(
        "Steadyhead needs Python {}.{} or newer; this one is {}.{} ({}).\n"
        "Install a newer Python beside it, and start this file with that one, for example: python3.12 run.py".format(
            NEEDED[0], NEEDED[1], sys.version_info[0], sys.version_info[1], sys.executable
        )
    )

from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent / "scripts"))

import environment

if __name__ == "__main__":
    sys.exit(environment.run(sys.argv[1:]))
