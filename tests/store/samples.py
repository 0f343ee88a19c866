"""Facts of an invented visit, as a technician's device writes them."""

from __future__ import annotations

import hashlib

from steadyhead.store.unit import Store
from steadyhead.visit.facts import Fact
from tests.record.bench import fact

PICTURE = b"not really a picture"
SHA256 = hashlib.sha256(PICTURE).hexdigest()

SITE = fact(1, "site", body={"name": "Fernhill Row", "altitude": "310 m"}, author="Ann Marlowe", program="0.1.0")
SYSTEM = fact(
    2, "system", author="Ann Marlowe", program="0.1.0",
    body={"name": "House pump", "site": SITE.id, "sensor": {"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi"}},
)  # fmt: skip
VISIT = fact(
    3, "visit", visit=3, zone="America/Toronto", author="Ann Marlowe", program="0.1.0",
    body={"system": SYSTEM.id, "site": SITE.id, "state": "open", "complaint": {"text": "Relief valve lifting"}},
)  # fmt: skip
READINGS = tuple(
    fact(number, "reading", visit=3, author="Ann Marlowe", body={"measure": "gauge-pressure", "value": f"{number} psi"})
    for number in range(10, 15)
)
PHOTO = fact(20, "photo", visit=3, body={"sha256": SHA256, "media_type": "image/jpeg"})
WHOLE: tuple[Fact, ...] = (SITE, SYSTEM, VISIT, *READINGS, PHOTO)


def filled(store: Store) -> Store:
    """Return the store with the invented visit and its photo in it."""
    with store.writing() as unit:
        unit.put_blob(PICTURE, "image/jpeg")
        unit.add(WHOLE)
        unit.commit()
    return store
