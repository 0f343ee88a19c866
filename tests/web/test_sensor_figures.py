"""What a sensor check says: five lines, and behind the door all figures, each down to what was read."""

from __future__ import annotations

from steadyhead.service.record.given import Given
from tests.record.bench import ToldClock
from tests.web.client import Answer, Browser
from tests.web.visiting import HIGH, begin_check, run_through


def test_the_house_call_sees_five_lines_and_a_door(browser: Browser, begun: Answer) -> None:
    """4 psi of 1 psi allowed: not good, its zero; the door leads to all figures."""
    answer = run_through(browser, begun)
    lines = answer.text.partition('id="res"')[2].partition('<div class="pair">')[0]
    assert lines.count("<p>") == 5
    assert "Not good: it reads 4 psi high" in answer.page.said
    assert "its zero has moved by 4 psi" in answer.page.said
    assert answer.page.links["All figures"] == f"{begun.address}/figures"


def test_all_figures_stand_behind_the_door(browser: Browser, begun: Answer) -> None:
    """By hand: zero error 4 psi, which is 4 % of span; span error nothing; the setting moves by 4 psi at both ends."""
    run_through(browser, begun)
    said = browser.get(f"{begun.address}/figures").page.said
    assert "Zero error 4 psi 4 %" in said
    assert "Span error 0 psi 0 %" in said
    assert "How badly it repeats" in said or "How good the gauge is" in said
    assert "A setting of the drive that would suit it" in said


def figure_links(answer: Answer) -> set[str]:
    """Return the addresses of the figures that a page names."""
    links = {known.get("href", "") for tag, known in answer.page.tags if tag == "a"}
    return {link for link in links if "figure=" in link}


def test_every_figure_tells_its_descent_down_to_what_was_read(browser: Browser, begun: Answer) -> None:
    """Every link of the page and of theirs: a formula with its inputs, or whence it was given."""
    run_through(browser, begun)
    waiting = figure_links(browser.get(f"{begun.address}/figures"))
    assert len(waiting) > 20
    seen: set[str] = set()
    whence: set[str] = set()
    while waiting:
        address = waiting.pop()
        seen.add(address)
        one = browser.get(address)
        assert one.status == 200, address
        inputs = figure_links(one)
        assert ("Formula" in one.page.said) != ("Where it comes from" in one.page.said)
        assert bool(inputs) <= ("Formula" in one.page.said)
        if "Where it comes from" in one.page.said:
            whence.add(one.page.said.partition("Where it comes from")[2])
        waiting |= inputs - seen
    assert any("point 3" in each for each in whence)
    assert len(seen) > 60


def test_a_setting_that_must_not_be_set_is_told_with_why(browser: Browser, begun: Answer) -> None:
    """Two points are too few to lay a setting through."""
    run_through(browser, begun, HIGH[:2])
    said = browser.get(f"{begun.address}/figures").page.said
    assert "Do not set it" in said
    assert "Write the old setting down" not in said


def test_a_check_without_points_has_no_figures_yet(browser: Browser, begun: Answer) -> None:
    """Nor any figure of a number."""
    assert "No point yet." in browser.get(f"{begun.address}/figures").page.said
    for number in ("1", "x", "-1", "o1", "9" * 50):
        assert browser.get(f"{begun.address}/figures?figure={number}").status == 404


def test_drift_stands_between_checks_of_one_serial_number(given: Given, browser: Browser, visit: str) -> None:
    """Zero at 1 psi, and 2 psi just a year (365.25 days) later: 1 psi a year."""
    addresses = []
    for signals in (("0.54", "1.54", "2.54"), ("0.58", "1.58", "2.58")):
        begun = begin_check(browser, visit, serial="K-9")
        addresses.append(begun.address)
        run_through(browser, begun, tuple(zip(("0", "25", "50"), signals, strict=True)))
        assert isinstance(given.clock, ToldClock)
        given.clock.now += 1461 * 86_400_000 // 4
    said = browser.get(f"{addresses[-1]}/figures").page.said
    assert "2 checks as found, from 2026-05-04 to 2027-05-04." in said
    assert "Drift of the zero in a year 1 psi" in said


def test_a_check_after_a_change_is_compared_with_the_one_as_found(browser: Browser, visit: str) -> None:
    """4 psi high as found, 1 psi after it: a change of -3 psi at each pressure, each with its descent.

    A later check as found, on another day, has nothing to do with it.
    """
    run_through(browser, begin_check(browser, visit, serial="K-9"))
    left = begin_check(browser, visit, serial="K-9", stage="as-left")
    run_through(browser, left, (("0", "0.54"), ("25", "1.54"), ("50", "2.54")))
    later = begin_check(browser, visit, serial="K-9", stage="as-found")
    run_through(browser, later, (("0", "0.50"), ("25", "1.50"), ("50", "2.50")))
    page = browser.get(f"{left.address}/figures")
    assert "Since it was found" in page.page.said
    assert page.page.said.partition("Since it was found")[2].count("4 psi 1 psi -3 psi") == 3
    change = browser.get(next(link for link in sorted(figure_links(page)) if "figure=o" in link))
    assert "mean error of the level as left - mean error of the level as found" in change.page.said
    assert {"4 psi", "1 psi"} <= set(change.page.links)


def test_the_rule_is_stated_and_can_be_chosen(browser: Browser, begun: Answer) -> None:
    """Each of the three; one that there is none of is refused; a figure's address keeps the rule."""
    run_through(browser, begun)
    address = f"{begun.address}/figures"
    assert "Decided with a guard band" in browser.get(address).page.said
    assert "Decided by the tolerance alone" in browser.get(f"{address}?rule=simple").page.said
    page = browser.get(f"{address}?rule=specific-risk")
    assert "chance of being wrong is under 5 %" in page.page.said
    assert all("rule=specific-risk" in link for link in figure_links(page))
    assert browser.get(f"{address}?rule=coin").status == 400


def test_the_lower_end_of_the_setting_can_stay(browser: Browser, begun: Answer) -> None:
    """Many house drives ask for the upper end only: it stays at 0 psi."""
    run_through(browser, begun)
    page = browser.get(browser.get(f"{begun.address}/figures").page.links["Leave the lower end as it is"])
    setting = page.page.said.partition("A setting of the drive")[2]
    assert "0 psi \u2026" in setting
    assert "Change both ends" in page.page.links


def test_a_new_setting_has_the_drive_s_own_unit_in_brackets(browser: Browser, begun: Answer) -> None:
    """4 psi too high at both ends, shown in bar: -4 to 96 psi is entered; in psi no bracket stands there."""
    run_through(browser, begun)
    assert "psi)" not in browser.get(f"{begun.address}/figures").page.said.partition("A setting of the drive")[2]
    form = browser.get("/settings").page.form("/settings")
    browser.post(form.action, form.filled(unit="bar"))
    said = browser.get(f"{begun.address}/figures").page.said.partition("A setting of the drive")[2]
    assert "(-4 psi \u2026 96 psi)" in said.replace("\N{MINUS SIGN}", "-")


def test_a_monte_carlo_run_is_made_where_somebody_asks(browser: Browser, begun: Answer) -> None:
    """Its own line for each pressure; straight formulas, so both agree."""
    run_through(browser, begun)
    page = browser.get(f"{begun.address}/figures")
    assert "Both agree." not in page.page.said
    said = browser.get(page.page.links["Work it out once more by Monte Carlo"]).page.said
    assert said.count("Both agree.") == 3
