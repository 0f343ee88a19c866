"""What a night tells of leaks, in English: the figures, what they tell, what to do next, what they cannot tell."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    # the figures
    "night-fell": "It fell by {fall:pressure} in {hours:rough} hours: {rate:pressure} in an hour.",
    "night-rose": "It rose by {fall:pressure} in {hours:rough} hours.",
    "night-drawn": "{drawn:volume} went through the meter: {rate:volume} in an hour.",
    "night-worth": "Out of this {tank:region} that fall is {drawn:volume} of water.",
    # what they tell, and what is done then
    "night-tight": "Tight: nothing was lost that the gauge could show.",
    "night-tight-then": "The visit can be closed as proved.",
    "night-pump-side": "Water was lost on the pump side: the check valve, the drop pipe, the relief valve, the "
    "{tank:region} or a joint before the house valve.",
    "night-pump-side-then": "Feel the relief valve's outlet and look at the joints first; then the check valve.",
    "night-house-side": "Water was lost in the house, or in its pipes: it went through the meter, or past the valve.",
    "night-house-side-then": "Toilets first, then taps, outside taps and the pipe in the ground.",
    "night-both": "Some of it went through the meter, and not all: the house draws, and the pump side loses too.",
    "night-both-then": "Stop the house's part first (toilets, taps), then let it stand another night.",
    "night-either": "Water was lost, and nothing tells on which side.",
    "night-either-then": "Once more with a house valve that holds, or with the meter read at both times.",
    "night-house-draws": "The pump was on, so the gauge tells nothing. The house drew water all the same.",
    "night-house-draws-then": "If nobody used any: toilets first, then taps, outside taps and the pipe in the ground.",
    "night-no-draw": "The pump was on, so the gauge tells nothing. Nothing went to the house.",
    "night-no-draw-then": "The house is tight. For the pump side: once more with the pump off.",
    "night-rises": "It rose, so this night tells nothing of leaks: the pump ran, the incoming main pushed in, or water "
    "grew warm behind a check valve.",
    "night-rises-then": "Ask which; then once more with the pump off.",
    "night-unclear": "Air that the filling had warmed may explain all of that fall.",
    "night-unclear-then": "Once more, with the first reading ten minutes after the pump has stopped.",
    "night-contradicts": "The pressure held though water went through the meter: the pump ran after all, or the meter "
    "stands elsewhere.",
    "night-contradicts-then": "Ask, and look where the meter stands; then once more.",
    "night-nothing": "The pump was on and no meter was read: this night tells nothing.",
    "night-nothing-then": "Once more with the pump off.",
    # what they cannot tell
    "night-short": "{hours:rough} hours are little: a slow drip shows only over a night.",
    "night-warm": "Up to {warm:pressure} of the fall may be air that the filling had warmed: nobody waited ten "
    "minutes.",
    "night-drip": "A slow drip may pass a meter uncounted.",
    "paper-from-card": "From the customer's card.",
    "paper-from-usual": "As is usual.",
    # the pages
    "night-head": "What the night gave",
    "night-note": "From the customer's card. Unknown is normal.",
    "night-evening": "Evening",
    "night-morning": "Morning",
    "night-gauge": "Gauge",
    "night-time": "Time",
    "night-meter": "Water meter",
    "night-holds": "The valve holds",
    "night-pump": "The pump was off all night",
    "night-waited": "Ten minutes from the pump's stop to the first reading",
    "night-tank-known": "Size and pre-charge of the {tank:region}, if known",
    "night-tank": "Its size",
    "night-charge": "Its pre-charge",
    "night-keep": "Keep it, and say what it tells",
    "night-told": "What it tells",
    "night-close": "Close it as proved",
    "night-made": "How each figure was made",
    "night-again": "Put it right",
    "night-once-more": "Another night",
    "night-later": "Another day, or needed no more",
    "night-card-link": "The customer's card",
    "night-no-gauge": "Both pressures are needed: evening and morning.",
    "night-no-time": "{got} is no time of day. It must be one such as 22:00.",
    "night-meter-back": "The meter went from {got} to {then}: a meter does not count back. Are the two exchanged?",
}
