"""An app of its own for each test, on a record in memory, with a clock and ids that are the same every time."""

from __future__ import annotations

from dataclasses import replace

import pytest

from steadyhead.diagnosis.estimates import SHIPPED
from steadyhead.service.guide import thinking
from steadyhead.service.guide.state import Guide, Turn
from steadyhead.service.record.given import Given
from steadyhead.web.app import make_app
from tests.record.bench import ToldClock, seeded_ids
from tests.record.memory import MemoryStore
from tests.web.client import Answer, Browser
from tests.web.visiting import begin_check, three_taps

#: What the engine said of a visit, over all tests: the same visit has the same answer, always.
ANSWERS: dict[str, Turn] = {}


def remembered(guide: Guide) -> Turn:
    """Return the engine's own answer, worked out once for each visit in all of these tests."""
    key = repr((guide.known.visit, guide.manner, guide.estimates if guide.estimates is not SHIPPED else ""))
    if key not in ANSWERS:
        ANSWERS[key] = thinking.think(guide)
    return replace(ANSWERS[key])


@pytest.fixture(autouse=True)
def _think_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let pages that show the same visit share the engine's answer."""
    monkeypatch.setattr("steadyhead.web.views.asking.think", remembered)


@pytest.fixture
def given() -> Given:
    """Return what the use cases need."""
    store, clock = MemoryStore(), ToldClock()
    return Given(reading=store.work, writing=store.work, ids=seeded_ids(clock), clock=clock, author="Ana")


@pytest.fixture
def browser(given: Given) -> Browser:
    """Return a browser without scripts on a fresh app."""
    return Browser(make_app(given))


@pytest.fixture
def visit(browser: Browser) -> str:
    """Return the address of a visit at a system of 0..100 psi."""
    return three_taps(browser).address


@pytest.fixture
def begun(browser: Browser, visit: str) -> Answer:
    """Return the page of a check that has no point yet."""
    return begin_check(browser, visit)
