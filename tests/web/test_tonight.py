"""Water tonight in the app: asked, worked out, chosen, kept with its limits; nothing typed is lost; refusals."""

from __future__ import annotations

from urllib.parse import urlencode

import pytest

from steadyhead.service.record.given import Given
from steadyhead.service.record.pages import visit_page
from tests.water.answered import WELL
from tests.web.client import Answer, Browser

SENT = {**WELL, "go": "yes"}


def asked(browser: Browser, visit: str, **more: str) -> Answer:
    """Return the page once answers were sent."""
    return browser.get(f"{visit}/tonight?{urlencode({**SENT, **{k.replace('_', '-'): v for k, v in more.items()}})}")


def chosen(answer: Answer) -> str:
    """Return the address that leaves the best way so."""
    return next(link for link in answer.page.links.values() if "mode=fixed-speed" in link)


def test_it_is_reached_from_the_visit_and_from_the_temporary_form(browser: Browser, visit: str) -> None:
    """The links of both pages."""
    assert f"{visit}/tonight" in browser.get(visit).page.links.values()
    assert f"{visit}/tonight" in browser.get(f"{visit}/temporary").page.links.values()


def test_with_nothing_known_it_asks_and_makes_safe(browser: Browser, visit: str) -> None:
    """Unknown is normal: the form is sent empty, and the answer is what to find out."""
    first = browser.get(f"{visit}/tonight")
    assert first.status == 200
    sent = browser.get(f"{visit}/tonight?{urlencode(first.page.forms[0].fields)}")
    assert sent.status == 200
    assert "Made safe, left off" in sent.page.said
    assert "Look at the pump" in sent.page.said
    assert not [link for link in sent.page.links.values() if "/temporary?" in link]  # nobody said who gets the water


def test_a_bare_figure_has_the_unit_beside_it(browser: Browser, visit: str) -> None:
    """By hand: the same limits as in the worked example, 42.7 Hz."""
    bare = {"lift": "100", "lift.unit": "ft", "set-pressure": "50", "set-pressure.unit": "psi"}
    page = browser.get(f"{visit}/tonight?{urlencode({**SENT, **bare})}").page
    assert "42.7 Hz" in page.said
    assert page.forms[0].fields["lift"] == "100"
    assert page.forms[0].fields["lift.unit"] == "ft"


def test_a_chosen_way_brings_its_words_its_losses_and_its_limits_to_the_tag(
    browser: Browser, visit: str, given: Given
) -> None:
    """The worked example: 42.7 Hz, 90 psi; the record has them, and the day it ends."""
    choose = chosen(asked(browser, visit))
    page = browser.get(choose).page
    form = page.form("/temporary")
    assert form.fields["lost.over-pressure"] == "over-pressure"
    assert "42.7 Hz" in form.fields["what"]
    lacking = browser.post(form.action, form.filled(why="part on its way"))
    assert lacking.status == 422
    assert "until when; who watches" in lacking.page.said
    form = lacking.page.form("/temporary")
    assert form.fields["why"] == "part on its way"
    kept = browser.post(form.action, form.filled(until="2999-01-02", watch="Ms Ruiz, beside it"))
    assert kept.address.endswith("/papers/tag")
    assert "42.7 Hz" in kept.page.said
    assert "90 psi" in kept.page.said
    body = visit_page(given, visit.rpartition("/")[2]).temporary[-1].body
    assert (body["mode"], body["hertz_most"], body["pressure_most"]) == ("fixed-speed", "42.7 Hz", "90 psi")
    assert body["until"] == "2999-01-02"
    again = browser.get(f"{visit}/tonight").page.forms[0].fields
    assert again["shut-off"] == "550"


def test_wrong_answers_are_all_named_and_nothing_is_lost(browser: Browser, visit: str) -> None:
    """Two wrong figures, one right answer."""
    answer = asked(browser, visit, lift="deep", weakest="-4 psi")
    assert answer.status == 422
    assert "From the water" in answer.page.said
    assert "Most that the weakest part may carry" in answer.page.said
    fields = answer.page.forms[0].fields
    assert (fields["lift"], fields["weakest"], fields["pump"]) == ("deep", "-4", "centrifugal")


def test_a_fire_pump_is_refused_and_nothing_can_be_chosen(browser: Browser, visit: str) -> None:
    """No way, no figure, no link; and the form itself refuses what was made up by hand."""
    page = asked(browser, visit, serves="fire").page
    assert "nothing temporary is worked out" in page.said
    assert "Leave it so" not in page.said
    forged = browser.get(f"{visit}/temporary?{urlencode({**WELL, 'serves': 'fire', 'mode': 'fixed-speed'})}")
    assert forged.status == 400


def test_a_form_that_was_tampered_with_keeps_nothing(browser: Browser, visit: str, given: Given) -> None:
    """The answers are made to say that nobody watches: what is kept is worked out again, and refused."""
    form = browser.get(chosen(asked(browser, visit))).page.form("/temporary")
    sent = form.filled(why="w", until="2999-01-02", watch="Ms Ruiz", **{"known.watch": "nobody"})
    assert browser.post(form.action, sent).status == 422
    assert visit_page(given, visit.rpartition("/")[2]).temporary == ()


@pytest.mark.parametrize("text", ["<script>alert(1)</script>", "x" * 5000, "\u0000"])
def test_what_is_typed_is_never_markup_and_never_breaks_it(browser: Browser, visit: str, text: str) -> None:
    """A word that no question knows: refused in words."""
    answer = asked(browser, visit, lift=text)
    assert answer.status == 422
    assert "<script>alert" not in answer.text


def test_only_what_the_nearest_way_waits_for_stands_open(browser: Browser, visit: str) -> None:
    """With a way to choose nothing stands open; with one answer lacking its group does, and no other."""
    def groups(answer: Answer) -> list[bool]:
        form = answer.text.partition("<form")[2]
        return ["<details class=\"more\" open>" in part for part in form.split("</details>")[:-1]]

    assert not any(groups(asked(browser, visit)))
    assert groups(asked(browser, visit, spare="no", switch="no", lead="no", weakest="")).index(True) == 2
    assert sum(groups(asked(browser, visit, spare="no", switch="no", lead="no", weakest=""))) == 1
