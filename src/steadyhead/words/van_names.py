"""What people call the grades of a part from the van, its plugs, its approvals, the parts of an error."""

from __future__ import annotations

from steadyhead.published.pipe_threads import WORDS as THREADS

GRADES: dict[str, str] = {
    "fits": "Will do",
    "with-work": "Will do, with work",
    "check": "Look first",
    "no": "Will not do",
}
LASTS: dict[str, str] = {
    "permanent": "may stay",
    "temporary": "only until the right one is there",
    "unsettled": "may stay, once what is to be looked at is right",
}
ASPECTS: dict[str, str] = {
    "signal": "signal",
    "supply": "sensor power",
    "range": "range setting",
    "limits": "fault limits",
    "pressure": "pressure",
    "thread": "thread",
    "plug": "plug and pins",
    "water": "drinking water",
}
PLUGS: dict[str, str] = {
    "lead": "a lead of its own",
    "m12-a": "a round M12 plug, four pins",
    "en-175301-a": "a square plug, form A",
    "en-175301-c": "a square plug, form C",
    "sealed-three": "a sealed plug, three pins",
    "sealed-four": "a sealed plug, four pins",
}
APPROVALS: dict[str, str] = {
    "nsf-61": "NSF/ANSI/CAN 61",
    "nsf-372": "NSF/ANSI/CAN 372",
    "bs-6920": "BS 6920",
    "as-nzs-4020": "AS/NZS 4020",
    "eu-2020-2184": "EU 2020/2184",
    "none": "no approval",
}
ERROR_PARTS: dict[str, str] = {
    "sensor": "The {transducer:region} itself",
    "input": "The input",
    "resistor": "The resistor",
    "loading": "The input beside the resistor",
    "supply": "Error of sensor power",
    "weather": "The weather",
}
FIELDS: dict[str, str] = {
    "name": "What the van calls it",
    "count": "How many",
    "note": "Note",
    "sensor.signal": "signal",
    "sensor.range": "range",
    "sensor.accuracy": "accuracy, of span",
    "sensor.supply": "volts that it is made for",
    "sensor.wires": "wires",
    "sensor.reference": "measures against",
    "build.thread": "thread",
    "build.adapters": "goes by an adapter into",
    "build.plug": "plug",
    "build.approval": "drinking water",
    "build.stands": "stands, without harm",
    "pins.supply": "sensor power (+)",
    "pins.signal": "signal",
    "pins.common": "common",
}
#: What a field of a system's page is called, and the words that it may be chosen from.
FITTING_FIELDS: dict[str, str] = {
    "fitting.thread": "Thread of the port",
    "fitting.plug": "Plug of the cable",
    "fitting.water": "The water is",
    "fitting.highest": "Highest pressure that can come (relief, or pump with everything shut)",
    "fitting.settable": "Input can be set to other signals",
}
FITTING_CHOICES: dict[str, str] = {
    **{word: word for word in THREADS},
    **PLUGS,
    "drinking": "for drinking",
    "other": "not for drinking",
}
FITTING_TABLE: dict[str, str] = {"fitting": "What another {transducer:region} must fit"}
