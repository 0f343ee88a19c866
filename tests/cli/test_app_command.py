"""The app as a person starts it: it tells its address, answers this computer alone, and says when a port is taken."""

from __future__ import annotations

import json
import os
import socket
import subprocess
import sys
import urllib.error
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest

from steadyhead.cli.addresses import own_address

pytestmark = pytest.mark.laptop


@pytest.fixture
def address(tmp_path: Path) -> Iterator[str]:
    """Return where the app answers, on any free port."""
    with subprocess.Popen([*words(tmp_path), "--port", "0", "--json"], stdout=subprocess.PIPE, encoding="utf-8") as app:
        assert app.stdout is not None
        yield str(json.loads(app.stdout.readline())["address"])
        app.kill()


def words(folder: Path) -> list[str]:
    """Return the command, with a record of its own."""
    return [sys.executable, "-m", "steadyhead", "app", "--no-open", "--data", str(folder / "steadyhead.db")]


def page(address: str, host: str | None = None) -> str:
    """Return a page, asked for under a host's name."""
    request = urllib.request.Request(address, headers={"Host": host} if host else {})  # noqa: S310 - the app's own
    with urllib.request.urlopen(request) as answer:  # noqa: S310 - as above
        return str(answer.read().decode("utf-8"))


def test_a_new_record_opens_on_an_invented_visit(address: str) -> None:
    """The example that every installation carries, marked as invented."""
    text = page(address)
    assert "Fernhill Row" in text
    assert "invented, to try things out" in text


def test_the_terminal_is_told_the_address_in_the_language_of_the_environment(tmp_path: Path) -> None:
    """The pages speak as each browser asks; what stands in the terminal is the terminal's."""
    spanish = {**os.environ, "STEADYHEAD_LANGUAGE": "es", "PYTHONIOENCODING": "utf-8"}
    command = [*words(tmp_path), "--port", "0"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, encoding="utf-8", env=spanish) as app:
        assert app.stdout is not None
        told = app.stdout.readline()
        address = next(word for word in told.split() if word.startswith("http://127.0.0.1:")).rstrip(".,")
        assert '<html lang="en">' in page(address)
        app.kill()
    assert "aplicación" in told


def test_the_app_answers_on_the_loopback_address_and_under_its_names_alone(address: str) -> None:
    """A page from elsewhere that points a name of its own at this computer is refused."""
    assert address.startswith("http://127.0.0.1:")
    with pytest.raises(urllib.error.HTTPError, match="421"):
        page(address, "evil.example")


def test_a_port_that_is_taken_is_told_in_one_line(address: str, tmp_path: Path) -> None:
    """Exit code 2, nothing on stdout."""
    port = address.rstrip("/").rpartition(":")[2]
    command = [*words(tmp_path), "--port", port]
    done = subprocess.run(command, check=False, capture_output=True, encoding="utf-8")
    assert (done.returncode, done.stdout) == (2, "")
    assert f"Port {port} is taken" in done.stderr


def test_a_region_that_nobody_knows_is_refused_before_anything_is_opened(tmp_path: Path) -> None:
    """Exit code 2, and no record is made."""
    done = subprocess.run([*words(tmp_path), "--region", "mars"], check=False, capture_output=True, encoding="utf-8")
    assert done.returncode == 2
    assert "There is no region mars" in done.stderr
    assert list(tmp_path.iterdir()) == []


def test_phones_are_asked_for_the_code_at_the_address_that_is_told_and_this_computer_is_not(tmp_path: Path) -> None:
    """The app on this machine's own network, asked from there and by the loopback address."""
    if own_address() is None:
        pytest.skip("this machine is on no local network")
    command = [*words(tmp_path), "--port", "0", "--json", "--host"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, encoding="utf-8") as app:
        assert app.stdout is not None
        told = json.loads(app.stdout.readline())
        try:
            assert "Fernhill Row" in page(told["address"])
            with pytest.raises(urllib.error.HTTPError, match="403") as refused:
                page(told["join"]["address"])
            assert "Ask for the code" in refused.value.read().decode()
            shown = page(f"{told['address']}join")
            assert told["join"]["code"] in shown.replace(" ", "")
            with pytest.raises(urllib.error.HTTPError, match="421"):
                page(told["join"]["address"], "evil.example")
        finally:
            app.kill()


def test_without_being_asked_nothing_but_the_loopback_address_is_listened_on(address: str) -> None:
    """The same port at this machine's own address on its network is shut."""
    own = own_address()
    if own is None:
        pytest.skip("this machine is on no local network")
    with pytest.raises(OSError, match="refused"):
        socket.create_connection((own, int(address.rstrip("/").rpartition(":")[2])), timeout=5)


@pytest.mark.parametrize("named", ["0.0.0.0", "::", "224.0.0.1", "127.0.0.1", "::1", "203.0.113.7", "a.example", ""])  # noqa: S104
def test_no_address_is_listened_on_but_one_of_this_computers_own_on_a_network(tmp_path: Path, named: str) -> None:
    """All addresses at once, groups, loopback, somebody else's (RFC 5737), names: exit code 2, nothing is opened."""
    command = [*words(tmp_path), "--port", "0", "--address", named]
    done = subprocess.run(command, check=False, capture_output=True, encoding="utf-8", timeout=60)
    assert (done.returncode, done.stdout) == (2, "")
    assert "address" in done.stderr
