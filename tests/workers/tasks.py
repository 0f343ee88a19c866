"""What the workers are asked in tests: functions of a module, since only those can be handed to another process."""

from __future__ import annotations

import os
import time
from pathlib import Path

from steadyhead.diagnosis.answer import Answer
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.diagnosis.memory import Memory
from steadyhead.errors import NotFoundError
from steadyhead.messages import Message, message
from steadyhead.visit.record import Visit


def who(_: Memory) -> int:
    """Return which process this is."""
    return os.getpid()


def remembered(memory: Memory, word: str) -> str:
    """Return the word that was told first."""
    return memory.of("word", lambda: word)


def slow(_: Memory, seconds: float) -> int:
    """Take so long; return which process this is."""
    time.sleep(seconds)
    return os.getpid()


def noted(_: Memory, file: Path) -> None:
    """Add a line to a file, after a while."""
    time.sleep(0.2)
    with file.open("a", encoding="utf-8") as lines:
        lines.write("worked\n")


def dies(_: Memory, file: Path) -> int:
    """End the process at once, the first time; the second time, return which one it is."""
    if not file.exists():
        file.touch()
        os._exit(3)
    return os.getpid()


def always_dies(_: Memory) -> None:
    """End the process at once."""
    os._exit(3)


def answered(memory: Memory, visit: Visit) -> Answer:
    """Return the answer of a visit."""
    return diagnose(visit, memory=memory)


def refuses(_: Memory) -> None:
    """Raise what a person's input is refused with."""
    raise NotFoundError(message("web-not-found", what="visit"))


def says(_: Memory) -> Message:
    """Return a message, whose values nobody can change."""
    return message("limit", low=1)


def holds(memory: Memory) -> Memory:
    """Return a memory that knows something."""
    memory.of("word", lambda: "word")
    return memory
