"""What a person sees who starts the program without a word: an example, diagnosed, and what to try next."""

from __future__ import annotations

from steadyhead.cli.diagnose_screen import diagnose_screen
from steadyhead.cli.manner import manner
from steadyhead.cli.page import columns, paragraph
from steadyhead.cli.visit_input import example_file
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.service.diagnosis import speaker_of
from steadyhead.words import Speaker


def worked_example(wide: int) -> list[str]:
    """Return the lines: the example's diagnosis and what to try next."""
    visit = example_file().visit
    speaker = speaker_of(visit, manner("north-america"))
    screen = diagnose_screen(visit, diagnose(visit), speaker, wide)
    tries = [f"  {line}" for line in columns(_tries(speaker))]
    return [*paragraph(speaker.tell("introduction"), wide), "", *screen, "", speaker.tell("try-head"), *tries]


def _tries(speaker: Speaker) -> list[tuple[str, ...]]:
    return [
        ("steadyhead app", speaker.tell("try-app")),
        ("steadyhead diagnose FILE", speaker.tell("try-diagnose")),
        ("steadyhead expect FILE", speaker.tell("try-expect")),
        ("steadyhead check-file FILE", speaker.tell("try-check-file")),
        ("steadyhead faults", speaker.tell("try-faults")),
        ("steadyhead checks", speaker.tell("try-checks")),
        ("steadyhead --help", speaker.tell("try-help")),
    ]
