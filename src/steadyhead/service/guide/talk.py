"""The conversation itself: begin it, hand it a line, let it think; no terminal, no file system.

Theory of operation
-------------------
1. ``begin`` makes the first turn, from a file's text or from none.
2. ``hear`` takes one line. A line is a command, or the answer to what the guide asks. What comes of it is a turn; its
   text, where there is one, is saved before anything else happens, so that whatever ends the program loses nothing.
3. ``think`` makes the next question where an answer has changed the file (`wants_thought`).
4. A line that cannot be kept changes nothing: it is refused with what was got and what would do, and asked again.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from steadyhead.diagnosis.system import System
from steadyhead.errors import InputError, UnknownWordError, VisitFileError
from steadyhead.messages import Message, message
from steadyhead.service.guide import asides, keeping
from steadyhead.service.guide.commands import SPELLINGS, command, nearly
from steadyhead.service.guide.entries import Entry, entry, value_of
from steadyhead.service.guide.history import history, words
from steadyhead.service.guide.opening import new_file, range_typed, signal_typed
from steadyhead.service.guide.slips import beyond_all, meant_instead
from steadyhead.service.guide.state import (
    Again,
    Choose,
    Close,
    Doubt,
    Guide,
    Opening,
    Said,
    Settled,
    Show,
    Take,
    Thinking,
    Turn,
)
from steadyhead.service.guide.thinking import think
from steadyhead.visit import parse_visit

__all__ = ["begin", "hear", "think", "wants_thought", "with_text"]

YES = ("yes", "y", "yeah", "yep", "ok", "right", "1")
NOTHING = ("none", "no", "-", "skip", "don't know", "unknown")
NO = ("no", "n", "nope", "as typed", "as it stands", "it is so", "2")


def begin(guide: Guide, text: str | None) -> Turn:
    """Return the first turn of a conversation.

    Parameters
    ----------
    guide
        What the file is called, and whose words and estimates hold.
    text
        What stands in the file; None where there is none yet.

    Raises
    ------
    InputError
        The text is no visit file.
    """
    if text is None:
        held = replace(guide, asks=Opening("signal"))
        return Turn(guide=held, said=(message("guide-new"), message("guide-asks-signal")))
    file = parse_visit(text, guide.name)
    held = replace(guide, file=file, asks=Thinking())
    return Turn(guide=held, said=(message("guide-goes-on", count=len(file.visit.readings)),))


def wants_thought(guide: Guide) -> bool:
    """Tell whether the next question is still to be made."""
    return isinstance(guide.asks, Thinking)


def with_text(guide: Guide, text: str) -> Turn:
    """Return the guide with a file that somebody else has changed meanwhile.

    Raises
    ------
    InputError
        The text is no visit file.
    """
    file = parse_visit(text, guide.name)
    held = replace(guide, file=file, answer=None, earlier=(), asks=Thinking())
    return Turn(guide=held, said=(message("guide-file-changed"),))


def hear(guide: Guide, line: str | None) -> Turn:
    """Return what comes of a line; None is the end of all lines."""
    if line is None:
        return _left(guide, "")
    found = command(line)
    try:
        if found is not None:
            turn = COMMANDS[found.name](guide, found.rest)
        else:
            turn = _ANSWERS[type(guide.asks)](guide, " ".join(line.split()))
    except VisitFileError as error:
        return Turn(guide=guide, said=tuple(problem.message for problem in error.problems))
    except InputError as error:
        return Turn(guide=guide, said=(error.message, *(() if found else _perhaps(line))))
    return turn


def _perhaps(line: str) -> list[Message]:
    """Return the command that was perhaps meant."""
    word = nearly(line)
    return [] if word is None else [message("guide-perhaps-command", word=word)]


# ------------------------------------------------------------ answers, by what was asked


def _opening(guide: Guide, line: str) -> Turn:
    asks = guide.asks
    key = asks.key if isinstance(asks, Opening) else "signal"
    return {"signal": _signal, "range": _range, "complaint": _complaint, "history": _history}[key](guide, line)


def _signal(guide: Guide, line: str) -> Turn:
    signal = signal_typed(line)
    held = replace(guide, signal=signal, asks=Opening("range"))
    return Turn(guide=held, said=(message("guide-signal-taken", signal=signal), message("guide-asks-range")))


def _range(guide: Guide, line: str) -> Turn:
    file = new_file(guide.signal, range_typed(line, guide.signal), guide.name)
    held = replace(guide, file=file, asks=Opening("complaint"))
    return Turn(guide=held, said=(message("guide-file-made", file=guide.name), message("guide-asks-complaint")),
                text=file.text)  # fmt: skip


def _complaint(guide: Guide, line: str) -> Turn:
    held, asks = replace(guide, asks=Opening("history")), message("guide-asks-history", list=tuple(words()))
    if not line or line.lower() in NOTHING:
        return Turn(guide=held, said=(asks,))
    file = guide.known.with_value("complaint", "text", line)
    return Turn(guide=replace(held, file=file), said=(message("guide-complaint-kept"), asks), text=file.text)


def _history(guide: Guide, line: str) -> Turn:
    idle = replace(guide, asks=Thinking())
    if not line or line.lower() in NOTHING:
        return Turn(guide=idle)
    file, found = guide.known, history(line)
    for key, taken in found.items():
        file = file.with_value("complaint", key, taken if key == "changed" else taken[0])
    said = message("guide-history-kept", list=tuple(word for taken in found.values() for word in taken))
    return Turn(guide=replace(idle, file=file), said=(said,), text=file.text)


def _taken(guide: Guide, line: str) -> Turn:
    take = guide.asks
    if not isinstance(take, Take):
        return _settled(guide, line)
    if not line:
        return Turn(guide=guide, said=(message("guide-nothing-typed"),))
    found = entry(line, take.check.question.measure, guide.known.visit)
    if found.kind == "cannot":
        return keeping.without_check(guide, take.check.question, found.text)
    return _kept_or_doubted(guide, take, found)


def _kept_or_doubted(guide: Guide, take: Take, found: Entry) -> Turn:
    visit = guide.known.visit
    value = value_of(found.text, take.check.question.measure, visit)
    system = System(visit, guide.estimates)
    meant = meant_instead(take, value, system)
    odd = meant is not None or beyond_all(take, value, system)
    if not odd or take.check.question in guide.trusted:
        return keeping.with_reading(guide, take, found.text)
    said = message("guide-did-you-mean", typed=found.text, meant=meant) if meant else _far(found.text)
    return Turn(guide=replace(guide, asks=Doubt(take, found.text, meant or "")), said=(said,))


def _far(typed: str) -> Message:
    return message("guide-far-off", typed=typed)


def _doubted(guide: Guide, line: str) -> Turn:
    doubt = guide.asks
    if not isinstance(doubt, Doubt):
        return _settled(guide, line)
    word = line.lower().rstrip(".!")
    if word in YES and doubt.meant:
        return keeping.with_reading(guide, doubt.take, doubt.meant)
    if word in NO and not doubt.meant:
        return Turn(guide=replace(guide, asks=doubt.take), said=(message("guide-nothing-typed"),))
    if word in (*YES, *NO) or _typed_again(doubt.typed.lower(), word):
        trusting = replace(guide, trusted=guide.trusted | {doubt.take.check.question})
        return keeping.with_reading(trusting, doubt.take, doubt.typed)
    return _taken(replace(guide, asks=doubt.take), line)


def _typed_again(typed: str, word: str) -> bool:
    """Tell whether the same figure was typed once more, with its unit or without."""
    return bool(word) and (word == typed or typed.startswith(f"{word} "))


def _again(guide: Guide, line: str) -> Turn:
    asks = guide.asks
    if not isinstance(asks, Again):
        return _settled(guide, line)
    if not line:
        return Turn(guide=replace(guide, asks=Thinking()), said=(message("guide-left-as-it-was", number=asks.number),))
    return asides.corrected(guide, asks.number, line)


def _chosen(guide: Guide, line: str) -> Turn:
    return asides.done(guide, line) if line else Turn(guide=replace(guide, asks=Thinking()))


def _closed(guide: Guide, line: str) -> Turn:
    """Close the visit as the fault that was asked about, or as another; leave it open at a bare line or a no."""
    asks = guide.asks
    if not isinstance(asks, Close):
        return _settled(guide, line)
    open_ = replace(guide, asks=Settled())
    if not line or line.lower() in NO:
        return Turn(guide=open_, said=(message("guide-left-open"),))
    fault = asks.fault if line.lower() in YES else asides.fault_typed(guide, line)
    return asides.closed(open_, fault)


def _settled(guide: Guide, line: str) -> Turn:
    if not line:
        return Turn(guide=guide, said=(message("guide-settled-help"),))
    near = nearly(line)
    nearest = (near,) if near else ()
    raise UnknownWordError(
        message("guide-no-command", got=line, must_be=tuple(dict.fromkeys(SPELLINGS.values())), nearest=nearest)
    )


_ANSWERS: dict[type, Callable[[Guide, str], Turn]] = {
    Opening: _opening,
    Take: _taken,
    Doubt: _doubted,
    Again: _again,
    Choose: _chosen,
    Settled: _settled,
    Close: _closed,
}


# ------------------------------------------------------------ commands


def _left(guide: Guide, _: str) -> Turn:
    said: tuple[Said, ...] = (message("guide-left", file=guide.name),) if guide.file else (message("guide-left-empty"),)
    return Turn(guide=guide, said=said, ended=True)


def _help(guide: Guide, _: str) -> Turn:
    return Turn(guide=guide, said=(Show("help"),))


def _with_a_file(run: Callable[[Guide, str], Turn]) -> Callable[[Guide, str], Turn]:
    """Return a command that needs the file to be there."""

    def checked(guide: Guide, rest: str) -> Turn:
        if guide.file is None:
            return Turn(guide=guide, said=(message("guide-needs-file-first"),))
        return run(guide, rest)

    return checked


def _back(guide: Guide, rest: str) -> Turn:
    if guide.file is None:
        return begin(guide, None)
    if isinstance(guide.asks, (Doubt, Again, Choose)):
        return Turn(guide=replace(guide, asks=Thinking()))
    return asides.back(guide, rest)


COMMANDS: dict[str, Callable[[Guide, str], Turn]] = {
    "why": _with_a_file(asides.why),
    "back": _back,
    "fix": _with_a_file(asides.fix),
    "list": _with_a_file(lambda guide, _: Turn(guide=guide, said=(Show("readings"),))),
    "skip": _with_a_file(asides.skip),
    "prove": _with_a_file(asides.prove),
    "done": _with_a_file(asides.done),
    "set": _with_a_file(asides.set_key),
    "cautions": _with_a_file(lambda guide, _: Turn(guide=guide, said=(Show("check"),))),
    "help": _help,
    "quit": _left,
}

