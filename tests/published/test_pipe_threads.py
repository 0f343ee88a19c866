"""The pipe threads, against the formulas of their own standards."""

from __future__ import annotations

import pytest

from steadyhead.errors import UnknownWordError
from steadyhead.published.pipe_threads import HAND_TIGHT_MM, THREADS, Thread, parted_mm, thread_named

#: Outside diameter of the pipe [in] (ASME B36.10), and outside diameter of the ISO thread [mm] (ISO 7-1), from memory.
PIPE_IN = {"1/8": 0.405, "1/4": 0.540, "3/8": 0.675, "1/2": 0.840}
MAJOR_MM = {"1/8": 9.728, "1/4": 13.157, "3/8": 16.662, "1/2": 20.955}


@pytest.mark.parametrize("thread", [each for each in THREADS if each.family == "NPT"], ids=lambda each: each.word)
def test_npt_pitch_diameters_come_of_the_formula_in_the_standard(thread: Thread) -> None:
    """ASME B1.20.1: E0 = D - (0.05 D + 1.1) P; E1 = E0 + L1 / 16 (the taper)."""
    outside, pitch = PIPE_IN[thread.size], 1 / thread.per_inch
    first = outside - (0.05 * outside + 1.1) * pitch
    engaged = HAND_TIGHT_MM[thread.size] / 25.4
    assert thread.pitch_diameter_mm == pytest.approx(25.4 * (first + engaged / 16), abs=0.002)


@pytest.mark.parametrize("thread", [each for each in THREADS if each.family != "NPT"], ids=lambda each: each.word)
def test_iso_pitch_diameters_are_the_outside_less_the_whitworth_depth(thread: Thread) -> None:
    """ISO 7-1: the depth is 0.640327 of the pitch, and the pitch is 25.4 mm over the threads to the inch."""
    assert thread.pitch_diameter_mm == pytest.approx(
        MAJOR_MM[thread.size] - 0.640327 * 25.4 / thread.per_inch, abs=0.001
    )


def test_threads_of_one_pitch_do_not_part() -> None:
    """1/2: 14 threads to the inch in both standards."""
    assert parted_mm(thread_named("1/2 NPT"), thread_named("G 1/2")) == pytest.approx(0.0)


def test_a_thread_that_is_not_there_is_named_with_those_that_are() -> None:
    """The table's own words."""
    with pytest.raises(UnknownWordError, match=r"^word-unknown .*1/4 NPT"):
        thread_named("1/4 BSP")
