"""What a person sees who starts the program without a word: an example, diagnosed, and what to try next."""

from __future__ import annotations

from steadyhead.cli.diagnose_screen import diagnose_screen
from steadyhead.cli.page import paragraph
from steadyhead.cli.visit_input import example_file
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.service.diagnosis import speaker_of

INTRODUCTION = (
    "Steadyhead finds what is at fault in the pressure-sensor loop of a constant-pressure water system. This is an "
    "invented visit, half-way:"
)
NEXT = (
    ("steadyhead diagnose FILE", "the same for your own visit file"),
    ("steadyhead expect FILE", "what every point should read"),
    ("steadyhead check-file FILE", "what is wrong with a file, line by line"),
    ("steadyhead faults", "every fault and what it looks like"),
    ("steadyhead checks", "every check and its minutes"),
    ("steadyhead --help", "everything else"),
)


def worked_example(wide: int) -> list[str]:
    """Return the lines: the example's diagnosis and what to try next."""
    visit = example_file().visit
    screen = diagnose_screen(visit, diagnose(visit), speaker_of(visit), wide)
    tries = [f"  {command:<28}{what}" for command, what in NEXT]
    return [*paragraph(INTRODUCTION, wide), "", *screen, "", "What to try next", *tries]
