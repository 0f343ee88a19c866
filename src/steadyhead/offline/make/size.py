"""How large a site is, and how much of it goes over the way to a phone where a server compresses."""

from __future__ import annotations

import gzip
from dataclasses import dataclass
from pathlib import Path

#: The largest download [MB]: half a minute in a car park with two bars.
MOST_MB = 14.0
#: What servers usually compress with.
USUAL = 6


@dataclass(frozen=True, slots=True)
class Size:
    """How large a site is.

    Parameters
    ----------
    bytes
        On the disk, of each file, by its address.
    sent
        Over the way, of each file, by its address [bytes].
    """

    bytes: dict[str, int]
    sent: dict[str, int]

    @property
    def whole_mb(self) -> float:
        """The whole on the disk [MB]."""
        return sum(self.bytes.values()) / 1e6

    @property
    def sent_mb(self) -> float:
        """The whole over the way [MB].

        >>> Size({"a": 2_000_000}, {"a": 500_000}).sent_mb
        0.5
        """
        return sum(self.sent.values()) / 1e6


def size_of(folder: Path) -> Size:
    """Return how large a folder's files are."""
    whole, sent = {}, {}
    for file in sorted(each for each in folder.rglob("*") if each.is_file()):
        content, address = file.read_bytes(), file.relative_to(folder).as_posix()
        whole[address], sent[address] = len(content), min(len(content), len(gzip.compress(content, USUAL)))
    return Size(whole, sent)
