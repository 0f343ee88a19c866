"""A whole visit as one file, ``*.visit``, or many, ``*.visits``: facts and photos, a visit's text too; in and out.

Rules
-----
1. It is a zip of ``visit.toml`` (a visit file like any other), ``facts.jsonl`` (one canonical fact a line, by id) and
   ``photos/SHA-256.EXT``. The same visit gives the same bytes, on every machine: names sorted, times fixed, nothing
   compressed (photos are already).
2. It is read whole or not at all. What does not fit is refused and nothing is written: a name that leads elsewhere, a
   link, a name twice, a secret, more or larger parts than a visit has, a photo whose bytes are not those of its name, a
   line that is no fact, a part that is cut or damaged.
3. Nothing is ever unpacked to a disk. Parts are measured while they are read, whatever the archive says of itself.
4. A part that this version does not know is passed over, and named in `unknown`.
5. Many visits in one file are their facts and photos alone: ``visits.jsonl`` stands in the place of the other two.
"""

from __future__ import annotations

import hashlib
import io
import re
import zipfile
import zlib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from steadyhead.errors import InputError, RecordError
from steadyhead.messages import message
from steadyhead.visit.facts import Fact, canonical, fact_from_text
from steadyhead.visit.nearest import shown
from steadyhead.visit.toml_text import LARGEST

MIB = 1024 * 1024
LARGEST_ARCHIVE = 256 * MIB  #: bytes, packed or unpacked
LARGEST_FACTS = 64 * MIB
LARGEST_PHOTO = 16 * MIB
MOST_PARTS = 2000
BEGINS = b"PK\x03\x04"

TOML, FACTS, MANY = "visit.toml", "facts.jsonl", "visits.jsonl"
EXTENSIONS = {"image/jpeg": "jpg", "image/png": "png", "image/webp": "webp"}
_TYPES = {extension: media_type for media_type, extension in EXTENSIONS.items()}
_PHOTO = re.compile(r"photos/(?P<sha256>[0-9a-f]{64})\.(?P<ext>jpg|png|webp)")

#: The earliest time that a zip can hold.
_ALWAYS = (1980, 1, 1, 0, 0, 0)
_UNIX, _REGULAR, _LINK, _FORMAT = 3, 0o100644, 0o120000, 0o170000
_ENCRYPTED = 0x1
_PLAIN_METHODS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
_BROKEN = (zipfile.BadZipFile, zlib.error, EOFError, OSError, ValueError, RuntimeError, NotImplementedError)


@dataclass(frozen=True, slots=True)
class Photo:
    """The bytes of a photo, and what they are."""

    data: bytes = field(repr=False)
    media_type: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Archive:
    """What an archive holds: facts, photos by SHA-256, of one visit its visit file's text, and names passed over."""

    text: str = ""
    facts: tuple[Fact, ...] = ()
    photos: Mapping[str, Photo] = field(default_factory=dict)
    unknown: tuple[str, ...] = ()


def archive_bytes(archive: Archive) -> bytes:
    r"""Return the bytes of an archive.

    Examples
    --------
    >>> data = archive_bytes(Archive(text="schema = 1\n"))
    >>> data == archive_bytes(Archive(text="schema = 1\n")), read_archive(data, "a.visit").text
    (True, 'schema = 1\n')
    """
    lines = _lines(archive.facts)
    parts = {TOML: archive.text.encode("utf-8"), FACTS: lines} if archive.text else {MANY: lines}
    for sha256, photo in archive.photos.items():
        parts[f"photos/{sha256}.{EXTENSIONS[photo.media_type]}"] = photo.data
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_STORED) as packed:
        for name in sorted(parts):
            packed.writestr(_header(name), parts[name])
    return stream.getvalue()


def _lines(facts: Iterable[Fact]) -> bytes:
    ordered = sorted({fact.id: fact for fact in facts}.values(), key=lambda fact: fact.id)
    return "".join(f"{canonical(fact)}\n" for fact in ordered).encode("utf-8")


def _header(name: str) -> zipfile.ZipInfo:
    info = zipfile.ZipInfo(name, _ALWAYS)
    info.create_system = _UNIX
    info.external_attr = _REGULAR << 16
    return info


def is_archive(data: bytes) -> bool:
    """Tell whether bytes begin as an archive does."""
    return data.startswith(BEGINS)


def read_archive(data: bytes, name: str) -> Archive:
    """Return what an archive holds.

    Parameters
    ----------
    data
        Its bytes.
    name
        What it is called in messages.

    Raises
    ------
    RecordError
        It is damaged, too large, or holds what no visit holds; nothing of it was kept.
    """
    if len(data) > LARGEST_ARCHIVE:
        raise RecordError(message("archive-too-large", file=name, most_bytes=LARGEST_ARCHIVE))
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            parts = _Parts(packed, name)
            return parts.archive()
    except _BROKEN as error:
        raise RecordError(message("archive-damaged", file=name, reason=shown(str(error)))) from error


class _Parts:
    """The parts of an archive that is being read, and how much was read so far."""

    def __init__(self, packed: zipfile.ZipFile, name: str) -> None:
        self._packed = packed
        self._name = name
        self._read = 0
        self._infos = self._checked()

    def archive(self) -> Archive:
        """Return what the parts say."""
        many = MANY in self._infos
        if TOML not in self._infos and not many:
            raise RecordError(message("archive-without-visit", file=self._name, must_be=TOML))
        text = "" if many else self._text(self._bytes(TOML, LARGEST))
        lines = MANY if many else FACTS
        facts = tuple(self._facts(self._bytes(lines, LARGEST_FACTS))) if lines in self._infos else ()
        photos = dict(self._photos())
        known = {lines, *(() if many else (TOML,)), *(part for part in self._infos if _PHOTO.fullmatch(part))}
        return Archive(text=text, facts=facts, photos=photos, unknown=tuple(sorted(set(self._infos) - known)))

    def _checked(self) -> dict[str, zipfile.ZipInfo]:
        """Return the parts by name, once none of them is out of place."""
        every = self._packed.infolist()
        if len(every) > MOST_PARTS:
            raise RecordError(message("archive-too-many", file=self._name, count=len(every), most=MOST_PARTS))
        infos: dict[str, zipfile.ZipInfo] = {}
        for info in every:
            if not _is_harmless(info) or info.filename in infos:
                raise RecordError(message("archive-part-refused", file=self._name, got=shown(info.filename)))
            if not info.is_dir():
                infos[info.filename] = info
        return infos

    def _bytes(self, part: str, most: int) -> bytes:
        """Return the bytes of a part, read no further than it may be long."""
        with self._packed.open(self._infos[part]) as stream:
            data = stream.read(most + 1)
        self._read += len(data)
        if len(data) > most or self._read > LARGEST_ARCHIVE:
            raise RecordError(message("archive-part-too-large", file=self._name, got=part, most_bytes=most))
        return data

    def _text(self, data: bytes) -> str:
        return data.decode("utf-8")

    def _facts(self, data: bytes) -> Iterator[Fact]:
        for number, line in enumerate(data.split(b"\n"), start=1):
            if line.strip():
                try:
                    yield fact_from_text(line)
                except InputError as error:
                    told = {key: value for key, value in error.message.values.items() if key != "line"}
                    refusal = message("archive-line-refused", file=self._name, line=number, **told)
                    raise RecordError(refusal) from error

    def _photos(self) -> Iterator[tuple[str, Photo]]:
        for part in self._infos:
            match = _PHOTO.fullmatch(part)
            if match is None:
                continue
            data = self._bytes(part, LARGEST_PHOTO)
            if hashlib.sha256(data).hexdigest() != match["sha256"]:
                raise RecordError(message("archive-photo-wrong", file=self._name, got=part))
            yield match["sha256"], Photo(data, _TYPES[match["ext"]])


def _is_harmless(info: zipfile.ZipInfo) -> bool:
    """Tell whether a part is a plain file below the archive's own folder, packed in a way that every Python unpacks."""
    name = info.filename
    pieces = name.rstrip("/").split("/")
    leads_away = name.startswith("/") or any(piece in {"", ".", ".."} for piece in pieces)
    odd = any(sign in ':\\<>"|?*' or not sign.isprintable() for sign in name) or len(name) > 200
    links = (info.external_attr >> 16) & _FORMAT == _LINK
    locked = bool(info.flag_bits & _ENCRYPTED) or info.compress_type not in _PLAIN_METHODS
    return not (leads_away or odd or links or locked)
