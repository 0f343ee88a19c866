"""Every id that the domain can say has a sentence, and every sentence finds its values."""

from __future__ import annotations

from string import Formatter

import pytest

from steadyhead.diagnosis.observing import Question
from steadyhead.diagnosis.pairs import CAUSES
from steadyhead.loop.vocabulary import ARRANGEMENTS, INSPECTION_ITEMS
from steadyhead.store.engines import REFUSED
from steadyhead.store.health import CHECK_IDS
from steadyhead.water.night import VERDICTS
from steadyhead.words.help_names import HELP_PAGES
from steadyhead.words.saying import FIXED, SAYERS
from steadyhead.words.sentences import ENGLISH, TABLES
from tests.words.said import Made, made

MADE = made()
PLAIN = [each for each in MADE if each.plain]

#: What is found out about a sensor on the van (`steadyhead.setup`).
VAN = ("van-signal-", "van-supply-", "van-limits-", "van-thread-", "van-lasts-")
#: Ids that are put together, with every id that can come out.
TOGETHER = {
    "f'night-{verdict}'": [f"night-{verdict}" for verdict in VERDICTS],
    "f'night-{verdict}-then'": [f"night-{verdict}-then" for verdict in VERDICTS],
    "f'how-look-{question.item}'": [f"how-look-{item}" for item in INSPECTION_ITEMS],
    "f'how-{question.named}'": [
        "how-displayed-pressure", "how-displayed-signal", "how-displayed-fault", "how-gauge-pressure", "how-own-gauge",
    ],
    "f'instrument-due-{each.due}'": [f"instrument-due-{state}" for state in ("good", "soon", "past")],
    "f'help-{page}'": [f"help-{page}" for page in HELP_PAGES],
    "f'doctor-{id_}'": [f"doctor-{id_}" for id_ in CHECK_IDS],
    "f\"doctor-{check['id']}\"": [f"doctor-{id_}" for id_ in CHECK_IDS],
    "f'cause-{cause.id}'": [f"cause-{cause.id}" for cause in CAUSES],
    "f'how-{question.arrangement}'": [f"how-{a.id}" for a in ARRANGEMENTS.values() if not a.water_side],
}  # fmt: skip
TOGETHER["f'{id_}-no-low'"] = ["van-limits-unknown-no-low", "van-limits-move-no-low"]
#: Ids that a variable holds for a line or two; what it can hold stands in the same function.
HELD: dict[str, list[str]] = {
    "value['id']": [],  # a message that was made already, and kept
    "check.how.id": [],  # a message that was made already, said without its leads
    "id_": ["schema-newer", "schema-unknown", *REFUSED, *[id_ for id_ in ENGLISH if id_.startswith(VAN)]],
    "head": ["van-plate-head", "van-fit-head", "van-pins-head", "van-list-head"],
    "because": [],  # the one maker of refusals; every call of it is read above
    "pressure": ["pressure-must-be-gauge", "pressure-must-be-absolute"],
}


def values_of(template: str) -> set[str]:
    """Return the values that a template needs."""
    return {name for _, name, spec, _ in Formatter().parse(template) if name is not None and spec not in FIXED}


@pytest.mark.parametrize("each", PLAIN, ids=lambda each: f"{each.where}-{each.id}")
def test_a_message_has_a_sentence_whose_values_it_gives(each: Made) -> None:
    """The source itself: the id and the keywords of every call that makes a message."""
    assert each.id in ENGLISH
    missing = values_of(ENGLISH[each.id]) - each.values
    assert not missing or each.open


def test_ids_that_are_put_together_are_all_known_to_this_test() -> None:
    """The source itself; a new way of making an id must be added here with what it can make."""
    strange = {each.id: each.where for each in MADE if not each.plain and each.id not in TOGETHER | HELD}
    assert strange == {}


@pytest.mark.parametrize("id_", [id_ for ids in (*TOGETHER.values(), *HELD.values()) for id_ in ids])
def test_an_id_that_is_put_together_has_a_sentence(id_: str) -> None:
    """The vocabulary of arrangements and inspections."""
    assert id_ in ENGLISH


def test_the_sentences_of_hows_need_only_what_a_question_has() -> None:
    """A how is given measure, red, black and source."""
    keys = set(Question.__dataclass_fields__)
    assert {id_: values_of(text) - keys for id_, text in ENGLISH.items() if id_.startswith("how-")} == {
        id_: set() for id_ in ENGLISH if id_.startswith("how-")
    }


def test_no_id_stands_in_two_tables() -> None:
    """Counting."""
    assert sum(map(len, TABLES)) == len(ENGLISH)


def test_every_way_of_saying_exists() -> None:
    """The words behind the colons of all templates, against the table of sayers."""
    specs = {spec for text in ENGLISH.values() for _, name, spec, _ in Formatter().parse(text) if name is not None}
    assert {spec for spec in specs if spec} - set(SAYERS) == set()
