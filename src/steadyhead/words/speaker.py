"""The one who says what the domain only names: a message to its sentence, an id to its name.

Rules
-----
1. A sentence without a template, or a template without its value, is an error of the program, never a gap in the text.
2. Templates are English and go through gettext, so that another language is a ``.po`` file and nothing else.
3. A language is read where the package's other files are read, so that it is there inside an archive too.
4. A person's own words come before ours: the labels of this panel, the colours of this plug.
5. What a file says is said without its control characters.
"""

from __future__ import annotations

import gettext
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files

from steadyhead.errors import UnknownWordError
from steadyhead.messages import Message, Value, message
from steadyhead.words.names import NAMES
from steadyhead.words.regions import REGIONS, WORDS
from steadyhead.words.saying import printable, render
from steadyhead.words.sentences import ENGLISH

#: What stands between the two names of a pair.
PAIR = ", and "
#: Where a language's texts stand: ``locale/es/LC_MESSAGES/steadyhead.mo``.
LOCALES, TEXTS = "locale", "LC_MESSAGES/steadyhead.mo"
NOTHING: Mapping[str, Value] = {}


@cache
def languages() -> tuple[str, ...]:
    """Return the languages that are here, English first."""
    locales = files(__package__).joinpath(LOCALES)
    return ("en", *sorted(folder.name for folder in locales.iterdir() if folder.joinpath(TEXTS).is_file()))


@cache
def translations(language: str) -> gettext.NullTranslations:
    """Return the texts of a language; English is what the templates are written in.

    Raises
    ------
    UnknownWordError
        ``language-unknown``: no such language is here.
    """
    if language == "en":
        return gettext.NullTranslations()
    if language not in languages():
        raise UnknownWordError(message("language-unknown", got=language, must_be=languages()))
    with files(__package__).joinpath(LOCALES, language, TEXTS).open("rb") as file:
        return gettext.GNUTranslations(file)


@dataclass(frozen=True, kw_only=True)
class Speaker:
    """Says messages and names for one reader.

    Parameters
    ----------
    labels
        What this panel and this plug call each point: ``{"controller.signal": "AI", "wire.signal": "blue"}``.
    region
        ``north-america`` or ``elsewhere``: a transducer and a pressure tank, or a sensor and a pressure vessel.
    pressure_unit
        Unit in which pressures are said.
    language
        Two letters.
    wires
        Wires of the sensor, 2 or 3, where that is known.
    decimal
        The decimal sign of figures; what a person wrote keeps its own.

    Raises
    ------
    UnknownWordError
        ``region-unknown`` or ``language-unknown``.

    Examples
    --------
    >>> from steadyhead.messages import message
    >>> speaker = Speaker(labels={"wire.signal": "blue", "wire.common": "brown"})
    >>> speaker.name("fault", "leakage-signal-common")
    'damp or partial short between blue and brown'
    >>> speaker.say(message("severity", value=217.3, unit="ohm"))
    'about 220 ohm'
    """

    labels: Mapping[str, str] = field(default_factory=dict)
    region: str = "north-america"
    pressure_unit: str = "psi"
    language: str = "en"
    wires: int | None = None
    decimal: str = "."

    def __post_init__(self) -> None:
        """Refuse a region or a language that nobody wrote."""
        if self.region not in REGIONS:
            raise UnknownWordError(message("region-unknown", got=self.region, must_be=REGIONS))
        object.__setattr__(self, "_translate", translations(self.language).gettext)

    def say(self, said: Message) -> str:
        """Return the sentence of a message.

        Raises
        ------
        KeyError
            No template has this id, or a value that the template names is missing: a mistake of the program.
        """
        return self.render(ENGLISH[said.id], said.values)

    def tell(self, id_: str, **values: Value) -> str:
        """Return the sentence of the message `id_` with these values.

        Raises
        ------
        KeyError
            As `say`.
        """
        return self.say(message(id_, **values))

    def name(self, kind: str, id_: str) -> str:
        """Return what people call an id of a kind: point, fault, remedy, arrangement, measure, item, place, state.

        A pair of faults or remedies, ``a+b``, is named by both. A point is named by its label where it has one.

        Raises
        ------
        KeyError
            No such kind or id: a mistake of the program.
        """
        names = NAMES[kind]
        return self.translated(PAIR).join(self.render(names[part], NOTHING) for part in id_.split("+"))

    def region_word(self, word: str) -> str:
        """Return this region's word for a part: ``transducer`` or ``sensor``.

        Raises
        ------
        KeyError
            No such word: a mistake of the program.
        """
        return self.translated(WORDS[word][self.region])

    def printable(self, text: str) -> str:
        """Return a text that a person typed, without what a terminal would obey."""
        return printable(text)

    def render(self, template: str, values: Mapping[str, Value]) -> str:
        """Return a template with its values said, in this language."""
        return render(self.translated(template), values, self)

    def translated(self, text: str) -> str:
        """Return a text of the templates in this language."""
        translate = self.__dict__["_translate"]
        return str(translate(text))
