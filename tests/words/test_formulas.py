"""The words of a formula: each that the program writes can be said in another language."""

from __future__ import annotations

import ast
import re
from pathlib import Path
from string import Formatter

import pytest

import steadyhead
from steadyhead.words.formulas import FORMULAS
from steadyhead.words.phrases import phrase
from steadyhead.words.speaker import Speaker

#: Small words that only a sentence has; no id of a figure is one of them.
SENTENCE = re.compile(r"(?<![\w-])(of|the|from|what|this|after|before|all|as|over|at|on|less|and)(?![\w-])")


def written(node: ast.expr) -> str:
    """Return a text of the source as it will be, its values as the id ``level``."""
    if isinstance(node, ast.JoinedStr):
        return "".join(written(part) for part in node.values)
    return str(node.value) if isinstance(node, ast.Constant) else "level"


def texts_in(node: ast.expr) -> list[ast.expr]:
    """Return the texts of an expression: itself, or those that it chooses between."""
    if isinstance(node, ast.IfExp):
        return [*texts_in(node.body), *texts_in(node.orelse)]
    return [node] if isinstance(node, (ast.Constant, ast.JoinedStr)) else []


def formulas() -> set[str]:
    """Return every formula that stands in the source, under its name or in a table of them."""
    found: set[str] = set()
    for path in Path(steadyhead.__path__[0]).rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.keyword) and node.arg == "formula":
                found.update(written(each) for each in texts_in(node.value))
            if (
                isinstance(node, ast.Assign)
                and isinstance(node.targets[0], ast.Name)
                and (node.targets[0].id in {"FACTOR", "FORETOLD", "SHARE", "LINE", "_OFF"})
            ):
                found.add(written(node.value))
    return found


def bare(template: str) -> str:
    """Return a template without its words."""
    return " ".join(f"{{{name}}}" for _, name, _, _ in Formatter().parse(template) if name)


@pytest.mark.parametrize("formula", sorted(formulas()))
def test_a_formula_is_the_same_in_english_and_has_no_words_of_its_own(formula: str) -> None:
    """Put together again it is what it was; without the templates' words no sentence is left of it."""
    assert phrase(formula, lambda template: template, FORMULAS) == formula
    assert not SENTENCE.search(phrase(formula, bare, FORMULAS))


def test_the_figures_of_a_formula_have_their_names_and_its_words_are_said() -> None:
    """A line drawn on to an end names what it is drawn through (the names are those of the table of figures)."""
    formula = "least-squares line of mean-error on level, drawn on to range-low"
    said = Speaker().tell("paper-formula", name="zero-error", formula=formula)
    assert said == (
        "Zero error = least-squares line of mean error of the level on pressure of the level, drawn on to lower end of "
        "the transducer's range."
    )
