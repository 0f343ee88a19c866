"""How much the record holds, and how much room there is for more: counted, never guessed.

Rules
-----
1. The size is the database's own count of its pages; what a journal takes for a moment is left out.
2. Room is what the system says of the disk that the file stands on. A server's disk is its keeper's care, and what a
   browser grants only that browser can tell: None.
"""

from __future__ import annotations

import shutil

from sqlalchemy import Engine, func, select

from steadyhead.service.ports import RecordSize
from steadyhead.store.engines import reader
from steadyhead.store.places import Place
from steadyhead.store.tables import blob


def measure(engine: Engine, place: Place) -> RecordSize:
    """Return how much the record holds, and how much room there is beside it."""
    file = engine.dialect.name == "sqlite"
    size = "SELECT page_count * page_size FROM pragma_page_count(), pragma_page_size()"
    with reader(engine) as connection, connection.begin():
        total = connection.exec_driver_sql(size if file else "SELECT pg_database_size(current_database())").scalar_one()
        photos = connection.execute(select(func.count(), func.coalesce(func.sum(blob.c.size), 0))).one()
    room = shutil.disk_usage(place.file.parent).free if file else None
    return RecordSize(total=int(total), photos=int(photos[0]), of_photos=int(photos[1]), room=room)
