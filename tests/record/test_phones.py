"""Phones that joined: what is kept of them, for how long, and how they go."""

from __future__ import annotations

import hashlib

from steadyhead.service.record.phones import HOURS, MOST, join, leave, phone_of, phones, rename
from tests.record.device import Device


def test_a_phone_is_let_in_by_its_secret_and_by_no_other(device: Device) -> None:
    """Two phones, each with its own."""
    first, second = join(device.given, "Ana", "one"), join(device.given, "Ben", "two")
    assert [each.name for each in phones(device.given)] == ["Ben", "Ana"]
    assert phone_of(device.given, "one") == first
    assert phone_of(device.given, "two") == second
    assert phone_of(device.given, "") is None
    assert phone_of(device.given, first.secret) is None


def test_what_is_kept_of_a_secret_lets_nobody_in(device: Device) -> None:
    """SHA-256 by the standard library; the secret itself stands nowhere in the settings."""
    join(device.given, "Ana", "a-secret")
    with device.given.reading() as work:
        kept = work.setting("phones") or ""
    assert "a-secret" not in kept
    assert hashlib.sha256(b"a-secret").hexdigest() in kept


def test_a_phone_that_was_sent_away_is_let_in_no_more(device: Device) -> None:
    """The other one stays; sending nobody away changes nothing."""
    first = join(device.given, "Ana", "one")
    join(device.given, "Ben", "two")
    leave(device.given, first.id)
    leave(device.given, "nobody")
    assert phone_of(device.given, "one") is None
    assert [each.name for each in phones(device.given)] == ["Ben"]


def test_a_phone_stays_joined_for_a_long_day(device: Device) -> None:
    """Twelve hours, the longest that ASVS 4.0.3, 3.3.2 has at level 2."""
    join(device.given, "Ana", "one")
    device.clock.now += HOURS * 3_600_000 - 60_000
    assert phone_of(device.given, "one") is not None
    device.clock.now += 60_000
    assert phone_of(device.given, "one") is None
    assert phones(device.given) == ()


def test_a_name_is_kept_plain_and_can_be_changed(device: Device) -> None:
    """No line ends, nothing that a terminal obeys."""
    phone = join(device.given, " Ana\r\nLopez\x1b[2J ", "one")
    assert phone.name == "Ana Lopez?[2J"
    rename(device.given, phone.id, "Ana")
    assert [each.name for each in phones(device.given)] == ["Ana"]


def test_no_more_phones_are_kept_than_anybody_has(device: Device) -> None:
    """One more than the most: the first gives way."""
    for number in range(MOST + 1):
        join(device.given, "", f"secret {number}")
    assert len(phones(device.given)) == MOST
    assert phone_of(device.given, "secret 0") is None
