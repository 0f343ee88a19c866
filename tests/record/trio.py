"""Three devices that work on one thing: they meet, send it to one another, and their clocks are set wrong."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from hypothesis import strategies as st

from steadyhead.errors import NotFoundError
from steadyhead.service.record.exchange import export_visit, import_visit
from tests.record.device import Device

WHO, PSI = st.integers(0, 2), st.integers(1, 99)
#: What any three devices do, whatever they work on.
MOVES = ("meet", "send", "clock")


def steps(*words: str) -> st.SearchStrategy[tuple[str, int, int]]:
    """Return steps: a word, who does it, and a figure."""
    return st.tuples(st.sampled_from((*words, *MOVES)), WHO, PSI)


@dataclass
class Trio:
    """Three devices, the one thing that they work on, and all that was ever typed."""

    devices: list[Device] = field(default_factory=lambda: [Device(seed) for seed in range(3)])
    typed: set[str] = field(default_factory=set)
    of: str = ""

    def all_meet(self) -> None:
        """Bring all together, twice round."""
        for _ in range(2):
            for one, other in ((0, 1), (1, 2), (2, 0)):
                self.devices[one].meets(self.devices[other])

    def move(self, step: str, device: Device, psi: int) -> None:
        """Let a device meet another, send it what they work on, or set its clock."""
        other = self.devices[psi % 3]
        if step == "meet" and other is not device:
            device.meets(other)
        elif step == "send":
            import_visit(other.given, export_visit(device.given, self.of))
        elif step == "clock":
            device.clock.now += (psi - 50) * 86_400_000

    def nothing_typed_is_lost(self) -> bool:
        """Tell whether every text stands in some fact of the first device, and the others would send the same."""
        sent = {export_visit(device.given, self.of) for device in self.devices}
        said = _said(self.devices[0])
        return len(sent) == 1 and all(repr(text) in said for text in self.typed)

    def everything_is_gone(self, shown: Callable[[Device], object]) -> bool:
        """Tell whether no device has any text that was typed, nor shows what they worked on."""
        for device in self.devices:
            said = _said(device)
            if any(repr(text) in said for text in self.typed):
                return False
            try:
                shown(device)
            except NotFoundError:
                continue
            return False
        return True


def _said(device: Device) -> str:
    return " ".join(str(dict(fact.body)) for fact in device.store.facts.values())
