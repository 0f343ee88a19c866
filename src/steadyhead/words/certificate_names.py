"""What a certificate calls the words of a sensor check."""

from __future__ import annotations

CHECK_VERDICTS: dict[str, str] = {
    "pass": "Pass: at every pressure within what its plate allows, uncertainty included",
    "fail": "Fail: beyond what its plate allows, uncertainty included",
    "cannot-tell": "Cannot tell: the uncertainty is too large to say that it is good or not",
}
CHECK_DECISIONS: dict[str, str] = {"pass": "pass", "fail": "fail", "cannot-tell": "cannot tell"}
CHECK_STAGES: dict[str, str] = {"as-found": "as found, before anything was changed", "as-left": "as left"}
CHECK_MEDIA: dict[str, str] = {"water": "water", "air": "air"}
CHECK_WAYS: dict[str, str] = {"up": "rising", "down": "falling"}
PRESSURES_FROM: dict[str, str] = {
    "system": "the running system", "hand-pump": "a hand pump", "static": "the air and the height of water",
}  # fmt: skip
READ_AS: dict[str, str] = {
    "signal": "the {transducer:region}'s signal", "displayed-pressure": "the pressure on the drive's display",
}  # fmt: skip
