"""Use case: a visit in, its diagnosis out, said in the words of this panel and this region."""

from __future__ import annotations

from typing import Any

from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.diagnosis.estimates import SHIPPED, Estimates
from steadyhead.service.answer_json import answer_json
from steadyhead.visit import parse_visit
from steadyhead.visit.record import Visit
from steadyhead.words import Speaker

DEFAULT_REGION = "north-america"


def speaker_of(visit: Visit, region: str = DEFAULT_REGION) -> Speaker:
    """Return who speaks of this visit: with its labels, in its unit of pressure.

    Raises
    ------
    UnknownWordError
        There is no such region.
    """
    signal = visit.sensor.signal
    return Speaker(labels=visit.labels, region=region, pressure_unit=visit.pressure_unit, wires=signal.wires)


def diagnose_visit(
    visit: Visit, region: str = DEFAULT_REGION, estimates: Estimates = SHIPPED
) -> dict[str, Any]:
    """Return the diagnosis of a visit as JSON values.

    Raises
    ------
    UnknownWordError
        There is no such region.
    """
    speaker = speaker_of(visit, region)
    return answer_json(diagnose(visit, estimates), speaker, current=visit.sensor.signal.kind == "current")


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
