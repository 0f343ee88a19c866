"""What the domain says: an id with values, never a sentence.

Rules
-----
1. A message is data. Its id is stable: files, JSON and tests use it; its values are plain SI figures and words.
2. Only `steadyhead.words` turns a message into a sentence, in a language, a region and a panel's own labels.
3. A value's meaning is told by its name in the sentence template (`{signal:volts}`), so that JSON stays plain.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

Value = str | int | float | bool | None | tuple[str, ...]

_NOTHING: Mapping[str, Value] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Message:
    """One thing to be said, before any language.

    Parameters
    ----------
    id
        Stable name of the sentence, such as ``"unit-unknown"``.
    values
        What the sentence needs: SI figures, ids, or text that a person typed.
    """

    id: str
    values: Mapping[str, Value] = field(default_factory=lambda: _NOTHING)

    def __hash__(self) -> int:
        """Return the same for equal messages, whose values are a mapping and so have no hash of their own."""
        return hash((self.id, frozenset(self.values.items())))

    def __str__(self) -> str:
        """Return the message for a log or a traceback: ``unit-unknown (got='5 spi')``."""
        if not self.values:
            return self.id
        inside = ", ".join(f"{name}={value!r}" for name, value in self.values.items())
        return f"{self.id} ({inside})"


def message(id_: str, **values: Value) -> Message:
    """Return the message ``id_`` with its values, which nobody can change afterwards.

    >>> str(message("unit-unknown", got="5 spi"))
    "unit-unknown (got='5 spi')"
    """
    return Message(id_, MappingProxyType(values))
