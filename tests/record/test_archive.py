"""A whole visit as one file: the same bytes every time, everything back, and hostile or damaged files refused."""

from __future__ import annotations

import hashlib
import io
import stat
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from steadyhead.errors import FileUnreadableError, InputError, NotFoundError, RecordError
from steadyhead.service.record.beside import add_note
from steadyhead.service.record.erasing import erase
from steadyhead.service.record.exchange import export_visit, import_visit
from steadyhead.service.record.pages import visit_page
from steadyhead.service.record.photos import add_photo
from steadyhead.service.record.readings import correct_reading
from steadyhead.visit import load_visit, save_visit
from steadyhead.visit.archive import LARGEST_ARCHIVE, Archive, Photo, archive_bytes, read_archive
from steadyhead.visit.facts import canonical
from steadyhead.visit.ids import ulid_text
from tests.record.bench import A_MORNING, ROOT, fact
from tests.record.device import Device
from tests.record.test_use_cases import GAUGE, JPEG, VOLTS, kept, started

TOML_TEXT = (ROOT / "examples" / "house-damp-cable.toml").read_text(encoding="utf-8")
SHA = hashlib.sha256(JPEG).hexdigest()


def packed(*parts: tuple[str | zipfile.ZipInfo, bytes], method: int = zipfile.ZIP_STORED) -> bytes:
    """Return a zip of parts, in their order."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", method) as archive:
        for name, data in parts:
            archive.writestr(name, data)
    return stream.getvalue()


def link(name: str) -> zipfile.ZipInfo:
    """Return a part that is a symbolic link."""
    info = zipfile.ZipInfo(name)
    info.create_system = 3
    info.external_attr = (stat.S_IFLNK | 0o777) << 16
    return info


SOUND = ("visit.toml", TOML_TEXT.encode())
ONE_FACT = canonical(fact(1)).encode()

HOSTILE: dict[str, Callable[[], bytes]] = {
    "a name that climbs out": lambda: packed(SOUND, ("../evil.toml", b"x")),
    "a name that climbs out of photos": lambda: packed(SOUND, ("photos/../../evil", b"x")),
    "an absolute name": lambda: packed(SOUND, ("/etc/passwd", b"x")),
    "a drive": lambda: packed(SOUND, ("C:/evil", b"x")),
    "a backslash": lambda: packed(SOUND, ("photos\\..\\evil", b"x")),
    "an empty piece": lambda: packed(SOUND, ("photos//evil", b"x")),
    "a control sign": lambda: packed(SOUND, ("evil\x1b[31m", b"x")),
    "a link": lambda: packed(SOUND, (link("photos/link"), b"/etc/passwd")),
    "too many parts": lambda: packed(SOUND, *((f"p{number}", b"") for number in range(2001))),
    "a bomb": lambda: packed(("visit.toml", b"#" * (3 << 20)), method=zipfile.ZIP_DEFLATED),
    "a bomb of facts": lambda: packed(SOUND, ("facts.jsonl", b"\n" * (65 << 20)), method=zipfile.ZIP_DEFLATED),
    "another way of packing": lambda: packed(SOUND, ("x", b"y"), method=zipfile.ZIP_BZIP2),
    "a photo that is another": lambda: packed(SOUND, (f"photos/{SHA}.jpg", JPEG + b"!")),
    "a line that is no fact": lambda: packed(SOUND, ("facts.jsonl", ONE_FACT + b"\n{}\n")),
    "facts that are no text": lambda: packed(SOUND, ("facts.jsonl", b"\xff\xfe\n")),
    "no visit file": lambda: packed(("facts.jsonl", ONE_FACT)),
    "a visit file that is no text": lambda: packed(("visit.toml", b"\xff\xff")),
    "nothing": lambda: packed()[:4] + b"PK",
}


@pytest.mark.filterwarnings("ignore:Duplicate name")
def test_a_name_that_stands_twice_is_refused() -> None:
    """Two readers would read two things."""
    with pytest.raises(RecordError, match="archive-part-refused"):
        read_archive(packed(SOUND, SOUND), "x.visit")


@pytest.mark.parametrize("kind", HOSTILE)
def test_a_hostile_archive_is_refused_and_nothing_is_kept(kind: str) -> None:
    """Rule 2 of the archive."""
    device = Device()
    data = HOSTILE[kind]()
    with pytest.raises(RecordError):
        read_archive(data, "x.visit")
    with pytest.raises(InputError):
        import_visit(device.given, data, "x.visit")
    assert device.store.facts == {}


def test_an_archive_that_is_cut_anywhere_is_refused() -> None:
    """A transfer that broke off: every hundredth place."""
    data = archive_bytes(Archive(text=TOML_TEXT, facts=(fact(1),), photos={SHA: Photo(JPEG, "image/jpeg")}))
    for end in range(0, len(data) - 1, 97):
        with pytest.raises(RecordError):
            read_archive(data[:end], "x.visit")


def test_an_archive_with_a_flipped_bit_is_refused_or_says_the_same() -> None:
    """A damaged stick: every byte in turn. What nobody reads (times, attributes) may differ."""
    sound = Archive(text=TOML_TEXT[:300], facts=(fact(1),), photos={SHA: Photo(JPEG, "image/jpeg")})
    data = archive_bytes(sound)
    for at in range(len(data)):
        flipped = data[:at] + bytes([data[at] ^ 0x10]) + data[at + 1 :]
        try:
            found = read_archive(flipped, "x.visit")
        except RecordError:
            continue
        assert found.text == sound.text
        assert set(found.facts) <= set(sound.facts)
        assert dict(found.photos).items() <= dict(sound.photos).items()


def test_the_same_visit_gives_the_same_bytes(device: Device) -> None:
    """Sorted names, fixed times, nothing compressed; the zip's own directory read by Python's zipfile."""
    visit = started(device)
    kept(device, visit, GAUGE)
    add_photo(device.given, visit, JPEG)
    data = export_visit(device.given, visit)
    device.clock.now += 1_000_000
    assert export_visit(device.given, visit) == data
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        assert archive.testzip() is None
        assert archive.namelist() == ["facts.jsonl", f"photos/{SHA}.jpg", "visit.toml"]
        assert {info.date_time for info in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert {info.compress_type for info in archive.infolist()} == {zipfile.ZIP_STORED}
        lines = archive.read("facts.jsonl").decode().splitlines()
    assert lines == [canonical(each) for _, each in sorted(device.store.facts.items())]


def test_a_whole_visit_comes_to_another_device_and_back(device: Device) -> None:
    """Everything stands there, photos too; the same file again changes nothing; what was added there comes back."""
    visit = started(device)
    reading = kept(device, visit, GAUGE)
    add_photo(device.given, visit, JPEG, says="plug")
    other = Device(seed=2)
    done = import_visit(other.given, export_visit(device.given, visit), "x.visit")
    assert (done.visits, done.new, done.collisions) == ((visit,), len(device.store.facts), ())
    assert visit_page(other.given, visit) == visit_page(device.given, visit)
    assert other.store.blobs[SHA].data == JPEG
    assert import_visit(other.given, export_visit(device.given, visit)).new == 0
    kept(other, visit, VOLTS)
    correct_reading(other.given, visit, reading, {"value": "47 psi"})
    import_visit(device.given, export_visit(other.given, visit))
    assert visit_page(other.given, visit) == visit_page(device.given, visit)


def test_a_visit_that_was_erased_here_does_not_come_back_from_there(device: Device) -> None:
    """The purge wins; the photo is not kept either."""
    visit = started(device)
    add_photo(device.given, visit, JPEG)
    data = export_visit(device.given, visit)
    erase(device.given, visit)
    import_visit(device.given, data)
    assert device.store.blobs == {}
    for call in (visit_page, export_visit):
        with pytest.raises(NotFoundError):
            call(device.given, visit)


def test_what_was_erased_is_erased_there_too_by_the_file_that_comes(device: Device) -> None:
    """The purge goes with the visit: the other device had the note already."""
    visit = started(device)
    note = add_note(device.given, visit, "gate code")
    other = Device(seed=2)
    import_visit(other.given, export_visit(device.given, visit))
    assert [each.id for each in visit_page(other.given, visit).notes] == [note]
    erase(device.given, note)
    import_visit(other.given, export_visit(device.given, visit))
    assert visit_page(other.given, visit).notes == ()
    assert "gate code" not in str(other.store.facts)


def test_a_visit_file_becomes_a_visit_of_the_record(device: Device) -> None:
    """A text that somebody wrote by hand, and the same inside an archive without facts."""
    for data in (TOML_TEXT.encode(), packed(SOUND)):
        (visit,) = import_visit(device.given, data, "x.toml").visits
        assert visit_page(device.given, visit).visit == load_visit(ROOT / "examples" / "house-damp-cable.toml").visit
    with pytest.raises(InputError):
        import_visit(device.given, b"no visit")


def test_a_part_of_a_newer_version_is_passed_over_and_named() -> None:
    """Rule 4 of the archive."""
    data = packed(SOUND, ("sounds/", b""), ("sounds/pump.ogg", b"hum"))
    assert read_archive(data, "x.visit").unknown == ("sounds/pump.ogg",)


def test_facts_from_afar_are_refused(device: Device) -> None:
    """Eleven years ahead; nine are a clock that is wrong."""
    year = 366 * 86_400_000
    for years, refused in ((11, True), (9, False)):
        id_ = ulid_text((A_MORNING + years * year) << 80)
        line = canonical(fact(1)).replace(ulid_text(1), id_)
        data = packed(SOUND, ("facts.jsonl", line.encode()))
        if refused:
            with pytest.raises(RecordError, match="archive-from-afar"):
                import_visit(device.given, data)
        else:
            assert import_visit(device.given, data).new == 1


def test_a_whole_visit_is_loaded_like_a_visit_file_and_never_overwritten_by_one(tmp_path: Path) -> None:
    """The visit file inside; a text saved over it would lose facts and photos."""
    path = tmp_path / "house.visit"
    path.write_bytes(archive_bytes(Archive(text=TOML_TEXT, facts=(fact(1),))))
    file = load_visit(path)
    assert file.visit == load_visit(ROOT / "examples" / "house-damp-cable.toml").visit
    before = path.read_bytes()
    with pytest.raises(FileUnreadableError, match="file-is-whole-visit"):
        save_visit(file, path)
    assert path.read_bytes() == before
    path.write_text(TOML_TEXT, encoding="utf-8")
    assert load_visit(path).visit == file.visit


@pytest.mark.laptop  # a quarter of a gigabyte is more than a browser's Python should be asked for
def test_an_archive_above_the_limit_is_refused_unread() -> None:
    """256 MiB; the bytes are one block of nothing."""
    with pytest.raises(RecordError, match="archive-too-large"):
        read_archive(bytes(LARGEST_ARCHIVE + 1), "x.visit")
