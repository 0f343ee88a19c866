"""The whole way: a phone joins by https, takes the app along, the computer goes, and the visit made there is there."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Playwright, expect

from steadyhead.cli.addresses import own_address
from tests.cli.test_securing import CERTIFICATE, KEY, NAME
from tests.offline.conftest import FOLDER
from tests.offline.killed import Killable
from tests.offline.shown import address_of, app_of, tap

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: The digest of the public key in tests/cli/certificate, which the browser is told to trust (RFC 7469, 2.4).
TRUSTED = "o73yB+AJZGyApdqYcD1m2ivQkYn6AqZERqglAGQ4zOY="


@pytest.fixture
def told(tmp_path: Path) -> Iterator[dict[str, Any]]:
    """Return what the app says that serves phones by https, until it is taken away."""
    command = [
        sys.executable, "-m", "steadyhead", "app", "--no-open", "--json", "--port", "0", "--data",
        str(tmp_path / "a.db"), "--phone", str(FOLDER), "--name", NAME, "--certificate", CERTIFICATE, "--key", KEY,
    ]  # fmt: skip
    with subprocess.Popen(command, stdout=subprocess.PIPE, encoding="utf-8") as app:
        assert app.stdout is not None
        yield {**json.loads(app.stdout.readline()), "end": app.terminate}
        app.kill()


@pytest.fixture
def phone(driver: Playwright, tmp_path: Path) -> Iterator[Killable]:
    """Return a phone's browser, which is led to this computer by its name."""
    own = own_address()
    if own is None:
        pytest.skip("this machine is on no local network")
    leads = f"--host-resolver-rules=MAP {NAME} {own}"
    trusts = f"--ignore-certificate-errors-spki-list={TRUSTED}"
    phone = Killable(driver, tmp_path / "profile", more=(leads, trusts))
    yield phone
    phone.kill()


def test_a_phone_that_joined_walks_away_with_the_app(phone: Killable, told: dict[str, Any]) -> None:
    """Joined by the code, put on by a tap; the computer ends, the browser is killed; another one shows the visit."""
    page = phone.start()
    page.goto(told["join"]["address"])
    page.locator("#code").fill(told["join"]["code"])
    page.locator("#whose").fill("Ana")
    page.get_by_role("button", name="Join").click()
    expect(page.locator("#code")).to_have_count(0)
    page.goto(f"{told['join']['address']}take-along")
    page.get_by_role("link", name="Put it on this phone").click()
    tap(app_of(page), "Display and gauge disagree")
    expect(app_of(page).get_by_role("button", name="5 volts, three wires")).to_be_visible()
    visit = address_of(page)
    assert visit.startswith(told["phone"])

    told["end"]()
    phone.kill()

    page = phone.start()
    page.goto(visit)
    expect(app_of(page).get_by_role("button", name="5 volts, three wires")).to_be_visible()
