"""What the tests' apps share of their templates is what each would compile itself."""

from __future__ import annotations

from jinja2 import DictLoader, Environment

from tests.compiled import Compiled


def test_a_template_is_compiled_once_and_another_text_for_itself() -> None:
    """By hand: three apps, two texts under one name."""
    kept = Compiled()
    texts = ("{{ a }} psi", "{{ a }} bar", "{{ a }} psi")
    apps = [Environment(loader=DictLoader({"page": text}), bytecode_cache=kept, autoescape=True) for text in texts]
    assert [app.get_template("page").render(a=7) for app in apps] == ["7 psi", "7 bar", "7 psi"]
    assert len(kept._codes) == 2
