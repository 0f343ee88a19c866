"""What ``steadyhead paper`` does and says: for programs, and for people."""

from __future__ import annotations

from contextlib import closing
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from steadyhead import __version__
from steadyhead.bootstrap import open_home, pdf_setter, place_named, what_is_here
from steadyhead.cli.company_input import estimates_of
from steadyhead.cli.exchange_work import LAST
from steadyhead.cli.page import paragraph
from steadyhead.cli.paper_screen import paper_screen
from steadyhead.cli.visit_input import visit_file
from steadyhead.diagnosis.diagnose import diagnosed
from steadyhead.documents.html import page
from steadyhead.documents.laid import Look, Values
from steadyhead.documents.paper import Paper
from steadyhead.errors import NotFoundError, RecordError, UnknownWordError
from steadyhead.messages import message
from steadyhead.sensorcheck.file import load_check
from steadyhead.service.healthy import healthy_bands
from steadyhead.service.papers.certificate import certificate
from steadyhead.service.papers.checked import Checked, check_of_file, check_of_record
from steadyhead.service.papers.kinds import KINDS, OF_A_CHECK, certificate_in_words, in_words, look_of, paper_of
from steadyhead.service.papers.occasion import Occasion, of_file, of_record
from steadyhead.service.papers.printed import logo_named, pictures_of
from steadyhead.service.papers.quick_guide import KIND as QUICK_GUIDE
from steadyhead.service.papers.quick_guide import guide_in_words, quick_guide
from steadyhead.service.ports import Blob
from steadyhead.service.record.check_pages import check_page, earlier_checks
from steadyhead.service.record.given import Given
from steadyhead.service.record.letterhead import letterhead
from steadyhead.service.record.lists import find_visits
from steadyhead.service.record.pages import visit_page
from steadyhead.service.sensorcheck.looking import look
from steadyhead.visit.ids import is_ulid
from steadyhead.web.assets import paper_style
from steadyhead.words import Manner

SUFFIXES = (".pdf", ".html")


@dataclass(frozen=True, slots=True)
class Letterhead:
    """What stands over a paper: lines, and a logo by the SHA-256 of its bytes."""

    lines: tuple[str, ...] = ()
    logo: str = ""


NO_LETTERHEAD = Letterhead()
#: What a command prints: for programs, and for people.
Said = tuple[dict[str, Any], list[str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What the command was given."""

    visit: str
    kind: str
    output: str | None
    trace: bool
    sheet: str
    decimal: str
    company: str | None
    data: str | None
    manner: Manner


def put_on_paper(asked: Asked, columns: int) -> Said:
    """Make a paper; write it where a file was named, else say it.

    Raises
    ------
    InputError
        No such visit, file, paper or sheet; the file is there already, or this home makes no PDF.
    """
    if not asked.kind and asked.visit != QUICK_GUIDE:
        raise UnknownWordError(message("paper-which", got=asked.visit, must_be=(*KINDS, OF_A_CHECK)))
    speaker = asked.manner.speaker()
    target = None if asked.output is None else _target(asked.output)
    if asked.visit == QUICK_GUIDE and not asked.kind:
        laid, pictures = _guide(asked)
    elif asked.visit == LAST or is_ulid(asked.visit):
        with closing(open_home(place_named(asked.data))) as home:
            laid, pictures = _of_record(asked, home.given)
    else:
        laid, pictures = _of_file(asked), {}
    found = {"schema": 1, "engine": __version__, "file": asked.output, **laid}
    if target is None:
        return found, paper_screen(laid, columns)
    size = _write(target, laid, pictures)
    told = speaker.tell("paper-written", file=str(asked.output), size=size, hash=laid["hash"])
    return found, paragraph(told, columns)


def _guide(asked: Asked) -> tuple[Values, dict[str, Blob]]:
    """Return the quick guide in words, under this device's letterhead, and its pictures."""
    made = quick_guide()
    with closing(open_home(place_named(asked.data))) as home:
        over = Letterhead(letterhead(home.given), logo_named(home.given))
        laid = guide_in_words(made, asked.manner, _look(asked, made, over))
        return laid, pictures_of(home.given, laid)


def _of_file(asked: Asked) -> Values:
    """Return a paper of a visit file or of a sensor check's file in words; nobody's letterhead is over it."""
    if asked.kind == OF_A_CHECK:
        checked = check_of_file(load_check(asked.visit))
        return _certificate(asked, checked, NO_LETTERHEAD)
    file = visit_file(asked.visit)
    seen = of_file(file, diagnosed(file.visit, estimates_of(asked.company)).answer)
    return _paper(asked, seen, NO_LETTERHEAD)


def _of_record(asked: Asked, given: Given) -> tuple[Values, dict[str, Blob]]:
    """Return a paper of the record in words, under this device's letterhead, and its pictures."""
    over = Letterhead(letterhead(given), logo_named(given))
    if asked.kind == OF_A_CHECK:
        laid = _certificate(asked, _checked(asked, given), over)
    else:
        laid = _paper(asked, _occasion(asked, given), over)
    return laid, pictures_of(given, laid)


def _paper(asked: Asked, seen: Occasion, over: Letterhead) -> Values:
    seen = seen.in_unit_of(asked.manner)
    paper = paper_of(asked.kind, seen)
    return in_words(paper, seen, asked.manner, _look(asked, paper, over))


def _certificate(asked: Asked, seen: Checked, over: Letterhead) -> Values:
    seen = replace(seen, pressure_unit=asked.manner.unit or seen.pressure_unit)
    paper = certificate(seen)
    return certificate_in_words(paper, seen, asked.manner, _look(asked, paper, over))


def _look(asked: Asked, paper: Paper, over: Letterhead) -> Look:
    return look_of(
        paper, asked.manner, sheet=asked.sheet, decimal=asked.decimal, trace=asked.trace, issuer=over.lines,
        logo=over.logo,
    )  # fmt: skip


def _checked(asked: Asked, given: Given) -> Checked:
    """Return the sensor check of the record that is certified."""
    seen = check_page(given, asked.visit)
    earlier = earlier_checks(given, seen.told.run.serial)
    return check_of_record(seen, look(seen.told.run, scaled=seen.told.scaled), earlier)


def _target(name: str) -> Path:
    """Return where a paper is written to; refused before anything is worked out."""
    path = Path(name)
    if path.suffix.lower() not in SUFFIXES:
        raise RecordError(message("paper-suffix", got=name, must_be=SUFFIXES))
    if path.exists():
        raise RecordError(message("export-taken", file=name))
    if not path.parent.is_dir():
        raise RecordError(message("folder-missing", folder=str(path.parent)))
    if path.suffix.lower() == ".pdf" and pdf_setter(what_is_here()) is None:
        raise RecordError(message("paper-no-pdf", got=name, must_be=f"{path.stem}.html"))
    return path


def _write(target: Path, laid: Values, pictures: dict[str, Blob]) -> int:
    """Write a paper, and return its size in bytes."""
    setter = pdf_setter(what_is_here()) if target.suffix.lower() == ".pdf" else None
    whole = setter(laid, pictures) if setter else page(laid, paper_style(), pictures).encode()
    with target.open("xb") as stream:
        return stream.write(whole)


def _occasion(asked: Asked, given: Given) -> Occasion:
    """Return the visit of the record that is put on paper."""
    seen = visit_page(given, _last(given) if asked.visit == LAST else asked.visit)
    answer = None if seen.assumed else diagnosed(seen.visit, estimates_of(asked.company)).answer
    return of_record(seen, answer, {} if seen.assumed else healthy_bands(seen.visit))


def _last(given: Given) -> str:
    found = find_visits(given, "")
    if not found:
        raise NotFoundError(message("visits-none"))
    return found[0].id
