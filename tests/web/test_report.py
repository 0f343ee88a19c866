"""A report of a problem: shown whole, sent by nobody, and without a word of whom it happened to."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from steadyhead.service.record.given import Given, set_author
from steadyhead.service.record.letterhead import set_letterhead
from steadyhead.web.app import make_app
from steadyhead.web.noted import MOST
from tests.service.photos.made import jpeg
from tests.web.client import Answer, Browser
from tests.web.test_photos import send
from tests.web.visiting import begin_check, elsewhere, read, take_point, three_taps

#: What is typed below, as nobody else may read it; each is found nowhere else.
NAME, PLACE, WORD, MAIL, READING, PLATE = (
    "Quillfeather", "Marrowgate", "zanzibarred", "q@feather.example", "47.913", "Xylotronic",
)  # fmt: skip
SECRETS = (NAME, PLACE, WORD, MAIL, READING, PLATE, "31.777", "0555019283", "2.4179")


def report(answer: Answer) -> str:
    """Return the report that a page shows."""
    return answer.text.partition('<pre class="report"')[2].partition(">")[2].partition("</pre>")[0]


def lines(answer: Answer) -> list[str]:
    """Return the report's lines about requests: without their number and time."""
    return [line.split(" ", 2)[2] for line in report(answer).split("\n\n")[-1].strip().splitlines() if line.strip()]


def make(browser: Browser, words: str) -> Answer:
    """Put words into the report."""
    form = browser.get("/report").page.form("/report")
    return browser.post(form.action, form.filled(words=words))


def lived_through(browser: Browser, given: Given) -> str:
    """Type every secret somewhere: names, places, free text, readings, photos, addresses, headers; return the visit."""
    set_author(given, f"Ann {NAME}")
    set_letterhead(given, (f"{NAME} pumps", "tel 0555019283"))
    visit = three_taps(browser).address
    read(browser, browser.get(visit), READING)
    read(browser, browser.get(visit), f"{WORD} {NAME}")
    elsewhere(browser, visit, ("controller.signal", "controller.common"), "2.4179")
    send(browser, visit, jpeg(), says=f"{PLACE} {WORD}")
    send(browser, visit, b"no photo", says=f"{NAME}")
    system = next(link for link in browser.get(visit).page.links.values() if link.startswith("/systems/"))
    sheet = browser.get(f"{system.partition('?')[0]}/plate").page.form("/plate")
    browser.post(sheet.action, sheet.filled(name=f"{PLACE} {PLATE}"))
    begin_call_form = browser.get("/").page.form("/calls")
    browser.post(begin_call_form.action, begin_call_form.filled(name=f"{NAME} at {PLACE}"))
    begun = begin_check(browser, visit, serial=PLATE)
    take_point(browser, begun, "31.777", WORD)
    asked = (f"/search?words={NAME}", f"/visits/{NAME}", f"/{PLACE}/{WORD}?at={MAIL}", f"{visit}/why?suspect={WORD}")
    for address in asked:
        browser.get(address, **{"user-agent": f"Mozilla/5.0 ({NAME}; {PLATE}) {WORD}/1"})
    browser.get("/", **{"accept-language": WORD, "referer": f"http://{NAME}/", "x-forwarded-host": PLACE})
    return visit


def test_nothing_that_was_typed_stands_in_a_report_and_no_id_does(given: Given, browser: Browser) -> None:
    """Names, places, free text, readings, serial numbers, telephone numbers; a visit's id leads to all of them."""
    lived_through(browser, given)
    answer = browser.get("/report", **{"user-agent": f"{NAME} {PLATE}/4 ({WORD})"})
    text = report(answer)
    assert len(lines(answer)) > 20
    assert [secret for secret in SECRETS if secret.lower() in text.lower()] == []
    assert re.findall(r"[0-9A-HJKMNP-TV-Z]{26}", text) == []
    assert "?" not in text


def test_an_error_is_told_by_its_kind_and_place_and_never_by_its_text(
    browser: Browser, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What an error says may be what somebody typed; so may a method, which anybody makes up."""

    def fails(*_: object) -> None:
        raise RuntimeError(f"{NAME} at {PLACE}")  # noqa: EM102, TRY003 - the text is the point

    visit = three_taps(browser).address
    monkeypatch.setattr("steadyhead.web.pages.visit.visit_values", fails)
    answer = browser.get(visit)
    assert answer.status == 500
    assert answer.page.links["Report a problem"] == "/report"
    browser._ask(NAME.upper(), "/", b"", {})  # a method that no person's browser has
    text = report(browser.get("/report"))
    assert re.search(r"GET /visits/\{visit\} 500 \d+ ms \[RuntimeError app\.py:\d+ visit\.py:\d+", text)
    assert "(other) / 404" in text
    assert NAME.lower() not in text.lower()


def test_each_request_is_told_by_its_page_its_status_and_why_it_was_refused(browser: Browser) -> None:
    """The routes of the app's own table; ids of messages."""
    page = three_taps(browser)
    read(browser, page, "forty")
    browser.get("/nowhere")
    told = [re.sub(r" \d+ ms", "", line) for line in lines(browser.get("/report"))]
    assert told[0] == "GET / 200"
    assert "POST /visits 303" in told
    assert "POST /visits/{visit}/readings 422 [guide-no-figure]" in told
    assert told[-1] == "GET (no page) 404"
    assert not [line for line in told if "assets" in line]


def test_only_the_last_requests_are_held(browser: Browser) -> None:
    """A ring: the oldest go."""
    for _ in range(MOST + 7):
        browser.get("/nowhere")
    answer = browser.get("/report")
    assert len(lines(answer)) == MOST
    assert report(answer).split("\n\n")[-1].split()[0] == "8"


def test_a_person_s_words_come_first_and_are_blanked_of_what_the_record_knows(given: Given, browser: Browser) -> None:
    """Names, telephone, e-mail; the rest stands as it was typed, and can be typed on."""
    lived_through(browser, given)
    words = f"At {PLACE} {PLATE} the page hung.\nAsk {NAME}, {MAIL} or 0555 019 283. It showed 12 psi."
    answer = make(browser, words)
    assert report(answer).startswith(
        "At [...] the page hung.\nAsk [...], [...] or [...]. It showed 12 psi.\n\nsteadyhead "
    )
    assert words.splitlines()[0] in answer.text


def test_what_is_saved_is_what_was_shown(given: Given, browser: Browser) -> None:
    """Byte for byte, though more was asked of the app in between."""
    lived_through(browser, given)
    answer = make(browser, f"It hung at {PLACE}.")
    browser.get("/")
    form = answer.page.form("/report/file")
    saved = browser.post(form.action, form.filled(words=f"It hung at {PLACE}."))
    assert saved.headers["content-disposition"] == 'attachment; filename="steadyhead-report.txt"'
    assert saved.headers["content-type"] == "text/plain; charset=utf-8"
    shown = report(answer).replace("&#39;", "'").replace("&amp;", "&")
    assert saved.text == shown


def test_it_names_the_versions_the_kind_of_browser_and_the_home(given: Given) -> None:
    """What whoever looks into it asks first."""
    browser = Browser(make_app(replace(given), phone=True))
    agent = "Mozilla/5.0 (Linux; Android 14; K) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/131.0.0.0 Mobile"
    text = report(browser.get("/report", **{"user-agent": agent}))
    head = r"^steadyhead \S+\npython \S+, sqlite \S+\nsystem .+\nbrowser Chrome 131, Android\nhome phone\n"
    assert re.search(head, text)


def test_the_settings_and_a_page_that_is_gone_lead_to_it_and_a_script_in_it_is_text(browser: Browser) -> None:
    """One tap; escaped wherever it is shown."""
    for address in ("/settings", "/nowhere"):
        assert browser.get(address).page.links["Report a problem"] == "/report"
    assert "<script>alert" not in make(browser, "<script>alert(1)</script></textarea></pre>").text
