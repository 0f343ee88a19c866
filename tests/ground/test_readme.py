"""What the README and the manual show of a terminal is what a terminal shows."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

import console_blocks
from console_blocks import Seen, Shown
from tests.support import ROOT

pytestmark = pytest.mark.laptop

DOCUMENTS = console_blocks.documents(ROOT)

SAMPLE = """\
Text.

```sh
$ not run
```

```console
$ steadyhead --version
steadyhead 9
$ steadyhead nonsense  # exit code 2
```
"""


@pytest.mark.manual
@pytest.mark.parametrize("document", DOCUMENTS, ids=lambda path: path.name)
def test_every_shown_command_prints_what_is_shown(document: Path, tmp_path: Path) -> None:
    """The document itself; `python3 scripts/docs.py --write` renews what it shows."""
    folder = console_blocks.working_copy(ROOT, tmp_path)
    for shown in console_blocks.shown_in(document):
        seen = console_blocks.run(shown, folder, Path(sys.executable))
        assert console_blocks.agrees(shown, seen), f"$ {shown.line}\n" + "\n".join([str(seen.exit_code), *seen.output])


def test_commands_and_their_output_are_read_from_console_blocks_only(tmp_path: Path) -> None:
    """The rules at the head of `console_blocks`, on a sample."""
    document = tmp_path / "sample.md"
    document.write_text(SAMPLE, encoding="utf-8")
    first, second = console_blocks.shown_in(document)
    assert (first.command, first.output, first.exit_code) == ("steadyhead --version", ("steadyhead 9",), 0)
    assert (second.command, second.output, second.exit_code) == ("steadyhead nonsense", (), 2)


@pytest.mark.parametrize(
    ("output", "exit_code", "seen", "expected"),
    [
        (("a",), 0, Seen(0, ("a",)), True),
        (("a",), 0, Seen(0, ("a", "b")), False),
        (("a",), 0, Seen(1, ("a",)), False),
        ((), 0, Seen(0, ("anything",)), True),
        (("a", "..."), 0, Seen(0, ("a", "b", "c")), True),
        (("...", "c"), 0, Seen(0, ("a", "b")), False),
    ],
)
def test_output_agrees_line_by_line(output: tuple[str, ...], exit_code: int, seen: Seen, expected: bool) -> None:
    """Rules 3 and 4 at the head of `console_blocks`."""
    remark = f"  # exit code {exit_code}" if exit_code else ""
    assert console_blocks.agrees(Shown("x.md", f"steadyhead x{remark}", output), seen) is expected


def test_a_command_that_is_not_ours_is_refused(tmp_path: Path) -> None:
    """Rule 2 at the head of `console_blocks`."""
    with pytest.raises(LookupError, match="must start with"):
        console_blocks.run(Shown("x.md", "rm -r .", ()), tmp_path, Path(sys.executable))


def test_what_is_typed_into_a_command_comes_from_its_file(tmp_path: Path) -> None:
    """A shell's own sign for it."""
    shown = Shown("x.md", "steadyhead check-file - < visit.toml", ())
    assert shown.typed == "visit.toml"
    assert Shown("x.md", "steadyhead faults", ()).typed is None
    (tmp_path / "visit.toml").write_text('schema = 1\n[sensor]\nsignal = "4..20 mA"\nrange = "0..9 bar"\n', "utf-8")
    assert console_blocks.run(shown, tmp_path, Path(sys.executable)).output == ("standard input: fine. Readings: 0.",)
