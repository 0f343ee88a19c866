"""How many taps a whole visit takes besides the figures: counted as a thumb makes them."""

from __future__ import annotations

from steadyhead.service.record.given import Given
from steadyhead.service.record.pages import visit_page
from tests.web.client import Answer, Browser, Form, Page
from tests.web.visiting import three_taps

#: The issue's figure, and the taps that lead to the first check.
MOST, FIRST = 25, 3
#: What a healthy three-wire loop of 5 V shows where nobody can say it by a band: nothing on a free signal wire.
FREE = "0.00"


def answer_of(page: Page, form: Form) -> dict[str, str]:
    """Return a healthy answer to the check that is asked: its good word, the middle of its band, 48 psi."""
    words = {value for name, value, _ in form.buttons if name == "said"}
    if words:
        return {"said": "none" if "none" in words else "right"}
    band = next((known for tag, known in page.tags if tag == "form" and "data-low" in known), None)
    if band is not None:
        return {"said": f"{(float(band['data-low']) + float(band['data-high'])) / 2:.3g}"}
    return {"said": FREE if form.fields["check"].startswith("volts") else "48"}


def tapped(browser: Browser, answer: Answer, taps: list[str]) -> Answer | None:
    """Make the one tap that the page asks for next, None where it asks for no reading."""
    cautions = [form for form in answer.page.forms if form.action.endswith("/cautions")]
    if cautions:
        name, value, _ = cautions[0].buttons[0]
        taps.append("cautions")
        return browser.post(cautions[0].action, cautions[0].filled(**{name: value}))
    readings = [form for form in answer.page.forms if form.action.endswith("/readings")]
    if not readings:
        return None
    taps.append(readings[0].fields["check"])
    return browser.post(readings[0].action, readings[0].filled(**answer_of(answer.page, readings[0])))


def test_a_whole_visit_from_the_first_page_to_proved_takes_at_most_25_taps(given: Given, browser: Browser) -> None:
    """Three to the first check, one past the first minute, one a reading and a page of cautions, three to end it."""
    answer: Answer | None = three_taps(browser)
    assert answer is not None
    visit, taps = answer.address, ["complaint", "signal", "range"]
    assert len(taps) == FIRST
    form = answer.page.form("/first-minute")
    answer = browser.post(form.action, form.filled(end="skipped"))
    taps.append("not now")
    while answer is not None and len(taps) <= MOST:
        assert answer.status == 200
        answer = tapped(browser, answer, taps)
    taps += ["end this visit", "proved on site", "nothing wrong"]
    ending = next(
        form for form in browser.get(f"{visit}/end").page.forms if form.fields.get("state") == "proved-on-site"
    )
    likeliest = next(value for name, value, _ in ending.buttons if name == "fault")
    browser.post(ending.action, ending.filled(fault=likeliest))
    assert visit_page(given, visit.split("/")[2]).state == "proved-on-site"
    assert len(taps) <= MOST, taps
