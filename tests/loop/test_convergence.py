"""How often the solver answers: a small count of what ``benchmarks/convergence.py`` counts over 100,000 circuits."""

from __future__ import annotations

from itertools import islice

from benchmarks.convergence import Count, counting, report

COUNT = 2000


def counted() -> Count:
    """Return the count over a few circuits."""
    return list(islice(counting(COUNT, 11), COUNT))[-1]


def test_every_random_circuit_is_answered_and_obeys_kirchhoff() -> None:
    """Kirchhoff's current law, summed up naively; 100,000 circuits gave 0 refusals."""
    seen = counted()
    assert sum(seen.ways.values()) == COUNT
    assert seen.wrong == []
    assert seen.refused == []


def test_the_report_names_what_was_refused_and_what_was_wrong() -> None:
    """A count that hides a failure would prove nothing."""
    seen = Count(refused=["a loop: no operating point"], wrong=["another loop: 0.5"])
    seen.ways["direct"] = 2
    assert "a loop: no operating point" in report(seen)
    assert "another loop: 0.5" in report(seen)
