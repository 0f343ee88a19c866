"""The order in which a visit's page is heard, from the browser's own accessibility tree."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Opener
from tests.browser.taps import button, field, keep, three_taps, values

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: What is heard one after the other: whose visit, what to do, what can hurt, where it is written, what is known.
HEARD = (
    'link "To the next check"', "banner", "[level=1]", "main", 'heading "Transducer open to the air',
    'region "Cautions"', "Stop the drive first", "textbox", 'button "Can\'t do it here"',
    'heading "What we know"', 'heading "Readings"', "contentinfo",
)  # fmt: skip


def test_a_check_is_heard_before_its_cautions_those_before_the_field_and_that_before_what_is_known(
    opened: Opener,
) -> None:
    """48 psi on the gauge and 30 on the display: the transducer is opened to the air, which can hurt."""
    page = opened()
    three_taps(page)
    for number, figure in enumerate(("48", "30"), start=1):
        field(page).fill(figure)
        keep(page)
        if number == 1:
            expect(values(page)).to_have_count(1)
    expect(button(page, "Can't do it here")).to_be_visible()
    expect(values(page)).to_have_count(2)
    heard = page.locator("body").aria_snapshot()
    at = -1
    for each in HEARD:
        found = heard.find(each, at + 1)
        assert found > at, f"{each} is not heard after what comes before it:\n{heard}"
        at = found
