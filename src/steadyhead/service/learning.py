"""Use case: a folder of visit files in, what they teach out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from steadyhead.diagnosis.company import Company, with_learnt
from steadyhead.diagnosis.company_file import parse_company
from steadyhead.diagnosis.estimates import SECTIONS
from steadyhead.diagnosis.learning import Learnt, learnt_of
from steadyhead.errors import FileUnreadableError, InputError
from steadyhead.messages import message
from steadyhead.visit import load_visit

#: What the names of visit files end in, and those of whole visits.
FILES = (".toml", ".visit")
#: A row that moved by less is not shown, in parts of what it was.
LEAST_MOVED = 0.002


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """What a folder taught.

    Parameters
    ----------
    before, after
        The company's estimates without it, and with it.
    learnt
        What is new, one a visit.
    known, not_closed, refused
        Files that were learnt before, that are not closed, that are no visit files.
    """

    before: Company
    after: Company
    learnt: tuple[Learnt, ...]
    known: tuple[str, ...]
    not_closed: tuple[str, ...]
    refused: tuple[str, ...]


def visit_files(folder: str) -> list[Path]:
    """Return the visit files in a folder and the folders in it, in the order of their names.

    Raises
    ------
    FileUnreadableError
        There is no such folder.
    """
    top = Path(folder)
    if not top.is_dir():
        raise FileUnreadableError(message("folder-missing", folder=folder))
    return sorted(path for path in top.rglob("*") if path.suffix.lower() in FILES and path.is_file())


def learn(paths: Iterable[Path], company: Company) -> Lesson:
    """Return what closed visits teach beyond what the company has learnt already.

    Raises
    ------
    CompanyFileError
        The company's file cannot take more rows: it has its ``learnt`` in one list in brackets.
    """
    seen = {each.visit for each in company.learnt}
    new: list[Learnt] = []
    aside: dict[str, list[str]] = {"known": [], "not_closed": [], "refused": []}
    for path in paths:
        try:
            found = learnt_of(load_visit(path).visit, company.by_hand)
        except InputError:
            aside["refused"].append(str(path))
            continue
        if found is None:
            aside["not_closed"].append(str(path))
        elif found.visit in seen:
            aside["known"].append(str(path))
        else:
            seen.add(found.visit)
            new.append(found)
    learnt = tuple(new)
    after = parse_company(with_learnt(company.text, learnt), company.name) if learnt else company
    said = {name: tuple(files) for name, files in aside.items()}
    return Lesson(before=company, after=after, learnt=learnt, **said)


def lesson_json(lesson: Lesson) -> dict[str, Any]:
    """Return a lesson as JSON values."""
    return {
        "learnt": len(lesson.learnt),
        "counts": sum(each.counts for each in lesson.learnt),
        "timings": sum(len(each.took) for each in lesson.learnt),
        "known": list(lesson.known),
        "not_closed": list(lesson.not_closed),
        "refused": list(lesson.refused),
        "second_trips": second_trips(lesson.after),
        "rows": moved(lesson.before, lesson.after),
    }


def second_trips(company: Company) -> dict[str, int]:
    """Return how many of the visits that say so needed a second trip."""
    said = [each.second_trip for each in company.learnt if each.second_trip is not None]
    return {"needed": sum(said), "of": len(said)}


def moved(before: Company, after: Company) -> list[dict[str, Any]]:
    """Return every row that moved, section by section: before, after, and its unit."""
    old, new = before.estimates.rows, after.estimates.rows
    return [
        {"section": section, "row": name, "unit": SECTIONS[section].unit, "before": row.value,
         "after": new[section][name].value}
        for section, rows in old.items()
        for name, row in rows.items()
        if abs(new[section][name].value - row.value) > LEAST_MOVED * row.value
    ]  # fmt: skip
