"""What is asked of a pressure tank, the answers, and what its figures are called."""

from __future__ import annotations

TANK_ASKS: dict[str, str] = {
    "volume": "{tank:region}'s whole volume",
    "precharge": "pre-charge, {tank:region} empty of water",
    "wake": "pump wakes (cuts in) at",
    "stop": "pump stops (cuts out) at",
    "draw": "what is drawn: a drip, one tap",
    "refill": "what the pump gives between wake and stop",
    "motor": "the motor",
}

TANK_ANSWERS: dict[str, str] = {"small": "up to 3/4 hp", "large": "above 3/4 hp"}

TANK_FIGURES: dict[str, str] = {
    "tank-drawdown": "water that the {tank:region} gives",
    "tank-wake": "wake pressure",
    "tank-stop": "stop pressure",
    "tank-draw": "what is drawn",
    "tank-refill": "what the pump gives",
    "tank-lasts": "it lasts",
    "tank-starts": "starts an hour at that draw",
    "tank-most-starts": "most starts an hour, at any draw",
}
