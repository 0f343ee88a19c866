"""How large a fault is, said by what it is a part of."""

from __future__ import annotations

#: A size by its unit; what it is a part of is said, and which way it is off.
SIZES: dict[str, str] = {
    "ohm": "about {value:rough-ohms}",
    "parts of span": "about {value:off-percent} of span",
    "of its slope": "about {value:rough-percent} of its slope",
    "of its volts": "about {value:rough-percent} of its volts",
    "of the right range": "about {value:rough} times the right range",
    "of the sensor's range": "about {value:rough} times the {transducer:region}'s range",
    "of the right figure": "about {value:rough} times the right figure",
    "times as soft": "about {value:rough} times as soft",
    "of the least load it carries": "about {value:rough} of the least load it carries",
}
