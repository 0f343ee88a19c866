"""A look that tells much is asked for, however many others promise more and tell nothing."""

from __future__ import annotations

from steadyhead import diagnose_text
from tests.diagnosis.visits import gauge, reading

#: A house without a spare, and a cock that nobody spoke of.
VISIT = """
schema = 1
[sensor]
signal = "0.5..4.5 V ratiometric"
range = "0..16 bar"
[cable]
length = "50 m"
conductor = "0.5 mm2"
[controller]
supply = "5 V"
input_resistance = "64 kohm"
low_fault = "0.3 V"
high_fault = "4.8 V"
scaled = "0..16 bar"
reference = "fixed"
[instruments]
gauge = { range = "-1..11 bar", accuracy = "2 %" }
have = ["multimeter", "gauge", "signal-source", "clamp-meter"]
"""


def test_the_cock_is_looked_at_before_anybody_settles_for_it() -> None:
    """By the trade: a cock that may be shut is looked at, which takes less than any repair (common practice)."""
    found = diagnose_text(
        VISIT + gauge("8.8 bar") + reading("displayed-pressure", "13.6 bar") + reading("displayed-fault", "none")
        + reading("displayed-pressure", "-0.02 bar", arrangement="vented") + reading("displayed-signal", "3.90 V")
        + "".join(reading("inspection", "right", item=item) for item in ("gauge-zero", "range-setting", "tap-place"))
    )  # fmt: skip
    chances = {item["remedy"]: item["probability"] for item in found["remedies"]}
    assert chances["open-cock"] > 0.2
    assert [check["item"] for check in found["next_checks"] if check["measure"] == "inspection"][:1] == ["cock"]
    assert not found["verdict"]["settled"]
