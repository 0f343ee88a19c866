"""The app in Spanish: as the browser asks for it or as it is chosen, on every page, in whole sentences."""

from __future__ import annotations

import re
from importlib.resources import files

from steadyhead.service.record.given import Given
from steadyhead.service.record.manners import manner_of
from steadyhead.words import USUAL
from tests.web.client import Answer, Browser
from tests.web.visiting import read, three_taps


def keep(browser: Browser, **chosen: str) -> Answer:
    """Choose in the settings."""
    form = browser.get("/settings").page.form("/settings")
    return browser.post(form.action, form.filled(**chosen))


def test_a_browser_that_asks_for_spanish_gets_it(browser: Browser) -> None:
    """The list of languages of a phone in Chile, and of one that knows Catalan first."""
    for asked in ("es-CL,es;q=0.9,en;q=0.8", "ca,es;q=0.8"):
        text = browser.get("/", **{"accept-language": asked}).text
        assert '<html lang="es">' in text
    assert '<html lang="en">' in browser.get("/", **{"accept-language": "de,en"}).text


def test_spanish_brings_its_decimal_comma_unless_a_point_is_chosen_with_it(given: Given, browser: Browser) -> None:
    """Common practice: a comma in Spain and South America, a point in Mexico."""
    keep(browser, language="es")
    assert manner_of(given, "", USUAL).decimal == ","
    keep(browser, decimal=".")
    assert (manner_of(given, "", USUAL).language, manner_of(given, "", USUAL).decimal) == ("es", ".")
    keep(browser, language="en")
    assert manner_of(given, "", USUAL).decimal == "."


def test_a_visit_is_asked_and_told_in_spanish(browser: Browser) -> None:
    """Trade words of the table, with the reader's comma, after three taps and a reading."""
    visit = three_taps(browser)
    keep(browser, language="es", region="elsewhere")
    page = read(browser, browser.get(visit.address), "48")
    assert '<html lang="es">' in page.text
    said = browser.get(f"{visit.address}/read?red=controller.signal&black=controller.common").page.said
    assert re.search(r"2,\d+ a 2,\d+ V", said)
    assert 'data-text=","' in page.text
    assert 'data-text="."' not in page.text
    assert "borne de señal" in said


def test_a_template_gives_a_text_its_capital_and_leaves_the_rest_as_it_is() -> None:
    """The template language's own filter would turn MIN/MAX small."""
    folder = files("steadyhead.web") / "templates"
    texts = {page.name: page.read_text(encoding="utf-8") for page in folder.iterdir() if page.name.endswith(".html")}
    assert [name for name, text in texts.items() if re.search(r"\|\s*(capitalize|title|lower|upper)\b", text)] == []


def test_no_date_has_its_month_from_the_machines_own_language() -> None:
    """The signs by which a pattern asks for the name of a month or a day."""
    package = files("steadyhead")
    found = [
        str(path) for folder in ("web", "service", "words") for path in (package / folder).rglob("*.py")  # type: ignore[attr-defined]
        if re.search(r"%[bBaA]\b", path.read_text(encoding="utf-8"))
    ]  # fmt: skip
    assert found == []
