"""What papers say in English: to a customer, an office, the next technician, a maker; on cards, tags and certificates.

Rules
-----
1. A customer's paper has no word of the trade that a customer would have to ask about, but for the fault's own name.
2. What a person typed stands alone or in quotation marks; nothing of it is said in our words.
"""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    # refusals
    "paper-unknown": "There is no paper {got}. The papers: {must_be}.{nearest:nearest}",
    "sheet-unknown": "There is no sheet {got}. The sheets: {must_be}.",
    "paper-suffix": "{got} is no name for a paper. It ends in one of: {must_be}.",
    "paper-no-pdf": "This installation makes no PDF, so {got} was not written. Write {must_be} and print that, or "
    "install steadyhead[laptop].",
    "paper-written": "Written: {file} ({size} bytes). SHA-256 of its content: {hash}",
    "decimal-sign-unknown": "{got} is no decimal sign. The signs: {must_be}",
    # every paper
    "paper-subject": "{name}",
    "paper-nameless": "A system without a name",
    "paper-invented": "Invented, to try things out: no such visit was made.",
    "paper-number": "Paper",
    "paper-hash": "Content",
    "paper-qr": "Leads back to the record of this paper",
    "paper-care": "Cautions",
    "paper-next": "Do this next",
    "paper-unit": "{unit:unit}",
    "paper-to": "to",
    "paper-as-written": "{text}",
    "paper-jumping": "jumping",
    "paper-over": "held over {minutes:minutes}",
    "paper-displayed": "{shown:displayed}",
    "paper-found": "{found:found}",
    # how each figure was made
    "paper-made-head": "How each figure was made",
    "paper-made-of": "From",
    "paper-figure": "{figure:figure}",
    "paper-value-doubt": "{value}, standard uncertainty {doubt}",
    "paper-formula": "{name:figure} = {formula:formula}.",
    "paper-from-reading": "Read: reading {number} of this visit.",
    "paper-from-plate": "From the {transducer:region}'s plate.",
    "paper-from-setting": "As set in, or measured on, this drive.",
    "paper-from-round": "Chosen: a round figure.",
    "paper-from-assumed": "Assumed: nobody has read the plate.",
    "paper-from": "Given: {whence}.",
    # the plate
    "paper-range": "Range",
    "paper-signal": "Signal",
    "paper-reference": "{reference:reference}",
    "paper-signal-kind": "{kind:signal-kind}, {wires} wires",
    "paper-plate-assumed": "Nobody has read the {transducer:region}'s plate: range and signal are the usual ones, not "
    "this one's. Do not rely on this paper.",
    # the reading card
    "paper-reading-card": "Reading card",
    "paper-supply-at": "Sensor power, {supply:short} to {common:short}",
    "paper-supply-two-wires": "Loop power, {supply:short} to {common:short}",
    "paper-head-pressure": "Pressure, {unit:unit}",
    "paper-head-unit": "{unit:unit}",
    "paper-head-volts": "{signal:short} to {common:short}, V",
    "paper-head-milliamps": "In the signal wire, mA",
    "paper-head-healthy": "Healthy",
    "paper-head-input": "{signal:short} to {common:short}, V",
    "paper-card-table": "What a healthy loop shows at each pressure",
    "paper-card-plot": "The plate's line, and hatched what a healthy loop may show",
    "paper-card-volts": "Everything connected, power on: red lead on {signal:terminal}, black lead on "
    "{common:terminal}. Healthy allows for this gauge, the {transducer:region}, its power and the meter.",
    "paper-card-milliamps": "Stop the drive first. Meter in the signal wire: red lead on {signal:the-wire}, black lead "
    "on {signal:terminal}. Healthy allows for this gauge, the {transducer:region}, its power and the meter.",
    # the customer's report
    "paper-customer": "Report for the customer",
    "paper-called": "You told us: “{text}”",
    "paper-wrong-head": "What was wrong",
    "paper-closed": "{fault:Fault}. Proved after the repair.",
    "paper-proved": "{fault:Fault}. This was proved by measurement.",
    "paper-likely": "Most likely: {fault:fault}. It is not proved yet.",
    "paper-open": "This is not settled yet. Most likely so far: {fault:fault}.",
    "paper-unjudged": "Nothing is judged yet: the {transducer:region}'s plate has not been read.",
    "paper-done-head": "What was done",
    "paper-done": "{remedy:Done}.",
    "paper-still": "Still to be done: {remedy:remedy}.",
    "paper-nothing-done": "Nothing was changed on this visit.",
    "paper-now-head": "What it shows now",
    "paper-now-table": "Last readings",
    "paper-head-what": "What",
    "paper-head-shows": "Shows",
    "paper-head-should": "Should show",
    "paper-what": "{measure:What-read}",
    "paper-reads-right": "All that must read right after this repair does.",
    "paper-not-read-since": "Nothing was read after the repair.",
    "paper-nothing-read": "Nothing was read.",
    "paper-watch-head": "What to watch",
    "paper-watch-signal": "The display shows a sensor fault again, or its pressure jumps.",
    "paper-watch-pressure": "The pressure at your taps is not what it was: too low, too high, or up and down.",
    "paper-watch-starts": "The pump starts and stops every few minutes though nobody draws water.",
    "paper-watch-water": "Water stands or drips at the pump, the {transducer:region} or its cable.",
    "paper-watch-call": "Should you see any of this, call us and tell us what the display shows. Do not reset it "
    "before: a reset wipes what it knows.",
    "paper-stands": "How this visit ended: {state:kept-state}.",
    "paper-card-care": "Mains beside the terminals; the pump can start by itself.",
    "paper-leave-panel": "Leave the panel shut. There is mains inside, and the pump can start by itself at any time.",
    "paper-sign-technician": "Technician, date",
    "paper-sign-customer": "Customer, date",
}
