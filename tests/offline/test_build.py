"""The folder that is handed to a phone: every file is in the service worker's list, and none comes from elsewhere."""

from __future__ import annotations

import hashlib
import json
import re
from pathlib import Path

import pytest

from steadyhead.offline import build as building

ELSEWHERE = re.compile(r"(https?:)?//[a-z0-9.-]+\.[a-z]{2,}/")


def pyodide_and_archive(folder: Path, archive: bytes = b"PK") -> tuple[Path, Path]:
    """Return a folder like Pyodide's, and an archive."""
    pyodide = folder / "pyodide"
    pyodide.mkdir()
    for name in (*building.PYODIDE, "README.md"):
        (pyodide / name).write_text(name, encoding="utf-8")
    (folder / "site.zip").write_bytes(archive)
    return pyodide, folder / "site.zip"


@pytest.fixture
def built(tmp_path: Path) -> tuple[building.Built, Path]:
    """Return what was built, and where it is."""
    return building.build(*pyodide_and_archive(tmp_path), tmp_path / "out"), tmp_path / "out"


def listed(folder: Path) -> dict[str, str]:
    """Return the list in the service worker: each file's digest."""
    found = re.search(r"const FILES = (\{[^;]*\});", (folder / "sw.js").read_text(encoding="utf-8"))
    assert found is not None
    files: dict[str, str] = json.loads(found[1])
    return files


def test_the_service_worker_lists_every_file_but_itself(built: tuple[building.Built, Path]) -> None:
    """As they lie in the folder, each with the SHA-256 of it; a browser asks for its service worker by itself."""
    _, folder = built
    files = {f"/{file.relative_to(folder).as_posix()}": file for file in folder.rglob("*") if file.is_file()}
    there = set(files)
    digests = {address: hashlib.sha256(file.read_bytes()).hexdigest() for address, file in files.items()}
    digests.pop("/sw.js")
    assert listed(folder) == digests
    assert {"/index.html", "/shell/worker.js", "/engine/site.zip", "/shell/icon.svg"} <= there
    assert "/engine/README.md" not in there


def test_another_file_is_another_version(built: tuple[building.Built, Path], tmp_path: Path) -> None:
    """One byte more in the archive; the version stands in the service worker, so that a browser sees the change."""
    first, folder = built
    (tmp_path / "other").mkdir()
    second = building.build(*pyodide_and_archive(tmp_path / "other", b"PK2"), tmp_path / "out2")
    assert first.version != second.version
    assert f'const VERSION = "{first.version}";' in (folder / "sw.js").read_text(encoding="utf-8")


def test_building_twice_gives_the_same_bytes(built: tuple[building.Built, Path], tmp_path: Path) -> None:
    """From the same parts, into the same folder."""
    first, folder = built
    (folder / "left over.txt").write_text("", encoding="utf-8")
    before = {file.name: file.read_bytes() for file in folder.rglob("*") if file.is_file() and file.suffix != ".txt"}
    second = building.build(tmp_path / "pyodide", tmp_path / "site.zip", folder)
    assert first == second
    assert {file.name: file.read_bytes() for file in folder.rglob("*") if file.is_file()} == before


def test_nothing_is_asked_for_elsewhere_and_no_script_stands_in_the_page(built: tuple[building.Built, Path]) -> None:
    """One origin, and a content policy that would refuse a script or style within the page."""
    _, folder = built
    own = [file for file in folder.rglob("*") if file.suffix in {".html", ".js", ".css", ".webmanifest"}]
    assert [file.name for file in own if ELSEWHERE.search(file.read_text(encoding="utf-8"))] == []
    page = (folder / "index.html").read_text(encoding="utf-8")
    assert "script-src 'self'" in page
    assert re.findall(r"<style|style=|onclick=|<script(?![^>]*src=)", page) == []


def test_every_state_that_the_shell_shows_has_its_words(built: tuple[building.Built, Path]) -> None:
    """The shell's script holds no words: each state it names has a line in the page and a rule in the styles."""
    _, folder = built
    style, page = ((folder / name).read_text(encoding="utf-8") for name in ("shell/shell.css", "index.html"))
    script = "".join(file.read_text(encoding="utf-8") for file in (folder / "shell").glob("*.js"))
    calls = [*re.findall(r"\bshow\(([^()]*)", script), *re.findall(r"\bsetTimeout\(show,([^()]*)\)", script)]
    states = {word for call in calls for word in re.findall(r'"([a-z]+)"', call)} - {"running"}
    assert states == set(" ".join(re.findall(r'<p data-for="([a-z ]+)"', page)).split())
    assert states <= set(re.findall(r'\[data-state="([a-z]+)"\] \[data-for', style))


def test_every_step_of_the_start_and_every_tap_that_waits_has_its_words(built: tuple[building.Built, Path]) -> None:
    """Each step that the worker tells, both where nothing is to be seen yet and under the page as it was kept."""
    _, folder = built
    page, style = ((folder / name).read_text(encoding="utf-8") for name in ("index.html", "shell/shell.css"))
    worker, kept = ((folder / "shell" / name).read_text(encoding="utf-8") for name in ("worker.js", "kept.js"))
    steps = re.findall(r'\bstep\("([a-z]+)"\)', worker)
    assert len(steps) > 1
    assert sorted(re.findall(r'data-at="([a-z]+)"', page)) == sorted(2 * steps)
    assert set(re.findall(r'\[data-at="([a-z]+)"\]', style)) == set(steps)
    waiting = re.search(r'queued = link \? "([a-z]+)" : "([a-z]+)"', kept)
    assert waiting is not None
    assert set(re.findall(r'data-queue="([a-z]+)"', page)) == set(waiting.groups())


def test_the_page_that_stays_says_everything_in_both_languages(built: tuple[building.Built, Path]) -> None:
    """English and Spanish side by side; nothing is said outside of them but the name and what scripts off leaves."""
    _, folder = built
    page = (folder / "index.html").read_text(encoding="utf-8").partition("<body")[2]
    both = re.compile(r'<span lang="en">([^<]+)</span><span lang="es">([^<]+)</span>')
    pairs = both.findall(page)
    assert len(pairs) > 20
    assert [english for english, spanish in pairs if english == spanish] == []
    left = re.sub(r"<noscript>.*?</noscript>|<h1>.*?</h1>", "", both.sub("", page), flags=re.DOTALL)
    assert re.findall(r">\s*([^<>\s][^<>]*)<", left) == []


def test_every_address_is_one_in_the_sites_own_folder(built: tuple[building.Built, Path]) -> None:
    """So that the site may stand in any folder of a web server: no address begins at the root."""
    _, folder = built
    scripts = list((folder / "shell").glob("*.js"))
    own = [*scripts, *(file for file in folder.rglob("*") if file.suffix in {".html", ".webmanifest", ".css"})]
    rooted = re.compile(r"""(?:href|src)="/|"(?:src|start_url|scope)": "/|(?:from|import|fetch|register)\(? ?["'`]/""")
    assert [file.name for file in own if rooted.search(file.read_text(encoding="utf-8"))] == []


def test_the_manifest_has_what_an_installation_asks_for(built: tuple[building.Built, Path]) -> None:
    """A name, a start, icons of 192 and 512 pixels, one that may be cut (W3C, Web Application Manifest); all small."""
    _, folder = built
    manifest = json.loads((folder / "shell" / "manifest.webmanifest").read_text(encoding="utf-8"))
    assert {"name", "short_name", "id", "start_url", "scope", "display", "theme_color"} <= set(manifest)
    sizes = set()
    for icon in manifest["icons"]:
        content = (folder / "shell" / icon["src"]).read_bytes()
        if icon["type"] == "image/png":  # width and height stand in the first chunk (PNG specification, 11.2.2)
            sizes.add((icon["purpose"], int.from_bytes(content[16:20]), int.from_bytes(content[20:24])))
            assert len(content) < 10_000
    assert sizes == {("any", 192, 192), ("any", 512, 512), ("maskable", 512, 512)}
