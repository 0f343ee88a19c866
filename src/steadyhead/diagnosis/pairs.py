"""Two faults with one cause: which faults come together, how often, and which of them caused the other.

Everything that affects which pairs are always suspected lives in this file.

Rules
-----
1. A cause has a share of 100 calls; the pairs that it can leave behind divide it by their faults' shares in their
   families.
2. Where one fault causes the other it stands first: mend the second alone and it comes back. A surge and a frost come
   from outside and leave both.
3. A mended part may hide the other one of its pair, and a new part may be wrong itself: once something was mended, what
   is left over is likelier by as much.
4. A pair without a cause is two calls on one day: rare, and looked at only where no single fault will do.
5. The figures are the estimates of an experienced eye: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from steadyhead.loop.faults import FAULTS, Fault, faults_of
from steadyhead.messages import Message, message


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """One thing that leaves two faults.

    Parameters
    ----------
    id
        The word for it; the message that tells it is ``cause-`` and this.
    first, second
        Faults of which it leaves one each; where `leads`, the first causes the second.
    per_100
        Its share of 100 calls.
    reason
        Why that many.
    leads
        Whether the first fault is the root of the second, or both come from outside.
    place
        How the place of the first fault begins, where only there the second follows from it.
    """

    id: str
    first: tuple[str, ...]
    second: tuple[str, ...]
    per_100: float
    reason: str
    leads: bool = True
    place: str = ""


#: What a surge or a wrong wire leaves of a sensor.
_KILLED = ("sensor-open", "sensor-shorted", "sensor-low")

CAUSES: tuple[Cause, ...] = (
    Cause(id="surge-input", first=(*_KILLED, "sensor-high"), second=("controller-input-dead",), per_100=2.0,
          leads=False, reason="a storm is behind one call in ten; a quarter leave two dead parts, mostly these"),
    Cause(id="surge-power", first=("sensor-open", "sensor-low"), second=("controller-supply-dead",), per_100=0.3,
          leads=False, reason="the sensor's power dies less often with it than the input does"),
    Cause(id="shorted-power", first=("sensor-shorted",), second=("controller-supply-dead",), per_100=0.4,
          reason="a suppressor that fails shorts the sensor; what feeds it burns out in one case of six or so"),
    Cause(id="wet-plug", first=("leakage-supply-signal", "leakage-signal-common", "leakage-supply-common"),
          second=("sensor-zero-shift", "sensor-low"), per_100=2.0, place="plug",
          reason="water in the plug goes on into the sensor in one case of three"),
    Cause(id="wet-power", first=("leakage-supply-common",), second=("controller-supply-weak", "controller-supply-dead"),
          per_100=0.6, place="plug", reason="damp across its power overheats the sensor supply in one case of ten"),
    Cause(id="cooked", first=("swapped-supply-common", "swapped-supply-signal", "reversed"), second=_KILLED,
          per_100=0.7, reason="most sensors stand wrong wires for a while; one in seven does not"),
    Cause(id="falling-column", first=("tap-wrong-side",), second=("vacuum",), per_100=0.6,
          place="lower", reason="a tapping before the check valve hangs on the column that falls back"),
    Cause(id="frost", first=("port-blocked",), second=("sensor-zero-shift",), per_100=0.4,
          leads=False, reason="ice in the port leaves the diaphragm bulged"),
)  # fmt: skip

#: How often two faults without a common cause meet: this part of the product of their chances.
COINCIDENCE = 0.06

#: What a repair leaves behind of itself: fault, its chance, and why.
AFTERMATH: dict[str, tuple[tuple[str, float, str], ...]] = {
    "replace-sensor": (
        ("sensor-wrong-part", 0.015, "the new one is another range, signal or pinout"),
        ("sensor-open", 0.005, "the new one is dead"),
        ("swapped-common-signal", 0.01, "its wires landed otherwise"),
        ("reversed", 0.01, "its wires landed otherwise"),
    ),
    "replace-board": (
        ("setting-range", 0.05, "the new one still has its maker's settings"),
        ("setting-signal-kind", 0.03, "the new one still has its maker's settings"),
        ("setting-input", 0.02, "the new one still has its maker's settings"),
    ),
    "repair-cable": (
        ("swapped-common-signal", 0.01, "its wires landed otherwise"),
        ("reversed", 0.01, "its wires landed otherwise"),
    ),
}
#: What was just mended is wrong still, or again, this much more seldom than before.
MENDED_AGAIN = 0.2

#: Families whose members make no pair.
_SINGLE = frozenset(("nothing", "loose"))
_BY_ID: dict[str, Fault] = {fault.id: fault for fault in FAULTS}


@dataclass(frozen=True, slots=True)
class Pair:
    """Two faults, the root first where there is one, with their share of 100 calls and what left them."""

    first: Fault
    second: Fault
    per_100: float
    cause: Cause

    @property
    def remedies(self) -> tuple[str, str]:
        """What mends the first, and what mends the second."""
        return self.first.remedy, self.second.remedy


def pair_id(*faults: str) -> str:
    """Return the id of a suspect: its faults' ids, sorted.

    >>> pair_id("sensor-open", "controller-input-dead"), pair_id("vacuum")
    ('controller-input-dead+sensor-open', 'vacuum')
    """
    return "+".join(sorted(faults))


def pair_remedy(*remedies: str) -> str:
    """Return what mends all of a suspect's faults, each remedy once.

    >>> pair_remedy("replace-sensor", "replace-board"), pair_remedy("repair-cable", "repair-cable")
    ('replace-board+replace-sensor', 'repair-cable')
    """
    return "+".join(sorted(set(remedies)))


def covers(remedy: str, part: str) -> bool:
    """Tell whether a remedy does all that another one does.

    >>> covers("replace-board+replace-sensor", "replace-sensor"), covers("replace-sensor", "replace-board")
    (True, False)
    """
    return set(part.split("+")) <= set(remedy.split("+"))


def common_pairs(wires: int, kind: str) -> list[Pair]:
    """Return the pairs with a common cause that a loop with this many wires and this kind of sensor can have."""
    here = {fault.id for fault in faults_of(wires, kind)}
    found = []
    for cause in CAUSES:
        firsts = [_BY_ID[id_] for id_ in cause.first if id_ in here]
        seconds = [_BY_ID[id_] for id_ in cause.second if id_ in here]
        whole = sum(a.share * b.share for a in firsts for b in seconds)
        found += [Pair(a, b, cause.per_100 * a.share * b.share / whole, cause) for a in firsts for b in seconds]
    return found


def cause_of(*faults: str) -> Cause | None:
    """Return what leaves these two faults together; None for any other."""
    both = set(faults)
    for cause in CAUSES:
        if len(both) == 2 and both & set(cause.first) and both & set(cause.second):
            return cause
    return None


def root_of(*faults: str) -> Message | None:
    """Return what tells how two faults came to be together: which was first, or what left both; None where nothing did.

    >>> told = root_of("sensor-open", "reversed")
    >>> told.id, told.values["root"]
    ('cause-cooked', 'reversed')
    """
    cause = cause_of(*faults)
    if cause is None:
        return None
    first = next(fault for fault in sorted(faults) if fault in cause.first)
    other = next(fault for fault in faults if fault != first)
    return message(f"cause-{cause.id}", root=first if cause.leads else None, consequence=other if cause.leads else None)


def together(first: Fault, second: Fault) -> bool:
    """Tell whether two faults make a pair at all: of two parts, so that the second would be seen beside the first.

    A wire that is open now and then looks as the open one does, or as nothing.
    """
    sensors = first.remedy == second.remedy == "replace-sensor"
    return first.family != second.family and not sensors and _SINGLE.isdisjoint({first.family, second.family})


def left_over(mended: frozenset[str], pairs: list[Pair], odds: Mapping[str, float]) -> dict[str, float]:
    """Return the chance that each fault is what a repair has left, given that the repair was right.

    Parameters
    ----------
    mended
        Remedies that were carried out.
    pairs
        Pairs with a common cause that this loop can have.
    odds
        Each single fault's chance before the first reading.
    """
    found: dict[str, float] = {}
    for remedy in sorted(mended):
        alone = sum(odds[fault.id] for fault in FAULTS if fault.remedy == remedy and fault.id in odds)
        for pair in pairs:
            for part, other in ((pair.first, pair.second), (pair.second, pair.first)):
                if part.remedy == remedy and other.remedy not in mended and alone > 0.0:
                    found[other.id] = found.get(other.id, 0.0) + pair.per_100 / 100.0 / alone
        for fault, chance, _ in AFTERMATH.get(remedy, ()):
            if fault in odds:
                found[fault] = found.get(fault, 0.0) + chance
    return found
