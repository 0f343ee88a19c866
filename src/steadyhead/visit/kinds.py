"""How one key's value is read from a visit file, written back, and described to an editor: the words and plain values.

Rules
-----
1. A kind reads one TOML value, or refuses it with a message that says what was got and what would do.
2. A kind writes what it has read so that it reads back identical.
3. A kind describes itself twice: in words (`says`) for people, as a JSON Schema (`schema`) for editors.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from steadyhead.errors import InputError
from steadyhead.messages import Message, message
from steadyhead.visit.nearest import nearest_first, shown

LONGEST_TEXT = 4000

#: What a TOML value is called in a sentence.
_CALLED = {
    bool: "true or false",
    int: "a bare number",
    float: "a bare number",
    str: "a text",
    list: "a list",
    dict: "a table",
}


class Known(NamedTuple):
    """What else is known to a value: the kind of signal, whether the sensor is absolute, and the row around it."""

    signal_kind: str | None
    absolute: bool
    row: Mapping[str, Any]


class Kind:
    """How the values of a key are read, written and described; the base of all kinds."""

    def read(self, raw: object, known: Known) -> Any:  # noqa: ANN401 - each kind returns its own
        """Return the value, or raise `InputError` with what was got and what would do."""
        raise NotImplementedError

    def write(self, value: Any) -> str:  # noqa: ANN401 - each kind takes its own
        """Return the TOML text that reads back as `value`."""
        raise NotImplementedError

    def says(self) -> str:
        """Return what may be written, for the manual."""
        raise NotImplementedError

    def schema(self) -> dict[str, Any]:
        """Return the JSON Schema of the value."""
        raise NotImplementedError


def called(raw: object) -> str:
    """Return what a TOML value is called in a sentence.

    >>> called(48)
    'a bare number'
    """
    return _CALLED.get(type(raw), "a date or a time")


def got_text(raw: object) -> str:
    """Return a TOML value as it may be shown again."""
    if isinstance(raw, bool):
        return "true" if raw else "false"
    return shown(str(raw)) if isinstance(raw, (str, int, float)) else called(raw)


def wrong_type(raw: object, must_be: str) -> Message:
    """Return the message for a value of another TOML type than its key has."""
    return message("value-wrong-type", got=got_text(raw), is_a=called(raw), must_be=must_be)


def quoted(text: str) -> str:
    r"""Return `text` as a TOML string.

    >>> quoted('the "old" pump')
    '"the \\"old\\" pump"'
    """
    return '"' + "".join(_ESCAPES.get(sign) or _escaped(sign) for sign in text) + '"'


_ESCAPES = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r"}


def _escaped(sign: str) -> str:
    return f"\\u{ord(sign):04x}" if ord(sign) < ord(" ") or sign == "\x7f" else sign


def read_word(raw: object, words: tuple[str, ...]) -> str:
    """Return `raw` if it is one of `words`.

    Raises
    ------
    InputError
        It is another; the message holds all of `words`, the nearest first.
    """
    if not isinstance(raw, str):
        raise InputError(wrong_type(raw, "one of these words, in quotes: " + ", ".join(words)))
    if raw not in words:
        allowed, nearest = nearest_first(raw, words)
        raise InputError(message("word-unknown", got=shown(raw), must_be=allowed, nearest=nearest))
    return raw


class OneOf(Kind):
    """One word of a list."""

    def __init__(self, *words: str) -> None:
        self.words = words

    def read(self, raw: object, known: Known) -> str:  # noqa: ARG002 - not needed by a word
        """Return the word."""
        return read_word(raw, self.words)

    def write(self, value: str) -> str:
        """Return the word in quotes."""
        return quoted(value)

    def says(self) -> str:
        """Return the words."""
        return "one of " + ", ".join(f"`{word}`" for word in self.words)

    def schema(self) -> dict[str, Any]:
        """Return the list of words."""
        return {"enum": list(self.words)}


class Several(Kind):
    """A list of words."""

    def __init__(self, *words: str) -> None:
        self.words = words

    def read(self, raw: object, known: Known) -> tuple[str, ...]:  # noqa: ARG002 - not needed by words
        """Return the words, in their order."""
        if not isinstance(raw, list):
            raise InputError(wrong_type(raw, f'a list of words, such as ["{self.words[0]}"]'))
        return tuple(read_word(item, self.words) for item in raw)

    def write(self, value: tuple[str, ...]) -> str:
        """Return the list."""
        return "[" + ", ".join(quoted(word) for word in value) + "]"

    def says(self) -> str:
        """Return the words."""
        return "a list of " + ", ".join(f"`{word}`" for word in self.words)

    def schema(self) -> dict[str, Any]:
        """Return a list of the words."""
        return {"type": "array", "items": {"enum": list(self.words)}}


class Joined(OneOf):
    """A word of a list, or two joined by ``+`` where one failure caused another."""

    def read(self, raw: object, known: Known) -> str:
        """Return the word or the pair as it was written."""
        if isinstance(raw, str) and raw.count("+") == 1:
            for part in raw.split("+"):
                read_word(part, self.words)
            return raw
        return super().read(raw, known)

    def says(self) -> str:
        """Return the words, and how two are joined."""
        return super().says() + "; two are joined by `+`"

    def schema(self) -> dict[str, Any]:
        """Return the words, and the pattern of two."""
        words = "|".join(self.words)
        return {"anyOf": [super().schema(), {"type": "string", "pattern": rf"^({words})\+({words})$"}]}


class Text(Kind):
    """Free text."""

    def read(self, raw: object, known: Known) -> str:  # noqa: ARG002 - not needed by a text
        """Return the text."""
        if not isinstance(raw, str):
            raise InputError(wrong_type(raw, "a text in quotes"))
        if len(raw) > LONGEST_TEXT:
            raise InputError(message("text-too-long", got=shown(raw), length=len(raw), most=LONGEST_TEXT))
        return raw

    def write(self, value: str) -> str:
        """Return the text in quotes."""
        return quoted(value)

    def says(self) -> str:
        """Say that any text will do."""
        return "text"

    def schema(self) -> dict[str, Any]:
        """Return a string."""
        return {"type": "string", "maxLength": LONGEST_TEXT}


class Flag(Kind):
    """True or false."""

    def read(self, raw: object, known: Known) -> bool:  # noqa: ARG002 - not needed by a flag
        """Return the flag."""
        if not isinstance(raw, bool):
            raise InputError(wrong_type(raw, "true or false, without quotes"))
        return raw

    def write(self, value: bool) -> str:  # noqa: FBT001 - a flag is what it writes
        """Return ``true`` or ``false``."""
        return "true" if value else "false"

    def says(self) -> str:
        """Say what may be written."""
        return "`true` or `false`"

    def schema(self) -> dict[str, Any]:
        """Return a boolean."""
        return {"type": "boolean"}


class Whole(Kind):
    """A whole number, without quotes: it counts something in the file."""

    def read(self, raw: object, known: Known) -> int:  # noqa: ARG002 - not needed by a whole number
        """Return the number."""
        if isinstance(raw, bool) or not isinstance(raw, int):
            raise InputError(wrong_type(raw, "a whole number without quotes, such as 3"))
        return raw

    def write(self, value: int) -> str:
        """Return the number."""
        return str(value)

    def says(self) -> str:
        """Say what may be written."""
        return "a whole number"

    def schema(self) -> dict[str, Any]:
        """Return an integer, zero or above."""
        return {"type": "integer", "minimum": 0}
