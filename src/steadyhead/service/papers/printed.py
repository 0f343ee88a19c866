"""What a paper shows beside its words: the bytes of its photos, and of the logo over it.

Rules
-----
1. A picture goes by the SHA-256 of its bytes, and only those that the paper names are looked for.
2. One that is not here is left out: whoever sets the paper says that it is lacking.
"""

from __future__ import annotations

import hashlib

from steadyhead.documents.laid import Values, pictured
from steadyhead.service.ports import Blob
from steadyhead.service.record.given import Given
from steadyhead.service.record.letterhead import logo


def logo_named(given: Given) -> str:
    """Return the SHA-256 of this device's logo; empty where it has none."""
    kept = logo(given)
    return "" if kept is None else _sha256(kept)


def pictures_of(given: Given, laid: Values) -> dict[str, Blob]:
    """Return the pictures that a paper in words names, by their SHA-256."""
    kept = logo(given)
    own = {} if kept is None else {_sha256(kept): kept}
    with given.reading() as work:
        found = {sha256: own.get(sha256) or work.blob(sha256) for sha256 in pictured(laid)}
    return {sha256: blob for sha256, blob in found.items() if blob is not None}


def _sha256(blob: Blob) -> str:
    return hashlib.sha256(blob.data).hexdigest()
