"""Check the documents: every shown command is run, every link followed, and the change log drafted.

``python3 scripts/docs.py`` checks; ``python3 scripts/docs.py --write`` puts the real output under every shown command.
"""

import sys

import console_blocks
import environment


def main(arguments: list[str]) -> int:
    """Check the documents, or write the real output into them; return the exit code."""
    environment.ensure("dev")
    if arguments == ["--write"]:
        for document in console_blocks.documents(environment.ROOT):
            console_blocks.write(document, environment.ROOT, environment.python())
    tests = environment.check(["pytest", "-q", "tests/ground/test_documents.py", "tests/ground/test_readme.py"])
    return tests or environment.check(["towncrier", "build", "--draft", "--version", "next"])


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
