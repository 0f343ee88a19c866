"""A whole visit through the use cases, in memory and in SQLite; what is sent twice, wrong, or from two devices."""

from __future__ import annotations

import pytest

from steadyhead.diagnosis.answer import NextCheck, Outcome
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.diagnosis.observing import Question
from steadyhead.errors import InputError, NotFoundError, RecordError, UnknownWordError, VisitFileError
from steadyhead.messages import message
from steadyhead.service.record.beside import acknowledge_cautions, add_note
from steadyhead.service.record.demo import begin_demo, leave_demo
from steadyhead.service.record.doubts import Doubtful
from steadyhead.service.record.erasing import erase
from steadyhead.service.record.given import mint, set_author
from steadyhead.service.record.instruments import add_instrument
from steadyhead.service.record.lists import find_systems, find_visits, today
from steadyhead.service.record.pages import system_page, visit_page, why_page
from steadyhead.service.record.photos import add_photo
from steadyhead.service.record.readings import (
    Cannot,
    Kept,
    add_reading,
    correct_reading,
    decline_checks,
    record_action,
)
from steadyhead.service.record.systems import set_labels, set_site, set_system
from steadyhead.service.record.visits import end_visit, set_complaint, set_instruments, start_visit
from steadyhead.visit.facts import canonical, fact_from_text
from steadyhead.words import Speaker
from tests.record.bench import ROOT, ToldClock
from tests.record.device import Device

SENSOR = {"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi"}
GAUGE = {"measure": "gauge-pressure", "value": "48 psi"}
VOLTS = {"measure": "volts", "red": "controller.signal", "black": "controller.common", "value": "1.12 V"}
#: Built as ITU-T T.81, annex B, says: the start, one scan with its head and its data, the end.
JPEG = b"\xff\xd8\xff\xda\x00\x02 a picture \xff\x00\xff\xd9"


def started(device: Device) -> str:
    """Return a visit at a new system."""
    return start_visit(device.given, {"text": "runs flat out"}, sensor=SENSOR, name="House 4")


def kept(device: Device, visit: str, body: dict[str, str], token: str | None = None) -> str:
    """Keep a reading that nobody doubts, and return its id."""
    done = add_reading(device.given, visit, body, token=token, confirmed=True)
    assert isinstance(done, Kept)
    return done.id


def test_a_visit_begins_with_nothing_but_a_complaint(device: Device) -> None:
    """The documented plate stands in where nobody read one, and the page says so."""
    seen = visit_page(device.given, start_visit(device.given, {}))
    assert (seen.state, seen.assumed, seen.rows) == ("open", ("sensor.signal", "sensor.range"), ())
    assert diagnose(seen.visit).next_checks


def test_a_whole_visit_is_kept_and_shown(device: Device) -> None:
    """What was put in, in its order; the diagnosis of the same file by hand stands in the guide's tests."""
    set_author(device.given, "Ann  Lee")
    visit = started(device)
    first, second = kept(device, visit, GAUGE), kept(device, visit, VOLTS)
    decline_checks(device.given, visit, [{"measure": "ohms", "arrangement": "dead-looped", "why": "no time"}])
    record_action(device.given, visit, "repair-cable")
    photo = add_photo(device.given, visit, JPEG, says="wet plug", of=second)
    note = add_note(device.given, visit, " dog in the yard ")
    for _ in range(2):
        acknowledge_cautions(device.given, visit, ["lock-out"])
    end_visit(device.given, visit, "proved-on-site", finding={"fault": "leakage-signal-common", "proved": True})
    seen = visit_page(device.given, visit)
    assert [(row.id, row.number) for row in seen.rows] == [(first, 1), (second, 2)]
    assert [row.body["value"] for row in seen.rows] == ["48 psi", "1.12 V"]
    assert (seen.name, seen.state, seen.people) == ("House 4", "proved-on-site", ("Ann Lee",))
    assert (seen.visit.actions[0].after_reading, seen.visit.declined[0].why) == (2, "no time")
    assert (seen.visit.closed.fault, seen.visit.closed.proved) == ("leakage-signal-common", True)
    assert ([each.id for each in seen.photos], [each.id for each in seen.notes]) == ([photo], [note])
    assert (seen.notes[0].body["text"], seen.cautions) == ("dog in the yard", frozenset({"lock-out"}))
    assert len([fact for fact in device.store.facts.values() if fact.kind == "caution-seen"]) == 1
    with device.store.reading() as work:
        blob = work.blob(str(seen.photos[0].body["sha256"]))
    assert blob is not None
    assert (blob.data, blob.media_type) == (JPEG, "image/jpeg")


def test_a_form_that_is_sent_twice_is_kept_once(device: Device) -> None:
    """The token is the fact's id."""
    token = mint(device.given)
    visit = start_visit(device.given, {"text": "no water"}, token=token)
    assert start_visit(device.given, {"text": "no water"}, token=token) == visit == token
    reading = mint(device.given)
    for _ in range(3):
        assert kept(device, visit, GAUGE, reading) == reading
    repair = mint(device.given)
    for _ in range(2):
        record_action(device.given, visit, "repair-cable+replace-sensor", token=repair)
    seen = visit_page(device.given, visit)
    assert (len(seen.rows), [each.remedy for each in seen.visit.actions]) == (1, ["repair-cable", "replace-sensor"])
    assert len(today(device.given).visits) == 1


def test_a_form_from_an_older_tab_is_kept_last_and_once(device: Device) -> None:
    """Readings stand in the order in which they came, whenever their forms were made."""
    visit = started(device)
    old, new = mint(device.given), mint(device.given)
    kept(device, visit, GAUGE, new)
    second = kept(device, visit, VOLTS, old)
    assert kept(device, visit, VOLTS, old) == second
    assert [row.body["measure"] for row in visit_page(device.given, visit).rows] == ["gauge-pressure", "volts"]


def test_the_same_form_with_another_value_is_a_correction_and_an_old_one_again_is_none(device: Device) -> None:
    """The back button: the value is changed; a late repetition of the first sending changes nothing."""
    visit, token = started(device), mint(device.given)
    kept(device, visit, GAUGE, token)
    kept(device, visit, {**GAUGE, "value": "46 psi"}, token)
    kept(device, visit, GAUGE, token)
    (row,) = visit_page(device.given, visit).rows
    assert (row.body["value"], [each.value for each in row.history]) == ("46 psi", ["48 psi"])


def test_a_reading_is_corrected_and_taken_out_and_its_history_stays(device: Device) -> None:
    """Nothing that was said is lost."""
    visit = started(device)
    reading = kept(device, visit, GAUGE)
    token = mint(device.given)
    for _ in range(2):
        assert correct_reading(device.given, visit, reading, {"value": "47"}, token=token).number == 1
    assert visit_page(device.given, visit).visit.readings[0].value.as_written == "47 psi"  # type: ignore[union-attr]
    correct_reading(device.given, visit, reading, None)
    (row,) = visit_page(device.given, visit).rows
    assert (row.number, row.withdrawn, [each.value for each in row.history]) == (None, True, ["48 psi", "47 psi"])
    assert correct_reading(device.given, visit, reading, {"value": "45 psi"}).number == 1


def test_a_likely_slip_is_asked_about_and_kept_only_when_confirmed(device: Device) -> None:
    """12 V on a 5 V loop can't be: DESIGN of the guide's slips, rule 3."""
    visit = started(device)
    odd = {**VOLTS, "value": "12 V"}
    asked = add_reading(device.given, visit, odd)
    assert isinstance(asked, Doubtful)
    assert asked.asks.id == "guide-far-off"
    assert visit_page(device.given, visit).rows == ()
    assert isinstance(add_reading(device.given, visit, odd, confirmed=True), Kept)


def test_a_slip_of_the_decimal_sign_is_told_by_the_outcomes_of_the_check(device: Device) -> None:
    """11.2 where every outcome lies between 1 and 1.3 V: ten times off gives 1.12, which fits."""
    check = NextCheck(
        question=Question("volts", "connected", VOLTS["red"], VOLTS["black"]), drive="auto", minutes=1.0,
        saves_minutes=1.0, outcomes=(Outcome(fault="sensor-low", low=1.0, high=1.3, unit="V"),), cautions=(),
        how=message("how-connected"), while_there=(),
    )  # fmt: skip
    asked = add_reading(device.given, started(device), {**VOLTS, "value": "11.2"}, check=check)
    assert isinstance(asked, Doubtful)
    assert asked.meant == "1.12 V"


def test_what_cannot_be_done_is_told_apart_from_a_value(device: Device) -> None:
    """The guide's own words for it."""
    assert add_reading(device.given, started(device), {**VOLTS, "value": "can't, no cover"}) == Cannot("no cover")


@pytest.mark.parametrize(
    "body",
    [
        {"measure": "volts", "value": "1 V"}, {"measure": "gauge-pressure", "value": "wet"}, {"value": "1 V"},
        {**VOLTS, "black": "controller.signal"}, {**VOLTS, "arrangement": "upside-down"}, {**VOLTS, "mood": "good"},
        {"measure": "temperature", "value": "1 V"}, {"measure": "volts", "value": "-900 psi"},
    ],
)  # fmt: skip
def test_a_reading_that_cannot_be_read_is_refused_and_nothing_is_kept(device: Device, body: dict[str, str]) -> None:
    """The visit file's own rules; an unknown key is kept for newer versions but tells nothing."""
    visit = started(device)
    before = dict(device.store.facts)
    if "mood" in body:
        assert isinstance(add_reading(device.given, visit, body, confirmed=True), Kept)
        return
    with pytest.raises(InputError):
        add_reading(device.given, visit, body, confirmed=True)
    assert device.store.facts == before


def test_what_is_not_there_is_not_found(device: Device) -> None:
    """An id that nothing has, and one that was erased."""
    nothing = mint(device.given)
    for call in (
        lambda: visit_page(device.given, nothing),
        lambda: system_page(device.given, nothing),
        lambda: add_reading(device.given, nothing, GAUGE),
        lambda: end_visit(device.given, nothing, "open"),
        lambda: erase(device.given, nothing),
        lambda: correct_reading(device.given, started(device), nothing, {"value": "1 psi"}),
        lambda: start_visit(device.given, {}, system=nothing),
    ):
        with pytest.raises(NotFoundError):
            call()


def test_a_system_is_described_key_by_key(device: Device) -> None:
    """A key that is left out keeps its value; an empty one is unknown; a wrong one is refused by name."""
    visit = started(device)
    system = visit_page(device.given, visit).system_id
    set_system(device.given, system, {"cable": {"length": "12 m", "conductor": "22 AWG"}}, name="Pump 1")
    set_system(device.given, system, {"cable": {"length": "15 m", "conductor": ""}})
    set_labels(device.given, system, {"controller.supply": "V+"})
    seen = system_page(device.given, system)
    assert (seen.name, seen.tables["cable"], seen.tables["sensor"]) == ("Pump 1", {"length": "15 m"}, SENSOR)
    assert visit_page(device.given, visit).visit.labels == {"controller.supply": "V+"}
    with pytest.raises(VisitFileError) as refusal:
        set_system(device.given, system, {"cable": {"length": "far"}, "sensor": {"range": "wide"}})
    assert [problem.key for problem in refusal.value.problems] == ["[sensor] range", "[cable] length"]
    assert [line.id for line in seen.visits] == [visit]
    assert find_systems(device.given, "pump")[0].id == system


def test_a_site_and_instruments_belong_to_the_visit(device: Device) -> None:
    """As the visit file has them: [site] and [instruments]."""
    visit = started(device)
    system = visit_page(device.given, visit).system_id
    site = set_site(device.given, system, {"name": "Alder Farm", "altitude": "310 m"})
    assert set_site(device.given, system, {"altitude": "320 m"}) == site
    gauge = add_instrument(device.given, "gauge", {"range": "0..160 psi", "grade": "B"}, name="Red gauge")
    set_instruments(device.given, visit, (gauge,), ("multimeter", "gauge"))
    seen = visit_page(device.given, visit)
    assert (seen.visit.site.name, seen.visit.site.altitude_m, seen.site) == ("Alder Farm", 320.0, "Alder Farm")
    assert seen.visit.instruments.gauge is not None
    assert (seen.visit.instruments.gauge.grade, seen.visit.instruments.have) == ("B", ("multimeter", "gauge"))
    with pytest.raises(VisitFileError):
        add_instrument(device.given, "gauge", {"grade": "excellent"})


def test_a_visit_ends_as_it_ended_and_opens_again(device: Device) -> None:
    """The states of the record's manual; an ended visit keeps the system that it found."""
    visit = started(device)
    system = visit_page(device.given, visit).system_id
    end_visit(device.given, visit, "left-temporary", finding={"fault": "sensor-low"})
    set_system(device.given, system, {"sensor": {"signal": "4..20 mA"}})
    assert visit_page(device.given, visit).visit.sensor.signal.kind == "ratiometric"
    assert [line.state for line in today(device.given).ended] == ["left-temporary"]
    end_visit(device.given, visit, "open")
    seen = visit_page(device.given, visit)
    assert (seen.visit.sensor.signal.kind, seen.visit.closed.fault, seen.state) == ("current", None, "open")
    with pytest.raises(UnknownWordError, match="watching"):
        end_visit(device.given, visit, "watchin")
    with pytest.raises(VisitFileError):
        end_visit(device.given, visit, "watching", finding={"fault": "gremlins"})


def test_the_complaint_can_be_told_later(device: Device) -> None:
    """[complaint] of the visit file; a word that is none is refused."""
    visit = started(device)
    set_complaint(device.given, visit, {"text": "", "since": "sudden", "shown": ["low-signal"]})
    told = visit_page(device.given, visit).visit.complaint
    assert (told.text, told.since, told.shown) == (None, "sudden", ("low-signal",))
    with pytest.raises(VisitFileError):
        set_complaint(device.given, visit, {"since": "yesterday"})
    assert find_visits(device.given, "flat") == ()


def test_two_devices_that_both_worked_on_a_visit_lose_nothing(device: Device) -> None:
    """Both readings stand; the reading that both corrected shows both values, until somebody says which."""
    visit = started(device)
    reading = kept(device, visit, GAUGE)
    other = Device(seed=2, clock=ToldClock(now=1_000_000))
    device.meets(other)
    kept(other, visit, VOLTS)
    correct_reading(device.given, visit, reading, {"value": "50 psi"})
    correct_reading(other.given, visit, reading, {"value": "46 psi"})
    device.meets(other)
    seen = visit_page(device.given, visit)
    assert seen == visit_page(other.given, visit)
    assert [(row.number, row.conflict, {each.value for each in row.heads}) for row in seen.rows] == [
        (None, True, {"50 psi", "46 psi"}), (1, False, set()),
    ]  # fmt: skip
    correct_reading(other.given, visit, reading, {"value": "46 psi"})
    device.meets(other)
    assert [(row.number, row.conflict) for row in visit_page(device.given, visit).rows] == [(1, False), (2, False)]


def test_what_two_devices_disagree_on_is_not_settled_by_the_way(device: Device) -> None:
    """Office and van named the system, and told a reading's pressure, each its own way; then other keys change."""
    visit = started(device)
    system, reading = visit_page(device.given, visit).system_id, kept(device, visit, VOLTS)
    other = Device(seed=2)
    device.meets(other)
    for each, name, pressure in ((device, "Pump A", "30 psi"), (other, "Pump B", "60 psi")):
        set_system(each.given, system, {}, name=name)
        correct_reading(each.given, visit, reading, {"pressure": pressure})
        set_complaint(each.given, visit, {"text": name})
    device.meets(other)
    set_labels(device.given, system, {"controller.supply": "V+"})
    correct_reading(device.given, visit, reading, {"value": "1.15 V"})
    end_visit(device.given, visit, "watching")
    seen = visit_page(device.given, visit)
    assert {(clash.key, clash.values) for clash in seen.clashes} == {
        ("name", ("Pump A", "Pump B")), ("pressure", ("30 psi", "60 psi")), ("complaint.text", ("Pump A", "Pump B")),
    }  # fmt: skip
    assert (seen.visit.labels, seen.state) == ({"controller.supply": "V+"}, "watching")
    set_system(device.given, system, {}, name="Pump B")
    correct_reading(device.given, visit, reading, {"pressure": "60 psi"})
    set_complaint(device.given, visit, {"text": "both"})
    assert [clash.key for clash in visit_page(device.given, visit).clashes] == ["name"]  # as it stood when it ended
    end_visit(device.given, visit, "open")
    after = visit_page(device.given, visit)
    assert (after.clashes, after.name, after.rows[0].number) == ((), "Pump B", 1)
    assert after.rows[0].body == {**VOLTS, "value": "1.15 V", "pressure": "60 psi"}


def test_a_reading_in_conflict_can_be_taken_out(device: Device) -> None:
    """Taken out on one device, corrected on the other: told as a conflict, and settled by taking it out again."""
    visit = started(device)
    reading = kept(device, visit, GAUGE)
    other = Device(seed=2)
    device.meets(other)
    correct_reading(device.given, visit, reading, None)
    correct_reading(other.given, visit, reading, {"value": "46 psi"})
    device.meets(other)
    correct_reading(device.given, visit, reading, None)
    (row,) = visit_page(device.given, visit).rows
    assert (row.number, row.withdrawn) == (None, True)


def test_ids_of_a_device_whose_clock_is_behind_sort_after_all_that_it_has_seen(device: Device) -> None:
    """The order of readings is the order in which they were entered."""
    visit = started(device)
    kept(device, visit, GAUGE)
    other = Device(seed=2, clock=ToldClock(now=0))
    device.meets(other)
    newest = max(device.store.facts)
    assert kept(other, visit, VOLTS) > newest


def test_what_is_erased_is_gone_wherever_it_turns_up(device: Device) -> None:
    """A purge wins over a later union, and takes photos and the first page's lines with it."""
    visit = started(device)
    system = visit_page(device.given, visit).system_id
    other = Device(seed=2)
    kept(device, visit, GAUGE)
    photo = add_photo(device.given, visit, JPEG)
    device.meets(other)
    kept(other, visit, VOLTS)
    assert set(erase(device.given, system)) == {system, visit}
    assert device.store.blobs == {}
    assert (today(device.given).visits, today(device.given).systems) == ((), ())
    device.meets(other)
    for each in (device, other):
        with pytest.raises(NotFoundError, match="erased"):
            visit_page(each.given, visit)
        texts = "".join(str(fact.body) for fact in each.store.facts.values())
        assert "psi" not in texts
        assert "1.12" not in texts
    assert photo in device.store.facts


def test_the_demo_comes_once_and_goes_for_good(device: Device) -> None:
    """One click takes it out; the next start does not bring it back."""
    text = (ROOT / "examples" / "house-damp-cable.toml").read_text(encoding="utf-8")
    demo = begin_demo(device.given, text)
    assert begin_demo(device.given, text) == demo
    assert [line.demo for line in today(device.given).visits] == [True]
    assert visit_page(device.given, demo).demo
    leave_demo(device.given)
    leave_demo(device.given)
    assert begin_demo(device.given, text) == ""
    assert today(device.given).visits == ()


@pytest.mark.parametrize(
    "data", [b"", b"GIF89a", b"<svg onload=x>", b"RIFF....WAVE", b"\xff\xd8\xff" + b"0" * (1 << 24)], ids=len
)
def test_what_is_no_photo_is_refused(device: Device, data: bytes) -> None:
    """The first bytes of JPEG (ITU-T T.81, B.1.1.3), PNG (its specification, 5.2) and WebP (RFC 9649, 2.4)."""
    with pytest.raises(RecordError, match="photo"):
        add_photo(device.given, started(device), data)


def test_whatever_is_kept_can_be_read_back_from_its_text(device: Device) -> None:
    """A name that a keyboard garbled, a note in any script; every fact through its canonical text."""
    set_author(device.given, "Ann\u200b\n Lee\0" + "x" * 300)
    visit = started(device)
    add_note(device.given, visit, "naïve Ω \U0001f4a7\ttab\nline")
    set_system(device.given, visit_page(device.given, visit).system_id, {}, name="Ω" * 300)
    facts = list(device.store.facts.values())
    assert [fact_from_text(canonical(each)) for each in facts] == facts
    assert visit_page(device.given, visit).people[0].startswith("Ann Lee")


def test_a_note_says_something(device: Device) -> None:
    """An empty line is none; neither is one that a database cannot hold."""
    visit = started(device)
    for text in ("  ", "x" * 4001, "a\0b"):
        with pytest.raises(RecordError):
            add_note(device.given, visit, text)


def test_a_suspect_is_explained_from_the_record() -> None:
    """Every reading has its line, as of a visit file; a suspect that there is none of is refused."""
    device = Device()
    visit = started(device)
    kept(device, visit, GAUGE)
    found = why_page(device.given, visit, "sensor-low", Speaker())
    assert [each.reading for each in found.readings] == [1]
    with pytest.raises(UnknownWordError):
        why_page(device.given, visit, "gremlins", Speaker())
