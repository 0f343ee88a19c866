"""The colours of both themes, by the contrast that W3C defines; and that no other colour stands anywhere."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest

STATIC = files("steadyhead.web") / "static"
#: What is read on what, and the least contrast: 7 for text and figures (WCAG 2.2, 1.4.6), 4.5 for a letter that stands
#: in a mark which says the same by its shape, 3 for lines and edges that tell something (1.4.11).
PAIRS = [
    ("ink", "paper", 7.0), ("ink", "sheet", 7.0), ("soft", "paper", 7.0), ("soft", "sheet", 7.0),
    ("water", "paper", 7.0), ("water", "sheet", 7.0), ("on-water", "water", 7.0), ("care", "care-sheet", 7.0),
    ("on-lead", "red-lead", 4.5), ("on-lead", "black-lead", 7.0), ("red-lead", "paper", 3.0),
]  # fmt: skip


def themes() -> dict[str, dict[str, str]]:
    """Return the colours of each theme; the dark one keeps what it does not change."""
    text = (STATIC / "tokens.css").read_text(encoding="utf-8")
    light, _, dark = text.partition("@media (prefers-color-scheme: dark)")
    colours = [dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{6});", part)) for part in (light, dark)]
    return {"light": colours[0], "dark": {**colours[0], **colours[1]}}


def luminance(colour: str) -> float:
    """Return the relative luminance of a colour (WCAG 2.2, "relative luminance")."""
    parts = [int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Return the contrast of two colours (WCAG 2.2, "contrast ratio")."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_contrast_is_computed_as_w3c_defines_it() -> None:
    """Black on white is 21, #767676 on white 4.54 (both from memory of W3C's own examples)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize(("on", "under", "least"), PAIRS, ids=str)
def test_what_is_read_can_be_read(theme: str, on: str, under: str, least: float) -> None:
    """The tokens, by W3C's formula."""
    colours = themes()[theme]
    assert contrast(colours[on], colours[under]) >= least


def test_both_themes_have_every_colour_and_no_other_stands_in_the_styles() -> None:
    """The tokens are the only place for a colour; paper for printing is plain black and white."""
    light, dark = themes().values()
    assert light.keys() == dark.keys()
    assert all(light[name] != dark[name] for name in light)
    for name in ("page.css", "drawing.css", "plot.css"):
        text = (STATIC / name).read_text(encoding="utf-8")
        assert set(re.findall(r"#[0-9a-fA-F]{3,8}\b", text)) <= {"#fff", "#000", "#main"}
