"""A text as a QR code, drawn as SVG: black on white, with the quiet edge that ISO/IEC 18004 asks for."""

from __future__ import annotations

from io import BytesIO

import segno

#: Modules of white about the code, from ISO/IEC 18004 (from memory).
QUIET = 4
#: Two modules, one above the other, as one sign: 1 is dark.
BLOCKS = {(0, 0): "█", (0, 1): "▀", (1, 0): "▄", (1, 1): " "}


def qr_text(text: str) -> str:
    """Return a text as a QR code of block signs, light where it is light: for a terminal with a dark ground.

    >>> qr_text("http://192.168.1.5:8240/").count(chr(10)) > 10
    True
    """
    rows = [bytes(row) for row in segno.make(text, error="l", micro=False).matrix_iter(border=QUIET // 2)]
    rows += [bytes(len(rows[0]))] * (len(rows) % 2)
    pairs = zip(rows[::2], rows[1::2], strict=True)
    return "\n".join("".join(BLOCKS[above, below] for above, below in zip(*pair, strict=True)) for pair in pairs)


def qr_svg(text: str) -> str:
    """Return a text as a QR code; a quarter of it may be dirt and it can still be read.

    >>> qr_svg("steadyhead:visit/01ARZ3NDEKTSV4RRFFQ69G5FAV")[:40]
    '<svg xmlns="http://www.w3.org/2000/svg" '
    """
    drawn = BytesIO()
    code = segno.make(text, error="q", boost_error=False, micro=False)
    code.save(
        drawn, kind="svg", border=QUIET, xmldecl=False, omitsize=True, nl=False, light="#fff", svgclass=None,
        lineclass=None,
    )  # fmt: skip
    return drawn.getvalue().decode()
