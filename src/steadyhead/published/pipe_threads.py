"""Pipe threads by which sensors are screwed in: which look alike, and why they are not.

Rules
-----
1. ``R`` (taper outside; ``Rp`` and ``Rc`` inside) seals on the thread; ``G`` is parallel and seals on a washer; ``NPT``
   is taper and seals on the thread. R and G have one profile and one set of diameters.
2. ``NPT`` has flanks of 60 degrees, R and G of 55; most sizes differ in pitch too.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from steadyhead.errors import UnknownWordError
from steadyhead.messages import message
from steadyhead.published.source import Source, Table

ISO = Source(
    cite="ISO 7-1:1994, Pipe threads where pressure-tight joints are made on the threads; ISO 228-1:2000, where they "
    "are not; one set of basic sizes",
    locator="table of basic sizes, sizes 1/8 to 3/8",
    seen="republished",
    via="a mechanical engineer's pocket book, section 4.1.38",
)
ISO_HALF = Source(cite=ISO.cite, locator="table of basic sizes, size 1/2", seen="memory")
NPT = Source(
    cite="ASME B1.20.1, Pipe threads, general purpose (inch)",
    locator="table of basic dimensions of taper threads: threads to the inch, pitch diameter at hand-tight engagement "
    "(E1), its length (L1)",
    seen="republished",
    via="a steel merchant's transcription of the table",
)

Family = Literal["G", "R", "NPT"]


@dataclass(frozen=True, slots=True)
class Thread:
    """One thread: its word, family, size, threads to the inch, flank angle [degrees], pitch diameter [mm].

    The pitch diameter is that of the gauge plane (R), of the plane of hand-tight engagement (NPT), or of the whole
    thread (G).
    """

    word: str
    family: Family
    size: str
    per_inch: float
    angle: float
    pitch_diameter_mm: float

    @property
    def pitch_mm(self) -> float:
        """Distance from one thread to the next [mm]."""
        return _MM_PER_INCH / self.per_inch


_MM_PER_INCH = 25.4
_ISO_ANGLE, _NPT_ANGLE = 55.0, 60.0

#: Size; threads to the inch, pitch diameter [mm].
_ISO_ROWS = (
    ("1/8", 28.0, 9.147),
    ("1/4", 19.0, 12.301),
    ("3/8", 19.0, 15.806),
    ("1/2", 14.0, 19.793),
)
#: Size; threads to the inch, pitch diameter [in], hand-tight engagement [in].
_NPT_ROWS = (
    ("1/8", 27.0, 0.37360, 0.1615),
    ("1/4", 18.0, 0.49163, 0.2278),
    ("3/8", 18.0, 0.62701, 0.240),
    ("1/2", 14.0, 0.77843, 0.320),
)

THREADS: tuple[Thread, ...] = (
    *(Thread(f"{s} NPT", "NPT", s, n, _NPT_ANGLE, round(e * _MM_PER_INCH, 3)) for s, n, e, _ in _NPT_ROWS),
    *(Thread(f"G {s}", "G", s, n, _ISO_ANGLE, d) for s, n, d in _ISO_ROWS),
    *(Thread(f"R {s}", "R", s, n, _ISO_ANGLE, d) for s, n, d in _ISO_ROWS),
)
WORDS = tuple(thread.word for thread in THREADS)
_BY_WORD = {thread.word: thread for thread in THREADS}
#: How far a taper thread goes in by hand [mm], by size: where two threads part, they part over this length.
HAND_TIGHT_MM = {size: round(length * _MM_PER_INCH, 2) for size, _, _, length in _NPT_ROWS}


def thread_named(word: str) -> Thread:
    """Return the thread of a word.

    Raises
    ------
    UnknownWordError
        ``word-unknown``.

    Examples
    --------
    >>> thread_named("1/4 NPT").per_inch, thread_named("G 1/4").per_inch
    (18.0, 19.0)
    """
    found = _BY_WORD.get(word)
    if found is None:
        raise UnknownWordError(message("word-unknown", got=word, must_be=WORDS, nearest=()))
    return found


def parted_mm(one: Thread, other: Thread) -> float:
    """Return by how much two threads of one size have parted at the end of hand-tight engagement [mm].

    >>> round(parted_mm(thread_named("1/4 NPT"), thread_named("G 1/4")), 2)
    0.3
    """
    turns = HAND_TIGHT_MM[one.size] / one.pitch_mm
    return abs(turns * (one.pitch_mm - other.pitch_mm))


TABLE = Table(
    id="pipe-threads",
    title="Pipe threads of sensors",
    columns=("thread", "threads to the inch", "flanks [degrees]", "pitch diameter [mm]"),
    rows=tuple((t.word, t.per_inch, t.angle, t.pitch_diameter_mm) for t in THREADS),
    sources=(ISO, ISO_HALF, NPT),
    note="The pitch diameter of a taper thread is that of its gauge plane (R) or of hand-tight engagement (NPT).",
)
