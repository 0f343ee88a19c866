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
    "first-photos": "photos: {count}",
    "first-settings": "Settings that somebody changed, in a few words",
    "first-whose": "Whose gauge is it?",
    "first-no-step": "There is no such step: {got}.",
    # before the drive
    "before-head": "Before the drive",
    "before-note": "Ask what helps; unknown is normal. It moves the odds and the list of what to load.",
    "before-call": "A call came in",
    "before-call-note": "Take down what the caller says, and see what to load before you drive.",
    "before-begin": "Take the call",
    "before-name": "Name or place, if you like",
    "before-depends": "Who depends on this water?",
    "before-access": "Getting in: keys, dog, walk, where to park",
    "before-keep": "Keep, and see what to load",
    "before-load": "See what to load",
    "before-tell-first": "Tell them before the water goes off",
    "before-depends-here": "Before the water goes off, tell: {list}.",
    "before-asked": "Ask the caller",
    "before-ask-nothing": "Do not reset or switch anything off and leave the panel shut: the display still knows what "
    "happened.",
    "before-ask-photo": "Send a photo of the display and one of the {transducer:region}'s plate, if they are in sight.",
    "before-ask-hands": "Keep hands, tools and children off the pump: it can start by itself.",
    "before-ask-save": "Fill some pots with drinking water while it still runs.",
    "before-ask-shut": "If water runs where it must not, shut the main valve and stay away from wet electrics.",
    "before-assumed": "Nobody has read the {transducer:region}'s plate: this is reckoned for the commonest. Ask for a "
    "photo of the plate before you load one.",
    "before-why-part": "{needed} of 100 need it; then {trips} second trips",
    "before-why-instrument": "then {left} of 100 undecided",
    "before-arrived": "I am there: go on with the visit",
    # cautions
    "care-seen": "Read. I'll heed them",
    "care-unknown": "There is no such caution: {got}.",
    "care-before": "Read before: {list}",
    "care-before-more": "Read before: {list}; {count} more",
}
