"""What a technician sees on arrival, as the first tap: each with what it says of the call in the visit file's words.

Everything that affects what the first tap puts into the record lives in this file.

Rules
-----
1. A tap says only what is seen. What the customer said, and what came before, is asked on a page of its own.
2. What the wordlist of a complaint has no word for stays in its text.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

#: Keys of [complaint], by what is seen; its name becomes the text.
COMPLAINTS: dict[str, Mapping[str, Any]] = {
    "low-signal": {"shown": ["low-signal"]},
    "high-signal": {"shown": ["high-signal"]},
    "reads-wrong": {"shown": ["none"]},
    "jumps": {"when": "sometimes"},
    "flat-out": {},
    "no-water": {"shown": ["none"]},
    "other": {},
}
