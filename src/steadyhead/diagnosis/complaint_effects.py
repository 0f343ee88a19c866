"""What each word of a complaint does to the odds: the shipped figures, each with its reason.

Everything that affects what a complaint says lives in this file. The figures are common practice, no source; a
company's own override them row by row, under ``key/word/what``.
"""

from __future__ import annotations

from typing import NamedTuple

#: The most that a whole complaint, or one word of it, moves one fault's odds beside an unmoved one's, either way.
MOST = 10.0


class Effect(NamedTuple):
    """What one word of a complaint does to the odds of some families and faults.

    Parameters
    ----------
    key, word
        The key of ``[complaint]`` and its word.
    times
        How many times likelier; below one, less likely.
    on
        Ids of families and of faults.
    reason
        Why.
    """

    key: str
    word: str
    times: float
    on: tuple[str, ...]
    reason: str
    #: What `on` is called where it is too long to be listed.
    called: str = ""

    @property
    def row(self) -> str:
        """Its row in the estimates."""
        return f"{self.key}/{self.word}/{self.called or self.on[0]}"


_COMPONENTS = ("sensor", "board-supply", "board-input", "joints", "vacuum")
_BUILT_SO = ("wrong-part", "miswired", "tap-wrong-side", "noise", "setting")
#: Faults that pull the signal under its low limit, and over its high one; those that do neither.
_LOW = (
    "cable-cut", "open-supply", "open-signal", "sensor-open", "sensor-low", "sensor-shorted", "controller-supply-dead",
    "controller-supply-low", "short-supply-common", "short-signal-common", "short-supply-signal", "other-load",
    "vacuum", "controller-input-dead", "swapped-supply-common", "reversed",
)  # fmt: skip
_HIGH = (
    "sensor-high", "open-common", "short-supply-signal", "swapped-supply-signal", "controller-input-dead",
    "leakage-supply-signal", "sensor-shorted", "reversed",
)  # fmt: skip
_WITHIN = (
    "sensor-zero-shift", "sensor-span-shift", "sensor-frozen", "sensor-wet-vent", "port", "setting-range",
    "setting-unit", "setting-offset", "gauge", "noise",
)  # fmt: skip
_COME_AND_GO = ("loose", "damp")

EFFECTS: tuple[Effect, ...] = (
    Effect("shown", "low-signal", 3.0, _LOW, "they pull the signal under its limit", "pulls-low"),
    Effect("shown", "low-signal", 2.0, _COME_AND_GO, "the history keeps what is not there now"),
    Effect("shown", "low-signal", 0.3, _WITHIN, "they keep the signal within its limits", "stays-within"),
    Effect("shown", "high-signal", 3.0, _HIGH, "they push the signal over its limit", "pushes-high"),
    Effect("shown", "high-signal", 2.0, _COME_AND_GO, "the history keeps what is not there now"),
    Effect("shown", "high-signal", 0.3, _WITHIN, "they keep the signal within its limits", "stays-within"),
    Effect("shown", "none", 2.0, _WITHIN, "a wrong figure within the limits shows no fault", "stays-within"),
    Effect("shown", "none", 0.4, _LOW, "most drives would have shown a low signal", "pulls-low"),
    *(
        Effect("shown", word, 3.0, ("none-of-these",), "it points past the sensing loop")
        for word in ("dry-run", "overload", "phase", "over-temperature", "communication")
    ),
    Effect("shown", "dry-run", 2.0, ("vacuum", "sensor-low", "sensor-frozen"), "the drive believes in no pressure"),
    Effect("shown", "over-pressure", 2.0, ("sensor-high", "port", "setting"), "the drive believes in too much"),
    Effect("shown", "earth-fault", 3.0, ("leakage-supply-earth", "leakage-signal-earth", "short-supply-earth"),
           "a core against earth"),
    Effect("shown", "supply-voltage", 2.0, ("board-supply",), "what hurts the drive's power hurts the sensor's"),
    Effect("shown", "dead-display", 3.0, ("board-supply", "board-input"), "the board itself"),
    Effect("since", "sudden", 1.5, ("all-cores", "wires-open", "shorts", "sensor-open", "sensor-shorted",
                                    "board-supply", "board-input"), "what breaks, breaks at once", "breaks"),
    Effect("since", "sudden", 0.5, ("joints", "damp", "sensor-zero-shift", "sensor-span-shift", "sensor-wet-vent"),
           "what wears, wears slowly", "wears"),
    Effect("since", "gradual", 2.5, ("joints", "damp", "sensor-zero-shift", "sensor-span-shift", "sensor-wet-vent",
                                     "port-blocked"), "corrosion, water, drift and scale take their time",
           "wears"),
    Effect("since", "gradual", 0.3, ("all-cores", "miswired", "setting", "wrong-part", "board-input"),
           "they come at once", "comes-at-once"),
    Effect("since", "new-system", 10.0, _BUILT_SO, "it was built so", "built-so"),
    Effect("since", "new-system", 0.3, _COMPONENTS, "new parts are seldom dead", "parts"),
    Effect("when", "rain", 6.0, ("damp", "sensor-wet-vent"), "water finds plug and splice"),
    Effect("when", "rain", 2.0, ("joints", "loose"), "a wet joint is a bad joint"),
    Effect("when", "running", 5.0, ("noise", "tap-wrong-side"), "the motor makes the noise, the flow the difference"),
    Effect("when", "running", 2.0, ("loose",), "it shakes"),
    Effect("when", "night", 4.0, ("vacuum",), "the pump rests and the column falls"),
    Effect("when", "night", 2.0, ("damp",), "dew"),
    Effect("when", "rest", 4.0, ("vacuum", "tap-wrong-side"), "the column falls behind a check that leaks"),
    Effect("when", "rest", 0.3, ("noise",), "the motor stands still"),
    Effect("when", "start", 3.0, ("controller-supply-weak", "other-load", "loose"), "the load comes on"),
    Effect("when", "sometimes", 8.0, ("loose",), "a joint that opens now and then"),
    Effect("when", "sometimes", 2.0, ("damp", "joints", "noise", "nothing"), "it is not there just now"),
    Effect("when", "sometimes", 0.4, ("all-cores", "miswired", "setting", "wrong-part"), "they stay"),
    Effect("when", "always", 0.4, ("loose",), "it stays"),
    Effect("changed", "storm", 5.0, ("sensor-open", "sensor-shorted", "sensor-low", "sensor-high", "board-input",
                                     "board-supply"), "a surge kills what hangs on the wires", "electronics"),
    Effect("changed", "freeze", 8.0, ("sensor-zero-shift", "port-blocked", "sensor-frozen"),
           "ice in the port, a bent diaphragm"),
    Effect("changed", "power-cut", 3.0, ("board-supply", "board-input", "setting"), "the drive, or settings lost"),
    Effect("changed", "recent-work", 8.0, ("miswired", "wrong-part", "setting", "sensor-cock-shut"),
           "whoever worked here last"),
    Effect("changed", "recent-work", 6.0, ("all-cores", "wires-open"), "a plug half screwed, a wire not tugged"),
    Effect("changed", "new-part", 8.0, ("miswired", "wrong-part", "setting"), "another range, pinout or signal"),
    Effect("changed", "new-part", 4.0, ("sensor-cock-shut",), "shut to change it, and left"),
    Effect("changed", "drained", 5.0, ("sensor-cock-shut", "vacuum"), "cocks were turned, air and vacuum came"),
    Effect("changed", "drained", 2.0, ("port-blocked",), "silt on the move"),
    Effect("changed", "filter", 4.0, ("sensor-cock-shut", "tap-wrong-side"), "cocks were turned at the filter"),
    Effect("changed", "nothing", 0.5, ("miswired", "wrong-part", "setting", "sensor-cock-shut"), "nobody was here"),
)  # fmt: skip
