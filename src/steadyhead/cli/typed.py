"""Lines that a person types, or a pipe brings, into a conversation.

Rules
-----
1. On a pipe the lines that come in are echoed, so that what is printed reads like the conversation.
2. What is no text in this terminal's encoding comes in as a sign that is refused, and does not end the conversation.
"""

from __future__ import annotations

import sys

import typer


def typed_line(asked: str) -> str | None:
    """Return the next line without its end, None where there is no more; `asked` stands before it."""
    if asked:
        typer.echo(asked, nl=False)
        sys.stdout.flush()
    line = sys.stdin.readline()
    if asked and not sys.stdin.isatty():
        typer.echo(line.rstrip("\r\n"))
    return line.rstrip("\r\n") if line else None


def take_any_line() -> None:
    """Let any bytes come in."""
    reconfigure = getattr(sys.stdin, "reconfigure", None)
    if reconfigure is not None:
        reconfigure(errors="replace")
