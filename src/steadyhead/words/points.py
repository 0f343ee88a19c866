"""What a point is called: by this panel's label, by this plug's colour, and in plain words where it has neither.

Rules
-----
1. A terminal has the label of the panel: ``AI``. A wire has its colour: ``the blue wire``.
2. A contact of the plug without a label is told by its wire's colour, which a person sees.
3. Without labels the plain words are ``sensor power``, ``signal`` and ``common``; a two-wire plug has plus and minus.
4. A two-wire cable has no common wire: what reaches common goes by screen or earth, and is called common.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol

from steadyhead.words.regions import WORDS


class Labelled(Protocol):
    """What must be known of a panel and its reader."""

    @property
    def labels(self) -> Mapping[str, str]: ...  # noqa: D102 - as in Speaker

    @property
    def region(self) -> str: ...  # noqa: D102 - as in Speaker

    @property
    def wires(self) -> int | None: ...  # noqa: D102 - as in Speaker

    def translated(self, text: str) -> str: ...  # noqa: D102 - as in Speaker


#: Plain words, whole, so that another language can turn them as it must.
TERMINALS = {
    "supply": "the sensor-power terminal",
    "signal": "the signal terminal",
    "common": "the common terminal",
}
WIRES = {"supply": "sensor-power wire", "signal": "signal wire", "common": "common wire"}
CONTACTS = {
    "supply": "the sensor-power contact at the plug",
    "signal": "the signal contact at the plug",
    "common": "the common contact at the plug",
}
#: The same at a two-wire plug.
POLES = {
    "supply": "the plus contact at the plug",
    "signal": "the minus contact at the plug",
    "common": "the common contact at the plug",
}
COLOURED_WIRE, THE_WIRE, LABELLED_CONTACT = "{} wire", "the {}", "{} at the plug"
COLOURED_CONTACT, NO_WIRE = "the {}'s contact at the plug", "common"


def point_name(point: str, panel: Labelled) -> str:
    """Return what a point is called in a sentence: ``AI``, ``the blue wire``, ``the signal contact at the plug``."""
    if point in {"earth", "shield"}:
        return label(point, panel) or _ground_or_shield(point, panel)
    side, _, core = point.partition(".")
    if side == "wire":
        return the_wire_name(core, panel)
    return terminal_name(core, panel) if side == "controller" else _contact_name(core, panel)


def terminal_name(core: str, panel: Labelled) -> str:
    """Return what a terminal of the controller is called."""
    return label(f"controller.{core}", panel) or panel.translated(TERMINALS[core])


def wire_name(core: str, panel: Labelled, *, bare: bool) -> str:
    """Return what a wire is called: ``blue wire``, or ``blue`` alone where `bare`; ``signal wire`` without a colour."""
    colour = label(f"wire.{core}", panel)
    if colour is not None:
        return colour if bare else _coloured(colour, panel.translated(COLOURED_WIRE))
    if core == "common" and panel.wires == 2:
        return panel.translated(NO_WIRE)
    return panel.translated(WIRES[core])


def _coloured(colour: str, template: str) -> str:
    """Return a wire by its colour; whoever already wrote ``blue wire`` is not told the wire twice."""
    before, after = template.split("{}")
    whole = (before and colour.startswith(before)) or (after and colour.endswith(after))
    return colour if whole else f"{before}{colour}{after}"


def the_wire_name(core: str, panel: Labelled) -> str:
    """Return what a wire is called in a sentence: ``the blue wire``."""
    return panel.translated(THE_WIRE).replace("{}", wire_name(core, panel, bare=False))


def _contact_name(core: str, panel: Labelled) -> str:
    """Return what a contact of the plug is called."""
    own = label(f"sensor.{core}", panel)
    if own is not None:
        return panel.translated(LABELLED_CONTACT).replace("{}", own)
    if label(f"wire.{core}", panel) is not None:
        wire = wire_name(core, panel, bare=False)
        return panel.translated(COLOURED_CONTACT).replace("{}", wire)
    return panel.translated((POLES if panel.wires == 2 else CONTACTS)[core])


def _ground_or_shield(point: str, panel: Labelled) -> str:
    if point == "earth":
        return panel.translated(WORDS["ground"][panel.region])
    return panel.translated(THE_WIRE).replace("{}", panel.translated(WORDS["shield"][panel.region]))


def label(point: str, panel: Labelled) -> str | None:
    """Return this panel's own label of a point, None where it has none; a terminal obeys nothing that stands in it."""
    text = panel.labels.get(point, "")
    shown = "".join(sign if sign.isprintable() else " " for sign in text).strip()
    return shown[:24] or None
