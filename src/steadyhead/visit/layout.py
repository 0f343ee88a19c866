"""Where each key of a TOML text stands, so that a problem can name its line and an edit can leave the rest untouched.

Rules
-----
1. The text is cut into tokens once: strings, comments, line ends, signs, bare words. Up to the first syntax error the
   cut is exactly TOML's; what comes after it is never looked at, because the parser stops there as well.
2. A path is a tuple: ``("sensor", "range")``, ``("reading", 2, "value")``, ``("instruments", "gauge", "grade")``.
3. The scan never fails. A text that no parser should be handed (brackets nested without end, a key of a thousand parts)
   is told in `Layout.too_deep`.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

Path = tuple[str | int, ...]

DEEPEST = 16  #: brackets inside brackets, and parts of one dotted key; a visit file needs three

_TOKEN = re.compile(
    r"""
      (?P<string> \"{3}(?:\\.|[^\\])*?\"{3}\"{0,2} | '{3}.*?'{3}'{0,2} | "(?!\"\")(?:\\.|[^"\\\n])*" | '(?!'')[^'\n]*'
                  | \"\"(?!\") | ''(?!') )
    | (?P<stop> ["'] )
    | (?P<comment> \#[^\n]* )
    | (?P<newline> \n )
    | (?P<sign> [\[\]{}=,] )
    | (?P<bare> [^\s"'\#\[\]{}=,]+ )
    """,
    re.DOTALL | re.VERBOSE,
)


class Token(NamedTuple):
    """One token: its kind (a sign is its own kind), its text, and where it starts."""

    kind: str
    text: str
    start: int


class Layout(NamedTuple):
    """Lines and spans of a text's keys.

    Parameters
    ----------
    lines
        Line of each table, key and list item, counted from 1.
    spans
        Start and end of each value in the text.
    headers
        Path and start of each ``[table]`` and ``[[table]]`` line, in the order of the file.
    too_deep
        Line where the nesting passes `DEEPEST`, or None.
    """

    lines: Mapping[Path, int]
    spans: Mapping[Path, tuple[int, int]]
    headers: tuple[tuple[Path, int], ...]
    too_deep: int | None

    def line_of(self, path: Path) -> int | None:
        """Return the line of `path`, or of the nearest table around it, or None where even that is missing."""
        while path:
            if path in self.lines:
                return self.lines[path]
            path = path[:-1]
        return None


def scan(text: str) -> Layout:
    r"""Return where every key of `text` stands.

    >>> layout = scan('schema = 1\n[sensor]\nrange = "0..100 psi"  # plate\n')
    >>> layout.lines["sensor", "range"]
    3
    """
    scanner = _Scanner(text)
    for token in _tokens(text):
        if not scanner.take(token):
            break
    return Layout(scanner.lines, scanner.spans, tuple(scanner.headers), scanner.too_deep)


def _tokens(text: str) -> Iterator[Token]:
    """Cut `text` into tokens, up to a quote that nothing closes."""
    for match in _TOKEN.finditer(text):
        kind = match.lastgroup or ""
        if kind == "stop":
            return
        if kind != "comment":
            yield Token(match[0] if kind == "sign" else kind, match[0], match.start())


class _Scanner:
    """The scan's state: which table, which brackets are open, and whether a key, a header or a value is being read."""

    def __init__(self, text: str) -> None:
        self.lines: dict[Path, int] = {}
        self.spans: dict[Path, tuple[int, int]] = {}
        self.headers: list[tuple[Path, int]] = []
        self.too_deep: int | None = None
        self._starts = [0, *(match.end() for match in re.finditer("\n", text))]
        self._counts: dict[Path, int] = {}
        self._table: Path = ()
        self._open: list[tuple[str, Path, int]] = []
        self._key: list[Token] = []
        self._brackets = 0
        self._path: Path = ()
        self._mode = "key"

    def take(self, token: Token) -> bool:
        """Take one token; False where the scan must end."""
        handler = _MOVES.get((self._mode, token.kind))
        if handler is None or not handler(self, token):
            return False
        if len(self._open) > DEEPEST or len(self._key) > 2 * DEEPEST:
            self.too_deep = self._line(token)
        return self.too_deep is None

    def _line(self, token: Token) -> int:
        return bisect_right(self._starts, token.start)

    def _parts(self) -> Path:
        parts = tuple(_key_parts(self._key))
        if len(parts) > DEEPEST:
            self.too_deep = self._line(self._key[0])
        return parts

    def key_text(self, token: Token) -> bool:
        """Collect a part of a key or of a header."""
        self._key.append(token)
        if token.kind == "bare" and token.text.count(".") > DEEPEST:
            self.too_deep = self._line(token)
        return True

    def key_equals(self, _token: Token) -> bool:
        """Note the key's place, and go on with its value."""
        if not self._key:
            return False
        base = self._open[-1][1] if self._open else self._table
        self._path = base
        for part in self._parts():
            self._path = (*self._path, part)
            self.lines.setdefault(self._path, self._line(self._key[0]))
        self._key = []
        self._mode = "value"
        return True

    def header_opens(self, token: Token) -> bool:
        """Begin a ``[table]`` or ``[[table]]`` line."""
        if self._key or self._open:
            return False
        self._brackets += 1
        if self._mode == "key":
            self._mode = "header"
            self.headers.append(((), token.start))
        return True

    def header_closes(self, token: Token) -> bool:
        """Work out which table the header means, counting the rows of ``[[table]]``."""
        if self._key:
            self._table = self._resolve(self._parts(), self._line(token), is_row=self._brackets > 1)
            self.headers[-1] = (self._table, self.headers[-1][1])
            self._key = []
        self._brackets -= 1
        if self._brackets <= 0:
            self._mode, self._brackets = "key", 0
        return True

    def _resolve(self, parts: Path, line: int, *, is_row: bool) -> Path:
        """Return the path that a header means, noting the line of each table on its way."""
        path: Path = ()
        for place, part in enumerate(parts, start=1):
            path = (*path, part)
            self.lines.setdefault(path, line)
            if is_row and place == len(parts):
                self._counts[path] = self._counts.get(path, 0) + 1
            if path in self._counts:
                path = (*path, self._counts[path] - 1)
                self.lines.setdefault(path, line)
        return path

    def value_text(self, token: Token) -> bool:
        """Note where a value stands."""
        self._mark(token)
        return True

    def value_opens(self, token: Token) -> bool:
        """Step into a list or an inline table."""
        self._mark(token)
        self._open.append((token.kind, self._path, 0))
        if token.kind == "[":
            self._path = (*self._path, 0)
        else:
            self._mode = "key"
        return True

    def value_closes(self, token: Token) -> bool:
        """Step out of a list or an inline table."""
        if not self._open or self._open[-1][0] != {"]": "[", "}": "{"}[token.kind]:
            return False
        _, self._path, _ = self._open.pop()
        self._key = []
        self._mode = "value"
        self._mark(token)
        return True

    def comma(self, _token: Token) -> bool:
        """Go on to the next item of a list, or the next key of an inline table."""
        if not self._open:
            return False
        kind, base, index = self._open[-1]
        if kind == "{":
            self._mode = "key"
        else:
            self._open[-1] = (kind, base, index + 1)
            self._path = (*base, index + 1)
        return True

    def newline(self, _token: Token) -> bool:
        """End a statement, unless a bracket is open."""
        if not self._open:
            self._mode, self._key, self._brackets = "key", [], 0
        return True

    def _mark(self, token: Token) -> None:
        start, _ = self.spans.get(self._path, (token.start, 0))
        self.spans[self._path] = (start, token.start + len(token.text))
        self.lines.setdefault(self._path, self._line(token))


_Move = Callable[[_Scanner, Token], bool]

_MOVES: dict[tuple[str, str], _Move] = {
    ("key", "string"): _Scanner.key_text,
    ("key", "bare"): _Scanner.key_text,
    ("key", "="): _Scanner.key_equals,
    ("key", "["): _Scanner.header_opens,
    ("key", "}"): _Scanner.value_closes,
    ("key", "newline"): _Scanner.newline,
    ("header", "["): _Scanner.header_opens,
    ("header", "string"): _Scanner.key_text,
    ("header", "bare"): _Scanner.key_text,
    ("header", "]"): _Scanner.header_closes,
    ("header", "newline"): _Scanner.newline,
    ("value", "string"): _Scanner.value_text,
    ("value", "bare"): _Scanner.value_text,
    ("value", "["): _Scanner.value_opens,
    ("value", "{"): _Scanner.value_opens,
    ("value", "]"): _Scanner.value_closes,
    ("value", "}"): _Scanner.value_closes,
    ("value", ","): _Scanner.comma,
    ("value", "newline"): _Scanner.newline,
}


def _key_parts(tokens: list[Token]) -> Iterator[str]:
    """Cut a dotted key into its parts: ``a."b.c"`` has two."""
    for token in tokens:
        if token.kind == "string":
            yield _unquoted(token.text)
        else:
            yield from filter(None, token.text.split("."))


def _unquoted(text: str) -> str:
    """Return what a quoted key says."""
    if "\\" not in text or text.startswith("'"):
        return text[1:-1]
    import tomllib  # noqa: PLC0415 - only for a key with an escape in it, which nobody writes

    try:
        return str(tomllib.loads(f"key = {text}")["key"])
    except ValueError:
        return text[1:-1]
