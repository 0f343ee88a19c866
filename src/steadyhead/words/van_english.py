"""What is said of the sensors on the van, in English: whether one will do here, why not, what is entered."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    # the signal
    "van-signal-same": "Same signal: {low:signal} to {high:signal}.",
    "van-signal-other-ends": "It sends {low:signal} to {high:signal}; the input is set for {was_low:signal} to "
    "{was_high:signal}. Set the ends, or the stretched range below.",
    "van-signal-above-settable": "It sends {low:signal} to {high:signal}; the input is set for {was_low:signal} to "
    "{was_high:signal}. Set it to the new signal, menu and slide switch, before it is connected.",
    "van-signal-above-unknown": "It sends up to {high:signal}; the input is set for {was_high:signal} at most. Look "
    "whether menu and slide switch have the new signal. Without it, no: too much can harm the input.",
    "van-signal-above-not": "It sends up to {high:signal}; this input takes {was_high:signal} at most.",
    "van-signal-kind-settable": "It sends {low:signal} to {high:signal}. Set the input to that, menu and slide switch, "
    "before it is connected.",
    "van-signal-kind-unknown": "It sends {low:signal} to {high:signal}; the input is set for {was_low:signal} to "
    "{was_high:signal}. Look whether menu and slide switch have the new signal. Without it, no: the input's resistor "
    "shorts volts.",
    "van-signal-kind-not": "It sends {low:signal} to {high:signal}; this input takes milliamps only, and its resistor "
    "shorts volts.",
    "van-signal-resistor": "Milliamps into a volts input: {ohm:ohms} from signal to common makes {low:volts} to "
    "{high:volts}. It turns {heat:watts} into heat: take one of {watts:watts} or more.",
    "van-signal-resistor-short": "Milliamps into a volts input: {ohm:ohms} from signal to common makes {low:volts} to "
    "{high:volts}. It turns {heat:watts} into heat: take one of {watts:watts} or more. Should the two wires touch, "
    "it is {short:watts}.",
    "van-signal-no-resistor": "Milliamps into an input of {top:volts} at most: no usual resistor makes so little.",
    "van-signal-reference-unknown": "Look whether the input measures against sensor power. If one of input and "
    "{transducer:region} follows it and the other does not, every error of sensor power shows on the display.",
    "van-signal-follows": "Its volts follow sensor power and the input does not: every error of sensor power shows on "
    "the display.",
    "van-signal-stands-still": "The input follows sensor power and its volts do not: every error of sensor power shows "
    "on the display.",
    "van-signal-dead-zero": "Its zero is no signal at all, like a broken wire: the drive no longer tells one.",
    # sensor power
    "van-supply-right": "Sensor power: {least:volts} to {most:volts} here, made for {low:volts} to {high:volts}.",
    "van-supply-right-one": "Sensor power: {least:volts} here, made for {low:volts} to {high:volts}.",
    "van-supply-right-drop": "Sensor power: {least:volts} here, less {drop:volts} in resistor and cable at full signal "
    "leaves {left:volts}; it needs {low:volts}.",
    "van-supply-not-noted": "The volts that it is made for are not noted. Read its plate: too little and it lies, too "
    "much and it dies.",
    "van-supply-here-unknown": "Measure the sensor power here: it needs {low:volts} to {high:volts}, at the plug.",
    "van-supply-too-much": "Sensor power is {least:volts} here; it stands {high:volts} at most.",
    "van-supply-too-little": "Sensor power is {most:volts} here at most; it needs {low:volts}.",
    "van-supply-too-little-drop": "It needs {low:volts}, and resistor and cable take {drop:volts} at full signal: "
    "{needs:volts} in all. Sensor power is {least:volts} here.",
    "van-supply-edge": "Measure the sensor power: it may be {least:volts} to {most:volts} here, and must be "
    "{needs:volts} to {high:volts}.",
    # what is entered
    "van-range-same": "The range setting stays: {low:pressure} to {high:pressure}.",
    "van-range-enter": "Enter the range {low:pressure} to {high:pressure}.",
    "van-range-stretched": "Enter {signal_low:signal} for {low:pressure} and {signal_high:signal} for {high:pressure}. "
    "Where the menu keeps {was_low:signal} to {was_high:signal}, enter the range {at_low:pressure} to "
    "{at_high:pressure}.",
    "van-range-reference": "It measures against {reference:choice}, the one before against {was:choice}: the range "
    "is shifted by {shift:pressure} for the air, and the weather shows on the display.",
    "van-limits-stay": "The fault limits stay: {low:signal} and {high:signal}.",
    "van-limits-unknown": "Look at the fault limits: they must lie outside the signal. Usual are {low:signal} and "
    "{high:signal}.",
    "van-limits-unknown-no-low": "Look at the fault limits: none below, since its zero is no signal; above, "
    "{high:signal} is usual.",
    "van-limits-move": "Set the fault limits to {low:signal} and {high:signal}: outside the new signal.",
    "van-limits-move-no-low": "Set no low fault limit, since its zero is no signal; the high one to {high:signal}.",
    # pressures
    "van-pressure-covered": "Its range reaches {top:pressure}; at most {highest:pressure} can come.",
    "van-pressure-below-working": "Its range ends at {top:pressure} and the system works at {working:pressure}: the "
    "drive would never see its set pressure, and run flat out.",
    "van-pressure-highest-unknown": "Its range ends at {top:pressure}, below the old one. Find out what can come here "
    "(relief, pump with everything shut), and that it stands that.",
    "van-pressure-stands-unknown": "{highest:pressure} can come and its range ends at {top:pressure}. Look up what it "
    "stands.",
    "van-pressure-too-high": "{highest:pressure} can come; it stands {stands:pressure}.",
    "van-pressure-past-end": "{highest:pressure} can come and its range ends at {top:pressure}: it stands that "
    "({stands:pressure}), and shows no more than its end.",
    # thread
    "van-thread-same": "Same thread, {thread}: seal it on the thread.",
    "van-thread-same-washer": "Same thread, {thread}: it seals on a washer or ring, never on the thread.",
    "van-thread-adapter": "Its {thread} goes into {port} by the adapter on the van; the adapter touches the water too.",
    "van-thread-unknown": "Neither thread is noted. Hold the two side by side, and look at pitch and taper.",
    "van-thread-sensor-unknown": "Its thread is not noted; the port is {thread}.",
    "van-thread-port-unknown": "The port's thread is not noted; it has {thread}.",
    "van-thread-other-size": "Its {thread} does not go into {port}. It takes an adapter that may touch the water.",
    "van-thread-taper-into-parallel": "Its {thread} goes into {port} a turn too far and seals worse than it should. "
    "Look that it neither bottoms nor leaks at the highest pressure.",
    "van-thread-parallel-into-taper": "Its {thread} may jam in {port}, and has no face there to seal on. It takes an "
    "adapter.",
    "van-thread-nearly": "Its {thread} starts in {port} and never fits: {per_inch} threads to the inch against "
    "{port_per_inch}, flanks of {angle} against {port_angle} degrees; hand-tight they are {parted:mm} apart. It takes "
    "an adapter.",
    "van-thread-nearly-same-pitch": "Its {thread} goes into {port} and never seals: {per_inch} threads to the inch in "
    "both, but flanks of {angle} against {port_angle} degrees. It takes an adapter.",
    # plug
    "van-plug-same": "Same plug, same pins: {plug:plug}.",
    "van-plug-other-pins": "Same plug and other pins ({plug:plug}): wire it anew as below. Put on as it is, it can "
    "kill {transducer:region} and sensor power.",
    "van-plug-compare-pins": "Same plug ({plug:plug}): compare the pins before it is put on. Wrong ones can kill it.",
    "van-plug-other": "It has {plug:plug}, the cable has {here:plug}: put on a new plug, or a lead.",
    "van-plug-lead": "It has a lead of its own: join it in a closed box, or at the terminals.",
    "van-plug-unknown": "Compare the plugs: not both are noted.",
    "van-pins-unknown": "Its pins are not noted. Take them off its plate or leaflet, never by trying.",
    "van-third-core": "It takes a third wire, to {common:terminal}. Look whether the cable has one free.",
    "van-common-free": "Two wires only: the {common:wire} stays free. Cap it at both ends.",
    # water
    "van-water-approved": "Approved for drinking water: {standards:approvals}. Local rules say which one counts here.",
    "van-water-not-drunk": "Nobody drinks this water: no approval is asked for.",
    "van-water-unknown": "Approval for drinking water is not noted. Look for it on the part; without one, no.",
    "van-water-none": "Not approved for drinking water.",
    "van-water-lead-alone": "{standards:approvals} speaks of lead alone. Look for an approval for drinking water.",
    "van-water-lead-unknown": "Approved to {standards:approvals}; lead is not noted. Look for NSF/ANSI/CAN 372.",
    # how long
    "van-lasts-resistor": "A resistor stands in for the right input.",
    "van-lasts-reference": "Every error of sensor power shows on the display.",
    "van-lasts-dead-zero": "The drive cannot tell a broken wire.",
    "van-lasts-air": "The weather shows on the display.",
    "van-lasts-past-end": "Its range ends below what can come.",
    "van-lasts-thread": "The threads are not made for one another.",
    "van-lasts-error": "The error is {ratio:rough} times the one before.",
    # the error
    "van-error": "The display may be off by {total:pressure}, {share:rough-percent} of the old span.",
    "van-error-ratio": "The display may be off by {total:pressure}, {share:rough-percent} of the old span: "
    "{ratio:rough} times what it was ({old:pressure}).",
    "van-error-same": "The display may be off by {total:pressure}, as before.",
    "van-error-unknown": "Its accuracy is not noted. Its range is {ratio:rough} times as wide: as good a one makes "
    "{ratio:rough} times the error.",
    "van-error-unknown-same": "Its accuracy is not noted. Its range is as wide as before.",
    # the list
    "van-left": "{left} left",
    "van-left-none": "none left",
    "van-left-unknown": "not counted",
    "van-look-first": "Look first: {list}.",
    "van-why-not": "No: {list}.",
    "van-nothing": "Nothing is on the list of the van yet.",
    "van-none-of-it": "Nothing on the van will do here.",
    "van-added": "On the list: {name} ({stock}).",
    "van-kept": "Kept: {name}.",
    "van-off": "Taken off the list: {name}.",
    "van-conflict": "Two devices disagree on: {list}. Say what is right.",
    "van-unread": "This line cannot be used as it stands: {problem}",
    "van-name-missing": "It has no name. Call it what the van calls it.",
    "van-count-wrong": "{got} is no count. It must be a whole number, 0 or more.",
    "van-not-stock": "{got} is nothing on the van.",
    # pages
    "van-title": "The van",
    "van-here-title": "What on my van will do?",
    "van-here-note": "Against what is known of this system. What nobody noted is to be looked at, not a no.",
    "van-list-head": "On the van",
    "van-add": "Put one on the list",
    "van-add-note": "What its plate says; leave empty what nobody knows.",
    "van-keep": "Keep",
    "van-withdraw": "Take it off the list",
    "van-plate-head": "Its plate",
    "van-fit-head": "Thread, plug, water",
    "van-pins-head": "Pins",
    "van-settings-head": "Enter in the controller",
    "van-map-head": "Pin to terminal",
    "van-pin": "Pin",
    "van-wire": "Wire",
    "van-terminal": "Terminal",
    "van-pin-none": "none",
    "van-pin-unknown": "?",
    "van-stays-free": "stays free",
    "van-resistor": "{ohm:ohms}",
    "van-figure-signal": "{signal:signal}",
    "van-figure-pressure": "{pressure:pressure}",
    "van-figure-own": "{here} ({there})",
    "van-cli-grade": "{name}: {grade:van-grade}. {short}",
    "van-cli-short": "{name}: {short}",
    "van-fits-head": "What fits",
    "van-take-over": "The system has it now: take its plate over",
    "van-take-out": "Not fitted after all",
    "van-not-taken-over": "Its signal has another unit than the one before, so this visit's readings are still told by "
    "the old plate. Take the new one over when the visit is over.",
    "van-for-file": "Against {file}:",
    "van-error-head": "How far off it may be",
    "van-before-head": "Before it is changed",
    "van-lasts-head": "How long",
    "van-fitted-head": "Fitted from the van",
    "van-fit": "I fitted this one",
    "van-fit-serial": "Serial number",
    "van-fit-settings": "I entered these settings",
    "van-fit-stays": "It stays",
    "van-fit-temporary": "Until the right one is there",
    "van-set-low": "Signal at the low end",
    "van-set-high": "Signal at the high end",
    "van-set-range-low": "Range, low end",
    "van-set-range-high": "Range, high end",
    "van-set-low-fault": "Low fault limit",
    "van-set-high-fault": "High fault limit",
    "van-set-stretched": "Where the menu keeps {was_low:signal} to {was_high:signal}",
    "van-to-temporary": "Leave it temporary: date, watch, tag",
}
