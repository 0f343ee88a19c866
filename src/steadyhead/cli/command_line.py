"""The command line as it is read: every command with its help, in the language of the environment.

Rules
-----
1. The English help stands with each command, as its docstring and its options have it. Another language is asked by the
   paragraph, through the same texts as everything else that is said.
2. What the library says by itself (headings, defaults, how a command is used) is asked the same way.
3. In English nothing is asked, and no module of words is imported.
"""

from __future__ import annotations

import inspect
import os
import re
from collections.abc import Callable, Iterator
from typing import Any

from typer.main import get_command

from steadyhead.cli.app import app
from steadyhead.cli.manner import VARIABLE

Says = Callable[[str], str]

EXAMPLE, DEFAULT = "Example:", "default: "
#: What the library says by itself in a help; a default has its value behind it.
OF_THE_LIBRARY = (
    "Usage:", "Options", "Arguments", "Commands", "[OPTIONS]", "COMMAND [ARGS]...", "<str>", "<int range>", EXAMPLE,
    DEFAULT.strip(), "required", "Show this message and exit.", "Install completion for the current shell.",
    "Show completion for the current shell, to copy it or customize the installation.",
)  # fmt: skip
#: What stands in brackets behind an option's help.
_BESIDE = re.compile(r"(?:^|  )\[([^\[\]]+)\]$")


def run(words: list[str]) -> int:
    """Run one command, and return its exit code.

    Raises
    ------
    UnknownWordError
        ``language-unknown``: the environment asks for a language that is not here.
    """
    command = get_command(app)
    language = os.environ.get(VARIABLE) or "en"
    if language != "en":
        from steadyhead.words.speaker import translations  # noqa: PLC0415 - English is asked of nobody

        speak(command, translations(language).gettext)
    ended = command(words, prog_name="steadyhead", standalone_mode=False)
    return ended if isinstance(ended, int) else 0


def paragraphs(text: str | None) -> list[str]:
    r"""Return each paragraph of a help as one line.

    >>> paragraphs("Say it.\n\n    Twice, where\n    it helps.")
    ['Say it.', 'Twice, where it helps.']
    """
    return [" ".join(each.split()) for each in re.split(r"\n\s*\n", inspect.cleandoc(text or "")) if each.strip()]


def help_texts() -> tuple[str, ...]:
    """Return every English text of every command's help, each once, in the order in which they are met."""
    found = dict.fromkeys(OF_THE_LIBRARY)
    found.update(dict.fromkeys(text for each in commands(get_command(app)) for text in _texts(each)))
    return tuple(found)


def commands(command: Any) -> Iterator[Any]:  # noqa: ANN401 - the library's own kinds have no public name
    """Yield a command and every one below it."""
    yield command
    for each in getattr(command, "commands", {}).values():
        yield from commands(each)


def _texts(command: Any) -> Iterator[str]:  # noqa: ANN401 - as in `commands`
    for text in (command.help, command.short_help, command.epilog):
        yield from (each for each in paragraphs(text) if not each.startswith(EXAMPLE))
    for param in command.params:
        yield from paragraphs(param.help)
        told = (param.metavar, param.show_default)
        yield from (text for text in told if isinstance(text, str) and not text.isdigit())


def speak(command: Any, say: Says) -> None:  # noqa: ANN401 - as in `commands`
    """Let a command and every one below it have its help in another language."""
    context = _context(command.context_class, say)
    for each in commands(command):
        each.context_class = context
        each.help, each.short_help, each.epilog = (
            _said(text, say) for text in (each.help, each.short_help, each.epilog)
        )
        each.options_metavar = say(each.options_metavar)
        if hasattr(each, "commands"):
            each.subcommand_metavar = say(each.subcommand_metavar)
        for param in each.params:
            _speak_of(param, say)


def _speak_of(param: Any, say: Says) -> None:  # noqa: ANN401 - as in `commands`
    param.help = _said(param.help, say)
    if isinstance(param.show_default, str):
        param.show_default = say(param.show_default)
    if param.metavar or not getattr(param, "is_flag", False):
        param.metavar = say(param.metavar or f"<{param.type.name}>")


def _said(text: str | None, say: Says) -> str | None:
    return None if text is None else "\n\n".join(_paragraph(each, say) for each in paragraphs(text))


def _paragraph(text: str, say: Says) -> str:
    """Return a paragraph; an example is typed as it stands, in every language."""
    return f"{say(EXAMPLE)}{text.removeprefix(EXAMPLE)}" if text.startswith(EXAMPLE) else say(text)


def _context(base: Any, say: Says) -> Any:  # noqa: ANN401 - as in `commands`
    """Return the library's context with a formatter that speaks another language."""
    plain = base.formatter_class

    def write_usage(self: Any, prog: str, args: str = "", prefix: str | None = None) -> None:  # noqa: ANN401, ARG001
        plain.write_usage(self, prog, args, f"{say('Usage:')} ")

    def write_heading(self: Any, heading: str) -> None:  # noqa: ANN401
        plain.write_heading(self, say(heading))

    def write_dl(self: Any, rows: Any, *more: Any, **named: Any) -> None:  # noqa: ANN401
        plain.write_dl(self, [(first, _row(second, say)) for first, second in rows], *more, **named)

    ways = {"write_usage": write_usage, "write_heading": write_heading, "write_dl": write_dl}
    return type("Spoken", (base,), {"formatter_class": type("Formatter", (plain,), ways)})


def _row(text: str, say: Says) -> str:
    """Return what stands beside an option: what the library put there, and its default.

    >>> _row("Unidad.  [default: psi]", lambda text: {"default:": "si no:"}.get(text, text))
    'Unidad.  [si no: psi]'
    """
    beside = _BESIDE.search(text)
    if beside is None:
        return say(text)
    told = "; ".join(_beside(each, say) for each in beside[1].split("; "))
    return f"{text[: beside.start()]}{beside[0].partition('[')[0]}[{told}]"


def _beside(text: str, say: Says) -> str:
    if text.startswith(DEFAULT):
        return f"{say(DEFAULT.strip())} {text.removeprefix(DEFAULT)}"
    return say(text)
