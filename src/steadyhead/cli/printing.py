"""How a command prints: a page of lines, or JSON for programs."""

from __future__ import annotations

import json
from typing import Annotated, Any

import typer

Json = Annotated[bool, typer.Option("--json", help="Print JSON for programs.")]


def show(lines: list[str]) -> None:
    """Print a page."""
    typer.echo("\n".join(lines))


def show_json(values: Any) -> None:  # noqa: ANN401 - whatever JSON can hold
    """Print JSON that any terminal can show."""
    typer.echo(json.dumps(values, indent=2, allow_nan=False))
