"""Spanish sentences are whole: articles melt, wires have their colours, months and nought their own words."""

from __future__ import annotations

import re

import pytest

from steadyhead.messages import message
from steadyhead.web.pages.shared import local_day, local_moment
from steadyhead.words import Speaker
from steadyhead.words.melting import joined
from steadyhead.words.names import NAMES

COLOURS = {"wire.signal": "azul", "wire.common": "marrón", "controller.signal": "AI"}
REGIONS = ("north-america", "elsewhere")


@pytest.mark.parametrize(
    ("said", "follows", "whole"),
    [
        ("Suelte el hilo de ", "el borne", "Suelte el hilo del borne"),
        ("De ", "el borne", "Del borne"),
        ("Vuelva a ", "el borne", "Vuelva al borne"),
        ("lejos de ", "ella", "lejos de ella"),
        ("Mida sobre ", "el borne", "Mida sobre el borne"),
        ("azul y ", "hilo común", "azul e hilo común"),
        ("agua y ", "hielo", "agua y hielo"),
        ("y ", "azul", "y azul"),
        ("uno o ", "otro", "uno u otro"),
        ("ley ", "inglesa", "ley inglesa"),
    ],
)
def test_spanish_words_melt_where_they_meet(said: str, follows: str, whole: str) -> None:
    """The grammar of the Real Academia, from memory: del and al, e before i, u before o; but y before hie."""
    assert joined(said, follows, "es") == whole


def test_english_words_do_not_melt() -> None:
    """The same letters in English."""
    assert joined("the side of de ", "el toro", "en") == "the side of de el toro"


def test_what_a_person_wrote_is_left_as_it_is() -> None:
    """A folder with the very words that would melt."""
    assert "pozo de el norte" in Speaker(language="es").tell("folder-missing", folder="pozo de el norte")


@pytest.mark.parametrize("region", REGIONS)
@pytest.mark.parametrize("labels", [{}, COLOURS], ids=["plain", "labels"])
@pytest.mark.parametrize("wires", [2, 3])
def test_no_name_says_de_el_or_a_el(region: str, labels: dict[str, str], wires: int) -> None:
    """Every name of the program, in Spanish."""
    speaker = Speaker(language="es", region=region, labels=labels, wires=wires)
    said = [speaker.name(kind, id_) for kind, names in NAMES.items() for id_ in names]
    assert [text for text in said if re.search(r"\b(de|a) el\b|\by h?i(?!e)|\bel (la|el)\b", text)] == []


def test_a_wire_goes_by_its_colour() -> None:
    """A colour alone, and a label that says the wire already."""
    speaker = Speaker(language="es", labels={"wire.signal": "azul", "wire.common": "hilo marrón"})
    assert speaker.name("point", "wire.signal") == "el hilo azul"
    assert speaker.name("point", "wire.common") == "el hilo marrón"
    assert Speaker(labels={"wire.signal": "blue wire"}).name("point", "wire.signal") == "the blue wire"


def test_a_terminal_melts_into_its_sentence() -> None:
    """Without a label the terminal brings its article, with one it brings none."""
    plain = Speaker(language="es").tell("how-supply-terminal-clear", measure="volts", red=None, black=None)
    assert "los hilos del borne de alimentación del sensor," in plain
    labelled = Speaker(language="es", labels={"controller.supply": "+24"})
    assert "los hilos de +24," in labelled.tell("how-supply-terminal-clear", measure="volts", red=None, black=None)


def test_a_pair_is_named_by_both_in_spanish() -> None:
    """Two names of the table, joined."""
    said = Speaker(language="es", region="elsewhere").name("fault", "sensor-low+vacuum")
    assert said == "sensor pegado abajo, y además vacío de verdad en la tubería"


def test_nought_volts_of_a_source_are_said_in_words() -> None:
    """A word, not a figure."""
    values = {"measure": "displayed-pressure", "red": None, "black": None}
    assert "Ponga cero en" in Speaker(language="es").tell("how-source-at-controller", source=0.0, **values)
    assert "Put zero on" in Speaker().tell("how-source-at-controller", source=0.0, **values)


def test_days_have_spanish_months_and_the_sites_own_clock() -> None:
    """Madrid is two hours ahead of Greenwich in May, one in January (the law of both, from memory)."""
    spanish, english = Speaker(language="es"), Speaker()
    assert local_day("2026-05-04T23:30:00.000Z", "Europe/Madrid", spanish) == "5 may 2026"
    assert local_moment("2026-01-31T22:30:00.000Z", "Europe/Madrid", spanish) == "31 ene 23:30"
    assert local_moment("2026-01-31T22:30:00.000Z", "Europe/Madrid", english) == "31 Jan 23:30"
    assert local_day("", "UTC", spanish) == ""


@pytest.mark.parametrize("region", REGIONS)
def test_each_region_has_its_word_for_the_part_in_spanish(region: str) -> None:
    """Common practice: transductor in Latin America, sensor in Spain."""
    word = {"north-america": "transductor", "elsewhere": "sensor"}[region]
    assert Speaker(language="es", region=region).name("remedy", "replace-sensor") == f"cambiar el {word}"


def test_a_figure_has_the_readers_decimal_sign_in_spanish() -> None:
    """A comma, where the reader wants one."""
    said = Speaker(language="es", decimal=",").say(message("severity", value=0.123, unit="of its slope"))
    assert said == "cerca de 12 % de su pendiente"
    assert Speaker(language="es", decimal=",").say(message("severity", value=4700.0, unit="ohm")) == "unos 4,7 kohm"
