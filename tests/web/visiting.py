"""Ways through the app that several tests take, by its forms alone."""

from __future__ import annotations

from tests.web.client import Answer, Browser


def begin(browser: Browser, complaint: str = "reads-wrong") -> Answer:
    """Begin a visit with one tap; return the page that asks for the sensor."""
    form = browser.get("/").page.form("/visits")
    return browser.post(form.action, form.filled(complaint=complaint))


def choose(browser: Browser, answer: Answer, choice: str, own: str = "") -> Answer:
    """Tap one of the choices of the plate's pages."""
    form = answer.page.forms[0]
    return browser.post(form.action, form.filled(choice=choice, own=own))


def three_taps(browser: Browser, signal: str = "0.5..4.5 V ratiometric", range_: str = "0..100 psi") -> Answer:
    """Return the visit's page after three taps."""
    return choose(browser, choose(browser, begin(browser), signal), range_)


def read(browser: Browser, answer: Answer, said: str, **more: str) -> Answer:
    """Type a reading into the form of the check that is asked, and keep it."""
    form = answer.page.form("/readings")
    return browser.post(form.action, form.filled(said=said, **more))


def elsewhere(browser: Browser, visit: str, points: tuple[str, str], said: str) -> Answer:
    """Keep a reading between two points that are tapped, red first."""
    form = browser.get(f"{visit}/read?red={points[0]}&black={points[1]}").page.form("/readings")
    return browser.post_only(form.action, form.filled(said=said))


#: A gauge and a plate's accuracy, as they are typed where a sensor check begins (invented).
GAUGE = {"reference.range": "0..160 psi", "reference.grade": "2A", "sensor.accuracy": "1 %"}


def begin_check(browser: Browser, visit: str, **more: str) -> Answer:
    """Begin a sensor check in a visit, with a gauge of grade 2A; return its page."""
    form = browser.get(f"{visit}/sensor-check").page.form("/sensor-check")
    return browser.post(form.action, form.filled(**{**GAUGE, **more}))


def take_point(browser: Browser, answer: Answer, reference: str, signal: str, **more: str) -> Answer:
    """Type one point into the form of a sensor check's page, and keep it."""
    form = answer.page.form("/points")
    return browser.post(form.action, form.filled(reference=reference, signal=signal, **{"supply": "5.00", **more}))


def figures(answer: Answer) -> list[list[str]]:
    """Return the rows of the points that count: what was read, and the error."""
    page = answer.text.partition('<table class="readings">')[2].partition("</table>")[0]
    rows = page.split("<tr>")[2:]
    return [[cell.partition("</td>")[0] for cell in row.split('<td class="v figures">')[1:]] for row in rows]


#: A sensor that reads 4 psi high everywhere, up and down, on supply 5.00 V: 0.16 V too much.
HIGH = (("0", "0.66"), ("25", "1.66"), ("50", "2.66"), ("25", "1.66"), ("0", "0.66"))


def run_through(browser: Browser, begun: Answer, points: tuple[tuple[str, str], ...] = HIGH) -> Answer:
    """Take the points of a quick check; return its page."""
    answer = begun
    for reference, signal in points:
        answer = take_point(browser, answer, reference, signal)
    return answer
