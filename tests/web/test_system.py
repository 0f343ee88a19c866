"""A system's page: what it is, what happened, what was changed, what two devices disagree on; and its form."""

from __future__ import annotations

from steadyhead.service.record.given import Given
from steadyhead.service.record.pages import system_page, visit_page
from steadyhead.service.record.systems import set_system
from steadyhead.service.record.visits import end_visit
from steadyhead.visit.facts import Fact
from tests.service.photos.made import jpeg
from tests.web.client import Browser
from tests.web.test_photos import send


def system_of(given: Given, visit: str) -> str:
    """Return the address of a visit's system."""
    return f"/systems/{visit_page(given, visit.split('/')[2]).system_id}"


def test_the_page_tells_what_it_is_and_what_happened_before_anything_to_fill_in(
    given: Given, browser: Browser, visit: str
) -> None:
    """The plate, the visit with its end and its finding, and who changed what; the form is a page of its own."""
    system = system_of(given, visit)
    set_system(given, system.split("/")[2], {"cable": {"length": "12 m"}}, name="Pump 1")
    end_visit(given, visit.split("/")[2], "proved-on-site", finding={"fault": "sensor-low", "proved": True})
    page = browser.get(system).page
    for said in ("Pump 1", "0..100 psi", "12 m", "Found: ", "Ana"):
        assert said in page.said
    assert [tag for tag, known in page.tags if tag == "input" and known.get("name") == "cable.length"] == []
    assert f"{system}/plate" in page.links.values()


def test_the_form_keeps_what_is_known_and_loses_nothing_where_it_is_refused(
    given: Given, browser: Browser, visit: str
) -> None:
    """A length that is none, then one."""
    system = system_of(given, visit)
    form = browser.get(f"{system}/plate").page.form("/plate")
    refused = browser.post(form.action, form.filled(**{"cable.length": "far", "cable.conductor": "22 AWG"}))
    assert refused.status == 422
    assert refused.page.form("/plate").fields["cable.conductor"] == "22 AWG"
    after = browser.post(form.action, form.filled(**{"cable.length": "12 m"}))
    assert (after.address, "12 m" in after.page.said) == (system, True)


def test_a_change_is_put_back_by_a_tap(given: Given, browser: Browser, visit: str) -> None:
    """The button of the history."""
    system = system_of(given, visit)
    set_system(given, system.split("/")[2], {"cable": {"length": "12 m"}})
    form = browser.get(system).page.form("/back")
    browser.post(form.action, form.filled(change=form.buttons[0][1]))
    assert "cable" not in system_page(given, system.split("/")[2]).tables


def test_what_two_devices_disagree_on_stands_first_and_is_settled_by_a_tap(
    given: Given, browser: Browser, visit: str
) -> None:
    """Two facts that both replaced the same one."""
    system = system_of(given, visit)
    id_ = system.split("/")[2]
    with given.writing() as work:
        heads = tuple(fact.id for fact in work.facts(about=id_))
        body = dict(work.facts(about=id_)[-1].body)
        made: list[Fact] = [
            given.pen(work).fact(
                "system", {**body, "cable": {"length": length}}, about=id_, supersedes=heads[-1:], after=max(heads)
            )
            for length in ("12 m", "15 m")
        ]
        work.add(made)
        work.commit()
    page = browser.get(system).page
    assert "Two devices say different things" in page.said
    form = page.form("/settle")
    head = next(value for _, value, text in form.buttons if text == "15 m")
    after = browser.post(form.action, form.filled(head=head))
    assert "Two devices say different things" not in after.page.said
    assert system_page(given, id_).tables["cable"] == {"length": "15 m"}


def test_photos_of_plates_stand_on_the_page_and_others_do_not(given: Given, browser: Browser, visit: str) -> None:
    """One of a plate, one of the wiring."""
    send(browser, visit, jpeg(), shows="wiring")
    send(browser, visit, jpeg(), shows="plate")
    pictures = [known["src"] for tag, known in browser.get(system_of(given, visit)).page.tags if tag == "img"]
    assert len(pictures) == 1
    assert browser.get(pictures[0]).status == 200


def test_a_visit_to_a_known_system_begins_on_its_page(given: Given, browser: Browser, visit: str) -> None:
    """The taps that say what is seen, with the system already chosen."""
    system = system_of(given, visit)
    form = browser.get(system).page.form("/visits")
    begun = browser.post(form.action, form.filled(complaint="reads-wrong"))
    assert system_of(given, begun.address) == system


def test_a_similar_system_is_chosen_shown_and_copied(given: Given, browser: Browser, visit: str) -> None:
    """Two taps; the history then says where it came from."""
    like = system_of(given, visit)
    set_system(given, like.split("/")[2], {"cable": {"length": "12 m"}}, name="Pump 1")
    new = browser.get("/").page.form("/visits")
    here = system_of(given, browser.post_only(new.action, new.filled(complaint="reads-wrong")).headers["location"])
    assert "12 m" not in browser.get(here).page.said
    choice = next(each for each in browser.get(f"{here}/copy").page.links.values() if "like=" in each)
    page = browser.get(choice).page
    assert "12 m" in page.said
    form = page.form("/copy")
    after = browser.post(form.action, form.filled(like=like.split("/")[2]))
    assert (after.address, "Copied from Pump 1." in after.page.said) == (here, True)
