"""What is no visit file at all is refused in plain words, and never read further than it must be."""

from __future__ import annotations

from pathlib import Path

import pytest

from steadyhead.errors import FileUnreadableError, VisitFileError
from steadyhead.visit import load_visit, parse_visit, save_visit

SOUND = b'schema = 1\n[sensor]\nsignal = "4..20 mA"\nrange = "0..10 bar"\n'


def _refusal(data: bytes, folder: Path) -> FileUnreadableError:
    path = folder / "visit.toml"
    path.write_bytes(data)
    with pytest.raises(FileUnreadableError) as caught:
        load_visit(path)
    assert caught.value.message.values["file"] == str(path)
    return caught.value


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    """The message holds the path as it was given."""
    with pytest.raises(FileUnreadableError, match="file-missing") as caught:
        load_visit(tmp_path / "nowhere.toml")
    assert caught.value.message.values["file"] == str(tmp_path / "nowhere.toml")


def test_a_folder_is_said_to_be_a_folder(tmp_path: Path) -> None:
    """Windows and Linux refuse it in different ways; the message is one."""
    with pytest.raises(FileUnreadableError, match="file-is-folder"):
        load_visit(tmp_path)


def test_a_path_that_no_system_knows_is_refused() -> None:
    """A NUL in a path is a ValueError of the system's, not ours."""
    with pytest.raises(FileUnreadableError, match=r"file-(unreadable|missing)"):
        load_visit("visit\0.toml")


def test_a_text_of_30_megabytes_is_refused_unread(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Unread: opening it would fail the test."""
    path = tmp_path / "large.toml"
    with path.open("wb") as stream:
        stream.seek(30 * 1024 * 1024)
        stream.write(b'"')

    def never(*_: object, **__: object) -> None:
        pytest.fail("the file was opened")

    monkeypatch.setattr(Path, "open", never)
    with pytest.raises(FileUnreadableError, match="file-too-large"):
        load_visit(path)


def test_a_string_of_30_megabytes_is_refused() -> None:
    """The same limit holds for text that comes from elsewhere."""
    with pytest.raises(FileUnreadableError, match="file-too-large"):
        parse_visit('x = "' + "a" * 30_000_000 + '"')


def test_a_file_of_one_mebibyte_is_read_and_one_byte_more_is_not(tmp_path: Path) -> None:
    """The limit itself: 1 MiB is 1,048,576 bytes."""
    path = tmp_path / "visit.toml"
    path.write_bytes(SOUND + b"#" * (1_048_576 - len(SOUND)))
    assert load_visit(path).visit.sensor.signal.wires == 2
    too_large = SOUND + b"#" * (1_048_577 - len(SOUND))
    assert _refusal(too_large, tmp_path).message.id == "file-too-large"
    with pytest.raises(FileUnreadableError, match="file-too-large"):
        parse_visit(too_large)


def test_a_nul_byte_is_told_with_its_line(tmp_path: Path) -> None:
    """The NUL stands in the fifth line."""
    error = _refusal(SOUND + b"# \0\n", tmp_path)
    assert (error.message.id, error.message.values["line"]) == ("file-is-binary", 5)


def test_a_picture_is_no_text(tmp_path: Path) -> None:
    """The first bytes of a PNG file (its specification, 5.2) and a length with NULs."""
    assert _refusal(b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", tmp_path).message.id == "file-is-binary"


def test_a_zip_is_said_to_be_a_zip(tmp_path: Path) -> None:
    """The signature of a zip's local header: PK 3 4."""
    assert _refusal(b"PK\x03\x04\x14\x00", tmp_path).message.id == "file-is-zip"


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-be", "utf-16-le"])
def test_text_of_two_bytes_a_sign_is_refused(tmp_path: Path, encoding: str) -> None:
    """With its mark it is named; without, every second byte is a NUL."""
    error = _refusal(SOUND.decode().encode(encoding), tmp_path)
    assert error.message.id == ("text-is-utf-16" if encoding == "utf-16" else "file-is-binary")


def test_latin_1_is_told_with_line_and_byte(tmp_path: Path) -> None:
    """The plus-minus sign of Latin-1 is the byte B1 (ISO 8859-1)."""
    error = _refusal(SOUND + "accuracy = '±1 %'\n".encode("latin-1"), tmp_path)
    values = error.message.values
    assert (error.message.id, values["line"], values["byte"], values["perhaps"]) == ("text-not-utf-8", 5, "0xb1", "±")


def test_what_is_shown_again_cannot_steer_a_terminal() -> None:
    """An escape sign in the file is spelled out in the message."""
    with pytest.raises(VisitFileError) as caught:
        parse_visit(SOUND + b'reference = "\\u001b[31mred"\n')
    assert "\x1b" not in str(caught.value.problems[0].message.values["got"])


def test_a_file_with_thousands_of_problems_lists_some_and_says_so() -> None:
    """The list ends at a number that nobody reads to the end of."""
    with pytest.raises(VisitFileError) as caught:
        parse_visit(SOUND + b"".join(b"k%d = 1\n" % n for n in range(20_000)))
    assert len(caught.value.problems) == 501
    assert caught.value.problems[-1].message.id == "more-problems"


def test_saving_replaces_the_file_and_leaves_nothing_beside_it(tmp_path: Path) -> None:
    """What is read back is what was saved, byte for byte."""
    path = tmp_path / "visit.toml"
    path.write_text("old", encoding="utf-8")
    file = parse_visit(b"\xef\xbb\xbf" + SOUND.replace(b"\n", b"\r\n"))
    save_visit(file, path)
    assert path.read_bytes() == b"\xef\xbb\xbf" + SOUND.replace(b"\n", b"\r\n")
    assert [entry.name for entry in tmp_path.iterdir()] == ["visit.toml"]


def test_a_save_that_fails_leaves_the_old_file_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The disk says no while the new file is forced to it."""
    path = tmp_path / "visit.toml"
    path.write_text("old", encoding="utf-8")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(FileUnreadableError, match="file-unwritable"):
        save_visit(parse_visit(SOUND), path)
    assert path.read_text(encoding="utf-8") == "old"
    assert [entry.name for entry in tmp_path.iterdir()] == ["visit.toml"]


def test_saving_where_a_folder_stands_or_none_is_refused(tmp_path: Path) -> None:
    """Neither is a traceback."""
    with pytest.raises(FileUnreadableError, match="file-is-folder"):
        save_visit(parse_visit(SOUND), tmp_path)
    with pytest.raises(FileUnreadableError, match="file-unwritable"):
        save_visit(parse_visit(SOUND), tmp_path / "none" / "visit.toml")
