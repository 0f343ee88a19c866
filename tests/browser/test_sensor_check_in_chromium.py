"""A sensor check in a real browser: by thumb with the keypad, without scripts, left and resumed, a table uploaded.

Figures: 0.5..4.5 V ratiometric over 0..100 psi, 5.00 V: 0.04 V more than the plate's line is 1 psi.
"""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Opener
from tests.browser.taps import begin_sensor_check, button, figure, take_point, three_taps, values

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

TABLE = "reference [psi],signal [V],supply [V]\n0,0.50,5.00\n25,1.54,5.00\n50,2.50,5.00\n25,1.50,5.00\n0,0.50,5.00\n"


def rows(page: Page) -> list[str]:
    """Return what was read and the error of each point, in order."""
    return values(page).all_inner_texts()


def tap(page: Page, keys: str) -> None:
    """Tap keys of the keypad."""
    for key in keys:
        page.locator(f".key[data-text='{key}']").tap()


def test_a_check_by_thumb_from_first_point_to_finished(opened: Opener) -> None:
    """The keypad types into the field that was touched last; the picture grows; a point is corrected."""
    page = opened()
    check = begin_sensor_check(page, three_taps(page))
    expect(page.get_by_text("With this gauge you can convict only beyond")).to_be_visible()
    for name, keys in (("reference", "0"), ("signal", "0.5"), ("supply", "5")):
        figure(page, name).tap()
        tap(page, keys)
    expect(figure(page, "reference")).to_have_value("0")
    button(page, "Keep this point").tap()
    expect(values(page)).to_have_text(["0.5 V", "0.0"])
    expect(page.get_by_role("heading", name="25 psi on the gauge")).to_be_visible()
    take_point(page, "25", "1.58")
    expect(values(page)).to_have_text(["0.5 V", "0.0", "1.58 V", "+2.0"])
    expect(page.locator(".plot path.point.up")).to_have_count(3)  # two points and the key's
    page.get_by_role("link", name="25 psi").click()
    expect(button(page, "Keep the correction")).to_be_visible()
    figure(page, "signal").fill("1.54")
    button(page, "Keep the correction").click()
    expect(values(page)).to_have_text(["0.5 V", "0.0", "1.54 V", "+1.0"])
    page.goto("/")
    page.get_by_role("region", name="Unfinished transducer checks").get_by_role("link").first.click()
    expect(page).to_have_url(check)
    page.get_by_text("More of this check").click()
    button(page, "I am done").click()
    expect(page.get_by_text("Finished.")).to_be_visible()


def test_a_check_without_scripts(opened: Opener) -> None:
    """Links and forms alone; a wrong entry stays."""
    page = opened(scripts=False)
    begin_sensor_check(page, three_taps(page))
    take_point(page, "forty", "2.1")
    expect(page.get_by_role("alert").filter(has_text="Gauge")).to_be_visible()
    expect(figure(page, "reference")).to_have_value("forty")
    take_point(page, "40", "2.14")
    expect(values(page)).to_have_text(["2.14 V", "+1.0"])


def test_figures_that_were_typed_outlive_a_reload_and_a_double_tap_keeps_one_point(opened: Opener) -> None:
    """The phone locked in the middle of a point; then a wet thumb."""
    page = opened()
    begin_sensor_check(page, three_taps(page))
    figure(page, "reference").fill("40")
    figure(page, "signal").fill("2.1")
    page.reload()
    expect(figure(page, "reference")).to_have_value("40")
    expect(figure(page, "signal")).to_have_value("2.1")
    figure(page, "supply").fill("5")
    button(page, "Keep this point").dblclick()
    expect(values(page)).to_have_text(["2.1 V", "0.0"])
    expect(figure(page, "reference")).to_have_value("")


def test_a_table_is_uploaded(opened: Opener) -> None:
    """A file as a spreadsheet writes it; with a mistake first, which is told with its line."""
    page = opened(wide=1280)
    check = begin_sensor_check(page, three_taps(page))
    page.goto(f"{check}/table")
    for table in (TABLE.replace("25,1.54", "25,"), TABLE):
        page.locator("#file").set_input_files({"name": "run.csv", "mimeType": "text/csv", "buffer": table.encode()})
        button(page, "Take these points in").click()
        if table is not TABLE:
            expect(page.get_by_role("alert").filter(has_text=re.compile("Line 3"))).to_be_visible()
    expect(page).to_have_url(check)
    expect(page.get_by_role("heading", name="All planned points are taken.")).to_be_visible()
    assert rows(page)[:4] == ["0.50 V", "0.0", "1.54 V", "+1.0"]
