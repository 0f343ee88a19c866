"""One door to ngspice's shared library: a list of netlist lines in, the node volts of its operating point out.

Rules
-----
1. The library is loaded once in a process and keeps no circuit between two solves.
2. A circuit that does not converge is tried once with looser tolerances (0.1 mV), then raises `NoOperatingPointError`;
   the last guess is never an answer.
3. The library is not thread-safe: run several processes instead.
"""

from __future__ import annotations

import ctypes
import ctypes.util
import functools
import math
from collections.abc import Callable, Sequence

LIBRARY_NAMES = ("libngspice.so.0", "libngspice.0.dylib", "ngspice.dll")
OPTIONS = (
    ".options reltol=1e-4 abstol=1e-10 vntol=5e-6 gmin=1e-13 itl1=200 itl2=100 srcsteps=10 gminsteps=10",
    ".options reltol=1e-3 abstol=1e-8 vntol=1e-4 gmin=1e-12 itl1=500 itl2=200",
)


class NoOperatingPointError(RuntimeError):
    """ngspice found no operating point of a circuit; the netlist is in the message."""


class _Vector(ctypes.Structure):
    """ngspice's ``vector_info`` (sharedspice.h)."""

    _fields_ = [
        ("name", ctypes.c_char_p),
        ("type", ctypes.c_int),
        ("flags", ctypes.c_short),
        ("real", ctypes.POINTER(ctypes.c_double)),
        ("complex", ctypes.c_void_p),
        ("length", ctypes.c_int),
    ]


def _callbacks(lines: list[str]) -> tuple[Callable[..., int], ...]:
    """Return the callbacks of ``ngSpice_Init``; what ngspice prints is gathered in `lines`."""
    void, integer, boolean, text = ctypes.c_void_p, ctypes.c_int, ctypes.c_bool, ctypes.c_char_p
    says = ctypes.CFUNCTYPE(integer, text, integer, void)
    ends = ctypes.CFUNCTYPE(integer, integer, boolean, boolean, integer, void)
    data = ctypes.CFUNCTYPE(integer, void, integer, integer, void)
    plan = ctypes.CFUNCTYPE(integer, void, integer, void)
    runs = ctypes.CFUNCTYPE(integer, boolean, integer, void)

    def gather(line: bytes, _id: int, _user: object) -> int:
        lines.append(line.decode(errors="replace"))
        return 0

    def ignore(*_: object) -> int:
        return 0

    return says(gather), says(ignore), ends(ignore), data(ignore), plan(ignore), runs(ignore)


class Ngspice:
    """The loaded library."""

    def __init__(self) -> None:
        self._library = _load()
        self.lines: list[str] = []
        self._keep = _callbacks(self.lines)
        self._library.ngSpice_Init(*self._keep, None)

    def command(self, text: str) -> int:
        """Run one command and return ngspice's status, 0 for good."""
        return int(self._library.ngSpice_Command(text.encode()))

    def node_volts(self, netlist: Sequence[str], nodes: Sequence[str]) -> dict[str, float]:
        """Return the volts of `nodes` [V] at the operating point of `netlist` (no title, no ``.end``).

        Raises
        ------
        NoOperatingPointError
            Where ngspice refuses the circuit or does not converge.
        """
        for options in OPTIONS:
            lines = ["* one circuit", *netlist, options, ".end"]
            found = self._solve(lines, nodes)
            if found and all(math.isfinite(value) for value in found.values()):
                return found
        raise NoOperatingPointError("\n".join([*self.lines, *netlist]))

    def _solve(self, lines: Sequence[str], nodes: Sequence[str]) -> dict[str, float]:
        """Return the nodes' volts, or nothing where ngspice gave up."""
        self.lines.clear()
        array = (ctypes.c_char_p * (len(lines) + 1))(*[line.encode() for line in lines], None)
        try:
            failed = self._library.ngSpice_Circ(array) or self.command("op")
            return {} if failed else {node: self._value(node) for node in nodes}
        finally:
            self.command("destroy all")
            self.command("remcirc")

    def _value(self, node: str) -> float:
        if node == "0":
            return 0.0
        vector = self._library.ngGet_Vec_Info(node.encode())
        if not vector or vector.contents.length != 1:
            return math.nan
        return float(vector.contents.real[0])


def _load() -> ctypes.CDLL:
    """Return the shared library with its argument types declared."""
    found = ctypes.util.find_library("ngspice")
    for name in (*LIBRARY_NAMES, *([found] if found else [])):
        try:
            library = ctypes.CDLL(name)
        except OSError:
            continue
        library.ngGet_Vec_Info.restype = ctypes.POINTER(_Vector)
        library.ngGet_Vec_Info.argtypes = [ctypes.c_char_p]
        library.ngSpice_Circ.argtypes = [ctypes.POINTER(ctypes.c_char_p)]
        library.ngSpice_Command.argtypes = [ctypes.c_char_p]
        return library
    raise FileNotFoundError("ngspice's shared library is not installed (Debian: libngspice0)")


@functools.cache
def ngspice() -> Ngspice:
    """Return this process's one library."""
    return Ngspice()
