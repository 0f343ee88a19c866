"""What people call the ids: gathered by kind from the tables of names.

Everything that is named here is a template too: a wire may have this plug's colour, a part its region's word.
"""

from __future__ import annotations

from steadyhead.words import van_names
from steadyhead.words.arriving_names import (
    CALL_KEYS,
    DEPENDENTS,
    FIRST_ASKS,
    FIRST_STEPS,
    GAUGE_OWNERS,
    PICTURED,
    SHOWS,
    STAGES,
)
from steadyhead.words.caution_names import CAUTIONS
from steadyhead.words.certificate_names import (
    CHECK_DECISIONS,
    CHECK_MEDIA,
    CHECK_STAGES,
    CHECK_VERDICTS,
    CHECK_WAYS,
    PRESSURES_FROM,
    READ_AS,
)
from steadyhead.words.checks_names import (
    ARRANGEMENTS,
    DISPLAYED,
    FOUND,
    INSTRUMENTS,
    ITEMS,
    KEYS,
    MEASURES,
    REFERENCES,
    STATES,
)
from steadyhead.words.complaint_names import COMPLAINT, GROUPS
from steadyhead.words.endings_names import (
    ENDING_KEYS,
    ENDING_NOTES,
    ENDING_OFF,
    ENDINGS,
    ENDINGS_MEAN,
    FOLLOW_UP_STEPS,
    FOLLOW_UPS,
    MENDED_AT,
    PROOF_STATES,
    REPAIR_KEYS,
    REPAIR_STATES,
    SHUT,
)
from steadyhead.words.fault_looks import FAMILIES, LOOKS
from steadyhead.words.fault_names import FAULTS, PLACES
from steadyhead.words.figure_names import FIGURES
from steadyhead.words.handing_names import HANDED_WAYS
from steadyhead.words.help_names import HELP_PAGES
from steadyhead.words.instruments_names import INSTRUMENT_FIELDS
from steadyhead.words.month_names import MONTHS
from steadyhead.words.night_names import NIGHT_ANSWERS
from steadyhead.words.part_names import PARTS
from steadyhead.words.remedy_names import (
    DONE,
    KEPT_STATES,
    PROTECTIONS,
    REMEDIES,
    STANDINGS,
    TEMPORARY_KEYS,
)
from steadyhead.words.sensor_run_names import ASKED_TABLES, COLUMNS, LIMITS, OUTCOMES_SHORT
from steadyhead.words.sensor_web_names import (
    CHECK_FIELDS,
    CHECK_GROUPS,
    CHECK_WORDS,
    DECISION_RULES,
    DIRECTIONS,
    DISTRIBUTIONS,
    DRAWN_VERDICTS,
    OUTCOMES,
    POINT_FIELDS,
)
from steadyhead.words.sensorcheck_names import INPUTS, LINEAR
from steadyhead.words.settings_names import SETTING_CHOICES, SETTINGS
from steadyhead.words.stops_names import STOPS
from steadyhead.words.system_names import BIRTH_MOVES, BIRTH_NUMBERS, SYSTEM_KEYS
from steadyhead.words.tank_names import TANK_ANSWERS, TANK_ASKS
from steadyhead.words.times_names import TIME_GROUPS, TIME_ROWS
from steadyhead.words.tonight_names import ANSWERS, BROKEN, FINDS, POSSIBLE, WATCHES, WAYS
from steadyhead.words.tonight_names import ASKS as TONIGHT_ASKS
from steadyhead.words.tonight_names import GROUPS as TONIGHT_GROUPS
from steadyhead.words.tonight_names import PARTS as LIMITING_PARTS
from steadyhead.words.web_names import (
    ASKS,
    BANDS,
    CHOICES,
    DRAWN_PARTS,
    FIELDS,
    KEY_CAPS,
    LABELS_OF,
    LEVELS,
    METER_DIALS,
    PAPER_WAYS,
    PAPERS,
    PAPERS_FOR,
    SEEN,
    SHORT_POINTS,
    SIGNALS,
    TABLES,
    UNITS,
    VERDICTS,
)

_POINTS = tuple(
    [f"{side}.{core}" for side in ("controller", "sensor", "wire") for core in ("supply", "signal", "common")]
    + ["shield", "earth"]
)

NAMES: dict[str, dict[str, str]] = {
    "point": {point: f"{{{point.replace('.', '__')}:named-point}}" for point in _POINTS},
    "fault": FAULTS,
    "look": LOOKS,
    "family": FAMILIES,
    "remedy": REMEDIES,
    "done": DONE,
    "kept-state": KEPT_STATES,
    "ending": ENDINGS,
    "handed-way": HANDED_WAYS,
    "ending-means": ENDINGS_MEAN,
    "ending-key": ENDING_KEYS,
    "ending-off": ENDING_OFF,
    "ending-note": ENDING_NOTES,
    "shut": SHUT,
    "answer": NIGHT_ANSWERS,
    "repair-key": REPAIR_KEYS,
    "repair-state": REPAIR_STATES,
    "mended-at": MENDED_AT,
    "proof-state": PROOF_STATES,
    "follow-up": FOLLOW_UPS,
    "follow-up-step": FOLLOW_UP_STEPS,
    "protection": PROTECTIONS,
    "temporary-key": TEMPORARY_KEYS,
    "check-verdict": CHECK_VERDICTS,
    "check-decision": CHECK_DECISIONS,
    "check-stage": CHECK_STAGES,
    "check-medium": CHECK_MEDIA,
    "check-way": CHECK_WAYS,
    "pressure-from": PRESSURES_FROM,
    "read-as": READ_AS,
    "figure": FIGURES,
    "reference": REFERENCES,
    "arrangement": ARRANGEMENTS,
    "measure": MEASURES,
    "item": ITEMS,
    "input": INPUTS,
    "linear": LINEAR,
    "place": PLACES,
    "state": STATES,
    "standing": STANDINGS,
    "displayed": DISPLAYED,
    "found": FOUND,
    "instrument": INSTRUMENTS,
    "key": KEYS,
    "part": PARTS,
    "month": MONTHS,
    "complaint": COMPLAINT,
    "suspected": {**FAULTS, **FAMILIES, **GROUPS},
    "caution": CAUTIONS,
    "level": LEVELS,
    "drawn-part": DRAWN_PARTS,
    "meter-dial": METER_DIALS,
    "short-point": SHORT_POINTS,
    "asks": ASKS,
    "band": BANDS,
    "key-cap": KEY_CAPS,
    "unit": UNITS,
    "verdict": VERDICTS,
    "seen": SEEN,
    "signal": SIGNALS,
    "table": {**TABLES, **van_names.FITTING_TABLE},
    "field": {**FIELDS, **van_names.FITTING_FIELDS},
    "label-of": LABELS_OF,
    "choice": {**CHOICES, **van_names.FITTING_CHOICES},
    "limit": LIMITS,
    "column": COLUMNS,
    "asked-table": ASKED_TABLES,
    "outcome": OUTCOMES_SHORT,
    "instrument-field": INSTRUMENT_FIELDS,
    "time-group": TIME_GROUPS,
    "time-row": TIME_ROWS,
    "stop": STOPS,
    "setting": SETTINGS,
    "setting-choice": SETTING_CHOICES,
    "check-group": CHECK_GROUPS,
    "check-field": CHECK_FIELDS,
    "check-word": CHECK_WORDS,
    "point-field": POINT_FIELDS,
    "direction": DIRECTIONS,
    "check-outcome": OUTCOMES,
    "distribution": DISTRIBUTIONS,
    "decision-rule": DECISION_RULES,
    "drawn-verdict": DRAWN_VERDICTS,
    "first-step": FIRST_STEPS,
    "first-ask": FIRST_ASKS,
    "gauge-owner": GAUGE_OWNERS,
    "call-key": CALL_KEYS,
    "stage": STAGES,
    "tonight-way": WAYS,
    "tonight-possible": POSSIBLE,
    "tonight-ask": TONIGHT_ASKS,
    "tonight-find": FINDS,
    "tonight-group": TONIGHT_GROUPS,
    "tonight-answer": ANSWERS,
    "tonight-broken": BROKEN,
    "tonight-watch": WATCHES,
    "tonight-part": LIMITING_PARTS,
    "tank-ask": TANK_ASKS,
    "tank-motor": TANK_ANSWERS,
    "shows": SHOWS,
    "pictured": PICTURED,
    "dependent": DEPENDENTS,
    "system-key": SYSTEM_KEYS,
    "birth-number": BIRTH_NUMBERS,
    "birth-moves": BIRTH_MOVES,
    "paper": PAPERS,
    "paper-for": PAPERS_FOR,
    "paper-way": PAPER_WAYS,
    "van-grade": van_names.GRADES,
    "van-lasts": van_names.LASTS,
    "van-aspect": van_names.ASPECTS,
    "van-field": van_names.FIELDS,
    "plug": van_names.PLUGS,
    "approval": van_names.APPROVALS,
    "error-part": van_names.ERROR_PARTS,
    "help-page": HELP_PAGES,
}
