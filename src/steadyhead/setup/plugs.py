"""From a sensor's pins to the terminals of this panel: what goes where, and whether the plug goes on as it is.

Rules
-----
1. A row names the sensor's own pin (its number or colour), the wire of this cable and the terminal of this panel.
2. The same plug with the same pins goes on as it is; with other pins it is wired anew: put on as it is, it can kill
   sensor and supply. Where one of both is not noted, look.
3. Another plug takes a new plug or a lead. A sensor with a lead of its own is joined in a box or at the terminals.
4. Two wires in the place of three leave the common wire free. Three in the place of two need a third core: look.
5. A conversion resistor sits between the signal and the common terminal.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from steadyhead.loop.parts import Wire
from steadyhead.messages import message
from steadyhead.setup.finding import CHECK, FITS, WITH_WORK, Finding
from steadyhead.visit.record import Visit
from steadyhead.visit.stock import StockSensor

TWO: tuple[Wire, ...] = ("supply", "signal")
THREE: tuple[Wire, ...] = ("supply", "signal", "common")
LEAD = "lead"


class PinRow(NamedTuple):
    """One wire: the sensor's pin (empty where it is not noted; None where it has none), and points of the system."""

    core: Wire
    pin: str | None
    wire: str
    terminal: str


def pin_rows(visit: Visit, stock: StockSensor) -> tuple[PinRow, ...]:
    """Return where each of a sensor's pins goes, and which wire of the cable is left over."""
    cores = TWO if stock.sensor.signal.wires == 2 else THREE
    rows = [PinRow(core, stock.pins.get(core, ""), f"wire.{core}", f"controller.{core}") for core in cores]
    if stock.sensor.signal.wires == 2 and visit.sensor.signal.wires == 3:
        rows.append(PinRow("common", None, "wire.common", "controller.common"))
    return tuple(rows)


def plug_findings(visit: Visit, stock: StockSensor) -> Iterator[Finding]:
    """Yield what is to be said of plug and pins."""
    here, there = visit.fitting.plug, stock.plug
    if there == LEAD:
        yield Finding("plug", WITH_WORK, message("van-plug-lead"))
    elif here is None or there is None:
        yield Finding("plug", CHECK, message("van-plug-unknown"))
    elif here != there:
        yield Finding("plug", WITH_WORK, message("van-plug-other", plug=there, here=here))
    else:
        yield _same_plug(visit, stock)
    if there != LEAD and any(not row.pin for row in pin_rows(visit, stock) if row.pin is not None):
        yield Finding("plug", CHECK, message("van-pins-unknown"))
    if stock.sensor.signal.wires > visit.sensor.signal.wires:
        yield Finding("plug", CHECK, message("van-third-core"))
    elif stock.sensor.signal.wires < visit.sensor.signal.wires:
        yield Finding("plug", WITH_WORK, message("van-common-free"))


def _same_plug(visit: Visit, stock: StockSensor) -> Finding:
    cores = TWO if stock.sensor.signal.wires == 2 else THREE
    pins = [(_plain(stock.pins.get(core)), _plain(visit.labels.get(f"sensor.{core}"))) for core in cores]
    if any(mine and here and mine != here for mine, here in pins):
        return Finding("plug", WITH_WORK, message("van-plug-other-pins", plug=stock.plug))
    if all(mine and here for mine, here in pins):
        return Finding("plug", FITS, message("van-plug-same", plug=stock.plug))
    return Finding("plug", CHECK, message("van-plug-compare-pins", plug=stock.plug))


def _plain(text: str | None) -> str:
    """Return a pin's name without what does not tell pins apart.

    >>> _plain("Pin 1"), _plain(None)
    ('1', '')
    """
    return "".join(sign for sign in (text or "").casefold().removeprefix("pin") if sign.isalnum() or sign in "+-")
