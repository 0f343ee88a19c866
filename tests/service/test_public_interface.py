"""What `from steadyhead import ...` gives, and nothing else."""

from __future__ import annotations

import pytest

import steadyhead
from steadyhead.diagnosis.diagnose import diagnose
from steadyhead.errors import InputError, SteadyheadError, VisitFileError
from steadyhead.service.diagnosis import diagnose_text
from steadyhead.visit import load_visit, parse_visit
from steadyhead.words import Speaker

PUBLIC = {
    "load_visit": load_visit,
    "parse_visit": parse_visit,
    "diagnose": diagnose,
    "diagnose_text": diagnose_text,
    "Speaker": Speaker,
    "SteadyheadError": SteadyheadError,
    "InputError": InputError,
    "VisitFileError": VisitFileError,
}


def test_the_public_names_are_these() -> None:
    """The list above."""
    assert set(steadyhead.__all__) == {*PUBLIC, "__version__"}
    assert dir(steadyhead) == sorted(steadyhead.__all__)


@pytest.mark.parametrize("name", PUBLIC)
def test_a_public_name_is_the_thing_itself(name: str) -> None:
    """The module where it lives."""
    assert getattr(steadyhead, name) is PUBLIC[name]


def test_another_name_is_no_attribute() -> None:
    """Python's own rule for modules."""
    with pytest.raises(AttributeError, match="no attribute 'nonsense'"):
        _ = steadyhead.nonsense
