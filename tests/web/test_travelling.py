"""What is worked out beside the pages travels between two processes: every page's question, and every answer."""

from __future__ import annotations

from typing import TypeVar

from steadyhead.service.at_work import Here, Task
from steadyhead.service.record.given import Given
from steadyhead.web.app import make_app
from steadyhead.workers.packing import packed, unpacked
from tests.web.client import Browser
from tests.web.visiting import begin_check, run_through, three_taps

Out = TypeVar("Out")


class Travelling(Here):
    """Works tasks out here, after what they are given and what comes of them went the way between two processes."""

    def __init__(self) -> None:
        super().__init__()
        self.asked: list[str] = []

    async def work(self, task: Task[Out]) -> Out:
        """Return what comes of a task."""
        self.asked.append(task.key)
        found: Out = unpacked(packed(await super().work(unpacked(packed(task)))))
        return found


def test_a_visit_a_sensor_check_and_what_to_load_are_shown_where_other_processes_think(given: Given) -> None:
    """A function made inside another does not travel (Python's own documentation of pickle): no page may need it to."""
    browser = Browser(make_app(given, thinker=Travelling()))
    visit = three_taps(browser).address
    done = run_through(browser, begin_check(browser, visit))
    assert done.status == 200
    pages = (f"{visit}", f"{visit}/before?load=yes", f"{visit}/papers/customer", f"{visit}/papers/next")
    checks = ("", "/figures", "/figures?drawn=yes", "/figures?figure=1", "/certificate")
    for address in (*pages, *(done.address + each for each in checks)):
        assert browser.get(address).status == 200, address


def test_a_monte_carlo_run_holds_up_nobody_elses_pages(given: Given) -> None:
    """It is drawn by whoever works tasks out beside the pages, once a rule, and says what it says in this process."""
    thinker = Travelling()
    beside, here = Browser(make_app(given, thinker=thinker)), Browser(make_app(given))
    address = run_through(beside, begin_check(beside, three_taps(beside).address)).address + "/figures?drawn=yes"
    told = beside.get(address).page.said
    assert told.count("Both agree.") == 3
    assert told == here.get(address).page.said
    beside.get(f"{address}&low=kept")
    assert sum(key.endswith(":drawn") for key in thinker.asked) == 1
