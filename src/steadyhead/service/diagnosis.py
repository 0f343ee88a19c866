"""Use case: a visit in, its diagnosis out, said in the words of this panel and this region."""

from __future__ import annotations

from typing import Any

from steadyhead.diagnosis.diagnose import diagnosed
from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.diagnosis.trace import trace
from steadyhead.service.after_repair import proofs, proofs_json
from steadyhead.service.answer_json import answer_json
from steadyhead.service.trace_json import trace_json
from steadyhead.visit import parse_visit
from steadyhead.visit.record import Visit
from steadyhead.words import USUAL, Manner, Speaker


def speaker_of(visit: Visit, manner: Manner = USUAL) -> Speaker:
    """Return who speaks of this visit to somebody: with its labels, in its unit of pressure or the reader's own."""
    signal = visit.sensor.signal
    return manner.speaker(labels=visit.labels, pressure_unit=visit.pressure_unit, wires=signal.wires)


def diagnose_visit(
    visit: Visit, manner: Manner = USUAL, estimates: Estimates = SHIPPED, *, steps: bool = False
) -> dict[str, Any]:
    """Return the diagnosis of a visit as JSON values; with `steps` those that led to it too, under `trace`."""
    speaker = speaker_of(visit, manner)
    current = visit.sensor.signal.kind == "current"
    found = diagnosed(visit, estimates)
    verdict = found.answer.verdict
    after = proofs(visit, verdict.remedy) if verdict.settled else ()
    return {
        **answer_json(found.answer, speaker, current=current),
        **({"after_repair": proofs_json(after, visit.pressure_unit)} if after else {}),
        **({"trace": trace_json(trace(found), current=current)} if steps else {}),
    }


def diagnose_text(text: str, name: str = "visit.toml") -> dict[str, Any]:
    """Return the diagnosis of a visit file's text as JSON values.

    Parameters
    ----------
    text
        The visit file.
    name
        What the file is called in messages.

    Raises
    ------
    InputError
        The text is no visit file; `problems` says why.
    """
    return diagnose_visit(parse_visit(text, name).visit)
