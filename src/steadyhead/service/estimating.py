"""Use case: every estimate, shipped and the company's, and what the company's do to a visit."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from steadyhead.diagnosis.answer import Answer
from steadyhead.diagnosis.company import Company
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.diagnosis.estimates import SECTIONS, SHIPPED
from steadyhead.service.answer_json import source_text
from steadyhead.visit.record import Visit

#: Checks and suspects of a comparison.
FIRST_CHECKS, FIRST_SUSPECTS = 5, 8


def estimates_json(company: Company) -> dict[str, Any]:
    """Return every row: as shipped, as the company put it in by hand (None where it did not), and as it is used."""
    used = company.estimates
    return {
        "company": company.name or None,
        "learnt_visits": len(company.learnt),
        "rows": [
            {
                "section": section,
                "row": name,
                "unit": SECTIONS[section].unit,
                "shipped": row.value,
                "company": company.own[section, name].value if (section, name) in company.own else None,
                "used": used.rows[section][name].value,
                "reason": used.rows[section][name].reason,
            }
            for section, rows in SHIPPED.rows.items()
            for name, row in rows.items()
        ],
    }


def effect_json(visit: Visit, company: Company) -> dict[str, Any]:
    """Return what the company's estimates do to a visit before its first reading: odds, and the first checks."""
    unread = replace(visit, readings=(), actions=())
    current = visit.sensor.signal.kind == "current"
    shipped, own = diagnose(unread), diagnose(unread, company.estimates)
    return {
        "suspects": _suspects(shipped, own),
        "checks": {"shipped": _checks(shipped, current=current), "company": _checks(own, current=current)},
    }


def _suspects(shipped: Answer, own: Answer) -> list[dict[str, Any]]:
    """Return the suspects whose odds before the first reading moved most, or the likeliest where none did."""
    before = {s.fault: s.probability for s in shipped.suspects}
    after = {s.fault: s.probability for s in own.suspects}
    order = sorted(before, key=lambda f: (-abs(after.get(f, 0.0) - before[f]), -before[f], f))
    return [
        {"fault": fault, "shipped": before[fault], "company": after.get(fault, 0.0)}
        for fault in order[:FIRST_SUSPECTS]
    ]


def _checks(answer: Answer, *, current: bool) -> list[dict[str, Any]]:
    return [
        {
            "measure": check.question.named,
            "arrangement": check.question.arrangement,
            "red": check.question.red,
            "black": check.question.black,
            "source": source_text(check.question, current=current),
            "item": check.question.item,
            "minutes": check.minutes,
            "saves_minutes": check.saves_minutes,
        }
        for check in answer.next_checks[:FIRST_CHECKS]
    ]
