"""What is said when a command cannot be done: file, line, key and sentence, one problem a line, all of them."""

from __future__ import annotations

from steadyhead.cli.manner import usual_speaker
from steadyhead.cli.refused_line import USAGE, refused_line
from steadyhead.errors import InputError, Problem, RefusedFileError, UnknownWordError
from steadyhead.messages import message
from steadyhead.words import Speaker

INTERNAL, INPUT = 1, 2


def failure(error: Exception) -> tuple[int, str]:
    """Return the exit code of an error and what a person reads of it."""
    speaker = _speaker()
    if isinstance(error, USAGE):
        return INPUT, refused_line(error, speaker)
    if isinstance(error, RefusedFileError):
        name = str(error.message.values.get("file", ""))
        return INPUT, "\n".join([*problem_lines(name, error.problems, speaker), speaker.say(error.message)])
    if isinstance(error, InputError):
        return INPUT, speaker.say(error.message)
    what = f"{type(error).__name__}: {error}"
    return INTERNAL, speaker.say(message("internal-error", what=what))


def _speaker() -> Speaker:
    """Return who speaks in the language of the environment; in English where that asks for one that is not here."""
    try:
        return usual_speaker()
    except UnknownWordError:
        return Speaker()


def problem_lines(name: str, problems: tuple[Problem, ...], speaker: Speaker) -> list[str]:
    """Return one line for each problem: ``visit.toml:12: [sensor] range: ...``."""
    return [_line(name, problem, speaker) for problem in problems]


def _line(name: str, problem: Problem, speaker: Speaker) -> str:
    name = speaker.printable(name)
    place = name if problem.line is None else f"{name}:{problem.line}"
    parts = [place, problem.key, speaker.say(problem.message)]
    return ": ".join(part for part in parts if part)
