"""The examples of the page about uncertainty are run as they stand."""

from __future__ import annotations

import doctest

from tests.support import ROOT


def test_every_example_of_the_page_prints_what_is_shown() -> None:
    """docs/uncertainty.md: published examples (JCGM 100, 4.3.7, 5.1.5 and H.2; JCGM 101, 9.4; JCGM 106), by doctest."""
    found = doctest.testfile(str(ROOT / "docs" / "uncertainty.md"), module_relative=False, encoding="utf-8")
    assert found.attempted > 20
    assert found.failed == 0
