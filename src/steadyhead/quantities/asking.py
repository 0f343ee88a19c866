"""One question, put to one text: what was asked for, and how it is refused.

The ids of every refusal, with the names of their values, stand in the docstring of `steadyhead.quantities`.
"""

from __future__ import annotations

from dataclasses import dataclass

from steadyhead.errors import QuantityError
from steadyhead.messages import Value, message
from steadyhead.quantities.dimensions import DIMENSIONS, Dimension

LONGEST = 100  #: characters; a longer text is refused unread
_SHOWN = 40  #: characters of it that the refusal quotes


@dataclass(frozen=True, slots=True)
class Question:
    """A text, stripped, and the dimension that is asked for.

    Parameters
    ----------
    text
        What is read.
    dimension
        What it must be.
    must_be
        What would do, for a refusal.
    whole
        What a refusal quotes, where `text` is only a part of it.
    """

    text: str
    dimension: Dimension
    must_be: str
    whole: str = ""

    def part(self, text: str) -> Question:
        """Return the same question put to a part of the text; a refusal still quotes the whole."""
        return Question(text, self.dimension, self.must_be, self.whole or self.text)

    def refusal(self, *, because: str, **values: Value) -> QuantityError:
        """Return the error of the id ``because``: what was got, what it must be; ``values`` may override both."""
        told: dict[str, Value] = {"got": printable(self.whole or self.text), "must_be": self.must_be, **values}
        return QuantityError(message(because, dimension=self.dimension.id, **told))


def printable(text: str) -> str:
    r"""Return a text that is safe to show: a control sign becomes a question mark.

    >>> printable("5\x1b[2J bar")
    '5?[2J bar'
    """
    return "".join(sign if sign.isprintable() else " " if sign.isspace() else "?" for sign in text)


def ask(text: str, dimension: str, *, must_be: str | None = None) -> Question:
    """Return the question, or refuse the text unread: too long, or empty.

    Raises
    ------
    QuantityError
        ``quantity-too-long`` or ``quantity-empty``.
    """
    kind = DIMENSIONS[dimension]
    question = Question(text[: LONGEST + 1].strip(), kind, must_be or kind.must_be)
    if len(text) > LONGEST:
        raise question.refusal(because="quantity-too-long", got=printable(text[:_SHOWN]) + "...", most=LONGEST)
    if not question.text:
        raise question.refusal(because="quantity-empty")
    return question
