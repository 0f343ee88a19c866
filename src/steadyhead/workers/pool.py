"""The workers beside the process that serves pages: who gets which task, and what happens when one dies.

Rules
-----
1. None is started before what the pages need was loaded, in a thread beside them. There is one for each core, and each
   works out one task after the other.
2. A task goes to the worker that remembers its visit, unless that one is busy and another is idle.
3. Two tasks with one key that are asked at once are worked out once.
4. A worker that dies is replaced, and what it was working on is asked once more; if that kills the next one too, that
   is an error.
5. A thread beside the pages is never held up by Python's search for waste, nor holds them up with it: none is made
   meanwhile, and what was loaded to stay is never looked through again. Such threads let the pages go on within
   `TURN_S`.
6. Whoever stops waiting for an answer stops it for nobody else.
"""

from __future__ import annotations

import asyncio
import gc
import logging
import multiprocessing
import os
import signal
import sys
import threading
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from typing import Any, TypeVar

from steadyhead.diagnosis.memory import Answers
from steadyhead.service.at_work import Task
from steadyhead.workers.inside import begin, ready, worked
from steadyhead.workers.packing import packed, unpacked

LOG = logging.getLogger("steadyhead.workers")
#: However many cores there are: each worker takes some hundred megabytes.
MOST = 6
#: Visits of which it is known who remembers them.
ROUTES = 1024

Result = TypeVar("Result")


def no_answers() -> None:
    """Return that nobody keeps answers."""


def cores() -> int:
    """Return how many workers suit this machine."""
    return max(1, min(MOST, os.cpu_count() or 1))


#: How long a thread may keep the others waiting [s]: a page asks for its turn dozens of times.
TURN_S = 0.001


class _Worker:
    """One process, started with its first task."""

    def __init__(self, answers: Callable[[], Answers | None]) -> None:
        self.waiting = 0
        self._answers = answers
        self._process: ProcessPoolExecutor | None = None

    async def ask(self, do: Callable[..., Any], *given: Any) -> Any:  # noqa: ANN401 - any function of a worker's
        """Return what a function makes of its arguments in the worker; a dead one is replaced, once."""
        self.waiting += 1
        try:
            return await self._tried(do, given)
        except BrokenProcessPool:
            return await self._tried(do, given)
        finally:
            self.waiting -= 1

    async def _tried(self, do: Callable[..., Any], given: tuple[Any, ...]) -> Any:  # noqa: ANN401 - as above
        if self._process is None:
            context = multiprocessing.get_context("spawn")
            self._process = ProcessPoolExecutor(
                1, mp_context=context, initializer=begin, initargs=(self._answers,)
            )
        process = self._process
        try:
            with _deaf_to_ctrl_c():
                asked = process.submit(do, *given)
            return await asyncio.wrap_future(asked)
        except BrokenProcessPool:
            if self._process is process:
                self._process = None
            process.shutdown(wait=False)
            raise

    def close(self) -> None:
        """End the process, once it has done what it is at."""
        if self._process is not None:
            self._process.shutdown(wait=False, cancel_futures=True)
            self._process = None


class _Quiet:
    """Keeps Python's search for waste away while threads beside the pages make many values: it stops every thread."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._held = 0
        self._searched = False

    @contextmanager
    def __call__(self) -> Iterator[None]:
        """Keep it away; it comes back once the last one is done."""
        with self._lock:
            self._searched = gc.isenabled() if self._held == 0 else self._searched
            self._held += 1
            gc.disable()
        try:
            yield
        finally:
            with self._lock:
                self._held -= 1
                if self._held == 0 and self._searched:
                    gc.enable()


@contextmanager
def _deaf_to_ctrl_c() -> Iterator[None]:
    """Let a process that is started meanwhile hear no Ctrl-C; this one hears it afterwards."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


class Pool:
    """Works tasks out in processes of their own.

    Parameters
    ----------
    count
        How many workers.
    answers
        Opens, in each worker, who keeps whole answers: a function that can be packed.
    """

    def __init__(self, count: int, answers: Callable[[], Answers | None] = no_answers) -> None:
        sys.setswitchinterval(TURN_S)
        self._workers = tuple(_Worker(answers) for _ in range(count))
        self._routes: dict[str, _Worker] = {}
        self._asked: dict[str, asyncio.Future[Any]] = {}
        self._quiet = _Quiet()
        self._begins: asyncio.TimerHandle | None = None
        self._warming: asyncio.Future[Any] | None = None

    async def work(self, task: Task[Result]) -> Result:
        """Return what comes of a task; what it raises is raised here."""
        if task.key not in self._asked:
            self._asked[task.key] = asyncio.ensure_future(self._worked(task))
        found: Result = await asyncio.shield(self._asked[task.key])
        return found

    async def _worked(self, task: Task[Result]) -> Result:
        try:
            done, found = unpacked(await self._worker_of(task.about).ask(worked, packed(task)))
        finally:
            del self._asked[task.key]
        if not done:
            raise found
        result: Result = found
        return result

    def _worker_of(self, about: str) -> _Worker:
        """Return who gets the next task about a visit."""
        idlest = min(self._workers, key=lambda each: each.waiting)
        usual = self._routes.pop(about, idlest)
        self._routes[about] = usual
        while len(self._routes) > ROUTES:
            del self._routes[next(iter(self._routes))]
        return idlest if usual.waiting and not idlest.waiting else usual

    async def beside(self, do: Callable[[], Result]) -> Result:
        """Return what comes of a function, in a thread beside the pages."""
        return await asyncio.to_thread(self._quietly, do)

    def _quietly(self, do: Callable[[], Result]) -> Result:
        with self._quiet():
            return do()

    def soon(self, load: Callable[[], object], wait_s: float) -> None:
        """Load what the pages need and start the workers so long from now [s], once; the earliest time counts."""
        if self._warming is not None:
            return
        loop = asyncio.get_running_loop()
        if self._begins is not None:
            if self._begins.when() <= loop.time() + wait_s:
                return
            self._begins.cancel()
        self._begins = loop.call_later(wait_s, self._begin, load)

    def _begin(self, load: Callable[[], object]) -> None:
        self._warming = asyncio.ensure_future(self._warm_after(load))

    def _to_stay(self, load: Callable[[], object]) -> None:
        with self._quiet():
            load()
            gc.freeze()

    async def _warm_after(self, load: Callable[[], object]) -> None:
        await asyncio.to_thread(self._to_stay, load)
        try:
            await self.warm()
        except BrokenProcessPool:
            LOG.exception("a worker did not start; whoever needs it will try again")

    async def warm(self) -> tuple[int, ...]:
        """Start every worker now, and return which processes they are."""
        return tuple(await asyncio.gather(*(each.ask(ready) for each in self._workers)))

    def close(self) -> None:
        """End every worker."""
        for each in self._workers:
            each.close()
