"""Every answer follows the published schema, and the schema refuses what it must."""

from __future__ import annotations

import json
from importlib.resources import files
from typing import Any

import jsonschema
import pytest

from steadyhead.service.diagnosis import diagnose_visit
from steadyhead.visit import parse_visit
from tests.service.answers import BRIEF, NAMES, as_json, visit

SCHEMA = json.loads(files("steadyhead.service").joinpath("answer_1.json").read_text(encoding="utf-8"))
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)


def wrong(answer: dict[str, Any]) -> list[str]:
    """Return where an answer breaks the schema."""
    return [f"{error.json_path}: {error.message}" for error in VALIDATOR.iter_errors(json.loads(json.dumps(answer)))]


def test_the_schema_itself_is_one() -> None:
    """The JSON Schema standard, draft 2020-12, by another library."""
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("name", NAMES)
def test_every_example_answers_by_the_schema(name: str) -> None:
    """The schema was written from the contract of the answer, not from answers."""
    assert wrong(as_json(name)) == []


@pytest.mark.parametrize(
    "change",
    [
        {"schema": 2},
        {"suspects": []},
        {"verdict": {"state": "perhaps"}},
        {"expected": {"controller.supply": {"low": 1, "high": 2, "unit": "psi"}}},
        {"defaults": ["cable length was guessed"]},
        {"more": 1},
    ],
)
def test_the_schema_refuses_what_the_contract_does_not_allow(change: dict[str, Any]) -> None:
    """One broken rule at a time."""
    assert wrong({**as_json(NAMES[0]), **change})


def test_no_check_left_means_settled() -> None:
    """The contract: next checks are empty exactly when the verdict is settled."""
    answer = as_json(NAMES[0])
    turned = {**answer["verdict"], "settled": not answer["verdict"]["settled"]}
    assert wrong({**answer, "verdict": turned})


def test_the_steps_and_the_proof_of_a_repair_follow_the_schema() -> None:
    """The same schema, whose older keys stay as they were."""
    told = diagnose_visit(parse_visit(BRIEF).visit, steps=True)
    assert wrong(told) == []
    assert "trace" in told
    settled = diagnose_visit(visit("booster-reversed-loop"))
    assert wrong(settled) == []
    assert [each["measure"] for each in settled["after_repair"]] == ["gauge-pressure", "displayed-pressure", "volts"]
    assert not {"trace", "after_repair", "why"} & set(SCHEMA["required"] + SCHEMA["$defs"]["check"]["required"])
