"""What ``steadyhead learn`` does: shows what a folder teaches, keeps it, or takes the last lesson back."""

from __future__ import annotations

from typing import Any

from steadyhead.cli.company_input import company_at, path_to_change
from steadyhead.cli.company_screens import lesson_screen
from steadyhead.cli.manner import usual_speaker
from steadyhead.cli.page import paragraph, width
from steadyhead.errors import InputError
from steadyhead.messages import message
from steadyhead.service.company_files import change_company, undo_company
from steadyhead.service.learning import learn, lesson_json, visit_files

#: What a command prints: for programs, and for people.
Said = tuple[dict[str, Any], list[str]]


def learn_from(folder: str | None, company: str | None, *, write: bool) -> Said:
    """Return what a folder teaches, kept in the company's file where `write` says so and there is anything new.

    Raises
    ------
    InputError
        No folder was named or it is not there; the company's file is refused or cannot be written.
    """
    if folder is None:
        raise InputError(message("folder-needed"))
    path = path_to_change(company)
    lesson = learn(visit_files(folder), company_at(path))
    written = write and bool(lesson.learnt)
    if written:
        change_company(path, lesson.after.text)
    found = {"company": str(path), "written": written, **lesson_json(lesson)}
    speaker = usual_speaker()
    end = speaker.tell("lesson-written", file=str(path)) if written else speaker.tell("lesson-dry")
    return found, [*lesson_screen(found, speaker, width()), "", *paragraph(end, width())]


def take_back(company: str | None) -> Said:
    """Bring the company's file back to what it was before its last lesson.

    Raises
    ------
    InputError
        There is nothing to take back, or the file was edited since.
    """
    path = path_to_change(company)
    undo_company(path)
    there = path.is_file()
    speaker = usual_speaker()
    told = speaker.tell("lesson-undone", file=str(path)) if there else speaker.tell("lesson-gone", file=str(path))
    return {"company": str(path), "there": there}, paragraph(told, width())
