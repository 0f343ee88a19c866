"""Keeps what was worked out: an answer takes the engine a second, its page a few milliseconds.

Rules
-----
1. A key holds the visit, its state and what was asked of it: it changes with every fact, so nothing is ever stale.
2. The one that was not looked at longest gives way.
"""

from __future__ import annotations

from collections import OrderedDict
from typing import Any, TypeVar

from steadyhead.service.at_work import Task, Thinker

MOST_KEPT = 128

T = TypeVar("T")


class Thoughts:
    """Keeps what was worked out, by the visit's state and what was asked of it; the oldest gives way."""

    def __init__(self, most: int = MOST_KEPT) -> None:
        self._kept: OrderedDict[str, Any] = OrderedDict()
        self._most = most

    async def of(self, task: Task[T], thinker: Thinker) -> T:
        """Return what comes of a task, worked out now where it is new."""
        if task.key not in self._kept:
            self._kept[task.key] = await thinker.work(task)
            while len(self._kept) > self._most:
                self._kept.popitem(last=False)
        self._kept.move_to_end(task.key)
        found: T = self._kept[task.key]
        return found
