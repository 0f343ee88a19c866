"""The one error tree.

::

    SteadyheadError
    ├── InputError                 a person's input is at fault: exit code 2, nothing lost
    │   ├── QuantityError          a text that is no such quantity
    │   ├── RangeOfValidityError   a published table was asked outside the range it is valid for
    │   ├── FileUnreadableError    no file, a folder, too large, not text
    │   ├── RefusedFileError       a file with one or more problems, all of them listed
    │   │   ├── VisitFileError     a visit file
    │   │   ├── CheckFileError     a sensor check's file, or its table of points
    │   │   ├── CompanyFileError   a company's own estimates
    │   │   └── AnswersError       answers of a form or of a command's options
    │   ├── UnknownWordError       an id that does not exist, with the nearest that do
    │   ├── FitError               points that no line goes through: too few, all at one place, or no weights
    │   ├── SensorCheckError       a sensor check that cannot be worked out: what is missing or cannot be is named
    │   ├── NotFoundError          nothing in the record has this id
    │   ├── ForeignFormError       a form that does not come from a page of this app
    │   ├── SyncError              another home that cannot be brought together with this one; what was exchanged stays
    │   ├── RecordError            a fact, an entity or a visit's archive that cannot be used; the record is as it was
    │   └── StoreError             the record's database cannot be used as it stands; nothing was written
    │       ├── StoreBusyError     another program is writing
    │       ├── StoreFullError     there is no room left for what was to be kept
    │       ├── StoreDamagedError  no database, or a broken one
    │       └── StoreVersionError  made by a newer program, or by another one
    ├── StartError                 the app did not start inside a browser; nothing was served
    └── CircuitError               a circuit that has no answer
        ├── FloatingNodeError      a point that nothing ties to a voltage
        └── NoOperatingPointError  the solver found no operating point and says so

Rules
-----
1. Every error carries a `Message`; `steadyhead.words` says it to a person, ``str()`` says it to a log.
2. An input error's message has what was *got*, what it *must be*, and, where known, the nearest allowed words.
3. Nothing in the package raises a bare `ValueError` for a person's input.
"""

from __future__ import annotations

from dataclasses import dataclass

from steadyhead.messages import Message


class SteadyheadError(Exception):
    """Anything that this package refuses or cannot do; `message` says what."""

    def __init__(self, message: Message) -> None:
        super().__init__(message)
        self.message = message

    def __str__(self) -> str:
        """Return the message as a log line."""
        return str(self.message)


class InputError(SteadyheadError):
    """A person's input is at fault; the message says what was got and what would do."""


class QuantityError(InputError):
    """A text that is not the quantity that was asked for."""


class RangeOfValidityError(InputError):
    """A published table or formula was asked outside the range it is valid for."""


class FileUnreadableError(InputError):
    """A file that cannot be read at all: missing, a folder, too large, not text."""


class UnknownWordError(InputError):
    """An id that does not exist; the message names the nearest that do."""


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong in a file.

    Parameters
    ----------
    message
        What was got and what would do.
    key
        Where in the file, in the file's own spelling: ``[sensor] range`` or ``[[reading]] 3 value``.
    line
        Line number in the file, counted from 1, or None where no line can be named.
    """

    message: Message
    key: str
    line: int | None


class RefusedFileError(InputError):
    """A file that cannot be used; `problems` holds every reason, in the order of the file."""

    def __init__(self, message: Message, problems: tuple[Problem, ...]) -> None:
        super().__init__(message)
        self.args = (message, problems)  # what it is made of again, where it was packed
        self.problems = problems


class VisitFileError(RefusedFileError):
    """A visit file that cannot be used."""


class CheckFileError(RefusedFileError):
    """A sensor check's file, or a table of its points, that cannot be used."""


class CompanyFileError(RefusedFileError):
    """A company's own estimates that cannot be used."""


class AnswersError(RefusedFileError):
    """Answers of a form or of a command's options, one or more of which cannot be used."""


class FitError(InputError):
    """Points that no line can be laid through; the message says what they lack."""


class SensorCheckError(InputError):
    """A sensor check that cannot be worked out from what was given; the message names what is missing or cannot be."""


class NotFoundError(InputError):
    """Nothing in the record has this id."""


class SyncError(InputError):
    """Another home cannot be brought together with this one now; what was exchanged before stays."""


class StoreError(InputError):
    """The record's database cannot be used as it stands; the message says what stands in the way."""


class StoreBusyError(StoreError):
    """Another program has been writing for longer than a person waits."""


class StoreFullError(StoreError):
    """There is no room left for what was to be kept: nothing of it was, and what was kept before is safe."""


class StoreDamagedError(StoreError):
    """The file is no database, or a broken one."""


class StoreVersionError(StoreError):
    """The database is newer than this program, or another program's."""


class RecordError(InputError):
    """A fact, an entity or a visit's archive that cannot be used; the record is as it was."""


class ForeignFormError(InputError):
    """A form that does not come from a page of this app; nothing of it was kept."""


class StartError(SteadyheadError):
    """The app did not start inside a browser; nothing was served."""


class CircuitError(SteadyheadError):
    """A circuit that has no answer."""


class FloatingNodeError(CircuitError):
    """A point that nothing ties to any voltage; the message names it."""


class NoOperatingPointError(CircuitError):
    """No operating point was found; never answered with the last guess."""
