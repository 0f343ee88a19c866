"""What is said of the record's database, of backups and of the doctor, in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    # what stands in the way
    "data-busy": "Another program is writing into {file} and does not end. Close it, or try again.",
    "data-in-use": "Another program has {file} open. Close it first: a restore needs the record to itself.",
    "data-read-only": "{file} may not be written: {got}.",
    "data-disk-fails": "The disk fails where {file} stands: {got}. Make a backup elsewhere now.",
    "data-disk-full": "The disk is full: nothing more can be kept in {file}. What was kept before is safe.",
    "data-damaged": "{file} is damaged: {got}. Put the last backup in its place: steadyhead restore FILE",
    "data-not-a-database": "{file} is no database of this program: {got}.",
    "data-cannot-open": "{file} cannot be opened: {got}.",
    "data-on-a-server": "This record lives on a database server: its own tools back it up and restore it.",
    "data-of-another-program": "{got} is a database, but not one of this program. Nothing was changed in it.",
    "data-newer": "The record is of version {got}; this program reads versions up to {must_be}. Nothing was changed. "
    "Install the newer program on this machine, too.",
    "data-not-migrated": "{file} of version {version} could not be brought to today's version: {got}. It stands as it "
    "was, and nothing in it is lost. Report this.",
    "data-older": "The record is still of version {got}; today's is {must_be}. To bring it up to date, after a copy: "
    "steadyhead doctor --rebuild",
    "data-empty": "There is a database, but nothing was ever kept in it.",
    "data-none-yet": "There is no record at {file} yet.",
    "sqlite-too-old": "This Python has SQLite {got}; it must be {must_be} or newer.",
    "postgresql-not-installed": "For a record on a PostgreSQL server install steadyhead[company]: {got}.",
    "no-server": "The database server does not answer at {address}: {got}",
    # copies
    "copy-there": "{file} is there already, and nothing is overwritten. Name another file.",
    "copy-missing": "There is no file {file}.",
    "copy-not-written": "{file} cannot be written: {got}.",
    "copy-damaged": "{file} is no sound copy: {got}. The record is as it was.",
    "backup-done": "Backed up and proved: {file}, {size} bytes, {facts} facts, {photos} photos.",
    "restore-done": "Restored: {file} holds {facts} facts and {photos} photos now.",
    "restore-purges": "What was erased since that backup stays erased: {purges} erasures were made again.",
    "restore-aside": "The former record is kept as {file}.",
    # the doctor
    "doctor-head": "The record: {file} ({backend}, version {version})",
    "doctor-sound": "Sound: nothing wrong.",
    "doctor-not-sound": "Not sound: see the lines marked !.",
    "doctor-heal": "What lists show can be made anew from the facts: steadyhead doctor --rebuild",
    "doctor-rebuilt": "What lists show was made anew from the facts.",
    "doctor-bundle": "Written for a bug report: {file}. It holds figures and versions, no word of yours; read it "
    "first.",
    "doctor-wrong": "{wrong} of {looked_at} wrong",
    "doctor-fine": "{looked_at} fine",
    "doctor-holds": "It holds {facts} facts, {photos} photos, {visits} visits, {systems} systems.",
    "doctor-integrity": "the database itself",
    "doctor-references": "what refers to what",
    "doctor-facts": "facts can be read",
    "doctor-photos": "photos are whole",
    "doctor-shown-photos": "photos that a fact shows are here",
    "doctor-collisions": "ids met with one content only",
    "doctor-projections": "lists say what the facts say",
}
