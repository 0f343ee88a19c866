"""What visits, export and import do and say: for programs, and for people."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict
from pathlib import Path
from typing import Any

from steadyhead.bootstrap import open_home, place_named
from steadyhead.cli.manner import usual_speaker
from steadyhead.cli.page import paragraph
from steadyhead.errors import NotFoundError, RecordError
from steadyhead.messages import message
from steadyhead.service.record.coming import Imported
from steadyhead.service.record.everything import part_bytes, whole
from steadyhead.service.record.exchange import export_visit, import_visit
from steadyhead.service.record.given import Given
from steadyhead.service.record.handed import EVERYTHING, FILE, hand_over
from steadyhead.service.record.lists import find_visits
from steadyhead.service.record.views import VisitLine
from steadyhead.visit.archive import LARGEST_ARCHIVE
from steadyhead.visit.file import SUFFIX
from steadyhead.visit.save import save_bytes
from steadyhead.visit.toml_text import read_bytes

LAST, ALL = "last", "all"
#: What a file of everything ends with.
MANY = ".visits"

#: What a command prints: for programs, and for people.
Said = tuple[dict[str, Any], list[str]]


@contextmanager
def record(data: str | None) -> Iterator[Given]:
    """Open the record for one command."""
    home = open_home(place_named(data))
    try:
        yield home.given
    finally:
        home.close()


def visits_said(text: str, data: str | None, columns: int) -> Said:
    """List the visits.

    Raises
    ------
    StoreError
        The record cannot be opened.
    """
    with record(data) as given:
        found = find_visits(given, text)
    lines = [line for each in found for line in _visit_lines(each, columns)]
    return {"schema": 1, "visits": [asdict(each) for each in found]}, lines or [usual_speaker().tell("visits-none")]


def _visit_lines(each: VisitLine, columns: int) -> list[str]:
    speaker = usual_speaker()
    head = speaker.tell("visits-line", visit=each.id, state=each.state, count=each.readings)
    beside = ": ".join(part for part in (each.name, each.complaint) if part)
    return [head, *(paragraph(beside, columns, "  ", "  ") if beside else [])]


def exported(visit: str, file: str, data: str | None, columns: int) -> Said:
    """Write a whole visit into a file.

    Raises
    ------
    NotFoundError
        There is no such visit.
    RecordError
        The file has another ending, or something is there already.
    """
    path = Path(file)
    if visit == ALL:
        return _everything(path, data, columns)
    if path.suffix.lower() != SUFFIX:
        raise RecordError(message("export-suffix", got=file, must_be=SUFFIX))
    if path.exists():
        raise RecordError(message("export-taken", file=file))
    with record(data) as given:
        id_ = last_visit(given) if visit == LAST else visit
        packed = export_visit(given, id_)
        save_bytes(packed, path)
        hand_over(given, FILE, id_)
    told = usual_speaker().tell("export-done", visit=id_, file=file, size=len(packed))
    return {"schema": 1, "visit": id_, "file": file, "size": len(packed)}, paragraph(told, columns)


def _everything(path: Path, data: str | None, columns: int) -> Said:
    """Write everything into one file, or into several where it is large: NAME.visits, NAME-2.visits, ...

    Raises
    ------
    RecordError
        The file has another ending, or something is there already.
    """
    if path.suffix.lower() != MANY:
        raise RecordError(message("export-suffix", got=str(path), must_be=MANY))
    with record(data) as given:
        found = whole(given)
        paths = [path, *(path.with_stem(f"{path.stem}-{number}") for number in range(2, len(found.parts) + 1))]
        for each in paths:
            if each.exists():
                raise RecordError(message("export-taken", file=str(each)))
        for number, each in enumerate(paths, start=1):
            save_bytes(part_bytes(given, number), each)
        hand_over(given, EVERYTHING)
    files = [str(each) for each in paths]
    counts = {"visits": found.visits, "facts": found.facts, "photos": found.photos}
    return {"schema": 1, "files": files, **counts}, paragraph(
        usual_speaker().tell("export-everything", files=", ".join(files), **counts), columns
    )


def last_visit(given: Given) -> str:
    """Return the visit that was written to last.

    Raises
    ------
    NotFoundError
        There is none.
    """
    found = find_visits(given, "")
    if not found:
        raise NotFoundError(message("visits-none"))
    return found[0].id


def imported(file: str, data: str | None, columns: int) -> Said:
    """Take a visit into the record.

    Raises
    ------
    InputError
        The file cannot be read, is damaged, or is no visit.
    """
    packed = read_bytes(Path(file), LARGEST_ARCHIVE)
    with record(data) as given:
        done = import_visit(given, packed, file)
    speaker = usual_speaker()
    if len(done.visits) == 1:
        told = speaker.tell("import-done", file=file, visit=done.visits[0], count=done.new)
    else:
        told = speaker.tell("import-everything", file=file, count=done.new, photos=done.photos)
    lines = [line for each in (told, *more_imported(done)) for line in paragraph(each, columns)]
    if done.collisions:
        lines += paragraph(speaker.tell("import-collisions", count=len(done.collisions)), columns)
    if done.unknown:
        lines += paragraph(speaker.tell("import-unknown", list=done.unknown), columns)
    return {"schema": 1, "file": file, **asdict(done)}, lines


def more_imported(done: Imported) -> list[str]:
    """Return what else is to be said of an import: what two devices disagree on, what was erased, what is newer."""
    tell = usual_speaker().tell
    told = [
        tell("import-conflicts", count=len(done.conflicts)) if done.conflicts else "",
        tell("import-erased", count=done.erased) if done.erased else "",
        tell("import-late", count=done.late) if done.late else "",
        tell("import-newer", list=done.newer) if done.newer else "",
    ]
    return [each for each in told if each]
