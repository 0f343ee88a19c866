"""Every broken file in `broken/` is refused with exactly the problems that its last lines expect."""

from __future__ import annotations

from pathlib import Path

import pytest

from steadyhead.errors import VisitFileError
from steadyhead.visit import load_visit

BROKEN = sorted((Path(__file__).parent / "broken").glob("*.toml"))
_MARK = "# expect: "


def _expected(path: Path) -> list[tuple[str, str, str]]:
    lines = path.read_text(encoding="utf-8").splitlines()
    rows = [line.removeprefix(_MARK).split(" | ") for line in lines if line.startswith(_MARK)]
    return sorted((line, key.strip(), id_) for line, key, id_ in rows)


def test_there_are_enough_broken_files() -> None:
    """The project asks for at least 38 of them."""
    assert len(BROKEN) >= 45


@pytest.mark.parametrize("path", BROKEN, ids=lambda path: path.stem)
def test_a_broken_file_is_refused_with_exactly_its_problems(path: Path) -> None:
    """Line, key and message of each were written down by hand, as a person reading the file would say them."""
    with pytest.raises(VisitFileError) as caught:
        load_visit(path)
    found = sorted((str(p.line or "-"), p.key, p.message.id) for p in caught.value.problems)
    assert found == _expected(path)


@pytest.mark.parametrize("path", BROKEN, ids=lambda path: path.stem)
def test_problems_stand_in_the_order_of_the_file(path: Path) -> None:
    """A property of every refusal; problems without a line come last."""
    with pytest.raises(VisitFileError) as caught:
        load_visit(path)
    lines = [p.line if p.line is not None else 10**9 for p in caught.value.problems]
    assert lines == sorted(lines)
