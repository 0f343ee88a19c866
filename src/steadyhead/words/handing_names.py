"""How a visit was handed over, in a few words."""

from __future__ import annotations

HANDED_WAYS: dict[str, str] = {
    "file": "as a file",
    "shared": "by sharing",
    "everything": "with everything",
    "sync": "over the network",
    "came": "it came from there",
}
