"""What each page says of itself where help is opened, in English: two sentences, what it is for and what to do.

The printed guide is made of the same texts. A page's text is called by its template.
"""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "help": "Help",
    "quick-guide": "Quick guide",
    "quick-guide-note": "What each page is for and what to do there, to print and keep in the van.",
    "guide-page": "{page:help-page}",
    "guide-head-page": "Page",
    "guide-head-do": "What to do there",
    # the day
    "help-today": "One tap on what you see starts a visit, and what is due comes first. A visit that was begun waits "
    "under the taps, just as you left it.",
    "help-search": "Any words find a place, a system, a visit or an instrument. Fewer words find more.",
    "help-follow_ups": "Everything that has to be looked at again stands here, what is due soonest first. Tap a line "
    "to say that it is done, or to give it another day.",
    "help-settings": "Units, the decimal sign and the language are chosen here. A change counts for every page at "
    "once, and alters nothing that was written down.",
    "help-logo": "Choose a picture for the head of your papers, small and dark on white. It stays on this device, and "
    "the hash of a paper does not change with it.",
    "help-times": "Put in what a check takes you and what a part costs you, where it differs from the usual. The next "
    "check is chosen by these.",
    "help-storage": "Here stands how large the record is, how much room is left, and whether it may be cleared. On a "
    "phone, ask the browser to promise, and put the app on the home screen.",
    "help-report": "Say in your own words what went wrong, then read the whole report. It leaves this device only when "
    "you share, copy or save it.",
    "help-join": "A phone on the same network joins with the code on this page. Each code lets one phone in, and a "
    "phone that is lost can be sent away here.",
    "help-take_along": "The whole app can be put on a phone, for pump houses without a signal. It takes a secure "
    "address; this page says whether this one is, and what to do if not.",
    "help-guide": "Print this page as it stands, or save it as a file. The same words stand at the foot of each page, "
    "under Help.",
    # a visit
    "help-visit": "Do the check in the frame, type what you read, and the next check comes up. Any other reading goes "
    "in by two taps on the drawing, the red lead first.",
    "help-plate": "Tap what stands on the {transducer:region}'s plate. Not known is a good answer: the checks go on "
    "without it.",
    "help-first_minute": "Write down what the display still knows before anybody resets it. Leave out whatever you "
    "cannot see, and go on at once.",
    "help-call": "What the caller says tells you what to load before the drive. Tap what fits, and leave the rest "
    "open.",
    "help-before": "Ask the caller what stands here, and the list says what to load and whom to tell before the water "
    "goes off. Once you are there, the visit goes on with all of it.",
    "help-read": "Tap the point for the red lead, then the one for the black. Under the drawing you choose another "
    "hook-up, the gauge, the display or a look.",
    "help-reading": "Put a reading right here: the first figure is kept beside the new one. Take it out if it was "
    "never read.",
    "help-why": "Each reading is shown with what was expected and how far it moved this suspect. At the end stands "
    "what could still tell it from the others.",
    "help-photos": "A photo of the display, the plate or the wiring stays with this visit. Where it was taken is "
    "removed before it is kept.",
    "help-photo": "Say what the photo shows, so that the papers can name it. Taken out here, the picture is erased for "
    "good.",
    "help-visit_instruments": "Tap the instruments that you use at this visit: their accuracy counts in every figure. "
    "What is not at hand is not asked for.",
    # repair and end
    "help-repair": "Tap what was done, and add parts and serial numbers if you want them on the papers. Then the page "
    "of the visit lists the readings that must now be right.",
    "help-end": "A visit ends in one of these ways, and each says what it needs. What stays open comes back on its "
    "day by itself.",
    "help-night": "Copy the customer's card: gauge and meter, evening and morning. The answer says whether water was "
    "lost, and where to look first.",
    "help-come_back": "Choose what has to come back and the day. It then stands on the first page when it is due.",
    "help-follow_up": "Say that it is done, that it is needed no more, or give it another day. The visit keeps what "
    "you said.",
    "help-tonight": "Answer what is known, and the page says whether water can run until the part comes, at which "
    "speed, and what protection is lost. Relief, over-pressure and dry-run protection are never bypassed unattended.",
    "help-tank": "Give the tank's volume, its pre-charge and the two pressures, and the page says how much water lies "
    "between them. With the pump's flow it also says how often the pump starts at the worst draw.",
    "help-temporary": "Write down what was left in a temporary state, who watches it and when it ends. Then print the "
    "tag and hang it where the next person looks first.",
    "help-papers": "Each paper is for one reader: the customer, the office, the next technician, the warranty. Open it "
    "to read, to print, or to save as a file.",
    "help-paper": "This is the paper as it will be printed. Sheet, decimal sign and steps are chosen under it.",
    # the van
    "help-van": "List the {transducer:region}s that you carry, once. At a visit the app then says which of them will "
    "do.",
    "help-van_line": "Signal and range from the plate are enough to begin with. The more of the plate you put in, the "
    "less is left to look at on site.",
    "help-van_here": "What is on the van is held against this system, the best first. Tap a line for the settings, the "
    "wires and the error it would bring.",
    "help-van_match": "First comes why it will do or not, then the wires, the settings to enter and the resulting "
    "error. Keep it as fitted at the foot, permanent or temporary.",
    # instruments and systems
    "help-instruments": "List your gauges and meters with their accuracy, once. Every figure that is read with them "
    "then says how far it can be trusted.",
    "help-instrument": "Copy the accuracy as its data sheet or dial says it, and the day when calibration is due. "
    "Unknown is allowed: a usual accuracy counts then.",
    "help-system": "What is known of this system, from its plates and from earlier visits. What you put in here counts "
    "for every later visit.",
    "help-system_plate": "Copy what stands on the plates: pump, drive, {tank:region}, {transducer:region}. What you "
    "put in here counts for every later visit.",
    "help-system_copy": "Choose a system that was built alike, and see what would be taken over before you take it. "
    "Look at the plates all the same.",
    "help-birth": "Write down the system's numbers while all is well. A later visit holds its own against them in two "
    "minutes, and what has moved is shown.",
    "help-births": "These are the numbers that the system had while all was well. A visit's page of birth readings "
    "holds new ones against them.",
    "help-erase": "Takes a system with its visits, readings and photos away for good. Hand over or print what the "
    "customer wants to keep first.",
    # sensor check
    "help-sensor_setup": "Say which gauge is the reference and what the plate promises. Then the check knows how far a "
    "reading may be off.",
    "help-sensor_check": "Set a pressure, wait until it stands still, and type gauge and signal. Go up and come down "
    "again, so that sticking shows.",
    "help-sensor_point": "Put a point right here: the first figures are kept beside the new ones. Take it out if it "
    "was never read.",
    "help-sensor_table": "Paste or type many points at once, a line for each. A line that cannot be read is named, and "
    "nothing is lost.",
    "help-sensor_figures": "Every figure of this check stands here with how sure it is. Tap one to see what it was "
    "made of.",
    "help-sensor_figure": "The formula, the figures put into it and the result stand one under the other. Anybody can "
    "work it out again by hand.",
    "help-ask_code": "The code stands on the screen of the computer that serves the app. Type it within its ten "
    "minutes, or ask for a new one there.",
}
