"""A naive circuit for ngspice: the documented laws as formulas, many circuits in one process.

ngspice is first asked without any hint. Where it gives up, or comes to rest elsewhere (a loop may rest in several
states), it is asked again from the package's own answer: then it only confirms that this is a state of rest.
"""

from __future__ import annotations

import contextlib
import ctypes
import functools
import math
from collections.abc import Iterator

from tests.loop.naive import ZERO, Naive, Sent, Stage, Straight
from tests.support import cannot_run

LIBRARIES = ("libngspice.so.0", "libngspice.so", "libngspice.0.dylib", "ngspice.dll")
#: Tight enough to compare microvolts; plain Newton first, then its two kinds of stepping.
OPTIONS = ".options reltol=1e-7 abstol=1e-12 vntol=1e-8 gmin=1e-18 pivtol=1e-22 itl1=60 gminsteps=1 srcsteps=1"


def netlist(circuit: Naive, names: dict[str, str]) -> list[str]:
    """Return the circuit's lines; `names` maps points to ngspice's nodes."""
    lines = [f"R{k} {names[a]} {names[b]} {ohm!r}" for k, (a, b, ohm) in enumerate(circuit.resistors)]
    lines += [f"I{k} 0 {names[node]} {amount!r}" for k, (node, amount) in enumerate(circuit.pushed)]
    for k, line in enumerate(circuit.straight):
        a, b = names[line.a], names[line.b]
        lines.append(f"BS{k} {a} {b} I={_straight(line, _across(a, b))}")
    for k, output in enumerate(circuit.outputs):
        s, g, c = (names[pin] for pin in output.pins)
        if isinstance(output, Sent):
            lines.append(f"BO{k} {s} {g} I={_sent(output, s, g, c)}")
        else:
            out = _stage(output, s, g, c)
            lines += [f"BO{k} {s} {g} I=max({out},0)", f"BI{k} {g} {c} I=max(-({out}),0)"]
    return lines


def _across(a: str, b: str) -> str:
    return f"(v({a})-v({b}))" if a != "0" and b != "0" else f"v({a})" if b == "0" else f"(-v({b}))"


def _straight(line: Straight, v: str) -> str:
    v0, i0 = line.corners[0]
    v1, i1 = line.corners[-1]
    formula = f"({i1!r}+{line.after!r}*({v}-({v1!r})))"
    for (va, ia), (vb, ib) in reversed(list(zip(line.corners, line.corners[1:], strict=False))):
        formula = f"({v}<={vb!r}?({ia!r}+{(ib - ia) / (vb - va)!r}*({v}-({va!r}))):{formula})"
    return f"({v}<={v0!r}?({i0!r}+{line.before!r}*({v}-({v0!r}))):{formula})"


def _stage(stage: Stage, s: str, g: str, c: str) -> str:
    part, own = stage.part, _across(s, c)
    target = _straight(Straight(s, c, tuple(stage.corners()), 0.0, 0.0), own)
    wish = f"(({target}-{_across(g, c)})/{part.output_ohm!r})"
    least = stage.least_v
    awake = f"min(({own}-{least!r})/{part.wakes_v - least!r},1)"
    return f"({own}<={least!r}?0:max(-{part.sink_a!r}*{awake},min({wish},{part.source_a!r}*{awake})))"


def _sent(sent: Sent, s: str, g: str, c: str) -> str:
    part, x, own = sent.part, _across(s, g), _across(s, c)
    slope = part.amperes / part.headroom_v
    rise = f"{1e-4 * slope!r}*(min({x},0)+max({x}-{part.headroom_v!r},0))"
    first = f"({slope!r}*min(max({x},0),{part.headroom_v!r})+{rise})"
    return f"min({first},{part.amperes / (part.works_v - part.wakes_v)!r}*max({own}-{part.wakes_v!r},0))"


class Ngspice:
    """The loaded library; it holds no circuit between two questions."""

    def __init__(self) -> None:
        self._library = _library()
        integer, text, void, boolean = ctypes.c_int, ctypes.c_char_p, ctypes.c_void_p, ctypes.c_bool
        kinds = (
            (integer, text, integer, void), (integer, text, integer, void),
            (integer, integer, boolean, boolean, integer, void), (integer, void, integer, integer, void),
            (integer, void, integer, void), (integer, boolean, integer, void),
        )  # fmt: skip
        self._keep = [ctypes.CFUNCTYPE(*kind)(lambda *_: 0) for kind in kinds]
        self._library.ngSpice_Init(*self._keep, None)
        self._library.ngSpice_Command(b"optran 0 0 0 0 0 0")  # no search by a transient: it takes a tenth of a second

    def load(self, circuit: Naive, start: dict[str, float] | None = None, options: str = OPTIONS) -> dict[str, str]:
        """Give a circuit to ngspice, with volts to start from where they are known; return its nodes' names."""
        names = {node: "0" if node == ZERO else f"n{k}" for k, node in enumerate(circuit.nodes())}
        lines = ["one circuit", *netlist(circuit, names), options]
        if start:
            lines += [f".nodeset v({names[node]})={volt!r}" for node, volt in start.items() if names[node] != "0"]
        lines.append(".end")
        array = (ctypes.c_char_p * (len(lines) + 1))(*[line.encode() for line in lines], None)
        self._library.ngSpice_Circ(array)
        return names

    def op(self) -> bool:
        """Find the operating point of the circuit that was given; tell whether ngspice says that it did."""
        return int(self._library.ngSpice_Command(b"op")) == 0

    def forget(self) -> None:
        """Drop the results so far and set the circuit back, so that the next search starts cold."""
        self._library.ngSpice_Command(b"destroy all")
        self._library.ngSpice_Command(b"reset")

    def drop(self) -> None:
        """Forget the circuit."""
        self._library.ngSpice_Command(b"destroy all")
        self._library.ngSpice_Command(b"remcirc")

    def volts(self, circuit: Naive, start: dict[str, float] | None = None) -> dict[str, float] | None:
        """Return every point's volts, or None where ngspice found no operating point."""
        names = self.load(circuit, start)
        try:
            if not self.op():
                return None
            found = {node: self._value(name) for node, name in names.items()}
            return found if all(math.isfinite(volt) for volt in found.values()) else None
        finally:
            self.drop()

    def _value(self, name: str) -> float:
        if name == "0":
            return 0.0
        vector = self._library.ngGet_Vec_Info(name.encode())
        return vector.contents.real[0] if vector and vector.contents.length == 1 else math.nan


class _Vector(ctypes.Structure):
    """ngspice's ``vector_info`` (sharedspice.h)."""

    _fields_ = [
        ("name", ctypes.c_char_p), ("type", ctypes.c_int), ("flags", ctypes.c_short),
        ("real", ctypes.POINTER(ctypes.c_double)), ("complex", ctypes.c_void_p), ("length", ctypes.c_int),
    ]  # fmt: skip


def _library() -> ctypes.CDLL:
    library = next(_libraries(), None)
    if library is None:
        cannot_run("ngspice's shared library (Debian: libngspice0) is not installed")
    library.ngGet_Vec_Info.restype = ctypes.POINTER(_Vector)
    library.ngGet_Vec_Info.argtypes = [ctypes.c_char_p]
    library.ngSpice_Circ.argtypes = [ctypes.POINTER(ctypes.c_char_p)]
    library.ngSpice_Command.argtypes = [ctypes.c_char_p]
    return library


def _libraries() -> Iterator[ctypes.CDLL]:
    for name in LIBRARIES:
        with contextlib.suppress(OSError):
            yield ctypes.CDLL(name)


@functools.cache
def ngspice() -> Ngspice:
    """Return this process's one library."""
    return Ngspice()
