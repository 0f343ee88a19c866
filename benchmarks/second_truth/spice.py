"""Operating points by ngspice's shared library, driven through ctypes.

The library keeps one global circuit, so a circuit is loaded, solved, read and thrown away in one call. It starts once
in a process, never twice.
A result that did not converge is never handed out: gmin is raised step by step, then it is an error.
"""

from __future__ import annotations

import ctypes
import ctypes.util
import functools
from collections.abc import Sequence

NAMES = ("libngspice.so.0", "libngspice.0.dylib", "ngspice.dll")


class NgspiceMissingError(RuntimeError):
    """Ngspice's shared library is not on this machine; its text says what to install."""


class NoOperatingPointError(RuntimeError):
    """Ngspice found no operating point for a circuit; carries its text and the messages."""


class _Vector(ctypes.Structure):
    _fields_ = (
        ("name", ctypes.c_char_p),
        ("type", ctypes.c_int),
        ("flags", ctypes.c_short),
        ("real", ctypes.POINTER(ctypes.c_double)),
        ("complex", ctypes.c_void_p),
        ("length", ctypes.c_int),
    )


_SAY = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.c_char_p, ctypes.c_int, ctypes.c_void_p)
_EXIT = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.c_int, ctypes.c_bool, ctypes.c_bool, ctypes.c_int, ctypes.c_void_p)
_OPTIONS = (
    ".options reltol=1e-5 abstol=1e-13 vntol=1e-7 gmin=1e-14 rshunt=1e14 itl1=400",
    ".options reltol=1e-4 abstol=1e-12 vntol=1e-6 gmin=1e-12 rshunt=1e13 itl1=1000",
    ".options reltol=1e-3 abstol=1e-10 vntol=1e-5 gmin=1e-11 rshunt=1e12 itl1=4000",
)


class Solver:
    """The one ngspice of this process."""

    def __init__(self) -> None:
        """Load the library and keep its callbacks alive, or it would call freed memory."""
        self._lib = load_library()
        self._messages: list[str] = []
        self._lib.ngGet_Vec_Info.restype = ctypes.POINTER(_Vector)
        self._keep = (_SAY(self._hear), _SAY(lambda *_: 0), _EXIT(lambda *_: 0))
        self._lib.ngSpice_Init(*self._keep, None, None, None, None)

    def _hear(self, text: bytes, _number: int, _user: object) -> int:
        self._messages.append(text.decode(errors="replace"))
        return 0

    def _command(self, text: str) -> int:
        return int(self._lib.ngSpice_Command(text.encode()))

    def _run(self, lines: Sequence[str], nodes: Sequence[str]) -> dict[str, float] | None:
        self._messages.clear()
        array = (ctypes.c_char_p * (len(lines) + 1))(*[line.encode() for line in lines], None)
        bad = self._lib.ngSpice_Circ(array)
        bad = bad or self._command("op")
        failed = bad or any("rror" in text or "no convergence" in text.lower() for text in self._messages)
        found: dict[str, float] = {}
        if not failed:
            for node in nodes:
                vector = self._lib.ngGet_Vec_Info(node.encode())
                if not vector or vector.contents.length < 1:
                    failed = True
                    break
                found[node] = float(vector.contents.real[0])
        self._command("destroy all")
        self._command("remcirc")
        return None if failed else found

    def solve(self, body: Sequence[str], nodes: Sequence[str], celsius: float) -> dict[str, float]:
        """Return the volts of these nodes (or currents, ``v1#branch``) at the operating point.

        Raises
        ------
        NoOperatingPointError
            When three rounds of looser tolerance all failed.
        """
        for options in _OPTIONS:
            lines = ["* loop", *body, options, f".temp {celsius:g}", ".end"]
            found = self._run(lines, [node for node in nodes if node != "0"])
            if found is not None:
                found["0"] = 0.0
                return found
        raise NoOperatingPointError("\n".join([*body, *self._messages]))


def load_library() -> ctypes.CDLL:
    """Return the library under one of the names that it has on the systems of this world."""
    found = ctypes.util.find_library("ngspice")
    for name in (*([found] if found else []), *NAMES):
        try:
            return ctypes.CDLL(name)
        except OSError:
            continue
    message = "ngspice's shared library is not installed (Debian: libngspice0)"
    raise NgspiceMissingError(message)


@functools.cache
def solver() -> Solver:
    """Return the process's one solver, started on first use.

    Raises
    ------
    NgspiceMissingError
        Where the library is not installed.
    """
    return Solver()


def solve(body: Sequence[str], nodes: Sequence[str], celsius: float = 20.0) -> dict[str, float]:
    """Return the volts of these nodes at the operating point, by the process's one solver."""
    return solver().solve(body, nodes, celsius)
