"""No sentence tells anybody to reset a drive, or to switch it off and on again: a reset wipes what it knows."""

from __future__ import annotations

from steadyhead.words.sentences import ENGLISH

#: What a sentence that speaks of a reset must say beside it.
AGAINST = ("don't reset", "do not reset", "do not change, reset", "before anything is reset", "nothing is reset",
           "before anybody resets")


def test_every_sentence_that_speaks_of_a_reset_warns_of_it() -> None:
    """TRADE: power-cycling wipes evidence. The table of all sentences."""
    resets = [text.lower() for text in ENGLISH.values() if "reset" in text.lower()]
    assert resets
    assert [text for text in resets if not any(against in text for against in AGAINST)] == []


def test_no_sentence_speaks_of_switching_off_and_on() -> None:
    """The same under its other names."""
    names = ("off and on", "power-cycle", "power cycle", "restart the drive", "clear the fault")
    assert [text for text in ENGLISH.values() if any(name in text.lower() for name in names)] == []
