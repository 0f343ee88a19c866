"""How long a paper takes: its description, its words, its HTML, its PDF by the page.

Prints, for each kind of paper of an example and for a certificate, the median milliseconds of each step (without the
engine's own time), and the PDF's milliseconds a page: of a new process's first paper, of the next ones, and of a long
table. Ratios are to the target of 60 ms a page.

Run it as ``python -m benchmarks.papers``, with ``src`` on the path; the PDF needs the extra ``laptop``.
"""

from __future__ import annotations

import re
import statistics
import time
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path

from steadyhead.diagnosis.diagnose import diagnosed
from steadyhead.documents.canonical import content_hash
from steadyhead.documents.html import page
from steadyhead.documents.laid import Look, Values, laid_out
from steadyhead.documents.paper import Paper
from steadyhead.pdf.typeset import typeset
from steadyhead.sensorcheck.file import load_check
from steadyhead.service.papers.certificate import certificate
from steadyhead.service.papers.checked import check_of_file
from steadyhead.service.papers.kinds import KINDS, certificate_in_words, in_words, look_of, paper_of
from steadyhead.service.papers.occasion import Occasion, of_file, thinking
from steadyhead.service.papers.warranty import claimed
from steadyhead.visit import load_visit
from steadyhead.web.assets import paper_style
from steadyhead.words import Manner, Speaker
from tests.documents.made_up import long_table

EXAMPLES = Path(__file__).resolve().parents[1] / "examples"
PAGE_MS = 60.0
TIMES = 7
MANNER = Manner(region="elsewhere")


Made = Callable[[], Paper]
Said = Callable[[Paper], Values]


def main() -> None:
    """Print the figures."""
    print(f"{'paper':<16}{'made':>8}{'words':>8}{'hash':>8}{'HTML':>8}{'PDF':>8}  pages   a page   of the target")
    every = papers()
    _, make, say = every[0]
    first(say(make()))
    for kind, make, say in every:
        one(kind, make, say)
    for rows in (200, 2000):
        one(f"{rows} rows", partial(long_table, rows), plainly)


def first(laid: Values) -> None:
    """Print what a new process's first PDF takes: Typst and the typefaces are read for it."""
    began = time.perf_counter()
    pages = pages_of(typeset(laid))
    told = 1e3 * (time.perf_counter() - began)
    print(f"{'first of all':<16}{'':32}{told:8.1f}{pages:7}{told / pages:9.1f}{told / pages / PAGE_MS:16.2f}")


def one(kind: str, make: Made, say: Said) -> None:
    """Print the line of one paper."""
    paper = make()
    laid = say(paper)
    works = (make, partial(say, paper), partial(content_hash, paper), partial(html, laid))
    show(kind, [median(work) for work in works], laid)


def plainly(paper: Paper) -> Values:
    """Return a paper in plain words."""
    return laid_out(paper, Speaker().say, Look())


def papers() -> list[tuple[str, Made, Said]]:
    """Return every kind of paper: what makes it, and what says it."""
    file = load_visit(EXAMPLES / "house-damp-cable.toml")
    seen = of_file(file, diagnosed(file.visit).answer)
    told = thinking().reasons(file.visit, claimed(seen))
    seen = replace(seen, think=replace(thinking(), reasons=lambda _, __: told))
    checked = check_of_file(load_check(EXAMPLES / "checks" / "booster-hand-pump.toml"))
    found: list[tuple[str, Made, Said]] = [
        (
            kind,
            partial(fresh, kind, seen),
            lambda paper: in_words(paper, seen, MANNER, look_of(paper, MANNER)),
        )
        for kind in KINDS
    ]
    found.append((
        "certificate", lambda: certificate(checked),
        lambda paper: certificate_in_words(paper, checked, MANNER, look_of(paper, MANNER)),
    ))  # fmt: skip
    return found


def fresh(kind: str, seen: Occasion) -> Paper:
    """Return a paper, none of whose figures was made before."""
    return paper_of(kind, replace(seen, figures={}))


def html(laid: Values) -> str:
    """Return a paper as a file of its own."""
    return page(laid, STYLE)


STYLE = paper_style()


def show(kind: str, steps: list[float], laid: Values) -> None:
    """Print the line of one paper; a page's share is told without Typst's own memory of the last one."""
    told = median(lambda: typeset({**laid, "subject": f"{laid['subject']} {time.perf_counter_ns()}"}))
    pages = pages_of(typeset(laid))
    said = "".join(f"{each:8.1f}" for each in steps)
    print(f"{kind:<16}{said}{told:8.1f}{pages:7}{told / pages:9.1f}{told / pages / PAGE_MS:16.2f}")


def pages_of(made: bytes) -> int:
    """Return how many pages a PDF has."""
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", made))


def median(work: Callable[[], object]) -> float:
    """Return the median milliseconds of a piece of work."""
    took = []
    for _ in range(TIMES):
        began = time.perf_counter()
        work()
        took.append(1e3 * (time.perf_counter() - began))
    return statistics.median(took)


if __name__ == "__main__":
    main()
