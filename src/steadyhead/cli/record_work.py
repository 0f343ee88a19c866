"""What backup, restore and doctor do and say: for programs, and for people."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from steadyhead.bootstrap import place_named
from steadyhead.cli.manner import usual_speaker
from steadyhead.cli.page import paragraph
from steadyhead.errors import StoreError
from steadyhead.messages import message
from steadyhead.store import copies, health, opening
from steadyhead.store.bundle import bundle_of
from steadyhead.store.logbook import FILE as LOG
from steadyhead.store.logbook import Logbook
from steadyhead.store.places import Place
from steadyhead.store.unit import Store
from steadyhead.store.versions import renew_derived
from steadyhead.words import Speaker

#: What a command prints: for programs, and for people.
Said = tuple[dict[str, Any], list[str]]


def backup_of(file: str, data: str | None, columns: int) -> Said:
    """Back the record up.

    Raises
    ------
    StoreError
        There is no record, it is not sound, or the copy cannot be written.
    """
    place = _place_with_record(data)
    store = opening.open_store(place)
    try:
        done = copies.back_up(store.engine, place, Path(file).absolute())
    finally:
        store.close()
    _note(place, "backed-up", size=done.size, facts=done.facts, photos=done.photos)
    told = usual_speaker().tell("backup-done", file=file, size=done.size, facts=done.facts, photos=done.photos)
    return {"schema": 1, **_copied_json(done)}, paragraph(told, columns)


def restored_from(file: str, data: str | None, columns: int) -> Said:
    """Put a backup in the record's place.

    Raises
    ------
    StoreError
        The backup is refused, or another program has the record open.
    """
    place, speaker = place_named(data), usual_speaker()
    done = copies.restore(place, Path(file).absolute(), f"{datetime.now(UTC):%Y%m%dT%H%M%SZ}")
    _note(place, "restored", size=done.size, facts=done.facts, photos=done.photos)
    lines = paragraph(
        speaker.tell("restore-done", file=place.name, facts=done.facts, photos=done.photos), columns
    )
    if done.purges:
        lines += paragraph(speaker.tell("restore-purges", purges=done.purges), columns)
    if done.aside is not None:
        lines += paragraph(speaker.tell("restore-aside", file=str(done.aside)), columns)
    more = {"aside": None if done.aside is None else str(done.aside), "purges": done.purges}
    return {"schema": 1, **_copied_json(done), **more}, lines


def examined(data: str | None, bundle: str | None, columns: int, *, rebuild: bool) -> Said:
    """Examine the record, after its projections were made anew where that is wanted.

    Raises
    ------
    StoreError
        There is no record, or it cannot be read at all.
    """
    place = _place_with_record(data)
    if rebuild:
        _rebuild(place)
    engine = opening.engine_of(place)
    try:
        report = health.examine(engine)
        _note(place, "examined", wrong=sum(check.wrong for check in report.checks))
        if bundle is not None:
            _write(Path(bundle), bundle_of(engine, report, place.folder / LOG))
    finally:
        engine.dispose()
    found = report_json(place, report) | {"rebuilt": rebuild, "bundle": bundle}
    return found, doctor_screen(found, columns)


def report_json(place: Place, report: health.Report) -> dict[str, Any]:
    """Return what the doctor found, for programs."""
    checks = [{"id": c.id, "looked_at": c.looked_at, "wrong": c.wrong, "fine": c.fine} for c in report.checks]
    head = {"schema": 1, "data": place.name, "version": report.version, "backend": report.backend}
    return head | {"sound": report.sound, "checks": checks, "rows": report.rows}


def doctor_screen(found: dict[str, Any], columns: int) -> list[str]:
    """Return what the doctor found, for people."""
    speaker, rows = usual_speaker(), found["rows"]
    head = speaker.tell(
        "doctor-head", file=found["data"], backend=found["backend"], version=found["version"].lstrip("0")
    )
    holds = speaker.tell(
        "doctor-holds", facts=rows["fact"], photos=rows["blob"], visits=rows["visit_card"], systems=rows["system_card"]
    )
    lines = [*paragraph(head, columns), *paragraph(holds, columns), ""]
    names = [speaker.tell(f"doctor-{check['id']}") for check in found["checks"]]
    wide = max(map(len, names), default=0)
    lines += [_check_line(check, f"{name:{wide}}", speaker) for check, name in zip(found["checks"], names, strict=True)]
    lines += ["", speaker.tell("doctor-sound" if found["sound"] else "doctor-not-sound")]
    if any(check["id"] == "projections" and not check["fine"] for check in found["checks"]):
        lines += paragraph(speaker.tell("doctor-heal"), columns)
    if found["rebuilt"]:
        lines += paragraph(speaker.tell("doctor-rebuilt"), columns)
    if found["bundle"] is not None:
        lines += paragraph(speaker.tell("doctor-bundle", file=found["bundle"]), columns)
    return lines


def _check_line(check: dict[str, Any], name: str, speaker: Speaker) -> str:
    how = speaker.tell(
        "doctor-fine" if check["fine"] else "doctor-wrong", wrong=check["wrong"], looked_at=check["looked_at"]
    )
    return f"{' ' if check['fine'] else '!'} {name} {how}"


def _place_with_record(data: str | None) -> Place:
    place = place_named(data)
    if isinstance(place.address, Path) and not place.address.is_file():
        raise StoreError(message("data-none-yet", file=place.name))
    return place


def _rebuild(place: Place) -> None:
    store: Store = opening.open_store(place)
    try:
        with store.writing() as unit:
            renew_derived(unit.connection)
            unit.commit()
    finally:
        store.close()
    _note(place, "rebuilt")


def _note(place: Place, event: str, **figures: int) -> None:
    log = Logbook(place.folder)
    log.note(event, **figures)
    log.close()


def _copied_json(done: copies.Copied) -> dict[str, Any]:
    return {"file": str(done.file), "size": done.size, "facts": done.facts, "photos": done.photos}


def _write(file: Path, bundle: dict[str, Any]) -> None:
    """Write the bundle.

    Raises
    ------
    StoreError
        A file of that name is there already, or the system refuses.
    """
    try:
        with file.open("x", encoding="utf-8") as stream:
            stream.write(json.dumps(bundle, indent=2) + "\n")
    except FileExistsError as error:
        raise StoreError(message("copy-there", file=str(file))) from error
    except OSError as error:
        raise StoreError(message("copy-not-written", file=str(file), got=str(error.strerror))) from error
