"""Points of a sensor check as a table, pasted or uploaded: all of them are kept, or none."""

from __future__ import annotations

import pytest

from tests.web.client import Answer, Browser
from tests.web.visiting import figures

TABLE = "reference [psi];signal [V];supply [V]\n0;0,50;5,00\n40;2,14;5,00\n80;3,70;5,00\n40;2,10;5,00\n"


def multipart(fields: dict[str, str], file: tuple[str, bytes] | None = None) -> tuple[bytes, str]:
    """Return a form with a file as RFC 7578 has it, and its content type."""
    parts = [f'name="{name}"\r\n\r\n{value}'.encode() for name, value in fields.items()]
    if file is not None:
        parts.append(f'name="file"; filename="{file[0]}"\r\nContent-Type: text/csv\r\n\r\n'.encode() + file[1])
    body = b"".join(b"--edge\r\nContent-Disposition: form-data; " + part + b"\r\n" for part in parts)
    return body + b"--edge--\r\n", "multipart/form-data; boundary=edge"


def send_table(browser: Browser, begun: Answer, pasted: str = "", file: tuple[str, bytes] | None = None) -> Answer:
    """Send the form for a table of points."""
    form = browser.get(f"{begun.address}/table").page.form("/table")
    body, kind = multipart(form.filled(table=pasted), file)
    return browser.post_bytes(form.action, body, kind)


@pytest.mark.parametrize("as_file", [False, True])
def test_a_table_of_points_is_pasted_or_uploaded(browser: Browser, begun: Answer, as_file: bool) -> None:
    """Decimal commas; the directions are worked out from the pressures."""
    answer = send_table(browser, begun, "" if as_file else TABLE, ("run.csv", TABLE.encode()) if as_file else None)
    assert answer.address == begun.address
    assert figures(answer) == [["0.50 V", "0.0"], ["2.14 V", "+1.0"], ["3.70 V", "0.0"], ["2.10 V", "0.0"]]
    assert [link for link in answer.page.links if "40" in link] == ["\u25b2 40 psi", "\u25bd 40 psi"]


def test_a_table_with_mistakes_is_refused_whole_with_lines_and_stays_to_be_mended(
    browser: Browser, begun: Answer
) -> None:
    """The third line; nothing of it was kept, what was pasted stays."""
    wrong = TABLE.replace("40;2,14", "forty;2,14")
    answer = send_table(browser, begun, wrong)
    assert answer.status == 422
    assert "Line 3" in answer.page.said
    assert "forty;2,14" in answer.text
    assert figures(browser.get(begun.address)) == []


@pytest.mark.parametrize("file", [b"\xff\xfe\x00\x01", b"PK\x03\x04" + bytes(range(256)), b"", b"reference\n"])
def test_what_is_no_table_is_refused_in_words(browser: Browser, begun: Answer, file: bytes) -> None:
    """By what it holds, whatever its name says."""
    assert send_table(browser, begun, file=("points.csv", file)).status == 422
    assert figures(browser.get(begun.address)) == []


def test_a_table_that_is_too_large_is_refused(browser: Browser, begun: Answer) -> None:
    """More than a request may hold is not even read."""
    assert send_table(browser, begun, file=("points.csv", b"x" * 300_000)).status == 413


def test_a_table_from_elsewhere_changes_nothing(browser: Browser, begun: Answer) -> None:
    """Without this browser's key."""
    form = browser.get(f"{begun.address}/table").page.form("/table")
    body, kind = multipart({**form.fields, "form_key": "x", "table": TABLE})
    assert browser.post_bytes(form.action, body, kind).status == 400
    assert figures(browser.get(begun.address)) == []
