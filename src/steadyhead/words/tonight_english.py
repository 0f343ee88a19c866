"""Water tonight, in English: why a way will not do, what to do, what to heed."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    # answers that cannot be used
    "tonight-refused": "{count} of the answers cannot be used.",
    "tonight-not-above-zero": "{got}: a figure above zero.",
    "tonight-duty-above-shut-off": "The head at the duty flow must lie below the shut-off head.",
    "tonight-well-has-none": "From a well nothing comes in under pressure: leave it empty, or say that it draws from "
    "the main.",
    "tonight-main-has-none": "Where water comes in under pressure there is no lift: leave it empty, or say that it "
    "draws from a well.",
    "tonight-hertz-far-off": "Too far from the rated hertz to be worked out: between two fifths of it and a fifth "
    "above.",
    # refused altogether
    "tonight-fire-pump": "This water feeds sprinklers or hydrants: nothing temporary is worked out here. Leave the "
    "pump as it is, and call the fire-protection contractor and whoever is responsible for the building, now.",
    "tonight-who-first": "Say first who gets this water: what feeds sprinklers or hydrants is left alone.",
    "tonight-not-so": "That way may not be chosen with these answers. What may: {ways:ways}.",
    # why a way will not do
    "tonight-not-that": "It stands in for another part: what is broken is {broken:broken}.",
    "tonight-no-spare": "No spare {transducer:region} is at hand.",
    "tonight-spare-not-approved": "The spare is not approved for drinking water.",
    "tonight-spare-short": "The spare's range ends at {top:pressure}; it must reach {needs:pressure}.",
    "tonight-no-lead": "No known-good lead is at hand.",
    "tonight-no-switch": "No pressure switch is at hand.",
    "tonight-no-run-input": "The drive does not start and stop from a contact.",
    "tonight-drive-dead": "The drive is broken. Never put the pump straight on the mains instead.",
    "tonight-no-hand-speed": "The drive cannot run at a fixed speed by hand.",
    "tonight-no-relief": "Without a relief valve that works nothing runs at a fixed speed. Fit one first.",
    "tonight-watch-too-little": "It takes {watch_needed:watches}. You said: {watch_said:watches}.",
    "tonight-too-slow": "To stay below {limit:pressure} ({binds:limited-by}) it would have to run slower than "
    "{least:hertz}.",
    "tonight-too-little": "At the most that is allowed, {most:hertz}, it presses {gives:pressure} to the surface: "
    "less than {least:pressure} is no water supply.",
    "tonight-cut-out-too-low": "The switch would have to stop it at {most:pressure}: too low to be of use.",
    "tonight-relief-unproven": "A positive-displacement pump presses until something gives. No fixed speed without a "
    "relief valve that was seen to pass its whole flow.",
    "tonight-relief-too-high": "The relief valve may rise to {rises:pressure} while it passes the flow: more than "
    "{binds:limited-by} carries, {weak:pressure}.",
    "tonight-relief-too-small": "The relief valve passes the flow up to {most:hertz} only, and slower than "
    "{least:hertz} the motor must not run.",
    # what to do
    "tonight-do-fit-spare": "Off, locked, pressure relieved: fit the spare. Thread, plug and pins must be the same, "
    "not nearly.",
    "tonight-do-rescale": "Set the drive's range to {low:pressure} at the low end and {high:pressure} at the high end.",
    "tonight-do-set-again": "Enter the set pressure again: {pressure:pressure}.",
    "tonight-do-stops-again": "Enter the limits again that count in parts of the range: over-pressure, low pressure, "
    "wake.",
    "tonight-do-compare": "Compare display and gauge at rest and with a tap running before you go.",
    "tonight-do-lay-lead": "Off, locked and proved dead: lay the lead from plug to terminals, away from power leads "
    "and feet, each core on its own terminal.",
    "tonight-do-read-relief": "See that the relief valve is free and can run off. Leave it as it is.",
    "tonight-do-cap": "Set the drive's highest hertz to {most:hertz}, and write down what it was.",
    "tonight-do-bleed": "Leave a tap running to a drain, at least {flow:flow}: a pump that moves no water heats it.",
    "tonight-do-bleed-some": "Leave a tap running a little to a drain: a pump that moves no water heats it.",
    "tonight-do-start": "Start at about {start:hertz}, watch the gauge, go up by half a hertz. Stop at {most:hertz} "
    "whatever the gauge shows.",
    "tonight-do-creep": "Start at {least:hertz}, watch the gauge, go up by half a hertz until there is water enough. "
    "Stop at {most:hertz} whatever the gauge shows.",
    "tonight-do-lower": "It will not hold the set pressure within these limits. Count on {gives:pressure}, and less "
    "with taps open.",
    "tonight-do-stop-at": "Whoever watches switches off when the gauge comes to {limit:pressure}, or drops for no "
    "reason, or the relief valve runs.",
    "tonight-do-off-when-away": "Off at night, and whenever nobody is there.",
    "tonight-do-back": "When the part is in: highest hertz and control back to what they were.",
    "tonight-do-wire-switch": "Off, locked and proved dead: pressure switch on the same water as the {tank:region}, "
    "its contact on the drive's run input; a contact without volts of its own.",
    "tonight-do-lower-cut-out": "Turn the switch's cut-out down to {most:pressure} or less: higher, and the pump might "
    "never reach it and never stop.",
    "tonight-do-cut": "Switch: out at {cut_out:pressure}, in at about {cut_in:pressure}.",
    "tonight-do-air": "{tank:Region}, empty of water: air to about {air:pressure}, regulated, never above its plate.",
    "tonight-do-run-at": "Fixed speed when the contact closes: {most:hertz}.",
    "tonight-do-see-it-stop": "Shut every tap and see it stop by itself three times before you go.",
    "tonight-do-lock": "Switch off, lock out and tag. Keep the key, or leave it with whoever is in charge.",
    "tonight-do-shut": "Shut the valves so that nothing runs back or floods; relieve what stays trapped.",
    "tonight-do-frost": "Frost expected? Drain what could freeze.",
    "tonight-do-other-water": "Say where water comes from meanwhile: a neighbour's hose made for drinking water, a "
    "tanker, bottles.",
    # what to heed
    "tonight-never-bypass": "Never bypass or plug the relief valve, and never bridge the dry-run or over-pressure stop "
    "and walk away.",
    "tonight-nobody-else": "Tell whoever watches how to switch off, what the gauge may show, and your number. Write it "
    "on the tag.",
    "tonight-hot-water": "A pump against shut taps heats its water: scalding, then steam. Keep a tap running.",
    "tonight-spare-could-burst": "At full speed this pump could come to {full:pressure}, more than the spare stands "
    "(about {stands:pressure}).",
    # who is told
    "tonight-if-fire": "Does it feed sprinklers or hydrants? Then stop here, and call the fire-protection contractor.",
    "tonight-tell-people": "Tell the people who use the water: less pressure, when it will be off, until when.",
    "tonight-tell-building": "Put a note at every entrance: less pressure, when it will be off, until when.",
    "tonight-tell-dependents": "Dialysis, care, animals, a process: speak to whoever is in charge before anything is "
    "changed or goes off, and agree on water meanwhile.",
    # screen and page
    "tonight-title": "Water tonight",
    "tonight-note": "What can run until the part comes. Unknown is normal: leave empty what nobody has looked at.",
    "tonight-way": "{mode:Way}: {possible:possible}.",
    "tonight-lost": "No longer protected by: {lost:protections}.",
    "tonight-nothing-lost": "No protection is lost.",
    "tonight-watched": "Watched by {watch:watches}.",
    "tonight-would-help": "Would narrow it",
    "tonight-work-out": "What can run?",
    "tonight-answers": "What it was worked out from",
    "tonight-choose": "Leave it so: {mode:way}",
    "tonight-first": "Best that can run",
    "tonight-no-answer": "Unknown",
    "tonight-from-here": "Worked out for {mode:way}. The limits below stand on the tag.",
    "tonight-again": "Water tonight: work out what can run",
    "tonight-change": "Change the answers",
    # on the tag and the papers
    "paper-tonight-hertz": "Never faster than",
    "paper-tonight-start": "Start at about",
    "paper-tonight-pressure": "Switch off at",
    "paper-tonight-cut-out": "Switch's cut-out",
    "paper-tonight-limits": "Limits: never faster than {hertz}; switch off when the gauge shows {pressure}.",
    "paper-tonight-never": "Never bypass or plug the relief valve. Switch off when in doubt.",
    "temporary-what": "{mode:Way}.",
    "temporary-what-hand": "{mode:Way}; never faster than {most:hertz}, gauge never above {limit:pressure}.",
}
