"""Two homes over HTTP: who is let in, what pages of other sites may do, and a phone's page from first tap to done."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import replace

import pytest

from steadyhead.errors import SyncError
from steadyhead.messages import message
from steadyhead.service.record.given import Given
from steadyhead.service.record.phones import leave, phones
from steadyhead.service.record.photos import add_photo
from steadyhead.service.record.visits import end_visit, start_visit
from steadyhead.service.sync.courier import address_of
from steadyhead.service.sync.talk import Reply
from steadyhead.web.app import make_app
from steadyhead.web.joining import MOST_OF_ONE
from steadyhead.web.pages import syncing
from tests.record.device import Device
from tests.service.photos.made import jpeg
from tests.web.client import Answer, Browser
from tests.web.test_handing import PLATE
from tests.web.test_joining import OTHER, SERVED, Served

HOME = f"http://{SERVED}:8240"


@pytest.fixture
def served(given: Given) -> Served:
    """Return a laptop's app on a local network."""
    return Served(given)


def asked(served: Served, what: str, body: bytes | None = b"{}", *, key: str = "", client: str = OTHER) -> Answer:
    """Ask the laptop as another home does."""
    browser = Browser(served.app, host=f"{SERVED}:8240", client=client)
    headers = {"authorization": f"Bearer {key}"} if key else {}
    if body is None:
        return browser.get(f"/sync/1/{what}", **headers)
    return browser._ask("POST", f"/sync/1/{what}", body, {"content-type": "application/json", **headers})


def paired(served: Served, code: str | None = None, client: str = OTHER) -> Answer:
    """Send a code; the right one where none is told."""
    sent = json.dumps({"code": code or served.joining.code(), "name": "Ben"}).encode()
    return asked(served, "pair", sent, client=client)


def key_of(served: Served) -> str:
    """Return a key that lets in."""
    return str(json.loads(paired(served).body)["key"])


def test_only_a_key_lets_another_home_in(served: Served) -> None:
    """Nothing, a wrong key, a joined phone's cookie, and sitting at the laptop itself: 401; the key: 200."""
    start_visit(replace(served.here_given, author="Ana"), {"text": "secret"}, sensor=PLATE)
    phone = served.joined()
    assert asked(served, "compare").status == 401
    assert asked(served, "compare", key="x" * 43).status == 401
    assert phone._ask("POST", "/sync/1/compare", b"{}", {}).status == 401
    assert served.here._ask("POST", "/sync/1/compare", b"{}", {}).status == 401
    assert served.here.get("/sync/1").status == 401
    key = key_of(served)
    assert json.loads(asked(served, "", None, key=key).body)["sync"] == 1
    assert asked(served, "compare", b'{"spans": []}', key=key).status == 200


def test_a_key_is_given_for_a_code_once_and_guessing_shuts_out(served: Served) -> None:
    """As for a phone that joins; the computer lists who was let in, and sends it away."""
    code = served.joining.code()
    assert paired(served, code).status == 200
    assert paired(served, code).status == 403
    for _ in range(MOST_OF_ONE):
        assert paired(served, "1").status == 403
    assert paired(served).status == 403
    assert paired(served, client="192.168.1.77").status == 200
    key = key_of_other(served)
    assert asked(served, "compare", b'{"spans": []}', key=key).status == 200
    for each in phones(served.here_given):
        assert each.name == "Ben"
        leave(served.here_given, each.id)
    assert asked(served, "compare", b'{"spans": []}', key=key).status == 401


def key_of_other(served: Served) -> str:
    """Return a key for somebody who never guessed."""
    return str(json.loads(paired(served, client="192.168.1.78").body)["key"])


def test_pages_of_other_sites_may_ask_there_and_nowhere_else(served: Served) -> None:
    """The Fetch standard's CORS protocol: a preflight lets the key's header through; no credentials are allowed."""
    browser = Browser(served.app, host=f"{SERVED}:8240", client=OTHER)
    preflight = browser._ask("OPTIONS", "/sync/1/compare", b"", {"origin": "https://phone.example"})
    assert preflight.status == 204
    assert preflight.headers["access-control-allow-origin"] == "*"
    assert "authorization" in preflight.headers["access-control-allow-headers"]
    assert "access-control-allow-credentials" not in preflight.headers
    assert asked(served, "compare").headers["access-control-allow-origin"] == "*"
    for address in ("/", "/join/entered", "/hand-over", "/sync", "/assets/x"):
        answer = browser._ask("GET", address, b"", {"origin": "https://phone.example"})
        assert "access-control-allow-origin" not in answer.headers


def test_an_app_that_serves_this_computer_alone_answers_no_other_home(browser: Browser) -> None:
    """404, whatever is sent."""
    assert browser._ask("POST", "/sync/1/pair", b'{"code": "1"}', {}).status == 404


@pytest.mark.parametrize("body", [b"", b"{", b"[]", b'{"code": 1}', b'{"code": null, "name": {}}'])
def test_a_code_that_is_no_text_lets_nobody_in(served: Served, body: bytes) -> None:
    """400 or 403, and nobody is listed."""
    assert asked(served, "pair", body).status in {400, 403}
    assert phones(served.here_given) == ()


def test_what_fails_inside_tells_nothing_of_the_inside(served: Served, monkeypatch: pytest.MonkeyPatch) -> None:
    """500 and an id."""
    key = key_of(served)

    def fails(*_: object) -> Reply:
        raise RuntimeError("a path, a name")  # noqa: EM101, TRY003 - what must not be seen

    monkeypatch.setattr("steadyhead.web.pages.sync.answer_of", fails)
    answer = asked(served, "compare", key=key)
    assert (answer.status, answer.body) == (500, b'{"error":"web-failed"}')


class Network:
    """What a phone's browser reaches: one laptop, as long as it is on."""

    def __init__(self, served: Served) -> None:
        self.served = served
        self.on = True
        self.asks: list[str] = []

    async def reach(self, method: str, url: str, headers: Mapping[str, str], body: bytes | None) -> Reply:
        """Return what comes back."""
        self.asks.append(url)
        if not self.on or not url.startswith(HOME):
            raise SyncError(message("sync-no-answer", address=url))
        browser = Browser(self.served.app, host=f"{SERVED}:8240", client=OTHER)
        answer = browser._ask(method, url.removeprefix(HOME), body or b"", dict(headers))
        return Reply(answer.status, answer.body, answer.headers["content-type"])


@pytest.fixture
def network(served: Served) -> Network:
    """Return a network with the laptop on it."""
    return Network(served)


def phones_browser(device: Device, network: Network) -> Browser:
    """Return the browser of a phone whose home speaks over a network."""
    return Browser(make_app(replace(device.given, author="Ben"), phone=True, reach=network.reach))


def hand_over(browser: Browser, **typed: str) -> Answer:
    """Send the form of the page that hands over."""
    form = browser.get("/sync").page.form("/sync")
    return browser.post(form.action, form.filled(**typed))


def test_a_phone_hands_over_by_an_address_and_a_code_and_says_what_went_and_came(
    served: Served, network: Network
) -> None:
    """Two facts and a photo's one here, two there; the second time no code is needed and nothing goes."""
    phone = Device(seed=7)
    visit = start_visit(phone.given, {}, sensor=PLATE, name="Molina")
    add_photo(phone.given, visit, jpeg())
    end_visit(phone.given, visit, "watching")
    there = start_visit(served.here_given, {}, sensor=PLATE, name="Harbour")
    browser = phones_browser(phone, network)
    assert "Not handed over yet" in browser.get("/").page.said
    page = hand_over(browser, address=f"{HOME}/", code=served.joining.code()).page
    assert "Went: 4 entries, 1 photos." in page.said
    assert "Came: 2 entries, 0 photos." in page.said
    assert "Done: both have the same now." in page.said
    assert page.links["Harbour"] == f"/visits/{there}"
    with served.here_given.reading() as work:
        assert {each.id: each for each in work.facts()} == dict(phone.store.facts)
    assert "Not handed over yet" not in browser.get("/").page.said
    again = hand_over(browser, address=HOME).page
    assert "Went: 0 entries, 0 photos." in again.said


def test_a_long_sync_goes_on_by_a_button_page_by_page(
    served: Served, network: Network, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One request a form: the page says how far it is; other pages are served in between."""
    monkeypatch.setattr(syncing, "SLICE_MS", -1)
    phone = Device(seed=7)
    start_visit(phone.given, {}, sensor=PLATE)
    browser = phones_browser(phone, network)
    page = hand_over(browser, address=HOME, code=served.joining.code()).page
    assert "Under way." in page.said
    assert browser.get("/").status == 200
    monkeypatch.setattr(syncing, "SLICE_MS", 1000)
    form = page.form("/sync")
    assert form.fields["go"] == "on"
    assert "Done" in browser.post(form.action, form.fields).page.said


def test_what_went_wrong_is_told_and_what_was_typed_stays_but_for_the_code(network: Network) -> None:
    """No address, a wrong code, no code, nobody there; 422 where it was refused before it began."""
    browser = phones_browser(Device(seed=7), network)
    answer = hand_over(browser, address="<b>not one</b>", code="1")
    assert answer.status == 422
    assert "&lt;b&gt;not one&lt;/b&gt; is no address" in answer.text
    refused = hand_over(browser, address=HOME, code="11112222")
    assert refused.status == 422
    assert f'value="{HOME}"' in refused.text
    assert "11112222" not in refused.text
    assert "asks for its code" in hand_over(browser, address=HOME).text
    network.on = False
    assert "No answer from" in hand_over(browser, address=HOME, code="1").text


def test_a_sync_that_breaks_off_is_told_and_begun_again(served: Served, network: Network) -> None:
    """The laptop goes to sleep after the code was taken; the key is known then."""
    phone = Device(seed=7)
    start_visit(phone.given, {}, sensor=PLATE)
    browser = phones_browser(phone, network)
    hand_over(browser, address=HOME, code=served.joining.code())
    start_visit(phone.given, {}, sensor=PLATE)
    network.on = False
    assert "No answer from" in hand_over(browser, address=HOME).page.said
    network.on = True
    assert "Went: 2 entries" in hand_over(browser, address=HOME).page.said


def test_a_home_that_was_sent_away_asks_for_a_new_code(served: Served, network: Network) -> None:
    """At the laptop somebody let it in no more."""
    browser = phones_browser(Device(seed=7), network)
    hand_over(browser, address=HOME, code=served.joining.code())
    (known,) = phones(served.here_given)
    leave(served.here_given, known.id)
    assert "asks for its code" in hand_over(browser, address=HOME).page.said
    assert "Done" in hand_over(browser, address=HOME, code=served.joining.code()).page.said


def test_a_laptop_says_by_which_command_it_hands_over(browser: Browser) -> None:
    """It has no network of its own to speak over from a page."""
    assert "steadyhead sync ADDRESS" in browser.get("/sync").page.said
    form = browser.get("/settings").page.forms[0]
    assert browser.post("/sync", form.filled(address=HOME, code="1")).status == 404


@pytest.mark.parametrize(
    ("typed", "address"),
    [
        ("192.168.1.5:8240", "http://192.168.1.5:8240"), ("http://192.168.1.5:8240/#12345678", "http://192.168.1.5:8240"),
        ("https://Pumps.Example/", "https://pumps.example"), ("[fe80::1]:8240", "http://[fe80::1]:8240"),
    ],
)  # fmt: skip
def test_an_address_is_read_as_people_type_it(typed: str, address: str) -> None:
    """Without http, as the QR code has it, in capitals, of IPv6 (RFC 3986, 3.2.2)."""
    assert address_of(typed) == address


@pytest.mark.parametrize(
    "typed",
    ["", "ftp://x", "http://a:b@c", "http://x/path", "http://x:99999", "javascript:alert(1)", "http://x?y", "a b"],
)
def test_what_is_no_address_is_refused(typed: str) -> None:
    """No user, no path, no other scheme: nobody is led elsewhere."""
    with pytest.raises(SyncError, match="sync-address-unreadable"):
        address_of(typed)
