"""One diagnosis for each state of a file, however many tests come by it; or none, where the talk alone counts."""

from __future__ import annotations

import pytest

from steadyhead.diagnosis.answer import Answer
from steadyhead.diagnosis.estimates import Estimates
from steadyhead.diagnosis.memory import Memory
from steadyhead.visit import parse_visit
from steadyhead.visit.record import Visit
from tests.service.guide.talks import PLATE, remembered


@pytest.fixture(autouse=True)
def diagnosed_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Keep the answers of the real diagnosis."""
    monkeypatch.setattr("steadyhead.service.guide.thinking.diagnose", remembered)


@pytest.fixture
def plate_alone(monkeypatch: pytest.MonkeyPatch, diagnosed_once: None) -> None:  # noqa: ARG001 - comes before it
    """Answer every state of a file as if only its plate were known."""
    plate = remembered(parse_visit(PLATE).visit)

    def answer(_: Visit, __: Estimates, ___: Memory) -> Answer:
        return plate

    monkeypatch.setattr("steadyhead.service.guide.thinking.diagnose", answer)
