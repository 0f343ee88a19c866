"""Sentences on what a pressure tank gives, and how often the pump starts for it."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "tank-lacks": "It must be known: give it with its unit.",
    "tank-stop-below-wake": "The pump must stop above the pressure at which it wakes.",
    "tank-gives": "From {stop:pressure} down to {wake:pressure} the {tank:region} gives about {drawn:volume}.",
    "tank-nothing": "The pre-charge, {precharge:pressure}, is not below the stop pressure, {stop:pressure}: the "
    "{tank:region} never takes water.",
    "tank-charge-high": "The pre-charge, {precharge:pressure}, is above the wake pressure, {wake:pressure}: the "
    "{tank:region} is empty before the pump wakes, and taps falter. Let air out to a little below the wake pressure.",
    "tank-charge-low": "The pre-charge, {precharge:pressure}, is low. Common practice with a drive is 65 to 75 % of "
    "the set pressure, and a little below the wake pressure: more air gives more water between starts.",
    "tank-lasts": "At {draw:flow} drawn that is {lasts:minutes} until the pump wakes.",
    "tank-starts": "About {starts:rough} starts an hour at that draw.",
    "tank-starts-at-most": "At most {starts:rough} starts an hour at that draw.",
    "tank-never-stops": "That is as much as the pump gives: it runs on and does not stop.",
    "tank-most-starts": "At the worst draw, half of what the pump gives, {starts:rough} starts an hour.",
    "tank-motor-unknown": "A motor switched straight on may start {small:rough} times an hour up to 3/4 hp, "
    "{large:rough} times above. Read its plate.",
    "tank-starts-right": "The motor may start {most:rough} times an hour ({cite}, from memory; the maker's own figure "
    "comes first).",
    "tank-starts-often": "Too often: the motor may start {most:rough} times an hour ({cite}, from memory; the maker's "
    "own figure comes first). It would take {needed:volume} between stop and wake.",
    # screen and page
    "tank-title": "Tank and starts",
    "tank-note": "What the {tank:region} gives between stop and wake, and how often the pump starts for it. Nothing is "
    "kept.",
    "tank-charge-how": "Pre-charge is read with the pump off and the water out: tap open, gauge at zero.",
    "tank-work-out": "Work it out",
}
