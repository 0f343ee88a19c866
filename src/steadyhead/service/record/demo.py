"""Use cases: the invented visit and van that a first start shows, and their taking out, which one click does."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from importlib.resources import files

from steadyhead.service.ports import UnitOfWork
from steadyhead.service.record.demo_van import DEMO_STOCK
from steadyhead.service.record.erasing import erase
from steadyhead.service.record.given import Given
from steadyhead.visit.fact_kinds import STOCK_KIND
from steadyhead.visit.facts import Fact
from steadyhead.visit.file import parse_visit
from steadyhead.visit.to_facts import facts_of_tables

#: The visit file that every installation carries, beside this module.
EXAMPLE = "example.toml"
#: The setting that names the invented visit.
DEMO = "demo"
#: The setting that names what is invented on the van.
DEMO_VAN = "demo-van"


def example_text() -> str:
    """Return the text of the visit file that every installation carries."""
    return files("steadyhead.service.record").joinpath(EXAMPLE).read_text(encoding="utf-8")


def demo_id(work: UnitOfWork) -> str:
    """Return the invented visit's id, empty where there is none."""
    return work.setting(DEMO) or ""


def begin_demo(given: Given, text: str) -> str:
    """Keep the invented visit that a visit file's text says, and van, unless there is one or there was; return its id.

    Raises
    ------
    VisitFileError
        The text is no visit file.
    """
    parse_visit(text)
    with given.writing() as work:
        known = work.setting(DEMO)
        if known is not None:
            return known
        pen = given.pen(work)
        facts = facts_of_tables(tomllib.loads(text), pen)
        van = [pen.fact(STOCK_KIND, body, after=facts[-1].id) for body in DEMO_STOCK]
        work.add([*facts, *van])
        work.set_setting(DEMO_VAN, " ".join(fact.about for fact in van))
        work.set_setting(DEMO, facts[0].about)
        work.commit()
        return facts[0].about


def leave_demo(given: Given) -> None:
    """Take the invented visit out, its system, its site and its van with it; where there is none, do nothing."""
    with given.reading() as work:
        id_ = demo_id(work)
        first = work.fact(id_) if id_ else None
        van = (work.setting(DEMO_VAN) or "").split()
    if first is None:
        return
    for about in (first.body.get("site"), first.body.get("system"), id_, *van):
        if about:
            erase(given, str(about))
    with given.writing() as work:
        work.set_setting(DEMO, "")
        work.commit()


def invented(work: UnitOfWork) -> frozenset[str]:
    """Return the entities of the invented visit and van, which are never handed over; empty where they were taken out.

    A system that another visit was made at, and an instrument that another visit names, are somebody's own by now.
    """
    visit = demo_id(work)
    if not visit:
        return frozenset()
    facts = work.facts(visit=visit)
    bodies = [fact.body for fact in facts if fact.kind == "visit"]
    systems = {str(body["system"]) for body in bodies if body.get("system")}
    others = [card for system in systems for card in work.visit_cards(system=system) if card.visit != visit]
    places = set() if others else systems | {str(body["site"]) for body in bodies if body.get("site")}
    named = _instruments(facts)
    own = _instruments(fact for fact in work.facts(kind="visit") if fact.about != visit) if named else set()
    return frozenset({visit, *places, *(named - own), *(work.setting(DEMO_VAN) or "").split()})


def _instruments(facts: Iterable[Fact]) -> set[str]:
    """Return the instruments that facts name."""
    return {str(id_) for fact in facts for id_ in (*fact.body.get("instruments", ()), fact.instrument) if id_}
