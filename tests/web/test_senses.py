"""What helps a hand at the panel without scripts: large digits, the setting of the buzz; and what scripts are given."""

from __future__ import annotations

from steadyhead.service.record.given import Given
from steadyhead.service.record.vibrating import set_vibrates, vibrates
from tests.web.client import Answer, Browser
from tests.web.test_joining import Served
from tests.web.visiting import read, three_taps


def main_of(answer: Answer) -> dict[str, str]:
    """Return what stands at a page's main part."""
    return next(known for tag, known in answer.page.tags if tag == "main")


def test_digits_are_large_by_a_link_and_stay_so_until_it_is_tapped_again(browser: Browser) -> None:
    """Without scripts: the address says it, and each form carries it on."""
    page = three_taps(browser)
    assert "class" not in main_of(page)
    page = browser.get(page.page.links["Large digits"])
    assert main_of(page)["class"] == "large"
    after = read(browser, page, "48")
    assert main_of(after)["class"] == "large"
    assert "48 psi" in after.page.said
    assert "class" not in main_of(browser.get(after.page.links["Usual size"]))


def test_a_refused_reading_is_shown_large_again_and_nothing_typed_is_lost(browser: Browser) -> None:
    """422; no link to another size, which would lose what was typed."""
    page = browser.get(three_taps(browser).page.links["Large digits"])
    answer = read(browser, page, "forty")
    assert answer.status == 422
    assert main_of(answer)["class"] == "large"
    assert answer.page.form("/readings").fields["said"] == "forty"
    assert not {"Usual size", "Large digits"} & set(answer.page.links)


def test_the_two_points_that_were_tapped_stay_chosen_when_the_size_changes(browser: Browser) -> None:
    """What else the address asks for."""
    visit = three_taps(browser).address
    address = f"{visit}/read?red=controller.signal&black=controller.common"
    large = browser.get(address).page.links["Large digits"]
    assert large == f"{address}&large=1"
    assert browser.get(large).page.links["Usual size"] == address


def test_a_buzz_is_the_setting_of_each_person_and_holds_until_they_say_no(given: Given, browser: Browser) -> None:
    """On at first; off on this device leaves a phone that joined as it was."""
    assert main_of(browser.get("/"))["data-buzz"] == "on"
    form = browser.get("/settings").page.form("/settings")
    assert form.fields["vibration"] == "on"
    browser.post(form.action, form.filled(vibration="off"))
    assert "data-buzz" not in main_of(browser.get("/"))
    assert browser.get("/settings").page.form("/settings").fields["vibration"] == "off"
    assert main_of(Served(given).joined().get("/"))["data-buzz"] == "on"
    set_vibrates(given, "", on=True)
    assert vibrates(given, "")


def test_the_screen_may_be_kept_on_by_this_app_s_own_pages_alone(browser: Browser) -> None:
    """Permissions Policy: the app's own address, and no camera, no place."""
    policy = browser.get("/").headers["permissions-policy"]
    assert "screen-wake-lock=(self)" in policy
    assert "camera=()" in policy
    assert "geolocation=()" in policy


def test_the_button_that_keeps_the_screen_on_is_hidden_until_a_script_finds_that_it_can(browser: Browser) -> None:
    """On the pages that measure, and on no other."""
    page = three_taps(browser).page
    (button,) = [known for tag, known in page.tags if "data-awake" in known]
    assert "hidden" in button
    assert not [known for _, known in browser.get("/").page.tags if "data-awake" in known]
