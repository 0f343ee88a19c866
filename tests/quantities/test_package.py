"""The face of the package: what it exports, what it says about its refusals, what it costs to import."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

import steadyhead.quantities
from steadyhead import quantities

HOME = Path(steadyhead.quantities.__file__).parent


def test_every_exported_name_exists() -> None:
    """Expected: the names that `__all__` promises."""
    for name in quantities.__all__:
        assert hasattr(quantities, name), name


def test_every_refusal_in_the_code_is_listed_in_the_docstring_and_none_besides() -> None:
    """Expected: the ids that the sources of the package raise."""
    sources = "".join(path.read_text(encoding="utf-8") for path in sorted(HOME.glob("*.py")) if path.stem != "__init__")
    raised = set(re.findall(r'because="([a-z-]+)"', sources)) | set(re.findall(r'"(pressure-must-be-[a-z]+)"', sources))
    listed = set(re.findall(r"^``([a-z-]+)``", quantities.__doc__ or "", flags=re.MULTILINE))
    assert listed == raised


@pytest.mark.laptop
def test_reading_a_quantity_imports_neither_pint_nor_difflib() -> None:
    """Expected: start-up stays quick because the libraries that take long are not touched."""
    slow = ("pint", "difflib", "fractions", "decimal", "steadyhead.published")
    program = (
        "import sys; from steadyhead.quantities import parse; parse('62 psi', 'pressure');"
        f"print([name for name in {slow!r} if name in sys.modules])"
    )
    ran = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True, timeout=60)
    assert ran.stdout.strip() == "[]"
