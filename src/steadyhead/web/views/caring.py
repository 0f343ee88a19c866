"""What can hurt somebody at a step, as its page shows it: in full until it was read, then as a line of names.

Rules
-----
1. A caution is told in full until it was read: by the tap below it, which is kept (a fact), or because a reading was
   kept beside it. After that it is a line of names for the rest of the visit, and one tap opens the sentence again:
   what is told each time is no longer read by anybody.
2. One tap is for all that stand on the page. What cannot hurt anybody is told, and asks for no tap of its own.
3. The field is not locked meanwhile. A figure that was read already has to go in, and a lock teaches a thumb to tap
   cautions away unread. But until the tap it is the page's one main action, and keeping the reading a quiet one.
4. The names stay in sight at every step that needs them, also where they were read long ago.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from steadyhead.messages import Message
from steadyhead.words import Speaker

#: Cautions against lost time or lost evidence, not against harm.
HARMLESS = frozenset(("keep-the-evidence", "tag-wires", "wait-for-recovery"))

#: Names that a line of cautions has room for, on a phone.
MOST_NAMES = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class CareView:
    """The cautions of a step.

    `fresh` are told in full (id and sentence); `asks` tells whether they wait for the tap; `before` are the sentences
    that were read before, and `names` what they are called in one line.
    """

    fresh: Sequence[tuple[str, str]] = ()
    asks: bool = False
    before: Sequence[str] = ()
    names: str = ""


def care_view(cautions: Iterable[Message], read: Collection[str], speaker: Speaker) -> CareView:
    """Return the cautions of a step, each once; `read` are the ids of those that were read before."""
    every = {each.id: each for each in cautions}.values()
    fresh = [each for each in every if each.id not in read]
    before = [each for each in every if each.id in read]
    named = [speaker.name("caution", each.id) for each in before]
    return CareView(
        fresh=[(each.id, speaker.say(each)) for each in fresh],
        asks=any(each.id not in HARMLESS for each in fresh),
        before=[speaker.say(each) for each in before],
        names=_names(named, speaker),
    )


def _names(named: list[str], speaker: Speaker) -> str:
    """Return the line of names, the most urgent first; more than a line holds are counted."""
    if not named:
        return ""
    if len(named) <= MOST_NAMES:
        return speaker.tell("care-before", list="; ".join(named))
    first, more = named[: MOST_NAMES - 1], len(named) - MOST_NAMES + 1
    return speaker.tell("care-before-more", list="; ".join(first), count=more)
