"""How a visit ends, in English: what is asked, what can hurt, what comes back and when."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    # the pages
    "web-end": "End this visit",
    "web-end-head": "How does it end?",
    "web-ends-otherwise": "It ends otherwise",
    "web-go-on": "Go on with this visit",
    "web-comes-back": "What comes back",
    "web-comes-back-all": "All that comes back",
    "web-come-back": "Come back for",
    "web-come-back-note": "It stands on the first page when its day comes. Nothing else reminds anybody of it.",
    "web-two-devices": "two devices say different things",
    # endings
    "ending-two": "Two devices ended this visit differently. Which holds?",
    "ending-still-open": "This visit is open",
    "ending-line": "{key}: {text}",
    "ending-locked": "Locked and tagged.",
    "ending-risk-told": "It was said what may happen without it.",
    "ending-due": "Comes back on",
    "ending-what-shut": "What is shut over the night",
    "ending-ring": "Whom the customer rings",
    "ending-which-fault": "It was",
    "ending-no-fault": "Nobody knows what it was",
    "ending-keep": "End it: {ending:ending}",
    "ending-no-repair": "No repair was entered, so nothing proves that it is mended. It can still be ended.",
    "ending-not-read": "Not read since the repair: {list}. It can still be ended, and is then not called proved.",
    "ending-reads-wrong": "Since the repair something reads outside of its band. It can still be ended, and is then "
    "not called proved.",
    "ending-kept": "Kept: visit {visit}, {state:kept-state}.",
    "ending-incomplete": "Nothing is kept yet: {missing:ending-key}?",
    # cautions of endings
    "ending-pump-off": "The pump is off over the night. Not where somebody needs water for dialysis or care, where "
    "animals drink from it, or where sprinklers hang on it.",
    "ending-freeze": "What stands still freezes: drain it where there is frost.",
    "ending-signal-back": "A drive that is not locked off can start the pump when its signal or its power returns.",
    "ending-unsafe-stays-off": "What is dangerous stays off, whoever declines. Lock it off and end it as made safe.",
    # what comes back
    "follow-up-none": "Nothing comes back.",
    "follow-up-no-day": "nobody said when",
    "follow-up-overdue": "{due}, overdue by {days} days",
    "follow-up-yesterday": "{due}, overdue since yesterday",
    "follow-up-today": "{due}, today",
    "follow-up-tomorrow": "{due}, tomorrow",
    "follow-up-in-days": "{due}, in {days} days",
    "follow-up-which": "What is it",
    "follow-up-what": "What for",
    "follow-up-done": "Done",
    "follow-up-dropped": "Needed no more",
    "follow-up-later": "Later, on",
    "follow-up-put-off": "Put it off",
    "follow-up-longer": "Leave it longer",
    "follow-up-start": "Begin a visit there",
    "follow-up-day": "{got} is no day. It must be a day such as {must_be}.",
    "follow-up-past": "{got} has passed. It must be {must_be} or later.",
    "follow-up-not-here": "Nothing of that address comes back, or no longer: {got}.",
}
