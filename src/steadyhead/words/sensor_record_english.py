"""What is said about a sensor check as it is kept in the record, in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "check-unknown": "There is no {transducer:region} check {got} here.",
    "check-point-not-here": "This check has no point {got}.",
    "check-needs-plate": "A check needs the {transducer:region}'s plate: {key} is missing.",
    "check-point-says-nothing": "This point has neither a signal nor what the display showed, so it says "
    "nothing of the {transducer:region}.",
    "corrections-do-not-fit": "The certificate has {got} corrections, and must have {must_be}: one for each of its "
    "readings.",
}
