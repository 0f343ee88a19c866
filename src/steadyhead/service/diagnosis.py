"""Use case: a visit file in, its diagnosis out."""

from __future__ import annotations

from typing import Any

from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.service.answer_json import answer_json
from steadyhead.visit import parse_visit


def diagnose_text(text: str, name: str = "visit.toml") -> dict[str, Any]:
    """Return the diagnosis of a visit file's text as JSON values.

    Raises
    ------
    InputError
        The text is no visit file; `problems` says why.
    """
    return answer_json(diagnose(parse_visit(text, name).visit), str)
