"""Workers: who works what out, what happens when one dies, and that none outlives who started it."""

from __future__ import annotations

import asyncio
import gc
import json
import os
import signal
import subprocess
import sys
import threading
import time
import urllib.request
from collections.abc import Awaitable, Callable
from concurrent.futures.process import BrokenProcessPool
from functools import partial
from pathlib import Path
from typing import Any, TypeVar

import pytest

from steadyhead.bootstrap import kept_answers
from steadyhead.diagnosis.answer import Answer
from steadyhead.diagnosis.answer_text import DIAGNOSIS
from steadyhead.diagnosis.estimates import SHIPPED
from steadyhead.errors import CheckFileError, NotFoundError, Problem
from steadyhead.messages import message
from steadyhead.service.at_work import Task
from steadyhead.visit import parse_visit
from steadyhead.workers import Pool
from steadyhead.workers.packing import packed, unpacked
from tests.diagnosis.visits import BARE_BOOSTER
from tests.workers import tasks

pytestmark = pytest.mark.laptop
T = TypeVar("T")
#: Runs something on two workers.
Run = Callable[[Callable[[Pool], Awaitable[Any]]], Any]


@pytest.fixture
def run() -> Run:
    """Return what runs something on two workers, which end with it."""

    def on_two(asked: Callable[[Pool], Awaitable[T]]) -> T:
        async def whole() -> T:
            pool = Pool(2)
            try:
                return await asked(pool)
            finally:
                pool.close()

        return asyncio.run(whole())

    return on_two


def task(do: Callable[..., Any], *given: Any, about: str = "visit", key: str = "") -> Task[Any]:  # noqa: ANN401 - whatever the function is given
    """Return a task with a key of its own."""
    return Task(about, key or f"{do.__name__}:{given}:{about}", do, given)


def test_a_task_is_worked_out_in_another_process(run: Run) -> None:
    """Another process id than this one."""
    assert run(lambda pool: pool.work(task(tasks.who))) != os.getpid()


def test_a_visit_stays_with_the_worker_that_remembers_it(run: Run) -> None:
    """What was told first is what is remembered; of another visit nothing is."""

    async def asked(pool: Pool) -> list[str]:
        words = [("a", "one"), ("a", "two"), ("b", "three"), ("a", "four")]
        return [await pool.work(task(tasks.remembered, word, about=about)) for about, word in words]

    assert run(asked) == ["one", "one", "three", "one"]


def test_the_same_question_asked_twice_at_once_is_worked_out_once(run: Run, tmp_path: Path) -> None:
    """Lines of a file that the work adds to; asked again later it is worked out again: answers are kept elsewhere."""
    file = tmp_path / "worked"

    async def asked(pool: Pool) -> None:
        await asyncio.gather(*(pool.work(task(tasks.noted, file)) for _ in range(5)))
        assert len(file.read_text().splitlines()) == 1
        await pool.work(task(tasks.noted, file))

    run(asked)
    assert len(file.read_text().splitlines()) == 2


def test_what_a_worker_answered_is_there_for_the_next_program(tmp_path: Path) -> None:
    """Each worker opens who keeps answers: afterwards this process finds the same answer in the file."""
    visit = parse_visit(BARE_BOOSTER).visit
    keeping = partial(kept_answers, tmp_path / "thoughts.db")

    async def whole() -> Answer:
        pool = Pool(1, answers=keeping)
        try:
            found: Answer = await pool.work(task(tasks.answered, visit))
        finally:
            pool.close()
        return found

    answer = asyncio.run(whole())
    assert keeping().of(visit, SHIPPED, DIAGNOSIS, pytest.fail) == answer


def test_a_busy_worker_holds_up_nobody_while_another_is_idle(run: Run) -> None:
    """Two long tasks about one visit, on two workers, at the same time: two processes."""

    async def asked(pool: Pool) -> set[int]:
        await pool.warm()
        return set(await asyncio.gather(*(pool.work(task(tasks.slow, 0.3, key=str(each))) for each in range(2))))

    assert len(run(asked)) == 2


def test_whoever_stops_waiting_stops_the_answer_for_nobody_else(run: Run) -> None:
    """Of two who ask the same, one goes away."""

    async def asked(pool: Pool) -> int:
        leaves = asyncio.ensure_future(pool.work(task(tasks.slow, 0.3)))
        stays = asyncio.ensure_future(pool.work(task(tasks.slow, 0.3)))
        await asyncio.sleep(0.1)
        leaves.cancel()
        return int(await stays)

    assert run(asked) > 0


def test_a_worker_that_dies_is_replaced_and_its_task_asked_once_more(run: Run, tmp_path: Path) -> None:
    """It dies in the middle of the work, once."""
    assert run(lambda pool: pool.work(task(tasks.dies, tmp_path / "died"))) != os.getpid()


def test_a_task_that_kills_every_worker_is_an_error_and_the_next_one_is_heard(run: Run) -> None:
    """It is asked twice, never for ever."""

    async def asked(pool: Pool) -> int:
        with pytest.raises(BrokenProcessPool):
            await pool.work(task(tasks.always_dies))
        return int(await pool.work(task(tasks.who)))

    assert run(asked) > 0


def test_what_a_task_refuses_is_refused_here_in_the_same_words(run: Run) -> None:
    """The error with its message; where it was raised stands with it, for a log."""
    with pytest.raises(NotFoundError, match="web-not-found") as refused:
        run(lambda pool: pool.work(task(tasks.refuses)))
    assert refused.value.message == message("web-not-found", what="visit")
    assert "in refuses" in "".join(refused.value.__notes__)


def test_a_message_comes_back_the_same_and_a_memory_stays_where_it_is(run: Run) -> None:
    """Equal values; an empty memory."""
    assert run(lambda pool: pool.work(task(tasks.says))) == message("limit", low=1)
    assert len(run(lambda pool: pool.work(task(tasks.holds)))) == 0


def test_an_error_with_a_list_of_problems_travels_whole() -> None:
    """Every problem of a file that was refused."""
    problems = (Problem(message("limit", low=1), "key", 3),)
    there = unpacked(packed(CheckFileError(message("limit"), problems)))
    assert isinstance(there, CheckFileError)
    assert there.problems == problems


def alive(process: int) -> bool:
    """Tell whether a process still runs; one that ended and waits to be noticed does not."""
    state = Path(f"/proc/{process}/stat")
    return state.exists() and state.read_text(encoding="utf-8").rpartition(")")[2].split()[0] != "Z"


def children(process: int) -> list[int]:
    """Return the processes that one has started."""
    listed = Path(f"/proc/{process}/task/{process}/children").read_text(encoding="utf-8")
    return [int(each) for each in listed.split()]


@pytest.mark.skipif(not Path("/proc/self/task").exists(), reason="tells processes by /proc, which is not here")
@pytest.mark.parametrize("end", [signal.SIGKILL, signal.SIGINT, signal.SIGTERM])
def test_no_worker_outlives_the_app_however_that_ends(tmp_path: Path, end: signal.Signals) -> None:
    """The app is ended while its workers run: flat battery, Ctrl-C in its terminal, shut down."""
    words = [sys.executable, "-m", "steadyhead", "app", "--no-open", "--json", "--port", "0"]
    command = [*words, "--data", str(tmp_path / "steadyhead.db")]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, encoding="utf-8", start_new_session=True
    ) as app:
        assert app.stdout is not None
        address = json.loads(app.stdout.readline())["address"]
        urllib.request.urlopen(address).read()  # noqa: S310 - the app's own address
        started = waited(lambda: children(app.pid))
        assert started
        if end is signal.SIGINT:
            os.killpg(app.pid, end)  # as a terminal does it: everybody in it hears
        else:
            app.send_signal(end)
        said = app.communicate()[1]
    assert waited(lambda: not any(map(alive, started)))
    assert end is signal.SIGKILL or "Traceback" not in said


def waited(found: Callable[[], T], seconds: float = 15.0) -> T:
    """Return what is found, once it is; whatever there is after so long [s]."""
    until = time.monotonic() + seconds
    while not (now := found()) and time.monotonic() < until:
        time.sleep(0.05)
    return now


def test_what_the_pages_need_is_loaded_once_in_a_thread_of_its_own_at_the_earliest_time_asked(run: Run) -> None:
    """Asked late, early, and again: one thread, another than that of the pages, long before the late time is up.

    Nobody looks for waste meanwhile, and what was loaded is never looked through again.
    """
    seen: list[tuple[bool, bool]] = []
    kept = gc.get_freeze_count()

    async def asked(pool: Pool) -> None:
        pages, done = threading.get_ident(), asyncio.Event()
        loop = asyncio.get_running_loop()

        def load() -> None:
            seen.append((threading.get_ident() != pages, gc.isenabled()))
            loop.call_soon_threadsafe(done.set)

        pool.soon(load, 3600.0)
        pool.soon(load, 0.0)
        await asyncio.wait_for(done.wait(), 60)
        pool.soon(load, 0.0)
        await pool.warm()

    try:
        run(asked)
        assert gc.isenabled()
        assert gc.get_freeze_count() > kept
    finally:
        gc.unfreeze()
    assert seen == [(True, False)]


def test_a_module_is_loaded_beside_the_pages(run: Run) -> None:
    """Another thread than that of the pages."""
    assert run(lambda pool: pool.beside(threading.get_ident)) != threading.get_ident()


def test_the_search_for_waste_comes_back_with_the_last_of_several_threads(run: Run) -> None:
    """Two at once: the first to end leaves it away for the other."""
    first, second = threading.Event(), threading.Event()
    seen: list[bool] = []

    def waits() -> None:
        first.set()
        second.wait(60)
        seen.append(gc.isenabled())

    def ends() -> None:
        first.wait(60)

    async def asked(pool: Pool) -> None:
        long = asyncio.ensure_future(pool.beside(waits))
        await pool.beside(ends)
        seen.append(gc.isenabled())
        second.set()
        await long

    run(asked)
    assert seen == [False, False]
    assert gc.isenabled()
