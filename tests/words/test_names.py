"""Every id of the vocabulary has a name, in the words of the trade."""

from __future__ import annotations

import re
from typing import get_args

import pytest

from steadyhead.diagnosis.complaint_effects import EFFECTS
from steadyhead.diagnosis.shipped import FAMILIES, REPAIRS
from steadyhead.errors import UnknownWordError
from steadyhead.loop.faults import FAULTS, LEAK_PLACES, WIRING_PLACES, place_word
from steadyhead.loop.vocabulary import (
    ARRANGEMENTS,
    DISPLAYED_FAULTS,
    DRIVE_STATES,
    INSPECTION_ITEMS,
    INSPECTION_VALUES,
    INSTRUMENTS,
    MEASURES,
    POINTS,
)
from steadyhead.messages import message
from steadyhead.sensorcheck.error_inputs import INPUTS
from steadyhead.sensorcheck.validating import Verdict
from steadyhead.visit.remedies import REMEDIES
from steadyhead.words import Speaker
from steadyhead.words.figure_names import OF_PAPERS
from steadyhead.words.names import NAMES
from steadyhead.words.odds import odds
from steadyhead.words.sensor_figure_names import SENSOR_FIGURES
from steadyhead.words.sensorcheck_names import INPUTS as INPUT_NAMES
from steadyhead.words.sensorcheck_names import OF_BUDGETS
from steadyhead.words.sentences import ENGLISH
from steadyhead.words.sizes import SIZES

COLOURS = {"wire.supply": "orange", "wire.signal": "blue", "wire.common": "brown", "controller.signal": "AI"}
WANTED: dict[str, list[str]] = {
    "fault": [f.id for f in FAULTS] + ["none-of-these"],
    "look": [f.id for f in FAULTS],
    "family": list(FAMILIES),
    "remedy": [*REMEDIES, *REPAIRS],
    "point": list(POINTS),
    "arrangement": list(ARRANGEMENTS),
    "measure": list(MEASURES),
    "item": list(INSPECTION_ITEMS),
    "input": list(INPUTS),
    "linear": list(get_args(Verdict)),
    "state": list(DRIVE_STATES),
    "place": [str(place_word(place)) for place, _ in (*WIRING_PLACES, *LEAK_PLACES)],
    "displayed": list(DISPLAYED_FAULTS),
    "found": list(INSPECTION_VALUES),
    "instrument": list(INSTRUMENTS),
    "complaint": sorted({f"{effect.key}:{effect.word}" for effect in EFFECTS}),
    "suspected": sorted({name for e in EFFECTS for name in ((e.called,) if e.called else e.on)}),
}
SPEAKERS = [
    Speaker(labels=labels, region=region) for labels in ({}, COLOURS) for region in ("north-america", "elsewhere")
]


@pytest.mark.parametrize("kind", WANTED)
def test_every_id_of_a_kind_has_a_name(kind: str) -> None:
    """The vocabulary itself."""
    assert [id_ for id_ in WANTED[kind] if id_ not in NAMES[kind]] == []


@pytest.mark.parametrize("speaker", SPEAKERS, ids=["plain", "plain elsewhere", "labels", "labels elsewhere"])
def test_every_name_can_be_said_and_is_no_id(speaker: Speaker) -> None:
    """Every name in both regions, with and without labels: no braces left, no id left."""
    said = [speaker.name(kind, id_) for kind, names in NAMES.items() for id_ in names]
    assert [text for text in said if not text or re.search(r"[{}]|\w+\.\w+|--", text)] == []


@pytest.mark.parametrize("speaker", SPEAKERS, ids=["plain", "plain elsewhere", "labels", "labels elsewhere"])
def test_no_fault_of_the_wires_is_called_a_leak(speaker: Speaker) -> None:
    """In a water trade a leak is water (the trade's own words)."""
    names = [speaker.name("fault", f.id) for f in FAULTS]
    assert [name for name in names if "leak" in name.lower()] == []


def test_no_sentence_of_ours_says_a_bare_source_or_supply() -> None:
    """The trade's own words: the well, the incoming main, sensor power, signal source."""
    texts = [text for id_, text in ENGLISH.items() if id_.startswith("how-")]
    texts += [text for names in NAMES.values() for text in names.values()]
    plain = [re.sub(r"\{[^}]*\}", "", text) for text in texts]
    assert [text for text in plain if re.search(r"supply|(?<!signal )source", text)] == []


def test_a_panels_own_labels_and_colours_win() -> None:
    """The labels given here."""
    speaker = Speaker(labels=COLOURS)
    assert speaker.name("point", "controller.signal") == "AI"
    assert speaker.name("point", "wire.signal") == "the blue wire"
    assert speaker.name("fault", "leakage-signal-common") == "damp or partial short between blue and brown"
    assert speaker.name("fault", "open-supply") == "orange wire open"


def test_without_labels_a_point_has_plain_words() -> None:
    """The trade's words for the three conductors."""
    speaker = Speaker()
    assert speaker.name("point", "controller.signal") == "the signal terminal"
    assert speaker.name("point", "wire.supply") == "the sensor-power wire"
    assert speaker.name("fault", "short-signal-common") == "signal wire shorted to common wire"


def test_a_two_wire_cable_has_no_common_wire() -> None:
    """Rule 4 of `steadyhead.loop.faults`."""
    assert Speaker(wires=2).name("fault", "leakage-signal-common").endswith("signal wire and common")


def test_a_label_cannot_speak_to_the_terminal() -> None:
    """A label with the sequence that clears a screen."""
    assert "\x1b" not in Speaker(labels={"controller.signal": "A\x1b[2J"}).name("point", "controller.signal")


def test_a_pair_is_named_by_both() -> None:
    """Closed form: two names joined."""
    speaker = Speaker()
    both = speaker.name("fault", "sensor-low+vacuum")
    assert both == f"{speaker.name('fault', 'sensor-low')}, and {speaker.name('fault', 'vacuum')}"


def test_each_region_has_its_word_for_the_part() -> None:
    """Common practice: a transducer in North America, a sensor elsewhere."""
    assert Speaker(region="north-america").name("remedy", "replace-sensor") == "replace the transducer"
    assert Speaker(region="elsewhere").name("remedy", "replace-sensor") == "replace the sensor"


@pytest.mark.parametrize(("key", "word"), [("region", "mars"), ("language", "xx")])
def test_an_unknown_region_or_language_is_refused(key: str, word: str) -> None:
    """Neither is in the tables."""
    with pytest.raises(UnknownWordError, match=f"{key}-unknown"):
        Speaker(**{key: word})  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("probability", "said"),
    [(1.0, "almost certain"), (0.99, "almost certain"), (0.95, "19 in 20"), (0.81, "4 in 5"), (0.6, "2 in 3"),
     (0.5, "1 in 2"), (0.16, "1 in 6"), (0.05, "1 in 20"), (0.02, "1 in 50"), (0.004, "under 1 in 100")],
)  # fmt: skip
def test_odds_are_said_as_a_person_bets(probability: float, said: str) -> None:
    """The fractions themselves: 0.81 is nearest to four in five, and so on."""
    assert odds(probability) == said


@pytest.mark.parametrize(
    ("minutes", "said"),
    [
        (0.2, "less than a minute"),
        (1.0, "about 1 min"),
        (9.6, "about 10 min"),
        (11.5, "about 10 min"),
        (43, "about 45 min"),
    ],
)
def test_minutes_are_said_whole_to_ten_and_by_fives_above(minutes: float, said: str) -> None:
    """Rounding by hand."""
    assert Speaker().tell("else-look", what="x", minutes=minutes) == f"x, {said}"


def test_every_size_of_a_fault_can_be_said() -> None:
    """The units of the fault table."""
    units = {f.severity.unit for f in FAULTS if f.severity is not None}
    assert units - set(SIZES) == set()
    said = [Speaker().say(message("severity", value=0.123, unit=unit)) for unit in sorted(units)]
    assert all(text.startswith("about ") for text in said)


def test_another_language_takes_every_text_through_gettext(monkeypatch: pytest.MonkeyPatch) -> None:
    """A language that doubles its vowels: the sentence that comes out has passed through it."""

    class Doubling:
        """A language."""

        def gettext(self, text: str) -> str:
            """Return the text with another word in it."""
            return text.replace("replace", "reemplace")

    monkeypatch.setattr("steadyhead.words.speaker.translations", lambda _: Doubling())
    assert Speaker(language="es").name("remedy", "replace-sensor") == "reemplace the transducer"


def test_no_figure_is_named_in_two_tables() -> None:
    """Counting: what a budget, a paper and a sensor check call a figure is said once."""
    tables = (OF_BUDGETS, INPUT_NAMES, OF_PAPERS, SENSOR_FIGURES)
    assert sum(map(len, tables)) == len({name for table in tables for name in table})
