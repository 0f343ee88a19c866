"""Another language needs a list of texts and nothing else: every word that is said has passed through it."""

from __future__ import annotations

import gettext
import re
from collections import defaultdict

import pytest

from steadyhead.loop.faults import FAULTS
from steadyhead.messages import Value, message
from steadyhead.words import Speaker, sources
from steadyhead.words.catalogue import texts
from steadyhead.words.formulas import FORMULAS
from steadyhead.words.names import NAMES
from steadyhead.words.phrases import PHRASES
from steadyhead.words.regions import WORDS
from steadyhead.words.sentences import ENGLISH
from steadyhead.words.sizes import SIZES
from steadyhead.words.takes import TAKES
from tests.words.said import made
from tests.words.test_every_message_is_said import values_of

COLOURS = {"wire.signal": "blue", "sensor.supply": "pin 1", "controller.common": "0V"}
#: A figure or a word for each value of each template, by how it is said.
VALUES: dict[str, Value] = {
    "measure": "volts", "red": "controller.signal", "black": "wire.signal", "remedy": "replace-sensor+repair-cable",
    "arrangement": "connected", "unit": "ohm", "nearest": ("bar",), "point": "signal",
    "word": "changed:storm", "what": ("miswired",), "fault": "none-of-these",
    "largest": "scatter", "second": "hysteresis",
    "limited_by": "relief", "table": "sensor",
    "rival": "sensor-low", "one": "sensor-low", "other": "open-signal", "faults": ("open-signal", "sensor-low"),
    "figure": "volts", "name": "volts", "formula": "volts + 2", "state": "open", "shown": "none", "found": "right",
    "reference": "gauge", "field": "sensor.range", "choice": "true", "label": "wire.signal", "instrument": "gauge",
    "key": "sensor.supply", "complaint": "changed:storm", "part": "sensor", "place": "plug",
    "lost": ("dry-run",), "protection": "dry-run", "lacks": "until", "ending": "watching", "missing": "by",
    "where": "plug", "undone": "came_back", "things": ("pump",), "notes": ("photo",), "follow_up": "watch",
    "kind": "gauge",
    "month": "05", "number": "zero",
    "drive": "stopped", "outcome": "pass", "stage": "as-found", "medium": "water", "pressure_from": "hand-pump",
    "read_as": "signal", "direction": "up",
    "was": "gauge", "grade": "fits", "plug": "m12-a", "here": "lead", "standards": ("nsf-61", "nsf-372"),
    "mode": "fixed-speed", "ways": ("fixed-speed", "made-safe"), "possible": "no", "broken": "drive",
    "page": "visit",
    "shows": "plate", "binds": "relief-set", "watch": "daily", "watch_needed": "beside", "watch_said": "nobody",
}  # fmt: skip


class Spy(gettext.NullTranslations):
    """A language that notes what it was asked, and marks what it says."""

    def __init__(self) -> None:
        super().__init__()
        self.asked: set[str] = set()

    def gettext(self, message: str) -> str:
        """Return the text unchanged."""
        self.asked.add(message)
        return message


@pytest.fixture
def spy(monkeypatch: pytest.MonkeyPatch) -> Spy:
    """Return the language that every speaker of this test speaks."""
    language = Spy()
    monkeypatch.setattr("steadyhead.words.speaker.translations", lambda _: language)
    return language


def say_everything(speaker: Speaker) -> None:
    """Say every name and every sentence."""
    for kind, names in NAMES.items():
        for id_ in names:
            speaker.name(kind, id_)
    for id_, template in ENGLISH.items():
        speaker.say(message(id_, **{name: VALUES.get(name, 0.5) for name in (*values_of(template), "value")}))
    for unit in SIZES:
        speaker.say(message("severity", value=0.3, unit=unit))
    for template in FORMULAS:
        speaker.tell("paper-formula", name="volts", formula=re.sub(r"\{\w+\}", "9", template))
    for template in PHRASES:
        speaker.tell("unit-missing", got="62", must_be=re.sub(r"\{\w+\}", "'9'", template))


@pytest.mark.parametrize("labels", [{}, COLOURS], ids=["plain", "labels"])
@pytest.mark.parametrize("wires", [2, 3])
def test_all_that_is_said_stands_in_the_list_for_translators(spy: Spy, labels: dict[str, str], wires: int) -> None:
    """Everything that went through the one function, against the list."""
    for region in ("north-america", "elsewhere"):
        say_everything(Speaker(labels=labels, wires=wires, region=region, language="es"))
    assert spy.asked - set(texts()) == set()
    assert spy.asked >= set(ENGLISH.values())


def test_all_that_stands_in_the_list_is_said_somewhere(spy: Spy) -> None:
    """The list against everything said, with every odds and every way of naming a point."""
    for labels in ({}, COLOURS):
        for wires in (2, 3):
            for region in ("north-america", "elsewhere"):
                say_everything(Speaker(labels=labels, wires=wires, region=region, language="es"))
    speaker = Speaker(language="es")
    for k in range(1001):
        speaker.tell("other-left", share=k / 1000)
    for measure in TAKES:
        speaker.tell("how-connected", measure=measure, red="wire.signal", black="earth")
    speaker.tell("next-check", minutes=7.0)
    speaker.tell("with-source", what="x", source=0.0)
    for own in (*sources.OWN, *(template.format_map(defaultdict(lambda: "2")) for template in sources.OWN_PARTED)):
        speaker.tell("paper-from", whence=own)
    speaker.tell("reading-convicts", reading=1, measure="volts", red="earth", black="shield", arrangement="connected")
    speaker.tell("guide-kept", number=1, measure="volts", arrangement="vented", figure="1 V")
    for by_region in WORDS.values():
        spy.asked |= set(by_region.values())  # a part that no sentence names yet is no mistake
    assert set(texts()) - spy.asked == set()


def test_the_list_has_each_text_once() -> None:
    """Counting."""
    assert len(texts()) == len(set(texts()))


def test_a_pair_of_names_can_be_turned_round_by_a_language(spy: Spy) -> None:
    """A pair's joint is a text like any other."""
    Speaker(language="es").name("fault", f"{FAULTS[1].id}+{FAULTS[2].id}")
    assert ", and " in spy.asked


def test_the_source_makes_messages_at_all() -> None:
    """The finder of messages finds some, so that the tests above mean something."""
    assert len(made()) > 80
