"""A message is a value: two that say the same are one."""

from __future__ import annotations

from steadyhead.messages import message


def test_equal_messages_are_one_in_a_set_whatever_the_order_of_their_values() -> None:
    """A property of values: equal, hence of one hash."""
    one, other = message("limit", low=1, words=("a", "b")), message("limit", words=("a", "b"), low=1.0)
    assert one == other
    assert {one, other, message("limit", low=2, words=("a", "b"))} == {one, message("limit", low=2, words=("a", "b"))}
    assert list(dict.fromkeys((one, message("limit"), other))) == [one, message("limit")]
