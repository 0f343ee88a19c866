"""Whether a browser would put the app on a phone's home screen; run by ``scripts/offline.py --prove``."""

from __future__ import annotations

import json
from urllib.parse import urljoin, urlsplit

import pytest

from tests.offline.handed import Handed
from tests.offline.killed import Killable
from tests.offline.shown import app_of

pytestmark = [pytest.mark.laptop, pytest.mark.chromium]

#: How wide and high a picture is, as the browser itself reads it.
DECODED = """async address => { const picture = await createImageBitmap(await (await fetch(address)).blob());
  return `${picture.width}x${picture.height}`; }"""
#: The service worker that would answer where there is no network.
ANSWERS = "async () => { const mine = await navigator.serviceWorker.ready; return [mine.scope, mine.active.state]; }"


def test_a_browser_finds_nothing_that_stands_in_the_way_of_installing(handed: Handed, browser: Killable) -> None:
    """What Chromium itself says of it; the manifest as it reads it; each icon has the size that it claims."""
    page = browser.start()
    page.goto(handed.address)
    app_of(page)
    tools = page.context.new_cdp_session(page)
    assert tools.send("Page.getInstallabilityErrors")["installabilityErrors"] == []
    read = tools.send("Page.getAppManifest")
    assert read["errors"] == []
    manifest = json.loads(read["data"])
    start, scope = (urljoin(read["url"], manifest[name]) for name in ("start_url", "scope"))
    assert start.startswith(scope)
    assert manifest["display"] == "standalone"
    assert 0 < len(manifest["short_name"]) <= len(manifest["name"])
    drawn = {
        (icon["purpose"], icon["sizes"]): page.evaluate(DECODED, urljoin(read["url"], icon["src"]))
        for icon in manifest["icons"]
        if icon["type"] == "image/png"
    }
    assert set(drawn) == {("any", "192x192"), ("any", "512x512"), ("maskable", "512x512")}
    assert {sizes for (_, sizes), found in drawn.items() if found != sizes} == set()
    assert page.evaluate("isSecureContext")
    where, state = page.evaluate(ANSWERS)
    assert (where, state) == (scope, "activated")
    handed.stop()
    again = page.context.new_page()
    answer = again.goto(scope)
    assert answer is not None
    assert (answer.status, answer.from_service_worker) == (200, True)
    assert urlsplit(again.url).path == urlsplit(scope).path
