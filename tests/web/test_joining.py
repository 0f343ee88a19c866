"""Phones that join over the local network, and everybody who tries to get in without."""

from __future__ import annotations

from dataclasses import replace

import pytest

from steadyhead.service.at_work import Thinker
from steadyhead.service.record.given import Given, set_author
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.phones import HOURS, phones
from steadyhead.web.app import PAGES, make_app
from steadyhead.web.joining import COOKIE, DIGITS, ENTER, MINUTES, MOST_OF_ALL, MOST_OF_ONE, Joining, is_here
from steadyhead.web.policy import LOCAL_HOSTS
from tests.record.bench import ToldClock
from tests.web.client import Answer, Browser
from tests.web.visiting import begin

ADDRESS, OTHER = "192.168.1.20", "192.168.1.21"
SERVED = "192.168.1.5"


class Served:
    """The app on a local network: this machine's browser, and phones."""

    def __init__(self, given: Given, thinker: Thinker | None = None) -> None:
        self.clock = given.clock
        self.joining = Joining(f"http://{SERVED}:8240/", given.clock)
        hosts = (*LOCAL_HOSTS, SERVED)
        self.here_given = given
        self.app = make_app(replace(given, author=None), hosts=hosts, joining=self.joining, thinker=thinker)
        self.here = Browser(self.app)

    def phone(self, client: str = ADDRESS) -> Browser:
        """Return the browser of a phone that has not joined."""
        return Browser(self.app, host=f"{SERVED}:8240", client=client)

    def joined(self, name: str = "Ben", client: str = ADDRESS) -> Browser:
        """Return the browser of a phone that has joined."""
        phone = self.phone(client)
        assert self.enter(phone, self.joining.code(), name).status == 303
        return phone

    def enter(self, phone: Browser, code: str, name: str = "Ben") -> Answer:
        """Send a code by the form that asks for it; return what comes of it."""
        form = phone.get("/").page.form(ENTER)
        return phone.post_only(form.action, form.filled(code=code, name=name))


@pytest.fixture
def served(given: Given) -> Served:
    """Return the app on a local network."""
    return Served(given)


def test_this_machine_itself_needs_no_code(served: Served) -> None:
    """Its own browser, as without a network."""
    assert served.here.get("/").status == 200


@pytest.mark.parametrize("address", ["/", "/visits", "/join", "/settings", "/nowhere", "/visits/x", "/leave",
                                     "/%2e%2e/join", "//join", "/join/", "/assets", "/assets/../join"])  # fmt: skip
def test_whoever_has_not_joined_is_asked_for_the_code_whatever_they_ask_for(served: Served, address: str) -> None:
    """Nothing of the record, not even whether a page is there; an asset that is none is not found."""
    answer = served.phone().get(address)
    if address.startswith("/assets/"):
        assert answer.status == 404
        return
    assert answer.status == 403
    assert "Ask for the code" in answer.page.said
    assert "Fernhill" not in answer.page.said


@pytest.mark.parametrize("address", sorted({path for path, _, do in PAGES if do} - {ENTER}))
def test_whoever_has_not_joined_changes_nothing(served: Served, address: str) -> None:
    """Every address that takes a form, with a key of the browser's own."""
    phone = served.phone()
    key = phone.get("/").page.form(ENTER).fields["form_key"]
    assert phone.post_only(address.replace("{", "").replace("}", ""), {"form_key": key}).status == 403


def test_a_phone_that_types_the_code_is_in(served: Served) -> None:
    """However the code is grouped; from then on it sees what this machine sees."""
    phone = served.phone()
    code = served.joining.code()
    answer = served.enter(phone, f" {code[:4]}-{code[4:]} ")
    assert (answer.status, answer.headers["location"]) == (303, "/")
    assert phone.get("/").status == 200


def test_a_code_lets_one_phone_in(served: Served) -> None:
    """The same code from another phone, and again from the same one."""
    code = served.joining.code()
    served.joined()
    assert served.enter(served.phone(OTHER), code).status == 403


def test_a_code_runs_out(served: Served, given: Given) -> None:
    """To the millisecond; ASVS 4.0.3, 2.7.2: ten minutes at most."""
    clock = given.clock
    assert isinstance(clock, ToldClock)
    code = served.joining.code()
    clock.now += MINUTES * 60_000 - 1
    assert served.joining.code() == code
    clock.now += 1
    assert served.enter(served.phone(), code).status == 403
    assert MINUTES <= 10


def test_a_new_code_ends_the_one_before(served: Served) -> None:
    """The button on this machine's page."""
    code = served.joining.code()
    form = served.here.get("/join").page.form("/join/codes")
    assert served.here.post(form.action, form.filled()).status == 200
    assert served.enter(served.phone(), code).status == 403


def test_no_code_holds_until_somebody_looks_at_this_machine(served: Served) -> None:
    """An empty code, and a made-up one, before there is any and after one was used."""
    for typed in ("", "0" * DIGITS):
        assert served.enter(served.phone(), typed).status == 403
    served.joined()
    assert served.enter(served.phone(OTHER), "").status == 403


def test_whoever_guesses_is_shut_out_even_with_the_right_code(served: Served, given: Given) -> None:
    """One phone's limit; another one still gets in; after the wait this one does."""
    guesser, code = served.phone(), served.joining.code()
    for number in range(MOST_OF_ONE):
        assert served.enter(guesser, f"{(int(code) + number + 1) % 10**DIGITS:0{DIGITS}}").status == 403
    assert served.enter(guesser, code).status == 403
    assert served.enter(served.phone(OTHER), code).status == 303
    clock = given.clock
    assert isinstance(clock, ToldClock)
    clock.now += MINUTES * 60_000
    assert served.enter(guesser, served.joining.code()).status == 303


def test_many_who_guess_together_are_shut_out_together(served: Served) -> None:
    """The limit of all, each guess from an address of its own; a new code at this machine opens the door again.

    Chance of a guess within one code: 20 of 10^8, exact arithmetic.
    """
    code = served.joining.code()
    for number in range(MOST_OF_ALL):
        served.enter(served.phone(f"192.168.2.{number}"), f"{(int(code) + number + 1) % 10**DIGITS:0{DIGITS}}")
    assert served.enter(served.phone(OTHER), code).status == 403
    served.joining.renew()
    assert served.enter(served.phone(OTHER), served.joining.code()).status == 303
    assert MOST_OF_ALL / 10**DIGITS <= 2e-7


def test_what_is_wrong_with_a_code_is_never_told(served: Served) -> None:
    """Wrong, used, too short, shut out: the same page but for the form's own keys; the code is not shown again."""
    phone, code = served.phone(), served.joining.code()
    said = {served.enter(phone, typed).page.said for typed in ("1", f"{(int(code) + 1) % 10**DIGITS:0{DIGITS}}")}
    served.joined(client=OTHER)
    said |= {served.enter(phone, code).page.said for _ in range(MOST_OF_ONE)}
    assert len(said) == 1
    assert code not in served.enter(phone, code).text


def test_the_code_is_compared_in_a_time_that_tells_nothing(served: Served, monkeypatch: pytest.MonkeyPatch) -> None:
    """The standard library's own comparison for secrets is asked, whole text with whole text."""
    asked: list[tuple[bytes, bytes]] = []

    def compared(one: bytes, other: bytes) -> bool:
        asked.append((one, other))
        return one == other

    code = served.joining.code()
    monkeypatch.setattr("steadyhead.web.joining.hmac.compare_digest", compared)
    assert not served.joining.enter("12", ADDRESS)
    assert asked == [(b"12", code.encode())]


def test_codes_are_drawn_by_the_systems_chance(given: Given) -> None:
    """A hundred codes of eight digits, no two alike (chance of two alike: 5e-5)."""
    codes = set()
    joining = Joining("", given.clock)
    for _ in range(100):
        joining.renew()
        codes.add(joining.code())
    assert len(codes) == 100
    assert {len(code) for code in codes} == {DIGITS}


def test_the_cookie_of_a_phone_is_kept_from_scripts_and_other_sites(served: Served) -> None:
    """HttpOnly, SameSite=Strict, no longer than it holds; 256 bits by the system's chance: 43 signs of base 64."""
    answer = served.enter(served.phone(), served.joining.code())
    cookie = answer.headers["set-cookie"]
    assert cookie.startswith(f"{COOKIE}=")
    attributes = cookie.lower()
    assert "httponly" in attributes
    assert "samesite=strict" in attributes
    assert f"max-age={HOURS * 3600}" in attributes
    assert "domain" not in attributes
    assert len(cookie.partition("=")[2].partition(";")[0]) == 43


def test_a_cookie_that_was_brought_along_is_never_taken_over(served: Served) -> None:
    """Session fixation: whoever planted a value before the joining has nothing by it."""
    phone = served.phone()
    phone.cookies[COOKIE] = "planted"
    assert served.enter(phone, served.joining.code()).status == 303
    assert phone.cookies[COOKIE] != "planted"
    thief = served.phone(OTHER)
    thief.cookies[COOKIE] = "planted"
    assert thief.get("/").status == 403


def test_a_phone_that_joins_again_leaves_its_old_key_behind(served: Served) -> None:
    """A new secret with every joining; the old one lets nobody in."""
    phone = served.joined()
    old = phone.cookies[COOKIE]
    form = phone.get("/settings").page.form("/leave")
    code = served.joining.code()
    assert phone.post_only(ENTER, {**form.fields, "code": code, "name": "Ben"}).status == 303
    thief = served.phone(OTHER)
    thief.cookies[COOKIE] = old
    assert thief.get("/").status == 403
    assert phone.get("/").status == 200


def test_what_the_record_keeps_of_a_phone_lets_nobody_in(served: Served, given: Given) -> None:
    """The hash in the settings, shown as a cookie."""
    served.joined()
    thief = served.phone(OTHER)
    thief.cookies[COOKIE] = phones(given)[0].secret
    assert thief.get("/").status == 403


def test_a_phone_that_was_sent_away_is_out_at_once(served: Served) -> None:
    """The button beside its name, at this machine."""
    phone = served.joined("Ben")
    form = served.here.get("/join").page.form("/join/phones")
    assert "Ben" in served.here.get("/join").page.said
    assert served.here.post(form.action, form.filled()).status == 200
    assert phone.get("/").status == 403
    assert "None yet." in served.here.get("/join").page.said


def test_a_phone_leaves_by_itself(served: Served, given: Given) -> None:
    """The button in its settings; its cookie is taken away."""
    phone = served.joined()
    form = phone.get("/settings").page.form("/leave")
    answer = phone.post_only(form.action, form.filled())
    assert "max-age=0" in answer.headers["set-cookie"].lower()
    assert phones(given) == ()
    assert phone.get("/").status == 403


def test_a_phone_is_out_after_a_long_day(served: Served, given: Given) -> None:
    """Its cookie kept alive by hand: what counts is kept here."""
    phone, clock = served.joined(), given.clock
    assert isinstance(clock, ToldClock)
    clock.now += HOURS * 3_600_000
    assert phone.get("/").status == 403


@pytest.mark.parametrize("address", ["/join", "/join/codes", "/join/phones", "/join/x"])
def test_a_joined_phone_neither_sees_the_code_nor_who_joined(served: Served, address: str) -> None:
    """Only this machine does; a form of it is refused too."""
    phone, code = served.joined(), served.joining.code()
    answer = phone.get(address)
    assert answer.status == 403
    assert code not in answer.text.replace(" ", "")
    assert "Only at the computer itself" in answer.page.said
    assert phone.post_only(address, {"form_key": "x"}).status == 403


@pytest.mark.parametrize("header", ["x-forwarded-for", "forwarded", "x-real-ip", "via"])
def test_who_comes_through_a_proxy_on_this_machine_is_not_this_machine(served: Served, header: str) -> None:
    """Loopback as client, with what a proxy adds; and what it says is believed of nobody else."""
    assert served.here.get("/", **{header: "192.168.1.9"}).status == 403
    assert served.phone().get("/", **{header: "127.0.0.1"}).status == 403


@pytest.mark.parametrize(
    ("client", "here"),
    [("127.0.0.1", True), ("::1", True), ("127.9.9.9", True), ("::ffff:127.0.0.1", False), ("192.168.1.20", False),
     ("fe80::1%eth0", False), ("localhost", False), ("", False)],
)  # fmt: skip
def test_this_machine_is_told_by_its_loopback_address_alone(client: str, *, here: bool) -> None:
    """RFC 1122 and RFC 4291: 127.0.0.0/8 and ::1."""
    assert is_here({"client": (client, 1), "headers": []}) is here
    assert not is_here({"client": None, "headers": []})


@pytest.mark.parametrize("host", ["evil.example", "192.168.1.6", f"{SERVED}.evil.example", f"{SERVED}@evil.example",
                                  "", "0.0.0.0", f"evil.example\\@{SERVED}"])  # fmt: skip  # noqa: S104
def test_on_a_network_other_host_names_are_refused_as_well(served: Served, host: str) -> None:
    """DNS rebinding: a name that is made to point here; only what is served is heard, from phones and from here."""
    for browser in (served.phone(), served.here, served.joined()):
        browser.host = host
        assert browser.get("/").status == 421


def test_a_form_that_another_site_sends_for_a_joined_phone_changes_nothing(served: Served) -> None:
    """CSRF: the phone's cookie alone, without the key of its forms; then with a key that the site made up."""
    phone = served.joined()
    for fields in ({}, {"form_key": "x" * 32}):
        assert phone.post_only("/settings", {"decimal": ",", **fields}).status == 400
    assert "1,5" not in phone.get("/settings").text


def test_joining_itself_cannot_be_sent_by_another_site(served: Served) -> None:
    """Login CSRF: the right code without the key of the browser's forms; the code stays good."""
    code = served.joining.code()
    assert served.phone().post_only(ENTER, {"code": code, "form_key": "x" * 32}).status == 400
    assert served.enter(served.phone(), code).status == 303


@pytest.mark.parametrize("there", ["//evil.example", "https://evil.example/", "/\\evil.example"])
def test_nobody_is_led_elsewhere(served: Served, there: str) -> None:
    """Open redirect: whatever the form or the address says besides, the answer leads to a page of this app."""
    phone = served.phone()
    form = phone.get(f"/?next={there}").page.form(ENTER)
    answer = phone.post_only(f"{form.action}?next={there}", form.filled(code=served.joining.code(), next=there))
    assert answer.headers["location"] == "/"
    for address in (f"/visits/{there}", f"/{there}/readings", there):
        found = served.here._ask("GET", address, b"", {})
        assert not found.headers.get("location", "/x").startswith(("//", "http", "/\\"))


def test_a_name_with_line_ends_sets_no_header(served: Served, given: Given) -> None:
    """Header injection by the name of a phone and by its address."""
    phone = served.phone()
    name = "Ben\r\nSet-Cookie: x=y"
    answer = served.enter(phone, served.joining.code(), name)
    assert answer.status == 303
    assert not any("\n" in value or "\r" in value for value in answer.headers.values())
    assert phones(given)[0].name == "Ben Set-Cookie: x=y"


def test_a_name_with_a_script_is_text(served: Served) -> None:
    """Stored script: shown at this machine, and on the phone itself."""
    phone = served.joined("<script>alert(1)</script>")
    for page in (served.here.get("/join"), phone.get("/settings")):
        assert "<script>alert" not in page.text
        assert "<script>alert(1)</script>" in page.page.said


def test_what_a_phone_writes_down_carries_its_own_name(served: Served, given: Given) -> None:
    """Two phones and this machine, each under its own."""
    set_author(given, "Ana")
    for browser, people in ((served.here, ["Ana"]), (served.joined("Ben"), ["Ben"]), (served.joined("", OTHER), [])):
        visit = begin(browser).address.split("/")[2]
        assert list(visit_page(given, visit).people) == people


def test_a_phone_without_a_name_is_asked_once_and_changes_nobody_elses(served: Served, given: Given) -> None:
    """The name asked for on the first page is the phone's own there."""
    set_author(given, "Ana")
    phone = served.joined("")
    form = phone.get("/").page.form("/name")
    assert phone.post(form.action, form.filled(author="Cleo")).status == 200
    assert [each.name for each in phones(given)] == ["Cleo"]
    with given.reading() as work:
        assert work.setting("author") == "Ana"


def test_each_phone_has_settings_of_its_own(served: Served) -> None:
    """A decimal comma on one; this machine keeps its point."""
    phone = served.joined()
    form = phone.get("/settings").page.form("/settings")
    phone.post(form.action, form.filled(decimal=","))
    assert phone.get("/settings").page.form("/settings").fields["decimal"] == ","
    assert served.here.get("/settings").page.form("/settings").fields["decimal"] == "."


def test_pages_for_the_network_are_kept_by_nobody_between(served: Served) -> None:
    """No cache keeps what a phone saw; the page that asks has the same promises as every other."""
    for answer in (served.phone().get("/"), served.joined().get("/")):
        assert answer.headers["cache-control"] == "no-store"
        assert "frame-ancestors 'self'" in answer.headers["content-security-policy"]


def test_without_the_network_nothing_is_asked_and_nobody_can_join(browser: Browser) -> None:
    """The app as it is served to one machine: no code, no joining."""
    assert "steadyhead app --host" in browser.get("/join").page.said
    key = browser.get("/").page.forms[0].fields["form_key"]
    for address in ("/join/codes", ENTER):
        assert browser.post_only(address, {"form_key": key, "code": "1"}).status == 404
