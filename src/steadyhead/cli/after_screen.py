"""What must read right once a repair is made, on a screen: one line for each reading, with its band."""

from __future__ import annotations

from steadyhead.cli.page import columns, paragraph
from steadyhead.diagnosis.answer import Answer
from steadyhead.service.after_repair import Proof, proofs
from steadyhead.service.check_words import proof_band
from steadyhead.visit.record import Visit
from steadyhead.words import Speaker


def after_lines(visit: Visit, answer: Answer, speaker: Speaker, wide: int) -> list[str]:
    """Return what must read right after the repair of a settled diagnosis; nothing where nothing is mended."""
    found = proofs(visit, answer.verdict.remedy) if answer.verdict.settled else ()
    if not found:
        return []
    rows = [(_what(proof, speaker), proof_band(proof, visit.pressure_unit, speaker)) for proof in found]
    told = [row for row in rows if row[1]]
    if not told:
        return paragraph(speaker.tell("after-repair-agree"), wide)
    lines = [f"  {row}" for row in columns(told)]
    if max(map(len, lines)) > wide:
        lines = [line for what, text in told for line in paragraph(f"{what}: {text}", wide, "  ", "    ")]
    return [*paragraph(speaker.tell("after-repair-head"), wide), *lines]


def _what(proof: Proof, speaker: Speaker) -> str:
    question = proof.question
    return speaker.tell("what-is-read", measure=question.measure, red=question.red, black=question.black)
