"""What the customer tells: by the fault, by chance, often nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmarks.second_truth.streams import Stream

if TYPE_CHECKING:
    from benchmarks.second_truth.case import Case

CHANGED = {
    "storm": 0.06,
    "freeze": 0.03,
    "power-cut": 0.05,
    "recent-work": 0.1,
    "new-part": 0.05,
    "drained": 0.03,
    "filter": 0.03,
}
TEXTS = (
    "No water",
    "Runs flat out",
    "Pressure goes up and down",
    "Display shows an error",
    "Weak shower",
    "Trips and restarts",
    "Low pressure upstairs",
)
GRADUAL = {"sensor-zero-shift", "sensor-span-shift", "sensor-wet-vent", "port-blocked", "site-gauge-wrong"}


def _lift(case: Case, word: str) -> float:
    """Return by how much this fault is likelier after a change than others are."""
    fault = case.fault
    if word in {"recent-work", "new-part"}:
        miswired = fault.head in {"swapped", "rotated", "reversed", "setting"} or fault.id in {
            "sensor-wrong-part",
            "sensor-cock-shut",
            "shield-looped",
        }
        return 6.0 if miswired else 3.0 if fault.place in {"plug", "terminal"} else 0.7
    if word == "storm":
        surge = {
            "sensor-open",
            "sensor-shorted",
            "sensor-low",
            "sensor-high",
            "controller-input-dead",
            "controller-supply-dead",
        }
        return 4.5 if fault.id in surge else 0.8
    if word == "freeze":
        return 8.0 if fault.id in {"sensor-zero-shift", "port-blocked"} else 0.8
    if word == "drained":
        return 4.0 if fault.id in {"sensor-cock-shut", "vacuum"} else 1.0
    if word == "filter":
        return 4.0 if fault.id == "tap-wrong-side" else 1.0
    return 2.0 if word == "power-cut" and fault.head in {"controller", "setting"} else 1.0


def _since(case: Case, rng: Stream) -> str:
    fault = case.fault
    since_new = fault.id in {"tap-wrong-side", "noise-pickup", "shield-looped"} or fault.head in {
        "setting",
        "swapped",
        "rotated",
        "reversed",
    }
    weights = {
        "new-system": 0.35 if since_new else 0.03,
        "gradual": 0.65 if fault.id in GRADUAL or fault.head in {"resistive", "leakage"} else 0.12,
        "sudden": 0.7,
    }
    return rng.weighted(weights)


def _when(case: Case, rng: Stream) -> str:
    fault = case.fault
    weights = {
        "always": 1.0,
        "sometimes": 0.12,
        "rain": 0.03,
        "running": 0.04,
        "night": 0.02,
        "rest": 0.03,
        "start": 0.03,
    }
    if fault.head == "intermittent":
        weights["sometimes"] = 2.0
    if fault.head == "leakage" or fault.id == "sensor-wet-vent":
        weights["rain"] = 0.35
    if fault.id == "noise-pickup" and fault.variant == "drive":
        weights["running"] = 2.0
    if fault.id == "vacuum":
        weights["rest"] = 0.6
    return rng.weighted(weights)


def draw_complaint(case: Case, rng: Stream) -> dict[str, object]:
    """Return a complaint table without ``shown``, which the visit adds from the screen; often empty."""
    if not rng.chance(0.55):
        return {}
    table: dict[str, object] = {}
    if rng.chance(0.5):
        table["text"] = rng.choice(TEXTS)
    if rng.chance(0.6):
        table["since"] = _since(case, rng)
    if rng.chance(0.5):
        table["when"] = _when(case, rng)
    changed = [word for word, base in CHANGED.items() if rng.chance(min(0.75, base * _lift(case, word)))]
    if rng.chance(0.7) and (changed or rng.chance(0.4)):
        table["changed"] = changed or ["nothing"]
    return table
