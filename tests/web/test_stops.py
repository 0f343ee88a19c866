"""Checks stand by the stop where they are made."""

from __future__ import annotations

import pytest

from steadyhead.diagnosis.observing import Question
from steadyhead.loop.vocabulary import ARRANGEMENTS
from steadyhead.web.views.stops import MADE_AT, stop_of
from tests.web.client import Browser
from tests.web.visiting import read, three_taps


@pytest.mark.parametrize(
    ("question", "stop"),
    [
        (Question("displayed-pressure"), "covers-on"),
        (Question("gauge-pressure"), "covers-on"),
        (Question("inspection", item="port"), "look"),
        (Question("volts", "connected", "controller.signal", "controller.common"), "panel"),
        (Question("milliamps", "meter-in-signal"), "panel"),
        (Question("volts", "sensor-unplugged", "sensor.supply", "sensor.common"), "sensor"),
        (Question("displayed-pressure", "vented"), "sensor"),
        (Question("ohms", "dead-both-free", "wire.supply", "wire.signal"), "power-off"),
        (Question("displayed-pressure", "source-at-controller", source=2.5), "panel"),
    ],
)
def test_a_check_is_made_at_one_stop(question: Question, stop: str) -> None:
    """Covers on, a look, the panel, the sensor, power off: one way to each (common practice)."""
    assert stop_of(question) == stop


def test_every_hook_up_that_has_a_stop_of_its_own_is_a_hook_up() -> None:
    """No word of the table is a slip."""
    assert set(MADE_AT) <= set(ARRANGEMENTS)


def test_the_other_checks_stand_by_stops_in_the_order_of_a_round(browser: Browser) -> None:
    """What needs no cover off comes before the panel, and that before what needs the power off."""
    said = read(browser, three_taps(browser), "48").page.said
    said = said[said.index("Other checks") :]
    heads = ("With the covers on", "A look", "At the panel, power on", "At the transducer", "With the power off")
    places = [said.index(stop) for stop in heads if stop in said]
    assert len(places) >= 3
    assert places == sorted(places)
