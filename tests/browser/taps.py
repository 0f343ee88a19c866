"""Ways through the app that several tests take, as a thumb takes them."""

from __future__ import annotations

import re

from playwright.sync_api import Locator, Page, expect

VISIT = re.compile(r"/visits/[0-9A-Z]{26}$")


def three_taps(page: Page) -> str:
    """Begin a visit, and return its address."""
    page.goto("/")
    button(page, "Display and gauge disagree").click()
    button(page, "5 volts, three wires").click()
    button(page, "0 to 100 psi").click()
    expect(page.get_by_role("heading", name="Gauge", exact=True)).to_be_visible()
    expect(page).to_have_url(VISIT)
    return page.url


def button(page: Page, name: str) -> Locator:
    """Return a button by its words."""
    return page.get_by_role("button", name=name)


def field(page: Page) -> Locator:
    """Return the field for the reading."""
    return page.locator("#said")


def keep(page: Page) -> None:
    """Keep what stands in the field."""
    button(page, "Keep this reading").click()


def values(page: Page) -> Locator:
    """Return the values of the readings that are listed."""
    return page.locator(".readings td.v.figures")


SENSOR_CHECK = re.compile(r"/sensor-checks/[0-9A-Z]{26}$")


def begin_sensor_check(page: Page, visit: str) -> str:
    """Begin a sensor check in a visit, with a gauge of grade 2A, and return its address."""
    page.goto(f"{visit}/sensor-check")
    for name, text in (("reference.range", "0..160 psi"), ("reference.grade", "2A"), ("sensor.accuracy", "1 %")):
        figure(page, name).fill(text)
    button(page, "Begin the check").click()
    expect(page).to_have_url(SENSOR_CHECK)
    return page.url


def figure(page: Page, name: str) -> Locator:
    """Return a field by its name in the form."""
    return page.locator(f"input[name='{name}']")


def take_point(page: Page, reference: str, signal: str, supply: str = "5.00") -> None:
    """Type one point of a ratiometric sensor, and keep it."""
    for name, text in (("reference", reference), ("signal", signal), ("supply", supply)):
        figure(page, name).fill(text)
    button(page, "Keep this point").click()
