"""Birth readings on their pages: taken when all is well, then and now on a later visit."""

from __future__ import annotations

from steadyhead.service.record.given import Given
from steadyhead.service.record.visits import start_visit
from tests.web.client import Browser
from tests.web.test_system import system_of

THEN = {"set": "60", "supply": "5.00", "hertz-no-flow": "38", "motor-ohms": "2.4"}
NOW = {"set": "30", "supply": "4.60", "hertz-no-flow": "38", "motor-ohms": "2.5"}


def test_numbers_are_taken_and_a_later_visit_is_told_what_moved(given: Given, browser: Browser, visit: str) -> None:
    """Supply from 5.00 to 4.60 V is beyond what a usual meter tells; hertz the same within half a last digit."""
    system = system_of(given, visit)
    form = browser.get(f"{visit}/birth").page.form("/birth")
    taken = browser.post(form.action, form.filled(**THEN))
    assert (taken.address, "5.00 V" in taken.page.said) == (f"{system}/birth", True)
    later = f"/visits/{start_visit(given, {}, system=system.split('/')[2])}"
    page = browser.get(f"{later}/birth").page
    assert "Then: 5.00 V" in page.said
    form = page.form("/birth")
    told = browser.post(form.action, form.filled(**NOW)).page.said
    assert "Then 5.00 V, now 4.60 V: moved by -0.4 V." in told
    assert "Then 60 psi, now 30 psi: moved by -30 psi." in told
    assert "Then 2.4 ohm, now 2.5 ohm: within" in told
    assert "Then 38 Hz, now 38 Hz: within what the instruments tell" in told
    assert "What usually moves it: load on the same terminals" in told


def test_a_wrong_number_loses_nothing_that_was_typed(browser: Browser, visit: str) -> None:
    """A unit of another kind; the caution for the motor stands above its fields."""
    form = browser.get(f"{visit}/birth").page.form("/birth")
    refused = browser.post(form.action, form.filled(supply="5 psi", level="12 m"))
    assert refused.status == 422
    assert refused.page.form("/birth").fields["level"] == "12 m"
    assert refused.page.form("/birth").fields["supply"] == "5 psi"
    assert "Never test insulation into a drive." in refused.page.said
