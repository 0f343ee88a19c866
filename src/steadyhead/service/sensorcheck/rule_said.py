"""By which rule a sensor check was decided, for a reader."""

from __future__ import annotations

from steadyhead.messages import Message, message
from steadyhead.sensorcheck.conformity import Rule


def rule_said(rule: Rule, tolerance_pa: float) -> Message:
    """Return by which rule it was decided, with the tolerance [Pa].

    >>> rule_said(Rule(kind="simple"), 6895.0).id
    'checked-rule-simple'
    """
    if rule.kind == "simple":
        return message("checked-rule-simple", tolerance=tolerance_pa)
    if rule.kind == "specific-risk":
        return message("checked-rule-specific-risk", risk=1.0 - rule.level, tolerance=tolerance_pa)
    return message("checked-rule-guard-band", guard=rule.guard, coverage=rule.coverage, tolerance=tolerance_pa)
