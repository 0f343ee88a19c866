"""Whatever a browser sends, the app answers in words: it never fails, and markup stays text."""

from __future__ import annotations

from functools import cache
from urllib.parse import quote

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from steadyhead.loop.vocabulary import ARRANGEMENTS, INSPECTION_ITEMS, MEASURES, POINTS
from steadyhead.service.record.given import Given
from steadyhead.visit.facts import Fact
from steadyhead.web.app import make_app
from steadyhead.web.pages.van import CHOSEN
from steadyhead.web.pages.van import TYPED as VAN_TYPED
from steadyhead.web.views.check_form import FIELDS
from tests.record.bench import ToldClock, seeded_ids
from tests.record.memory import MemoryStore
from tests.web.client import Answer, Browser
from tests.web.visiting import begin_check, three_taps

#: Answered in words: shown, look there, not understood, not here, not kept.
IN_WORDS = {200, 303, 400, 404, 422}
ONCE = settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])

ANYTHING = st.text(max_size=40)
FIGURES = st.from_regex(r"-?[0-9]{1,6}([.,][0-9]{1,4})?( to [0-9]{1,3})?( [a-zA-Z%]{1,4})?", fullmatch=True)
TYPED = st.one_of(ANYTHING, FIGURES)
WORDS = st.sampled_from([*MEASURES, *ARRANGEMENTS, *POINTS, *INSPECTION_ITEMS, "", "1e400", "nan"])

VAN_FIELDS = (*VAN_TYPED, *CHOSEN)

STORE = MemoryStore()


@cache
def beginning() -> tuple[Browser, Answer, dict[str, Fact]]:
    """Return a browser on a fresh visit, and the facts that stand then: made once, since an app takes its time."""
    clock = ToldClock()
    record = Given(reading=STORE.work, writing=STORE.work, ids=seeded_ids(clock), clock=clock, author="Ana")
    browser = Browser(make_app(record))
    return browser, three_taps(browser), dict(STORE.facts)


def begun() -> tuple[Browser, Answer]:
    """Return the browser, its visit as it was in the beginning."""
    browser, page, facts = beginning()
    STORE.facts = dict(facts)
    return browser, page


@ONCE
@given(said=TYPED, unit=ANYTHING, key=st.sampled_from(["", "OL", "pegged", "0 on its stop pin"]))
def test_whatever_is_typed_for_a_reading_is_answered_in_words(said: str, unit: str, key: str) -> None:
    """Kept, asked about, or told why not."""
    browser, page = begun()
    form = page.page.form("/readings")
    answer = browser.post_only(form.action, form.filled(said=said, unit=unit, key=key))
    assert answer.status in IN_WORDS
    if answer.status == 422:
        assert [tag for tag, known in answer.page.tags if tag == "script" and not known.get("src")] == []


@ONCE
@given(pieces=st.lists(WORDS, min_size=6, max_size=6), said=TYPED)
def test_a_check_of_any_six_words_is_answered_in_words(pieces: list[str], said: str) -> None:
    """Words of the vocabulary in any order, most of them nonsense together."""
    browser, page = begun()
    check = ";".join(pieces)
    form = page.page.form("/readings")
    assert browser.post_only(form.action, form.filled(check=check, said=said)).status in IN_WORDS
    assert browser.get(f"{page.address}?check={quote(check)}").status in IN_WORDS


@ONCE
@given(measure=st.sampled_from(MEASURES), arrangement=st.sampled_from(list(ARRANGEMENTS)),
       points=st.tuples(st.sampled_from(POINTS), st.sampled_from(POINTS)), said=TYPED)  # fmt: skip
def test_any_two_points_in_any_hook_up_are_answered_in_words(
    measure: str, arrangement: str, points: tuple[str, str], said: str
) -> None:
    """Points that this system lacks, leads on one point, ohms on a live wire: all told."""
    browser, page = begun()
    red, black = points
    form = page.page.form("/readings")
    check = f"{measure};{arrangement};{red};{black};;"
    assert browser.post_only(form.action, form.filled(check=check, said=said)).status in IN_WORDS
    address = f"{page.address}/read?arrangement={arrangement}&red={red}&black={black}&measure={measure}"
    assert browser.get(address).status in IN_WORDS


@ONCE
@given(name=ANYTHING, label=ANYTHING, length=ANYTHING, text=ANYTHING)
def test_whatever_is_typed_for_a_system_and_a_call_is_answered_in_words(
    name: str, label: str, length: str, text: str
) -> None:
    """And what was kept can be shown."""
    browser, page = begun()
    form = browser.get(page.page.links["System"]).page.forms[0]
    more = {"name": name, "labels.controller.signal": label, "cable.length": length}
    assert browser.post_only(form.action, form.filled(**more)).status in IN_WORDS
    call = browser.get(f"{page.address}/call").page.forms[0]
    assert browser.post_only(call.action, call.filled(text=text)).status in IN_WORDS
    assert browser.get(f"{page.address}/call").status == 200


@cache
def check_begun() -> tuple[Browser, Answer, dict[str, Fact]]:
    """Return a browser on a fresh sensor check, and the facts that stand then."""
    browser, page = begun()
    answer = begin_check(browser, page.address)
    return browser, answer, dict(STORE.facts)


@ONCE
@given(typed=st.fixed_dictionaries({"reference": TYPED, "signal": TYPED, "supply": TYPED, "cycle": ANYTHING}),
       unit=ANYTHING, way=ANYTHING)  # fmt: skip
def test_whatever_is_typed_for_a_point_of_a_sensor_check_is_answered_in_words(
    typed: dict[str, str], unit: str, way: str
) -> None:
    """Kept or told why not; the page and all figures can be shown afterwards."""
    browser, page, facts = check_begun()
    STORE.facts = dict(facts)
    form = page.page.form("/points")
    for more in ({}, {"reference.unit": unit}, {"direction": way}):
        assert browser.post_only(form.action, form.filled(**typed, **more)).status in IN_WORDS
    assert browser.get(page.address).status == 200
    assert browser.get(f"{page.address}/figures").status == 200


@ONCE
@given(name=st.sampled_from(sorted(FIELDS)), text=TYPED, other=TYPED)
def test_whatever_is_typed_of_a_sensor_check_is_answered_in_words(name: str, text: str, other: str) -> None:
    """Any field of what it is compared with; the page can be shown afterwards, with a point too."""
    browser, page, facts = check_begun()
    STORE.facts = dict(facts)
    form = browser.get(f"{page.address}/setup").page.form("/setup")
    assert browser.post_only(form.action, form.filled(**{name: text, "serial": other})).status in IN_WORDS
    entry = page.page.form("/points")
    assert browser.post_only(entry.action, entry.filled(reference="40", signal="2.1", supply="5")).status in IN_WORDS
    assert browser.get(page.address).status == 200
    assert browser.get(f"{page.address}/figures").status == 200


@ONCE
@given(table=st.one_of(ANYTHING, st.lists(st.lists(TYPED, max_size=4), max_size=4).map(
    lambda rows: "reference [psi];signal [V];supply [V]\n" + "\n".join(";".join(row) for row in rows))))  # fmt: skip
def test_whatever_table_is_pasted_is_answered_in_words(table: str) -> None:
    """Rows of anything below a head that is right."""
    browser, page, facts = check_begun()
    STORE.facts = dict(facts)
    form = browser.get(f"{page.address}/table").page.form("/table")
    assert browser.post_only(form.action, form.filled(table=table)).status in IN_WORDS


@ONCE
@given(typed=st.dictionaries(st.sampled_from([*VAN_FIELDS, "sensor.signal", "sensor.range.own"]), TYPED, max_size=5))
def test_whatever_is_typed_of_a_sensor_on_the_van_is_answered_in_words(typed: dict[str, str]) -> None:
    """Kept, or told why not; and the list can be shown with it afterwards, alone and against a visit."""
    browser, page = begun()
    form = browser.get("/van/new").page.form("/van/new")
    usual = {"sensor.signal": "4..20 mA", "sensor.range": "0..10 bar"}
    assert browser.post_only(form.action, form.filled(**{**usual, **typed})).status in IN_WORDS
    assert browser.get("/van").status == 200
    assert browser.get(f"{page.address}/van").status == 200
