"""Five plain lines that a house call sees: what was checked, good or not, what kind of error, how sure, what to do.

Rules
-----
1. There are always five, in this order.
2. Good or not is the judgement's own outcome; nothing is decided here.
3. A kind of error is named where it stands out: above half of what is allowed, and twice the next one; zero and span,
   which are told against the gauge, beyond the check's own uncertainty too.
4. A setting is advised where it brings a sensor that is not good within half of what is allowed, and nothing refuses
   it. Where it makes up for more than `MOVED_FAR` of that, the sensor is to be replaced all the same: what moved so far
   moves on (common practice).
5. A sensor of which nothing can be told is never condemned.
6. Once something was changed, a signal that is off by what a setting makes up for may have been made up for: only the
   display shows that.
"""

from __future__ import annotations

from steadyhead.messages import Message, message
from steadyhead.sensorcheck.adjusting import Adjustment
from steadyhead.sensorcheck.characteristics import Characteristics
from steadyhead.sensorcheck.judging import JudgedLevel, Judgement
from steadyhead.sensorcheck.run import CheckRun

STANDS_OUT = 0.5  #: of what is allowed
TWICE = 2.0
MOVED_FAR = 3.0  #: times what is allowed
WELL_WITHIN = 0.5  #: of what is allowed


def five_lines(
    run: CheckRun, found: Characteristics, judged: Judgement, adjusted: Adjustment
) -> tuple[Message, Message, Message, Message, Message]:
    """Return the lines.

    Parameters
    ----------
    run, found, judged, adjusted
        The run, and what was worked out of it.
    """
    worst = worst_of(judged)
    return (
        _checked(run, found), _outcome(judged, worst), _kind(found, judged.tolerance.value, _expanded(worst)),
        _sure(judged, worst), _advice(run, judged, adjusted),
    )  # fmt: skip


def worst_of(judged: Judgement) -> JudgedLevel:
    """Return the level that the outcome hangs on: the farthest off of those that have it."""
    mine = [each for each in judged.levels if each.decision.outcome == judged.outcome]
    return max(mine or judged.levels, key=_off)


def _off(each: JudgedLevel) -> float:
    """Return how far off a level is: its mean error, or half of what up and down differ by."""
    up, down = each.level.up, each.level.down
    half = 0.0 if up is None or down is None else abs(down.value - up.value) / 2.0
    return max(abs(each.decision.error.value), half)


def _checked(run: CheckRun, found: Characteristics) -> Message:
    low, high = found.levels[0].pressure.value, found.levels[-1].pressure.value
    return message(
        "lines-checked" if run.serial else "lines-checked-no-serial", serial=run.serial, count=len(found.points),
        low=low, high=high, share=(high - low) / found.span.value,
    )  # fmt: skip


def _outcome(judged: Judgement, worst: JudgedLevel) -> Message:
    error = worst.decision.error.value
    values = {"worst": abs(error), "at": worst.level.pressure.value, "tolerance": judged.tolerance.value}
    if judged.outcome == "pass":
        return message("lines-pass", **values)
    if judged.outcome == "cannot-tell":
        return message("lines-cannot-tell", **values)
    if worst.decision.because.id == "decision-sticks":
        return message("lines-fail-sticks", **{**values, "worst": 2.0 * _off(worst)})
    return message("lines-fail-high" if error > 0 else "lines-fail-low", **values)


def _kind(found: Characteristics, tolerance: float, unsure: float) -> Message:
    """Return what kind of error stands out of what is allowed, and of what the check is unsure of."""
    if found.zero is None or found.sensor_span is None:
        return message("lines-kind-one-level")
    sizes = {
        "zero": abs(found.zero.value),
        "span": abs(found.sensor_span.value),
        "bend": 0.0 if found.linearity is None else found.linearity.independent.value,
        "sticks": 0.0 if found.hysteresis is None else found.hysteresis.value,
    }
    first, second = sorted(sizes, key=lambda each: -sizes[each])[:2]
    by_gauge = unsure if first in {"zero", "span"} else 0.0
    if sizes[first] < max(STANDS_OUT * tolerance, by_gauge):
        return message("lines-kind-none", greatest=sizes[first])
    if sizes[first] < TWICE * sizes[second]:
        return message("lines-kind-mixed", zero=found.zero.value, span=found.sensor_span.value)
    return _standing_out(first, found.zero.value if first == "zero" else found.sensor_span.value, sizes[first])


def _standing_out(kind: str, signed: float, size: float) -> Message:
    """Return the one kind that stands out; zero and span have a sign."""
    if kind == "zero":
        return message("lines-kind-zero", off=signed)
    if kind == "span":
        return message("lines-kind-span", off=signed)
    return message("lines-kind-bend", off=size) if kind == "bend" else message("lines-kind-sticks", off=size)


def _sure(judged: Judgement, worst: JudgedLevel) -> Message:
    """Return how sure that is; where nothing can be told, what would tell."""
    if judged.outcome == "cannot-tell" and worst.settle:
        return worst.settle[0]
    return message("lines-sure", expanded=_expanded(worst), chance=worst.decision.rule.coverage)


def _expanded(worst: JudgedLevel) -> float:
    """Return the expanded uncertainty of the level that the outcome hangs on [Pa]."""
    return worst.point.budget.expanded(worst.decision.rule.coverage).expanded


def _advice(run: CheckRun, judged: Judgement, adjusted: Adjustment) -> Message:
    if judged.outcome == "pass":
        return message("lines-do-nothing")
    if judged.outcome == "cannot-tell":
        return message("lines-do-not-condemn")
    tolerance, left = judged.tolerance.value, adjusted.worst_after
    helps = not adjusted.refused and left is not None and left <= WELL_WITHIN * tolerance
    if not helps or adjusted.low is None or adjusted.high is None:
        return message("lines-do-replace")
    if run.stage == "as-left" and run.read_as == "signal":
        return message("lines-do-read-display")
    values = {"low": adjusted.low.value, "high": adjusted.high.value, "left": left}
    far = adjusted.worst_before > MOVED_FAR * tolerance
    return message("lines-do-set-and-replace", **values) if far else message("lines-do-set", **values)
