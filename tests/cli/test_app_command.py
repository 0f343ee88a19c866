"""The app as a person starts it: it tells its address, answers this computer alone, and says when a port is taken."""

from __future__ import annotations

import json
import subprocess
import sys
import urllib.error
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest

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
