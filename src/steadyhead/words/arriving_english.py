"""What is said before the drive and in the first minute at a visit, in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    # the offer on a visit's page
    "first-offer": "Before anything is reset: one minute for what the display still knows.",
    "first-go": "Take the first minute",
    "first-pass": "Not now",
    # its page
    "first-head": "First minute",
    "first-note": "Nothing is reset or switched off yet. Each answer is kept at once; leave out what you can't see.",
    "first-not-seen": "Not seen",
    "first-done": "To the checks",
    "first-list": "Seen so far",
    "first-empty": "not yet",
    "first-keep": "Keep and go on",
    "first-photos": "{count} photos",
    "first-settings": "Settings that somebody changed, in a few words",
    "first-whose": "Whose gauge is it?",
    "first-no-step": "There is no such step: {got}.",
    # cautions
    "care-seen": "Read. I'll heed them",
    "care-unknown": "There is no such caution: {got}.",
    "care-before": "Read before: {list}",
    "care-before-more": "Read before: {list}; {count} more",
}
