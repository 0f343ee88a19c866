"""Keeps each language's texts beside the English ones: a ``.po`` file for a module of words, one ``.mo`` of them all.

Rules
-----
1. A text belongs to the first module of words that has it; a module comes after those that it imports. The help of
   the commands stands with the commands, and has a file of its own (`HELP`): what no module of words has.
2. A new text comes in without its translation, a text that is gone is dropped, one that only moved keeps what it has.
3. What is not translated yet is left out of the ``.mo``, and is said in English.
4. The same ``.po`` files make the same ``.mo``, byte for byte: nothing in it tells when or where.
5. A translation holds the English text's values, each as often and said in the same way, with a capital where it
   wants one; and it ends with the same sign.

``python -m builders.translations --write`` with ``src`` on the path renews both; ``--check`` tells what is wrong or
missing in them, and fails where anything is.
"""

from __future__ import annotations

import argparse
import ast
import pkgutil
import re
import sys
from collections.abc import Iterator, Mapping
from importlib import import_module
from io import BytesIO
from pathlib import Path
from string import Formatter

from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from steadyhead import words
from steadyhead.cli.command_line import help_texts
from steadyhead.words.catalogue import texts
from steadyhead.words.names import NAMES
from steadyhead.words.saying import SAYERS
from steadyhead.words.sentences import ENGLISH

ROOT = Path(__file__).parent.parent
SOURCES = ROOT / "translations"
LOCALES = ROOT / "src" / "steadyhead" / "words" / "locale"
#: The file of what the commands' help says.
HELP = "commands_help"
#: What ends a sentence or a line.
ENDS = ".?!:;,…"
#: Common English words that no Spanish text holds, save as what is typed: that stands between « and ».
ENGLISH_WORDS = frozenset((
    "the", "and", "or", "of", "to", "at", "on", "in", "with", "without", "is", "are", "was", "were", "this", "that",
    "these", "those", "what", "which", "from", "when", "where", "not", "have", "has", "been", "by", "for", "its",
    "it", "you", "your", "who", "then", "than", "there", "here", "they", "them", "be", "as", "if", "nobody",
    "nothing", "every", "each", "other", "another", "while", "until", "before", "after", "above", "below",
    "between", "it's", "can't", "don't", "isn't",
))  # fmt: skip
QUOTED = re.compile(r"«[^»]*»|\{[^}]*\}|--[\w-]+|\S+\.toml|\S+ = \S+|[A-Z]+/[A-Z/]+")

Texts = dict[str, tuple[str, ...]]


class Plain(Catalog):
    """A catalogue whose head tells its language and its letters, and nothing of when, by whom and with what."""

    @property  # type: ignore[misc]  # nobody sets them
    def mime_headers(self) -> list[tuple[str, str]]:
        """What stands in the head."""
        return [
            ("Language", str(self.locale)),
            ("MIME-Version", "1.0"),
            ("Content-Type", "text/plain; charset=utf-8"),
            ("Content-Transfer-Encoding", "8bit"),
        ]


def by_module() -> Texts:
    """Return the texts of each module of words, in the order in which they stand there; last those of the help."""
    wanted, found = set(texts()), dict[str, tuple[str, ...]]()
    for name in _in_order():
        own = dict.fromkeys(text for text in _texts_in(name) if text in wanted)
        if own:
            found[name] = tuple(own)
            wanted -= own.keys()
    if wanted:
        raise SystemExit(f"no module of words holds {sorted(wanted)}")
    of_words = set(texts())
    found[HELP] = tuple(text for text in help_texts() if text not in of_words)
    return found


def every_text() -> tuple[str, ...]:
    """Return every text that is translated, sorted."""
    return tuple(sorted({*texts(), *help_texts()}))


def _in_order() -> list[str]:
    """Return the modules of words, each after those that it imports."""
    names = sorted(each.name for each in pkgutil.iter_modules(words.__path__))
    ordered: dict[str, None] = {}

    def put(name: str) -> None:
        if name not in ordered:
            for needed in sorted(_imports(name)):
                put(needed)
            ordered[name] = None

    for name in names:
        put(name)
    return list(ordered)


def _imports(name: str) -> set[str]:
    """Return the modules of words that a module of words imports."""
    tree = ast.parse((Path(words.__path__[0]) / f"{name}.py").read_text(encoding="utf-8"))
    nodes = [node for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) and node.module is not None]
    begin = f"{words.__name__}."
    named = {node.module.removeprefix(begin) for node in nodes if node.module and node.module.startswith(begin)}
    return named | {each.name for node in nodes if node.module == words.__name__ for each in node.names}


def _texts_in(name: str) -> Iterator[str]:
    """Yield every text that stands in a module, alone or in a table."""
    for attribute, value in vars(import_module(f"{words.__name__}.{name}")).items():
        if not attribute.startswith("_"):
            yield from _texts_of(value)


def _texts_of(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        yield from _texts_of(tuple(value.values()))
    elif isinstance(value, tuple | list):
        for each in value:
            yield from _texts_of(each)


def called() -> dict[str, list[str]]:
    """Return by what ids the program knows each text."""
    ids: dict[str, list[str]] = {}
    for id_, text in ENGLISH.items():
        ids.setdefault(text, []).append(id_)
    for kind, names in NAMES.items():
        for id_, text in names.items():
            ids.setdefault(text, []).append(f"{kind} {id_}")
    return ids


def languages() -> list[str]:
    """Return the languages that have sources."""
    return sorted(folder.name for folder in SOURCES.iterdir() if folder.is_dir())


def translated(language: str) -> dict[str, str]:
    """Return what the ``.po`` files of a language say for each text; a text without a translation is not in it."""
    said: dict[str, str] = {}
    for file in sorted((SOURCES / language).glob("*.po")):
        for entry in read_po(BytesIO(file.read_bytes())):
            if entry.id and entry.string:
                said.setdefault(str(entry.id), str(entry.string))
    return said


def po_bytes(language: str, module: str, said: Mapping[str, str]) -> bytes:
    """Return the ``.po`` file of one module."""
    whose = "the commands' help" if module == HELP else f"steadyhead.words.{module}"
    head = f"# The texts of {whose}. Only what stands behind msgstr is written by hand."
    catalog, ids = Plain(locale=language, header_comment=head, charset="utf-8"), called()
    for text in by_module()[module]:
        comments = (", ".join(ids[text]),) if text in ids else ()
        catalog.add(text, said.get(text, ""), auto_comments=comments).flags.clear()
    file = BytesIO()
    write_po(file, catalog, width=0, no_location=True)
    return file.getvalue().replace(b"#, fuzzy\n", b"")


def mo_bytes(language: str, said: Mapping[str, str]) -> bytes:
    """Return the ``.mo`` file of a language: what gettext reads at run time."""
    catalog = Plain(locale=language, charset="utf-8")
    for text in sorted(said):
        catalog.add(text, said[text])
    file = BytesIO()
    write_mo(file, catalog)
    return file.getvalue()


def files(language: str) -> dict[Path, bytes]:
    """Return what each file of a language must hold, by its place."""
    said = translated(language)
    made = {SOURCES / language / f"{module}.po": po_bytes(language, module, said) for module in by_module()}
    made[LOCALES / language / "LC_MESSAGES" / "steadyhead.mo"] = mo_bytes(language, said)
    return made


def missing(language: str) -> list[str]:
    """Return the texts that have no translation."""
    said = translated(language)
    return [text for text in every_text() if text not in said]


def faults(english: str, said: str) -> list[str]:
    """Return what is wrong with a translation, in plain words.

    >>> faults("{count} readings so far.", "{count} readings so far.")
    []
    >>> faults("{count} readings so far.", "Lecturas hasta ahora: {number}")
    ['other values', 'another end']
    """
    checks = {
        "other values": values(said) != values(english),
        "a value that nobody can say": any(spec not in SAYERS for spec in _specs(said)),
        "another end": _end(said) != _end(english),
        "another beginning or end of space": _spaces(said) != _spaces(english),
        "a control character": not said.isprintable(),
    }
    return [what for what, wrong in checks.items() if wrong]


def english_left(said: str) -> list[str]:
    """Return the English words that are left in a translation.

    >>> english_left("Cierre the cock. Escriba «back».")
    ['the']
    """
    plain = QUOTED.sub(" ", said).lower()
    return [word for word in re.findall(r"[^\W\d_][\w'-]*", plain) if word in ENGLISH_WORDS]


def values(template: str) -> list[tuple[str, str]]:
    """Return the values of a template with how each is said, sorted; with a capital or without is all one."""
    parts = Formatter().parse(template)
    return sorted((name, (spec or "").lower()) for _, name, spec, _ in parts if name is not None)


def _specs(template: str) -> list[str]:
    return [spec for _, _, spec, _ in Formatter().parse(template) if spec]


def _end(text: str) -> str:
    last = text.rstrip("»)\"'")[-1:]
    return last if last in ENDS else ""


def _spaces(text: str) -> tuple[int, int]:
    return len(text) - len(text.lstrip()), len(text) - len(text.rstrip())


def wrong(language: str) -> Iterator[str]:
    """Yield a line for everything that is wrong in a language's files, and for what is missing."""
    for path, content in files(language).items():
        if not path.exists() or path.read_bytes() != content:
            yield f"{path.relative_to(ROOT).as_posix()} is not renewed: python -m builders.translations --write"
    for text, said in translated(language).items():
        found = faults(text, said) + [f"left in English: {word}" for word in english_left(said)]
        if found:
            yield f"{'; '.join(found)}\n    {text}\n    {said}"
    yield from (f"not translated: {text}" for text in missing(language))


def write(language: str) -> None:
    """Renew the files of a language, and drop those of modules that are gone."""
    made = files(language)
    for path, content in made.items():
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    for path in (SOURCES / language).glob("*.po"):
        if path not in made:
            path.unlink()


def main() -> int:
    """Write or check every language; return the exit code."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    parser.add_argument("--write", action="store_true", help="renew the .po files and the .mo file")
    parser.add_argument("--check", action="store_true", help="tell what is wrong or missing")
    chosen = parser.parse_args()
    if chosen.write:
        for language in languages():
            write(language)
    lines = [line for language in languages() for line in wrong(language)] if chosen.check else []
    print("\n".join([*lines, f"{len(lines)} to put right"]) if chosen.check else "written")
    return 1 if lines else 0


if __name__ == "__main__":
    sys.exit(main())
