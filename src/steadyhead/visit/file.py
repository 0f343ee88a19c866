"""The visit file: a text, the visit that it says, and every way in which it can be refused.

Rules
-----
1. A file is read whole or not at all: either a `Visit`, or an error with every problem, each with its key and line.
2. Saving never loses a file: the new one is complete on the disk before it takes the old one's place.
3. Editing changes what it must and no other byte (see `steadyhead.visit.edit`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from steadyhead.errors import FileUnreadableError, Problem, VisitFileError
from steadyhead.messages import message
from steadyhead.visit import edit
from steadyhead.visit.archive import LARGEST_ARCHIVE, is_archive, read_archive
from steadyhead.visit.build import build
from steadyhead.visit.checked_text import checked_text
from steadyhead.visit.keys import VISIT
from steadyhead.visit.record import Visit
from steadyhead.visit.rules_of_readings import READING_RULES
from steadyhead.visit.rules_of_system import SYSTEM_RULES
from steadyhead.visit.save import save_bytes
from steadyhead.visit.toml_text import read_bytes

Value = str | bool | int | tuple[str, ...]

SUFFIX = ".visit"  #: of a whole visit: the visit file, the facts, the photos


@dataclass(frozen=True, slots=True)
class VisitFile:
    """A visit and the very text that says it.

    Parameters
    ----------
    visit
        What the text says.
    text
        Text of the file, with its comments, its order and its line ends.
    name
        What the file is called in messages.
    """

    visit: Visit
    text: str
    name: str

    def with_reading(self, reading: Mapping[str, Value]) -> VisitFile:
        """Return the file with a reading after its last one.

        Parameters
        ----------
        reading
            Its keys and values as a file spells them: ``{"measure": "gauge-pressure", "value": "48 psi"}``.

        Raises
        ------
        VisitFileError
            The reading is refused; its problems have the lines of the new text.
        """
        return self._edited(edit.with_row(self.text, "reading", reading))

    def with_declined(self, declined: Mapping[str, Value]) -> VisitFile:
        """Return the file with one more check that cannot be done here.

        Raises
        ------
        VisitFileError
            It is refused.
        """
        return self._edited(edit.with_row(self.text, "declined", declined))

    def with_action(self, action: Mapping[str, Value]) -> VisitFile:
        """Return the file with one more action, after the last reading unless `after_reading` says otherwise.

        Raises
        ------
        VisitFileError
            It is refused.
        """
        row = {"after_reading": len(self.visit.readings), **action}
        return self._edited(edit.with_row(self.text, "action", {"remedy": row.pop("remedy", ""), **row}))

    def without_reading(self, number: int) -> VisitFile:
        """Return the file without its reading `number` (from 1); actions keep their place between the others.

        Raises
        ------
        VisitFileError
            There is no such reading.
        """
        return self._edited(edit.without_reading(self.text, self._known(number), self.visit.actions))

    def with_reading_replaced(self, number: int, reading: Mapping[str, Value]) -> VisitFile:
        """Return the file with other keys and values in its reading `number` (from 1).

        Raises
        ------
        VisitFileError
            There is no such reading, or the new one is refused.
        """
        return self._edited(edit.with_reading_replaced(self.text, self._known(number), reading))

    def with_value(self, table: str, key: str, value: Value) -> VisitFile:
        """Return the file with another value of a key, in a table that stands once: ``sensor``, ``complaint``, ...

        Raises
        ------
        VisitFileError
            There is no such table or key, or it cannot have that value.
        """
        return self._edited(edit.with_value(self.text, table, key, value))

    def _known(self, number: int) -> int:
        most = len(self.visit.readings)
        if not 1 <= number <= most:
            raise _refused(
                self.name, (Problem(message("reading-unknown", got=number, most=most), "[[reading]]", None),)
            )
        return number

    def _edited(self, text: str | None) -> VisitFile:
        if text is None:
            raise _refused(self.name, (Problem(message("rows-written-inline"), "[[reading]]", None),))
        return parse_visit(text, self.name)


def load_visit(path: Path | str) -> VisitFile:
    """Return the visit file at `path`; of a whole visit (``*.visit``) the visit file inside.

    Raises
    ------
    FileUnreadableError
        No file, a folder, larger than 1 MiB, or no UTF-8 text.
    RecordError
        A whole visit that is damaged, or holds what no visit holds.
    VisitFileError
        Text that is no visit file; `problems` holds everything that is wrong.
    """
    if Path(path).suffix.lower() == SUFFIX:
        data = read_bytes(Path(path), LARGEST_ARCHIVE)
        return parse_visit(read_archive(data, str(path)).text if is_archive(data) else data, str(path))
    return parse_visit(read_bytes(Path(path)), str(path))


def parse_visit(text: str | bytes, name: str = "visit.toml") -> VisitFile:
    r"""Return the visit file that a text, or the bytes of one, says.

    Raises
    ------
    FileUnreadableError
        Larger than 1 MiB, or no UTF-8 text.
    VisitFileError
        `problems` holds everything that is wrong, in the order of the file.

    Examples
    --------
    >>> file = parse_visit('schema = 1\n[sensor]\nsignal = "4..20 mA"\nrange = "0..10 bar"\n')
    >>> file.visit.sensor.signal.wires
    2
    """
    found = checked_text(text, name, VISIT, (*SYSTEM_RULES, *READING_RULES))
    if found.walked is None:
        raise _refused(name, found.problems)
    return VisitFile(build(found.walked), found.text, name)


def _refused(name: str, problems: tuple[Problem, ...]) -> VisitFileError:
    return VisitFileError(message("visit-file-refused", file=name, problems=len(problems)), problems)


def save_visit(visit_file: VisitFile, path: Path | str) -> None:
    """Write a visit file so that a power cut leaves either the old one or the new one, whole.

    Raises
    ------
    FileUnreadableError
        It is a folder, or cannot be written there; or a whole visit with its photos stands there.
    """
    if Path(path).suffix.lower() == SUFFIX:
        raise FileUnreadableError(message("file-is-whole-visit", file=str(path)))
    save_bytes(visit_file.text.encode("utf-8"), path)
