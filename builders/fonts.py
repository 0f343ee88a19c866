"""Writes the typefaces: Atkinson Hyperlegible Next and Mono, cut down for the app to the signs that it writes.

Rules
-----
1. The source is the fonts' own packages at npm, at a pinned version; nothing is drawn or changed, but that the micro
   sign, which the fonts lack, gets the glyph of the Greek letter mu, as Unicode has it look.
2. The subset holds printable ASCII, the letters of English, Spanish, French and German, and the trade's signs.
3. The fonts' licence text stands beside the files.
4. A PDF holds what people typed, and must not lack a sign of it: it gets two whole faces, and a list of their signs.
5. The files are committed; they change only when this is run again.

Run it as ``python -m builders.fonts``, with fonttools and brotli installed and npm on the path.
"""

from __future__ import annotations

import subprocess
import tarfile
import tempfile
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

PACKAGE_ROOT = Path(__file__).resolve().parents[1] / "src" / "steadyhead"
TARGET = PACKAGE_ROOT / "web" / "static" / "fonts"
PDF_TARGET = PACKAGE_ROOT / "pdf" / "fonts"
VERSION = "0.4.1"
PACKAGE = "@expo-google-fonts/atkinson-hyperlegible-{family}@" + VERSION

#: File of the app: family of the package, and the path of the face inside it.
FACES = {
    "next-regular.woff2": ("next", "400Regular/AtkinsonHyperlegibleNext_400Regular.ttf"),
    "next-bold.woff2": ("next", "700Bold/AtkinsonHyperlegibleNext_700Bold.ttf"),
    "mono-bold.woff2": ("mono", "700Bold/AtkinsonHyperlegibleMono_700Bold.ttf"),
}
#: File of a PDF's face, and the face of the app that it is the whole of.
WHOLE = {"next-regular.ttf": "next-regular.woff2", "next-bold.ttf": "next-bold.woff2"}
ASCII = "".join(map(chr, range(0x20, 0x7F)))
LETTERS = "áéíóúüñÁÉÍÓÚÜÑ¿¡ªº" + "àâçèêëîïôùûÀÂÇÈÊËÎÏÔÙÛ" + "äöüÄÖÜßæÆœŒåÅøØ"
SIGNS = "\N{OHM SIGN}\N{GREEK CAPITAL LETTER OMEGA}\N{MICRO SIGN}\N{GREEK SMALL LETTER MU}\N{INCREMENT}"
SIGNS += "\N{GREEK CAPITAL LETTER DELTA}≤≥≈√±×÷−°²³½¼¾%‰·•…–—‘’“”«»€£§∞\u00a0"


def main() -> None:
    """Fetch both families, and write the three faces and their licence."""
    TARGET.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        unpacked = {family: _unpacked(family, Path(folder) / family) for family in ("next", "mono")}
        for name, (family, path) in FACES.items():
            _write(unpacked[family] / path, TARGET / name)
        _write_whole({name: unpacked["next"] / FACES[face][1] for name, face in WHOLE.items()})
        for family, where in unpacked.items():
            licence = (where / "LICENSE_FONT").read_text(encoding="utf-8")
            (TARGET / f"OFL-{family}.txt").write_text(licence, encoding="utf-8")
            if family == "next":
                (PDF_TARGET / "OFL-next.txt").write_text(licence, encoding="utf-8")


def _unpacked(family: str, folder: Path) -> Path:
    """Return the folder of a family's package, fetched by npm."""
    folder.mkdir()
    subprocess.run(["npm", "pack", "--silent", PACKAGE.format(family=family)], cwd=folder, check=True)
    with tarfile.open(next(folder.glob("*.tgz"))) as archive:
        archive.extractall(folder, filter="data")
    return folder / "package"


def _write(source: Path, target: Path) -> None:
    """Write one face, cut down and compressed."""
    font = TTFont(source)
    _give_mu_to_micro(font)
    options = Options()
    options.flavor = "woff2"
    options.layout_features = ["kern", "mark", "tnum", "zero", "ccmp", "locl"]
    options.hinting = False
    subsetter = Subsetter(options)
    subsetter.populate(text=ASCII + LETTERS + SIGNS)
    subsetter.subset(font)
    font.flavor = "woff2"
    font.save(target)
    print(f"{target.name}: {target.stat().st_size} bytes, {len(font.getBestCmap())} signs")


def _write_whole(sources: dict[str, Path]) -> None:
    """Write the faces of a PDF, and the signs that all of them have, one line of each."""
    PDF_TARGET.mkdir(parents=True, exist_ok=True)
    signs: set[int] = set()
    for name, source in sources.items():
        font = TTFont(source, recalcTimestamp=False)
        _give_mu_to_micro(font)
        font.save(PDF_TARGET / name)
        signs = signs & set(font.getBestCmap()) if signs else set(font.getBestCmap())
    listed = "\n".join(f"{sign:04X}" for sign in sorted(signs))
    (PDF_TARGET / "signs.txt").write_text(listed + "\n", encoding="utf-8")


def _give_mu_to_micro(font: TTFont) -> None:
    """Let the signs that have two code points share the glyph that the font has."""
    for table in font["cmap"].tables:
        if table.isUnicode():
            for lacking, there in ((0xB5, 0x3BC), (0x2126, 0x3A9), (0x2206, 0x394)):
                glyph = table.cmap.get(there)
                if glyph is not None:
                    table.cmap.setdefault(lacking, glyph)


if __name__ == "__main__":
    main()
