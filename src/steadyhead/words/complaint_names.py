"""What people call the words of a complaint, and the groups of faults that a word makes likelier."""

from __future__ import annotations

COMPLAINT: dict[str, str] = {
    "shown:low-signal": "low signal shown",
    "shown:high-signal": "high signal shown",
    "shown:none": "no fault shown",
    "shown:dry-run": "dry run shown",
    "shown:overload": "overload shown",
    "shown:earth-fault": "{ground:region} fault shown",
    "shown:supply-voltage": "incoming volts shown",
    "shown:phase": "phase shown",
    "shown:over-temperature": "over temperature shown",
    "shown:over-pressure": "over pressure shown",
    "shown:communication": "communication shown",
    "shown:dead-display": "display dead",
    "since:sudden": "all of a sudden",
    "since:gradual": "little by little",
    "since:new-system": "ever since it was new",
    "when:always": "all the time",
    "when:night": "at night",
    "when:rain": "after rain",
    "when:running": "only while the pump runs",
    "when:rest": "only at rest",
    "when:start": "at the start",
    "when:sometimes": "now and then",
    "changed:storm": "after a storm",
    "changed:freeze": "after a freeze",
    "changed:power-cut": "after a power cut",
    "changed:recent-work": "worked on lately",
    "changed:new-part": "a new part",
    "changed:drained": "drained lately",
    "changed:filter": "filter changed",
    "changed:nothing": "nothing was changed",
}

GROUPS: dict[str, str] = {
    "pulls-low": "what pulls the signal low",
    "pushes-high": "what pushes the signal high",
    "stays-within": "what keeps the signal within its limits",
    "breaks": "what breaks",
    "wears": "what wears slowly",
    "comes-at-once": "what comes at once",
    "built-so": "what was built so",
    "parts": "a part that died",
    "electronics": "electronics that a surge kills",
}
