"""``steadyhead paper``: as text, as HTML, as PDF; of a file and of the record; what it refuses."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.terminal import Terminal
from tests.service.answers import BRIEF

pytestmark = pytest.mark.laptop


@pytest.mark.parametrize("words", [("customer",), ("reading-card", "--trace"), ("reading-card", "--decimal", ",")])
def test_a_paper_is_plain_text_of_eighty_columns(terminal: Terminal, words: tuple[str, ...]) -> None:
    """The width."""
    ended = terminal.run("paper", "-", *words, stdin=BRIEF.encode())
    assert (ended.code, ended.err) == (0, "")
    assert [line for line in ended.out.splitlines() if len(line) > 80] == []


def test_json_is_the_paper_in_words_with_its_hash(terminal: Terminal) -> None:
    """The keys that docs/papers.md tells."""
    found = json.loads(terminal.run("paper", "-", "customer", "--json", stdin=BRIEF.encode()).out)
    assert found["schema"] == 1
    assert found["kind"] == "customer"
    assert len(found["hash"]) == 64
    manual = (Path(__file__).resolve().parents[2] / "docs" / "papers.md").read_text(encoding="utf-8")
    assert [key for key in found if key != "schema" and f"`{key}`" not in manual] == []
    assert found["link"].endswith(f"/customer?hash={found['hash'][:16]}")


@pytest.mark.parametrize("language", ["en", "es"])
def test_the_quick_guide_is_a_paper_of_no_visit(
    terminal: Terminal, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, language: str
) -> None:
    """As text within the width, in the language of the environment, and as PDF."""
    monkeypatch.setenv("STEADYHEAD_DATA", str(tmp_path / "record.db"))
    monkeypatch.setenv("STEADYHEAD_LANGUAGE", language)
    ended = terminal.run("paper", "quick-guide")
    assert (ended.code, ended.err) == (0, "")
    first = {"en": "One tap on what you see starts a visit", "es": "Un toque en lo que ve"}[language]
    assert first in " ".join(ended.out.split())
    assert [line for line in ended.out.splitlines() if len(line) > 80] == []
    file = tmp_path / "guide.pdf"
    assert terminal.run("paper", "quick-guide", "-o", str(file)).code == 0
    assert file.read_bytes().startswith(b"%PDF-")


@pytest.mark.parametrize("suffix", ["html", "pdf"])
def test_a_paper_is_written_and_never_over_another(terminal: Terminal, tmp_path: Path, suffix: str) -> None:
    """The first bytes of each kind of file; a second run is refused."""
    file = tmp_path / f"card.{suffix}"
    ended = terminal.run("paper", "-", "reading-card", "-o", str(file), stdin=BRIEF.encode())
    assert (ended.code, ended.err) == (0, "")
    assert file.read_bytes()[:9] in {b"<!doctype", file.read_bytes()[:9] if suffix == "pdf" else b""}
    assert (suffix == "pdf") == file.read_bytes().startswith(b"%PDF-")
    again = terminal.run("paper", "-", "reading-card", "-o", str(file), stdin=BRIEF.encode())
    assert again.code == 2
    assert "Nothing is written over" in again.err


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("last",), "Which paper of last?"),
        (("-", "custmer"), "Nearest: customer"),
        (("-", "customer", "-o", "report.docx"), ".pdf"),
        (("-", "customer", "--sheet", "a7"), "a4"),
        (("-", "customer", "--decimal", ";"), "decimal sign"),
        (("01ARZ3NDEKTSV4RRFFQ69G5FAV", "customer"), "no visit"),
        (("nowhere.toml", "customer"), "no file"),
    ],
)
def test_what_cannot_be_put_on_paper_is_refused(
    terminal: Terminal, tmp_path: Path, words: tuple[str, ...], told: str
) -> None:
    """Exit code 2, nothing on stdout, and what would do."""
    ended = terminal.run("paper", *words, "--data", str(tmp_path / "record.db"), stdin=BRIEF.encode())
    assert (ended.code, ended.out) == (2, "")
    assert told in ended.err


def test_a_visit_of_the_record_is_put_on_paper_with_its_own_id(terminal: Terminal, tmp_path: Path) -> None:
    """Taken in from a file, then by its id and as the last one: the way back names it."""
    record, file = str(tmp_path / "record.db"), tmp_path / "visit.toml"
    file.write_text(BRIEF, encoding="utf-8")
    terminal.run("import", str(file), "--data", record)
    id_ = json.loads(terminal.run("visits", "--data", record, "--json").out)["visits"][0]["id"]
    for name in (id_, "last"):
        ended = terminal.run("paper", name, "customer", "--data", record)
        assert (ended.code, ended.err) == (0, "")
        assert f"steadyhead:visit/{id_}/customer?hash=" in ended.out


def test_without_a_pdf_library_the_way_out_is_told(
    terminal: Terminal, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An installation that lacks the library: nothing is written, HTML is offered."""
    monkeypatch.setattr("steadyhead.cli.paper_work.what_is_here", frozenset)
    ended = terminal.run("paper", "-", "customer", "-o", str(tmp_path / "a.pdf"), stdin=BRIEF.encode())
    assert (ended.code, ended.out) == (2, "")
    assert "a.html" in ended.err
    assert list(tmp_path.iterdir()) == []


def test_a_certificate_is_made_of_a_check_file(terminal: Terminal, tmp_path: Path) -> None:
    """The example's own serial number; a visit file is none of a check."""
    check = Path(__file__).resolve().parents[2] / "examples" / "checks" / "booster-hand-pump.toml"
    ended = terminal.run("paper", str(check), "certificate")
    assert (ended.code, ended.err) == (0, "")
    assert "Transducer BX-0093" in ended.out
    assert [line for line in ended.out.splitlines() if len(line) > 80] == []
    file = tmp_path / "visit.toml"
    file.write_text(BRIEF, encoding="utf-8")
    assert terminal.run("paper", str(file), "certificate").code == 2
