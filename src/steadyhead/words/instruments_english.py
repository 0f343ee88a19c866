"""What the pages of the instruments say in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "instruments": "Instruments",
    "instruments-note": "Every band, check and paper is worked out with the accuracy that stands here.",
    "instruments-none": "None yet. Without a gauge's grade and a meter's accuracy, those of usual ones are taken.",
    "instrument-new-gauge": "Add a gauge",
    "instrument-new-meter": "Add a meter",
    "instrument-nameless": "{kind:Instrument}, without a name",
    "instrument-due-good": "Calibration due {day}.",
    "instrument-due-soon": "Calibration due soon: {day}.",
    "instrument-due-past": "Calibration was due {day}. Say so where a figure must be vouched for.",
    "instrument-on-van": "On the van: a new visit takes it",
    "instrument-withdrawn": "Out of use",
    "instrument-withdraw": "Out of use: take it off the list",
    "instrument-back": "Back in use",
    "instrument-keep": "Keep",
    "instrument-used-here": "Used in this visit",
    "instrument-have": "At hand",
    "instrument-have-note": "Only checks that these allow are asked for. Nothing marked means that nobody said.",
    "instrument-van-keep": "Keep what is on the van",
    "instrument-visit-keep": "Keep for this visit",
    "instrument-usual": "A usual one: nobody said which",
}
