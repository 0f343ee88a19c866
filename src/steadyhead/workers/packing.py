"""Packs tasks and what comes of them for the way between two processes of this program.

Rules
-----
1. Both ends are this very program on this machine: nothing from outside is ever unpacked.
2. A memory stays where it is: it travels as an empty one.
"""

from __future__ import annotations

import io
import pickle
from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from steadyhead.diagnosis.memory import Memory


def packed(value: object) -> bytes:
    """Return a value as bytes."""
    out = io.BytesIO()
    _Packer(out, pickle.HIGHEST_PROTOCOL).dump(value)
    return out.getvalue()


def unpacked(data: bytes) -> Any:  # noqa: ANN401 - whatever was packed
    """Return the value again.

    >>> unpacked(packed((1, "two")))
    (1, 'two')
    """
    return pickle.loads(data)  # noqa: S301 - rule 1


class _Packer(pickle.Pickler):
    """Packs what the standard library will not, and leaves memories where they are."""

    def reducer_override(self, value: object) -> Any:  # noqa: ANN401 - as the standard library has it
        """Return how a value is made again; NotImplemented leaves that to the standard library."""
        if isinstance(value, MappingProxyType):
            return _shut, (dict(value),)
        if isinstance(value, Memory):
            return Memory, ()
        return NotImplemented


def _shut(values: Mapping[Any, Any]) -> MappingProxyType[Any, Any]:
    """Return a mapping that nobody can change."""
    return MappingProxyType(dict(values))
