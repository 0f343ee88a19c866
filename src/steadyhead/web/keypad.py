"""The app's own keypad: many phones' number pads have no minus, and none has OL.

Everything that affects which keys stand beside which reading lives in this file.

Rules
-----
1. Digits, a decimal point, a sign and a backspace are always there; the words depend on what is read.
2. A key puts its text into the field; where scripts are off the words are buttons that send themselves, and the digits
   are left to the phone's own keyboard.
3. A jumping figure is two figures with "to" between them.
4. A reading that is a word has one big button for each word.
"""

from __future__ import annotations

from dataclasses import dataclass

from steadyhead.loop.vocabulary import DISPLAYED_FAULTS, INSPECTION_VALUES

DIGITS = ("7", "8", "9", "4", "5", "6", "1", "2", "3", ".", "0", "-")


@dataclass(frozen=True, slots=True)
class Key:
    """A word on the keypad: what it is called (`web-key-…`), what it puts into the field, and whether that is all."""

    id: str
    text: str
    whole: bool


OVERLOAD = Key("overload", "OL", whole=True)
PEGGED = Key("pegged", "pegged", whole=True)
STOP = Key("stop", "0 on its stop pin", whole=True)
JUMPING = Key("jumping", " to ", whole=False)

#: Words beside the digits, by measure.
WORDS: dict[str, tuple[Key, ...]] = {
    "volts": (OVERLOAD, JUMPING),
    "volts-ac": (OVERLOAD, JUMPING),
    "milliamps": (OVERLOAD, JUMPING),
    "ohms": (OVERLOAD, JUMPING),
    "megohms": (OVERLOAD, JUMPING),
    "gauge-pressure": (PEGGED, STOP, JUMPING),
    "displayed-pressure": (JUMPING,),
    "displayed-signal": (JUMPING,),
}
#: Units that a figure may be given in, the usual one first; {pressure} and {signal} are this system's.
UNITS: dict[str, tuple[str, ...]] = {
    "volts": ("V", "mV"),
    "volts-ac": ("V", "mV"),
    "milliamps": ("mA",),
    "ohms": ("ohm", "kohm", "Mohm"),
    "megohms": ("Mohm", "kohm"),
    "displayed-signal": ("{signal}", "%"),
    "displayed-hours": ("h",),
    "displayed-starts": ("",),
    "displayed-hertz": ("Hz",),
    "displayed-amps": ("A",),
}
#: The other side of the sea's unit of pressure, beside the site's own: a gauge may be marked in either.
OTHER_PRESSURE = {"bar": "psi", "kPa": "psi", "MPa": "psi", "mbar": "psi"}
PRESSURE_UNITS = ("{pressure}", "{other}")
#: The words of a reading that is a word.
ANSWERS: dict[str, tuple[str, ...]] = {"inspection": INSPECTION_VALUES, "displayed-fault": DISPLAYED_FAULTS}


def keys(measure: str) -> tuple[Key, ...]:
    """Return the words beside the digits.

    >>> [key.id for key in keys("gauge-pressure")]
    ['pegged', 'stop', 'jumping']
    """
    return WORDS.get(measure, ())


def units(measure: str, pressure: str, signal: str) -> tuple[str, ...]:
    """Return the units that a figure may be given in.

    >>> units("displayed-signal", "psi", "mA"), units("gauge-pressure", "bar", "mA")
    (('mA', '%'), ('bar', 'psi'))
    """
    other = OTHER_PRESSURE.get(pressure, "bar")
    known = UNITS.get(measure, PRESSURE_UNITS)
    return tuple(unit.format(pressure=pressure, other=other, signal=signal) for unit in known)
