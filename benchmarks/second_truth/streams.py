"""Random streams that belong to names, so that asking in another order changes no reading."""

from __future__ import annotations

import hashlib
import math
import random
from collections.abc import Mapping, Sequence
from typing import TypeVar

T = TypeVar("T")


class Stream(random.Random):
    """A seeded stream with the few distributions that cases and readings need."""

    def chance(self, probability: float) -> bool:
        """Say yes with the given probability."""
        return self.random() < probability

    def log_uniform(self, low: float, high: float) -> float:
        """Draw evenly in decades, as resistances of bad joints and of damp are met."""
        return math.exp(self.uniform(math.log(low), math.log(high)))

    def bounded(self, limit: float) -> float:
        """Draw an error of an instrument that keeps its limit: most errors are well inside it."""
        while True:
            error = self.gauss(0.0, limit / 2.2)
            if abs(error) <= limit:
                return error

    def weighted(self, weights: Mapping[T, float]) -> T:
        """Draw one key by its weight."""
        keys: Sequence[T] = list(weights)
        return self.choices(keys, [weights[key] for key in keys])[0]


def stream(*names: object) -> Stream:
    """Return the stream of these names: SHA-256, for Python's own hash differs from run to run."""
    text = "\x1f".join(str(name) for name in names)
    return Stream(int.from_bytes(hashlib.sha256(text.encode()).digest()[:16], "big"))
