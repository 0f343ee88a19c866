"""Every page of the app, each with the addresses under which a prepared record shows it; tests and screenshots use it.

Rules
-----
1. A page is a route of `steadyhead.web.app.PAGES` that shows something; every one stands in `PAGES`, or in `FILES`
   where what it gives is no page, or in `LEADS` where it only leads on.
2. A page with several faces (asked, answered, empty) has an address for each. What stands between braces is filled in
   from what `prepared` made, by forms alone, as a person makes it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from http.client import HTTPConnection
from urllib.parse import urlsplit

from starlette.applications import Starlette

from tests.service.photos.made import jpeg
from tests.web.client import Answer, Browser
from tests.web.test_instruments import add
from tests.web.test_night import night
from tests.web.test_photos import send
from tests.web.test_repairs import mend
from tests.web.visiting import begin, begin_check, read, take_point, three_taps

#: Each page's addresses; the first is how it is met most often.
PAGES: dict[str, tuple[str, ...]] = {
    "/": ("/",),
    "/instruments": ("/instruments",),
    "/instruments/{instrument}": ("{instrument}", "/instruments/new-gauge", "/instruments/new-meter"),
    "/van": ("/van",),
    "/van/{stock}": ("{stock}", "/van/new"),
    "/join": ("/join",),
    "/take-along": ("/take-along",),
    "/guide": ("/guide",),
    "/search": ("/search?words=Fernhill", "/search?words=nowhere", "/search"),
    "/settings": ("/settings",),
    "/settings/logo": ("/settings/logo",),
    "/hand-over": ("/hand-over",),
    "/take-in": ("/take-in",),
    "/sync": ("/sync",),
    "/visits/{visit}/hand-over": ("{night}/hand-over", "{demo}/hand-over"),
    "/settings/times": ("/settings/times",),
    "/settings/storage": ("/settings/storage",),
    "/report": ("/report",),
    "/visits/{visit}": ("{demo}", "{fresh}", "{mended}", "{night}", "{fresh}?large=1", "{next}"),
    "/visits/{visit}/birth": ("{mended}/birth",),
    "/visits/{visit}/before": ("{demo}/before", "{plain}/before"),
    "/visits/{visit}/first-minute": ("{fresh}/first-minute",),
    "/visits/{visit}/photos": ("{mended}/photos", "{demo}/photos"),
    "/visits/{visit}/photos/{photo}": ("{photo}",),
    "/visits/{visit}/plate": ("{plain}/plate", "{demo}/plate"),
    "/visits/{visit}/range": ("{demo}/range",),
    "/visits/{visit}/read": (
        "{demo}/read", "{demo}/read?red=controller.signal&black=controller.common",
        "{demo}/read?red=controller.signal&black=controller.common&large=1",
        "{demo}/read?arrangement=dead-both-free&red=wire.signal&black=wire.common",
    ),
    "/visits/{visit}/readings/{reading}": ("{reading}",),
    "/visits/{visit}/why": ("{why}",),
    "/visits/{visit}/call": ("{demo}/call",),
    "/visits/{visit}/repairs": ("{demo}/repairs",),
    "/visits/{visit}/repairs/{repair}": ("{repair}",),
    "/follow-ups": ("/follow-ups",),
    "/visits/{visit}/end": ("{demo}/end", "{fresh}/end?as=night-pending"),
    "/visits/{visit}/night": ("{night}/night", "{night}/night?again=yes"),
    "/visits/{visit}/follow-ups": ("{demo}/follow-ups",),
    "/visits/{visit}/follow-ups/{about}": ("{follow_up}",),
    "/visits/{visit}/tonight": ("{demo}/tonight", "{demo}/tonight?go=yes&serves=house"),
    "/visits/{visit}/tank": (
        "{demo}/tank",
        "{demo}/tank?go=yes&volume=85%20gal&precharge=28%20psi&wake=30%20psi&stop=50%20psi&refill=10%20gpm&motor=large",
    ),
    "/visits/{visit}/temporary": ("{demo}/temporary",),
    "/visits/{visit}/papers": ("{demo}/papers",),
    "/visits/{visit}/papers/{kind}": (
        "{demo}/papers/customer", "{demo}/papers/office", "{demo}/papers/next", "{fresh}/papers/warranty",
        "{demo}/papers/reading-card", "{demo}/papers/tag", "{night}/papers/night-card",
    ),
    "/visits/{visit}/van": ("{demo}/van",),
    "/visits/{visit}/van/{stock}": ("{match}",),
    "/visits/{visit}/instruments": ("{demo}/instruments",),
    "/systems/{system}": ("{system}",),
    "/systems/{system}/birth": ("{system}/birth",),
    "/systems/{system}/plate": ("{system}/plate",),
    "/systems/{system}/copy": ("{system}/copy", "{system}/copy?like={another}"),
    "/systems/{system}/erase": ("{system}/erase",),
    "/systems/{system}/sensor-check": ("{system}/sensor-check",),
    "/visits/{visit}/sensor-check": ("{demo}/sensor-check",),
    "/sensor-checks/{check}": ("{check}", "{unbegun}"),
    "/sensor-checks/{check}/points/{point}": ("{point}",),
    "/sensor-checks/{check}/setup": ("{check}/setup",),
    "/sensor-checks/{check}/table": ("{check}/table",),
    "/sensor-checks/{check}/figures": ("{check}/figures", "{check}/figures?figure=12", "{unbegun}/figures"),
    "/sensor-checks/{check}/certificate": ("{check}/certificate",),
}  # fmt: skip
#: Routes whose answer is no page.
FILES: dict[str, str] = {
    "/guide.pdf": "/guide.pdf",
    "/guide.html": "/guide.html",
    "/settings/copy": "/settings/copy",
    "/settings/logo/picture": "/settings/logo/picture",
    "/hand-over/everything/{part}": "/hand-over/everything/1",
    "/visits/{visit}/hand-over/file": "{demo}/hand-over/file",
    "/visits/{visit}/photos/{photo}/picture": "{photo}/picture",
    "/visits/{visit}/papers/{kind}.pdf": "{demo}/papers/customer.pdf",
    "/visits/{visit}/papers/{kind}.html": "{demo}/papers/customer.html",
    "/sensor-checks/{check}/certificate.html": "{check}/certificate.html",
    "/sensor-checks/{check}/certificate.pdf": "{check}/certificate.pdf",
}
#: Routes that only lead on.
LEADS: dict[str, str] = {"/visits/{visit}/report": "{demo}/papers"}
#: An address that is none.
NOWHERE = "/visits/nowhere"
#: What whoever has not joined is shown, whatever is asked for: as a proxy's visitor is one.
STRANGER = {"x-forwarded-for": "198.51.100.7"}


@dataclass
class FromServer(Browser):
    """The browser without scripts, speaking to an app that is served."""

    def _ask(self, method: str, address: str, body: bytes, headers: Mapping[str, str]) -> Answer:
        sent = {**headers, "cookie": "; ".join(f"{name}={value}" for name, value in self.cookies.items())}
        line = HTTPConnection(self.host, timeout=240)
        line.request(method, address, body, {name: value for name, value in sent.items() if value})
        got = line.getresponse()
        answer = Answer(got.status, {n.lower(): v for n, v in got.getheaders()}, got.read(), urlsplit(address).path)
        line.close()
        name, _, value = answer.headers.get("set-cookie", "").partition(";")[0].partition("=")
        self.cookies |= {name: value} if name else {}
        return answer


def link(answer: Answer, pattern: str) -> str:
    """Return the first address on a page that has this form, after the page's own host."""
    found = [each for each in answer.page.links.values() if re.fullmatch(pattern, each)]
    assert found, f"{answer.address} leads to no {pattern}: {sorted(set(answer.page.links.values()))}"
    return found[0]


ID = "[0-9A-Z]{26}"


def prepared(address: str) -> dict[str, str]:
    """Fill a record that holds the invented visit only, and return what the addresses of `PAGES` need of it."""
    browser = FromServer(Starlette(), host=urlsplit(address).netloc)
    demo = link(browser.get("/"), f"/visits/{ID}")
    made = {"demo": demo}
    made["plain"] = begin(browser).address.removesuffix("/plate")
    fresh = three_taps(browser)
    made["fresh"] = fresh.address
    after = read(browser, fresh, "48")
    made["reading"] = link(after, f"/visits/{ID}/readings/{ID}")
    made["why"] = link(after, f"/visits/{ID}/why.*")
    made["mended"] = three_taps(browser).address
    parts = {"place": "plug", "part.0": "plug", "serial.0": "P-7"}
    made["repair"] = link(mend(browser, made["mended"], **parts), f"/visits/{ID}/repairs/{ID}")
    made["photo"] = link(send(browser, made["mended"], jpeg(), shows="plate"), f"/visits/{ID}/photos/{ID}")
    made["instrument"] = link(add(browser, "gauge", name="Red gauge", range="0..160 psi"), f"/instruments/{ID}")
    made["stock"] = link(browser.get("/van"), f"/van/{ID}")
    made["match"] = link(browser.get(f"{demo}/van"), f"/visits/{ID}/van/{ID}")
    made["system"] = link(browser.get(demo), f"/systems/{ID}.*").partition("?")[0]
    another = link(browser.get(made["mended"]), f"/systems/{ID}.*").partition("?")[0]
    made["another"] = another.rpartition("/")[2]
    made["night"] = three_taps(browser).address
    made |= _waiting(browser, made["night"])
    made["next"] = _after_watching(browser)
    return made | _checked(browser, made["fresh"], made["mended"])


def _waiting(browser: Browser, visit: str) -> dict[str, str]:
    """End a visit for the night with a thing that comes back, and put in what the card says."""
    night(browser, visit, end="45")
    form = browser.get(f"{visit}/follow-ups").page.form("/follow-ups")
    browser.post(form.action, form.filled(kind="part-ordered", what="the plug"))
    return {"follow_up": link(browser.get("/follow-ups"), f"/visits/{ID}/follow-ups/.*")}


def _after_watching(browser: Browser) -> str:
    """End a visit that is watched from now on, and begin the next one of its system, which takes that along."""
    watched = three_taps(browser).address
    form = next(f for f in browser.get(f"{watched}/end").page.forms if f.fields.get("state") == "watching")
    browser.post(form.action, form.filled())
    system = link(browser.get(watched), f"/systems/{ID}.*").partition("?")[0]
    form = browser.get(system).page.form("/visits")
    return browser.post(form.action, form.filled(complaint="reads-wrong")).address


def _checked(browser: Browser, visit: str, other: str) -> dict[str, str]:
    """Make a sensor check with five points, and one that has none."""
    answer = begin_check(browser, visit)
    check = answer.address
    for reference, signal in (("0", "0.52"), ("25", "1.54"), ("50", "2.58"), ("25", "1.53"), ("0", "0.51")):
        answer = take_point(browser, answer, reference, signal)
    point = link(answer, f"/sensor-checks/{ID}/points/{ID}")
    return {"check": check, "point": point, "unbegun": begin_check(browser, other).address}


def addresses(made: Mapping[str, str]) -> list[str]:
    """Return the addresses of every page."""
    return [each.format_map(made) for of_page in PAGES.values() for each in of_page]
