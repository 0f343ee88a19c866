"""Which suspects are looked at closely, and how far a look at one goes on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import inf, isclose, log

import pytest

from steadyhead.diagnosis import fitting, lines
from steadyhead.diagnosis.cells import cells
from steadyhead.diagnosis.fitting import Fit
from steadyhead.diagnosis.lines import Group
from steadyhead.diagnosis.makes import COMMON, Latents
from steadyhead.diagnosis.observing import CONTINUOUS, observations
from steadyhead.diagnosis.over_makes import _begun
from steadyhead.diagnosis.rough import HOPELESS, Start, first_pass
from tests.diagnosis.visits import FULL_VAN, HOUSE, gauge, reading, signal, supply, system

#: Figures that no sensor makes: at 48 psi of 100 the plate's line gives 2.42 V, and two free cores are insulated; 150
#: ohm between them are damp (Ohm's law), whatever the display showed.
DAMP = (
    HOUSE + FULL_VAN + gauge("48 psi") + signal("1.40 V")
    + reading("ohms", "150 ohm", arrangement="dead-both-free", red="wire.signal", black="wire.common")
    + reading("ohms", "OL", arrangement="dead-both-free", red="wire.supply", black="wire.common")
)  # fmt: skip
#: Nothing of the kind: the sensor alone is off, and the rest is sound.
SHIFTED = HOUSE + FULL_VAN + gauge("48 psi") + signal("1.40 V") + supply("5.00 V")


def grouped(text: str) -> list[Group]:
    """Return a visit's figures by the hook-up."""
    seen = [o for o in observations(system(text)) if o.question.measure in CONTINUOUS]
    stances = sorted({o.stance for o in seen}, key=repr)
    return [Group(stance, tuple(o for o in seen if o.stance == stance)) for stance in stances]


def looked_at(text: str) -> set[str]:
    """Return the suspects that are fitted where the damp promised too little at first, and the sensor enough."""
    told, groups = system(text), grouped(text)
    suspects = ("sensor-zero-shift", "none", "leakage-signal-common")
    weights = [(log(cell.weight), cell) for cell in cells(told) if cell.fault in suspects]
    starts = first_pass(told, weights, groups)
    most = max(start.score for start in starts)
    behind: Sequence[Start] = [
        replace(s, score=most - HOPELESS - 1.0) if s.cell.fault == "leakage-signal-common" else s for s in starts
    ]
    return {fit.cell.fault for fit in _begun(told, behind, groups, alike=False)}


def test_where_what_promised_most_fits_badly_what_promised_less_is_looked_at_too() -> None:
    """Ohm's law: no sensor leaves 150 ohm between two free cores; the damp, left behind at first, does."""
    assert "leakage-signal-common" in looked_at(DAMP)


def test_where_what_promised_most_fits_what_promised_less_is_left_alone() -> None:
    """The rule: a look that is not needed costs time; a shifted sensor explains 1.40 V beside 5.00 V."""
    assert "leakage-signal-common" not in looked_at(SHIFTED)


@pytest.fixture
def hook_ups(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Note each hook-up that a search looks at."""
    noted: list[str] = []
    bare = lines.bare

    def noting(*arguments: object) -> object:
        noted.append(next(a for a in arguments if isinstance(a, Group)).stance.arrangement)
        return bare(*arguments)  # type: ignore[arg-type]

    monkeypatch.setattr(fitting, "bare", noting)
    return noted


def healthy(text: str) -> Fit:
    """Return a sound loop, looked at once against a visit's readings."""
    told = system(text)
    cell = next(c for c in cells(told) if c.fault == "none" and c.make == COMMON[0])
    fit = Fit(told, Start(cell, 0.0, 0.0, 0.0, Latents(), {}), grouped(text))
    assert fit.look(Latents())
    return fit


def test_a_point_that_misses_more_already_is_looked_at_no_further(hook_ups: list[str]) -> None:
    """The rule, counted: the hook-up that was missed most comes first, and decides alone.

    A sound house unplugged shows 0 V, so 3 V are missed by far; 2.42 V at 48 psi are what the plate promises.
    """
    fit = healthy(HOUSE + FULL_VAN + gauge("48 psi") + signal("2.42 V") + signal("3.00 V", "sensor-unplugged"))
    whole, looks = fit.misses(Latents(), inf)
    assert hook_ups == ["sensor-unplugged", "connected"]
    assert len(looks) == 2
    hook_ups.clear()
    assert fit.misses(Latents(), 0.5 * whole)[0] == inf
    assert hook_ups == ["sensor-unplugged"]


def test_a_point_that_misses_less_is_told_with_all_that_it_misses(hook_ups: list[str]) -> None:
    """A sum: what is missed in each hook-up alone, whatever bound lies above it."""
    texts = signal("2.42 V"), signal("3.00 V", "sensor-unplugged")
    alone = [healthy(HOUSE + FULL_VAN + gauge("48 psi") + text).misses(Latents(), inf)[0] for text in texts]
    both = healthy(HOUSE + FULL_VAN + gauge("48 psi") + "".join(texts))
    assert isclose(both.misses(Latents(), sum(alone) + 1.0)[0], sum(alone), rel_tol=1e-9)
    assert len(hook_ups) == 4
