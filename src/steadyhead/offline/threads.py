"""Does without threads, which a browser's Python has none of: what wants one runs in place."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar, TypeVarTuple, Unpack

import anyio.to_thread

Given = TypeVarTuple("Given")
Result = TypeVar("Result")


async def in_place(work: Callable[[Unpack[Given]], Result], *given: *Given, **_waits: object) -> Result:
    """Do a piece of work here and now, whatever was said of how to wait for its thread."""
    return work(*given)


def run_in_place() -> None:
    """From now on let this whole program's threads run in place: for a browser's worker, which runs nothing else."""
    anyio.to_thread.run_sync = in_place  # type: ignore[assignment] # hears how to wait, and does not
