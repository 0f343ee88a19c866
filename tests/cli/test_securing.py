"""Phones come by https where a certificate is given, this computer by its loopback address; what is wrong is told.

The certificate in tests/cli/certificate is made out to pumps.example.com and signed by itself; it guards nothing.
"""

from __future__ import annotations

import hashlib
import http.client
import json
import socket
import ssl
import subprocess
import sys
from pathlib import Path
from urllib.request import urlopen

import pytest

from steadyhead.cli.addresses import own_address
from steadyhead.cli.securing import secured
from steadyhead.errors import InputError

pytestmark = pytest.mark.laptop

HERE = Path(__file__).parent / "certificate"
CERTIFICATE, KEY = str(HERE / "certificate.pem"), str(HERE / "key.pem")
NAME = "pumps.example.com"
PAGE = b"<!doctype html><title>The phone's own</title>"


def refused(name: str | None, certificate: str | None, key: str | None) -> str:
    """Return the id of what is refused."""
    with pytest.raises(InputError) as error:
        secured(name, certificate, key)
    return error.value.message.id


def test_certificate_key_and_name_go_together() -> None:
    """Any one without the others is of no use; none of them is plain http."""
    assert refused(NAME, CERTIFICATE, None) == "app-secure-together"
    assert refused(None, CERTIFICATE, KEY) == "app-secure-together"
    assert refused(NAME, None, None) == "app-secure-together"
    assert secured(None, None, None) is None
    found = secured("Pumps.Example.com", CERTIFICATE, KEY)
    assert found is not None
    assert found.name == NAME


@pytest.mark.parametrize("name", ["", "a b", "pumps/", "-pumps", "pumps-", "a..b", "pumps:8240", "x@y", "a" * 64])
def test_a_name_that_no_computer_can_have_is_refused(name: str) -> None:
    """RFC 1123, 2.1; a label has 63 signs at most (RFC 1035, 2.3.4)."""
    assert refused(name, CERTIFICATE, KEY) == "app-name-strange"


def test_a_certificate_that_cannot_be_used_is_refused_before_anything_is_opened(tmp_path: Path) -> None:
    """A key for a certificate, a file that is none, a file that is not there."""
    (tmp_path / "none.pem").write_text("nothing of the kind", encoding="utf-8")
    for certificate, key in ((KEY, CERTIFICATE), (str(tmp_path / "none.pem"), KEY), (CERTIFICATE, "nowhere.pem")):
        assert refused(NAME, certificate, key) == "app-secure-unusable"


def site(folder: Path) -> Path:
    """Write a site of one page."""
    folder.mkdir()
    (folder / "index.html").write_bytes(PAGE)
    said = {"program": "steadyhead", "files": {"index.html": hashlib.sha256(PAGE).hexdigest()}}
    (folder / "build.json").write_text(json.dumps(said), encoding="utf-8")
    return folder


def by_https(port: int, path: str, host: str = NAME) -> tuple[int, bytes]:
    """Return what a phone gets that trusts the certificate and is led to this computer by its name."""
    trusting = ssl.create_default_context(cafile=CERTIFICATE)
    own = own_address()
    assert own is not None
    line = http.client.HTTPSConnection(NAME, port, context=trusting, timeout=30)
    line.sock = trusting.wrap_socket(socket.create_connection((own, port), timeout=30), server_hostname=NAME)
    line.request("GET", path, headers={"Host": f"{host}:{port}"})
    got = line.getresponse()
    answer = got.status, got.read()
    line.close()
    return answer


def test_a_phone_takes_the_app_along_by_https_and_this_computer_goes_on_by_its_own_address(tmp_path: Path) -> None:
    """The command itself: the phone's browser checks the name (RFC 9525); who has not joined gets the program alone."""
    if own_address() is None:
        pytest.skip("this machine is on no local network")
    command = [
        sys.executable, "-m", "steadyhead", "app", "--no-open", "--json", "--port", "0", "--data",
        str(tmp_path / "a.db"), "--phone", str(site(tmp_path / "site")), "--name", NAME, "--certificate", CERTIFICATE,
        "--key", KEY,
    ]  # fmt: skip
    with subprocess.Popen(command, stdout=subprocess.PIPE, encoding="utf-8") as app:
        assert app.stdout is not None
        try:
            told = json.loads(app.stdout.readline())
            port = int(told["address"].rstrip("/").rpartition(":")[2])
            assert told["join"]["address"] == f"https://{NAME}:{port}/"
            assert told["phone"] == f"https://{NAME}:{port}/phone/"
            assert by_https(port, "/phone/") == (200, PAGE)
            assert by_https(port, "/")[0] == 403
            assert by_https(port, "/phone/", "evil.example")[0] == 421
            with urlopen(told["address"]) as answer:  # noqa: S310 - the command's own address
                assert b"Fernhill Row" in answer.read()
        finally:
            app.terminate()
        assert app.wait(timeout=30) != 0


def test_a_folder_that_holds_no_site_is_refused(tmp_path: Path) -> None:
    """Exit code 2, before anything is opened."""
    command = [sys.executable, "-m", "steadyhead", "app", "--no-open", "--data", str(tmp_path / "a.db")]
    done = subprocess.run(
        [*command, "--phone", str(tmp_path)], check=False, capture_output=True, encoding="utf-8", timeout=60
    )
    assert (done.returncode, done.stdout) == (2, "")
    assert "steadyhead offline build" in done.stderr
    assert not (tmp_path / "a.db").exists()
