"""What would do instead: the domain's short English phrases are taken apart, so that another language can say them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from string import Formatter

import pytest

from steadyhead.quantities.dimensions import DIMENSIONS
from steadyhead.visit.check_keys import CHECK_TABLES
from steadyhead.visit.keys import TABLES, Key
from steadyhead.words.phrases import PHRASES, phrase
from steadyhead.words.speaker import Speaker


def phrases() -> Iterator[str]:
    """Yield what every key of a visit file and every kind of quantity asks for."""
    for dimension in DIMENSIONS.values():
        yield from (dimension.article, dimension.must_be, dimension.range_must_be)
    keys: list[Key] = [key for table in TABLES for key in table.keys]
    keys += [key for table in CHECK_TABLES for key in table.keys]
    for key in keys:
        yield key.kind.says()
    yield from (
        "a time such as '2 min' or '30 s', in quotes",
        "a number of times such as '12 per hour'",
        "a text in quotes",
        "true or false, without quotes",
        "a whole number without quotes, such as 3",
        "one of these words, in quotes: gauge, sealed",
        "a table such as site = { name = ... }",
        "-14.7 psi or -1 bar or above",
        "a day such as 2026-05-07",
        "as the sensor, or 0.4 to 3.2 times its range",
        "ratiometric or fixed",
        "about 3.6 V",
    )


#: An example in quotes, a word that is typed, a figure with its unit, and what stands between them.
TYPED = re.compile(r"`[^`]*`|'[^']*'|-?\d[\d.-]*( (?:mm2|mV|V|m|h|s|bar|psi|degC)\b)?|\w+ = .*|gauge, sealed|[,;+ ]")
EVERY = sorted(set(phrases()))


def bare(template: str) -> str:
    """Return a template without its words: what another language would fill with its own."""
    return " ".join(f"{{{name}}}" for _, name, _, _ in Formatter().parse(template) if name)


@pytest.mark.parametrize("text", EVERY)
def test_a_phrase_comes_out_in_english_as_it_went_in(text: str) -> None:
    """Taking a phrase apart and putting it together again changes nothing (the same text is what comes out)."""
    assert phrase(text, lambda template: template) == text


@pytest.mark.parametrize("text", EVERY)
def test_no_english_word_is_left_that_is_not_typed(text: str) -> None:
    """Without the templates' own words there remain examples in quotes, words that are typed, figures with units."""
    left = phrase(text, bare)
    assert not TYPED.sub("", left)


def test_a_phrase_is_said_in_the_language_of_the_sentence() -> None:
    """In Spanish nothing of the phrase stays English but the examples, which are typed so (a reader's own Spanish)."""
    said = Speaker(language="es").tell(
        "unit-missing", got="62", must_be="a pressure such as '62 psi' or '4.3 bar', above zero"
    )
    assert said == "A 62 le falta la unidad. Escriba una presión, por ejemplo '62 psi' o '4.3 bar', mayor que cero."


def test_templates_of_phrases_name_each_part_once() -> None:
    """A part that was named twice could not be found again in a text."""
    for template in PHRASES:
        names = [name for _, name, _, _ in Formatter().parse(template) if name]
        assert len(names) == len(set(names))


def test_what_was_assumed_has_the_readers_decimal_sign() -> None:
    """A figure of ours is said with a comma; the dots between two ends of a range stay (by hand)."""
    speaker = Speaker(language="es", decimal=",")
    assert speaker.tell("default-told", key="controller.input_resistance", value="30 kohm..1 Mohm").endswith(
        "30 kohm..1 Mohm"
    )
    assert speaker.tell("default-told", key="sensor.accuracy", value="1.5 %").endswith("1,5 %")
