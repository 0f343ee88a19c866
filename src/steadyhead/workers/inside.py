"""What runs inside a worker: it unpacks a task, works it out with what it remembers, and packs what came of it.

Rules
-----
1. A worker lives no longer than the process that started it, however that ends; Ctrl-C is that process's to hear.
2. It gives way to the process that serves pages.
3. What a task raises is packed as its answer: the worker lives on.
4. Who keeps whole answers is opened here, anew in each worker.
"""

from __future__ import annotations

import os
import signal
import threading
from collections.abc import Callable
from multiprocessing import parent_process
from traceback import format_exc
from typing import Any

from steadyhead.diagnosis.memory import Answers
from steadyhead.service.at_work import Memories, Task
from steadyhead.workers.packing import packed, unpacked

#: How far a worker gives way.
POLITE = 5
#: Visits that one worker remembers: ten megabytes each, a few of them several times as much.
REMEMBERED = 12


class _Desk:
    """What one worker process holds: it has no caller that could hand this on from task to task."""

    memories = Memories(REMEMBERED)


def begin(answers: Callable[[], Answers | None]) -> None:
    """Prepare a worker process; `answers` opens who keeps whole answers."""
    _Desk.memories = Memories(REMEMBERED, answers())
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if hasattr(os, "nice"):
        os.nice(POLITE)
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    parent = parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)


def worked(data: bytes) -> bytes:
    """Return what comes of a packed task, packed: whether it was worked out, and what came out or was raised."""
    task: Task[Any] = unpacked(data)
    try:
        return packed((True, task.do(_Desk.memories.of(task.about), *task.given)))
    except Exception as error:  # noqa: BLE001 - raised again by whoever asked
        error.add_note(format_exc())
        return packed((False, error))


def ready() -> int:
    """Load the engine, so that the first task need not; return which process this is."""
    import steadyhead.service.guide.thinking  # noqa: F401, PLC0415 - what the first task will ask for

    return os.getpid()
