"""Every table and key of a sensor on the van: how it is read, and what holds when it is left out.

Everything that affects which keys a sensor in stock has lives in this file: the record's facts, its JSON Schema and its
manual walk these rows.

Rules
-----
1. What stands on its plate is the visit file's own table, `steadyhead.visit.keys.SENSOR`.
2. Nothing but signal and range is needed: what nobody noted is asked for where it matters.
"""

from __future__ import annotations

from steadyhead.published.pipe_threads import WORDS as THREADS
from steadyhead.visit.keys import PLUGS, SENSOR, UNKNOWN, Key, Language, Table
from steadyhead.visit.kinds import OneOf, Several, Text, Whole
from steadyhead.visit.kinds_of_quantity import Size

#: Standards by which a part is approved for drinking water, and the word for a part that has no such approval.
APPROVALS = ("nsf-61", "nsf-372", "bs-6920", "as-nzs-4020", "eu-2020-2184")
NO_APPROVAL = "none"
#: The least that a leaflet says of health; `nsf-372` speaks of lead alone.
LEAD_FREE = "nsf-372"

STOCK = Table(
    "stock",
    "A kind of sensor on the van.",
    (
        Key("name", Text(), "What it is called there.", ""),
        Key("count", Whole(), "How many there were when somebody counted last.", UNKNOWN),
        Key("note", Text(), "What else is to be known of it.", ""),
    ),
)
BUILD = Table(
    "build",
    "How it is built: what must fit pipe, plug and water.",
    (
        Key("thread", OneOf(*THREADS), "Its thread."),
        Key("adapters", Several(*THREADS), "Ports that it goes into by an adapter on the van.", "none"),
        Key("plug", OneOf(*PLUGS), "Its plug."),
        Key(
            "approval",
            Several(*APPROVALS, NO_APPROVAL),
            "Standards by which it is approved for drinking water; `none` alone: it has no such approval.",
        ),
        Key("stands", Size("pressure", above=0), "Pressure that it stands without harm.", UNKNOWN, "stands_pa"),
    ),
)
PINS = Table(
    "pins",
    "Which pin of its plug, or which colour of its lead, is what.",
    (
        Key("supply", Text(), "Sensor power (+)."),
        Key("signal", Text(), "Its signal; of a two-wire sensor its minus."),
        Key("common", Text(), "Its common; a two-wire sensor has none."),
    ),
)
#: Tables of a stock sensor's body.
STOCK_TABLES: tuple[Table, ...] = (SENSOR, BUILD, PINS)
STOCK_LANGUAGE = Language((STOCK, *STOCK_TABLES), ())
