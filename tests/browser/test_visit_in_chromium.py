"""A visit in a real browser: by thumb, without scripts, with wrong entries, twice, in two tabs, by keyboard."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Opener
from tests.browser.taps import VISIT, button, field, keep, three_taps, values

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: What has the focus: its text and id, and how its outline is drawn.
FOCUS = """() => { const e = document.activeElement;
  return [[e.innerText?.trim(), e.id], getComputedStyle(e).outlineStyle]; }"""


def test_a_visit_by_thumb_with_the_keypad_the_band_and_a_correction(opened: Opener) -> None:
    """What was tapped, as it stands on the page."""
    page = opened()
    three_taps(page)
    for key in ("4", "8"):
        page.locator(f".key[data-text='{key}']").tap()
    expect(field(page)).to_have_value("48")
    keep(page)
    expect(page.get_by_role("heading", name="Pressure on the display")).to_be_visible()
    expect(values(page)).to_have_text(["48 psi"])
    page.get_by_role("link", name="Gauge", exact=True).click()
    expect(button(page, "Keep the correction")).to_be_visible()
    field(page).fill("46.5")
    button(page, "Keep the correction").click()
    expect(page.get_by_text("corrected", exact=True)).to_be_visible()
    expect(values(page)).to_have_text(["46.5 psi"])


def test_the_keypad_takes_a_sign_a_rub_out_a_jump_and_ol(opened: Opener) -> None:
    """Key by key."""
    page = opened()
    visit = three_taps(page)
    page.goto(f"{visit}/read?red=controller.signal&black=controller.common")
    for key, value in (("-", "-"), ("2", "-2"), ("-", "2"), (".", "2."), ("1", "2.1"), (" to ", "2.1 to ")):
        page.locator(f".key[data-text='{key}']").tap()
        expect(field(page)).to_have_value(value)
    button(page, "Rub out").tap()
    expect(field(page)).to_have_value("2.1")
    button(page, "OL").tap()
    expect(field(page)).to_have_value("OL")


def test_the_healthy_band_answers_while_typing(opened: Opener) -> None:
    """The invented visit: 48 psi on 0..100 psi is 0.5 V + 4 V x 0.48 = 2.42 V; 1.12 V is what the damp leaves."""
    page = opened(wide=1280)
    page.goto("/")
    page.get_by_role("link", name="Fernhill Row").first.click()
    expect(page).to_have_url(VISIT)
    page.goto(f"{page.url}/read?red=controller.signal&black=controller.common")
    for typed, said in (("2.42", "within healthy"), ("1.12", "below healthy"), ("3.9", "above healthy"), ("OL", "")):
        field(page).fill(typed)
        expect(page.locator("output.place")).to_have_text(said)
    page.locator("input[value=mV]").check()
    field(page).fill("2420")
    expect(page.locator("output.place")).to_have_text("within healthy")


def test_a_visit_without_scripts(opened: Opener) -> None:
    """Links and forms alone; digits are left to the phone's own keyboard."""
    page = opened(scripts=False)
    three_taps(page)
    expect(page.locator(".key[data-text='7']")).to_be_hidden()
    field(page).fill("48")
    keep(page)
    expect(values(page)).to_have_text(["48 psi"])
    page.get_by_role("link", name="Red lead on the signal terminal").click()
    page.get_by_role("link", name="Black lead on the common terminal").click()
    expect(page.get_by_role("heading", name="Volts DC, the signal terminal to the common terminal")).to_be_visible()


def test_wrong_entries_stay_in_the_field_and_slips_are_asked_about(opened: Opener) -> None:
    """Nothing typed is lost, nothing is guessed."""
    page = opened()
    visit = three_taps(page)
    field(page).fill("forty")
    keep(page)
    expect(page.get_by_role("alert").filter(has_text="Not kept.")).to_be_visible()
    expect(field(page)).to_have_value("forty")
    expect(page).to_have_url(visit)
    field(page).fill("480")
    keep(page)
    button(page, "No, 48 psi").click()
    expect(values(page)).to_have_text(["48 psi"])


def test_a_double_tap_keeps_one_reading(opened: Opener) -> None:
    """A wet thumb."""
    page = opened()
    three_taps(page)
    field(page).fill("48")
    button(page, "Keep this reading").dblclick()
    expect(page.get_by_role("heading", name="Pressure on the display")).to_be_visible()
    expect(values(page)).to_have_text(["48 psi"])


def test_going_back_shows_the_visit_as_it_stands(opened: Opener) -> None:
    """Never a stale form that could answer a check twice."""
    page = opened()
    three_taps(page)
    field(page).fill("48")
    keep(page)
    expect(values(page)).to_have_text(["48 psi"])
    page.get_by_role("link", name="Papers").click()
    expect(page.get_by_role("heading", name="Papers of this visit")).to_be_visible()
    page.go_back()
    expect(values(page)).to_have_text(["48 psi"])
    page.go_back()
    expect(page.locator("main")).not_to_be_empty()


def test_two_tabs_on_one_visit_lose_nothing(opened: Opener) -> None:
    """Each has its own form."""
    page = opened()
    visit = three_taps(page)
    other = page.context.new_page()
    other.goto(visit)
    for tab, figure in ((page, "48"), (other, "47")):
        field(tab).fill(figure)
        keep(tab)
        expect(tab.get_by_role("heading", name="Pressure on the display")).to_be_visible()
    expect(values(other)).to_have_text(["48 psi", "47 psi"])


def test_what_was_typed_outlives_a_reload(opened: Opener) -> None:
    """The phone locked, the browser threw the page away."""
    page = opened()
    three_taps(page)
    field(page).fill("48.5")
    page.reload()
    expect(field(page)).to_have_value("48.5")


def test_a_visit_by_keyboard_alone(opened: Opener) -> None:
    """Tab and Enter, from the first page to a kept reading; every stop shows where it is."""
    page = opened(wide=1280)
    page.goto("/")
    for name in ("Something else", "4 to 20 mA, two wires", "0 to 10 bar"):
        reach(page, name)
        page.keyboard.press("Enter")
        expect(button(page, name)).to_have_count(0)
    reach(page, "To the next check")
    page.keyboard.press("Enter")
    reach(page, "said")
    page.keyboard.type("4.2")
    page.keyboard.press("Enter")
    expect(values(page)).to_have_text(["4.2 bar"])
    reach(page, "Papers")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Papers of this visit")).to_be_visible()


def reach(page: Page, name: str) -> None:
    """Press Tab until what has this text or id has the focus, and see that the focus can be seen."""
    for _ in range(60):
        page.keyboard.press("Tab")
        names, outline = page.evaluate(FOCUS)
        if name in names:
            assert outline != "none"
            return
    pytest.fail(f"Tab never reaches {name}")
