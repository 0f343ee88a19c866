"""A sensor check once more by Monte Carlo: both intervals of each level, and what is decided otherwise."""

from __future__ import annotations

from collections.abc import Sequence

from steadyhead.cli.check_screens import Scale, table
from steadyhead.cli.page import paragraph
from steadyhead.sensorcheck.second_opinion import SecondOpinion
from steadyhead.words import Speaker


def drawn_screen(opinions: Sequence[SecondOpinion], speaker: Speaker, wide: int) -> list[str]:
    """Return what drawing says of each level: the linear interval beside the drawn one, and the decisions.

    Parameters
    ----------
    opinions
        One for each level; one at least.
    speaker
        Who says it.
    wide
        Width of the page.
    """
    first = opinions[0].run
    head = speaker.tell("drawn-head", trials=first.trials, coverage=first.coverage)
    return ["", *paragraph(head, wide), *_levels(opinions, speaker), *paragraph(_said(opinions, speaker), wide)]


def _levels(opinions: Sequence[SecondOpinion], speaker: Speaker) -> list[str]:
    scale = Scale.of(max(each.run.found.u for each in opinions), speaker)

    def row(each: SecondOpinion) -> tuple[str, ...]:
        linear, drawn = each.validation.linear, each.validation.drawn
        return (
            scale.coarse(each.level.level.pressure.value), scale((linear.high - linear.low) / 2.0), scale(drawn.low),
            scale(drawn.high), speaker.name("linear", each.validation.verdict), speaker.name("outcome", each.outcome),
        )  # fmt: skip

    heads = ("pressure", "linear", "drawn-low", "drawn-high", "agrees", "outcome")
    return table([row(each) for each in opinions], tuple(speaker.name("column", each) for each in heads))


def _said(opinions: Sequence[SecondOpinion], speaker: Speaker) -> str:
    """Return whether anything is decided otherwise, and if not whether the linear figures will do."""
    otherwise = dict.fromkeys(each.said for each in opinions if each.outcome != each.level.decision.outcome)
    if otherwise:
        return " ".join(speaker.say(each) for each in otherwise)
    differs = any(each.validation.verdict == "differs" for each in opinions)
    return speaker.tell("drawn-conservative" if differs else "drawn-stands")
