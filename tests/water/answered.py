"""Systems that must give water tonight, as answers: invented, but for the pump of the trade's worked example."""

from __future__ import annotations

from steadyhead.water.known import known_from
from steadyhead.water.tonight import Tonight, Way, tonight

#: A house well: 550 ft of shut-off head, 100 ft down, weakest part and relief at 100 psi.
WELL = {
    "serves": "house", "broken": "sensor", "pump": "centrifugal", "draws": "well", "watch": "beside",
    "relief": "fitted", "dry-run": "independent", "hand-speed": "yes", "relief-set": "100 psi", "weakest": "100 psi",
    "gauge-top": "160 psi", "set-pressure": "50 psi", "shut-off": "550 ft", "rated-hertz": "60 Hz", "lift": "100 ft",
}  # fmt: skip
SWITCH = {**WELL, "switch": "yes", "run-input": "yes"}
SPARE = {**WELL, "spare": "yes", "spare-range": "0..150 psi", "spare-approved": "yes"}
#: A helical pump whose relief was seen to pass all of it.
HELICAL = {
    "serves": "house", "broken": "sensor", "pump": "positive-displacement", "draws": "well", "watch": "beside",
    "relief": "proven", "dry-run": "independent", "hand-speed": "yes", "relief-set": "70 psi", "weakest": "100 psi",
    "gauge-top": "160 psi", "rated-hertz": "60 Hz", "duty-flow": "10 gpm", "relief-flow": "10 gpm",
}  # fmt: skip


def thought(answers: dict[str, str], **more: str) -> Tonight:
    """Return what may run; a question in `more` has underscores for its hyphens."""
    return tonight(known_from({**answers, **{key.replace("_", "-"): text for key, text in more.items()}}))


def way(mode: str, answers: dict[str, str], **more: str) -> Way:
    """Return one way."""
    return next(each for each in thought(answers, **more).ways if each.mode == mode)


def figures(found: Way) -> dict[str, float]:
    """Return a way's figures by name, in SI units."""
    return {each.name: each.value for each in found.limits}


def reasons(found: Way) -> set[str]:
    """Return the ids of why a way will not do."""
    return {each.id for each in found.why}
