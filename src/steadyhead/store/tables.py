"""The tables: what lasts, and beside it what is only derived.

Rules
-----
1. `LASTING` holds what cannot be had again: facts, which fact names which, collisions, photos, settings. Only a
   migration changes its tables (`migrations`).
2. `DERIVED` holds projections of the facts. Their rows are never migrated: where the version rises, they are dropped,
   made and filled anew. So a change of these tables needs a revision, too, if only an empty one.
3. Ids and times are text that sorts byte by byte in every database. A body is JSON text, never a database's own JSON
   type, so that a fact of a newer version comes out as it went in.
4. A fact may name or speak of one that has not arrived yet: no foreign key where the order of arrival is not known.
"""

from __future__ import annotations

from sqlalchemy import Column, ForeignKey, Index, Integer, LargeBinary, MetaData, String, Table, Text

LASTING = MetaData()
DERIVED = MetaData()

#: Text that sorts byte by byte: SQLite always does, PostgreSQL when it is told.
Plain = Text().with_variant(String(collation="C"), "postgresql")

fact = Table(
    "fact",
    LASTING,
    Column("id", Plain, primary_key=True),
    Column("kind", Plain, nullable=False),
    Column("about", Plain, nullable=False),
    Column("visit", Plain),
    Column("at", Plain, nullable=False),
    Column("zone", Text, nullable=False),
    Column("author", Text, nullable=False),
    Column("instrument", Plain),
    Column("program", Text, nullable=False),
    Column("body", Text, nullable=False),
    Column("extra", Text, nullable=False),
    Index("fact_about", "about", "id"),
    Index("fact_visit", "visit", "id"),
    Index("fact_kind", "kind", "id"),
)

#: `fact` replaces `names`, in the order in which it says so; the one that is named may not have arrived.
supersedes = Table(
    "supersedes",
    LASTING,
    Column("fact", Plain, ForeignKey("fact.id"), primary_key=True),
    Column("place", Integer, primary_key=True, autoincrement=False),
    Column("names", Plain, nullable=False),
    Index("supersedes_names", "names"),
)

#: Every content that one id was met with, where there was more than one; a purge takes them away.
collision = Table(
    "collision",
    LASTING,
    Column("fact", Plain, ForeignKey("fact.id"), primary_key=True),
    Column("sha256", Plain, primary_key=True),
    Column("content", Text, nullable=False),
)

blob = Table(
    "blob",
    LASTING,
    Column("sha256", Plain, primary_key=True),
    Column("media_type", Text, nullable=False),
    Column("size", Integer, nullable=False),
    Column("bytes", LargeBinary, nullable=False),
)

thumbnail = Table(
    "thumbnail",
    LASTING,
    Column("sha256", Plain, ForeignKey("blob.sha256", ondelete="CASCADE"), primary_key=True),
    Column("media_type", Text, nullable=False),
    Column("bytes", LargeBinary, nullable=False),
)

setting = Table(
    "setting",
    LASTING,
    Column("name", Plain, primary_key=True),
    Column("value", Text, nullable=False),
)

#: The version of the tables above, in the row and under the name that Alembic gives it.
version = Table("alembic_version", LASTING, Column("version_num", String(32), primary_key=True))

#: What the purge facts cover: an entity or one fact.
purged = Table(
    "purged",
    DERIVED,
    Column("target", Plain, primary_key=True),
    Column("purge", Plain, primary_key=True),
)

#: Which photo a fact shows, whatever its kind.
shown = Table(
    "shown",
    DERIVED,
    Column("fact", Plain, primary_key=True),
    Column("sha256", Plain, nullable=False),
    Index("shown_sha256", "sha256"),
)

entity = Table(
    "entity",
    DERIVED,
    Column("about", Plain, primary_key=True),
    Column("kind", Plain, primary_key=True),
    Column("name", Text, nullable=False),
    Column("heads", Integer, nullable=False),
    Column("search", Plain, nullable=False),
    Index("entity_kind", "kind", "search"),
)

visit_card = Table(
    "visit_card",
    DERIVED,
    Column("visit", Plain, primary_key=True),
    Column("system", Plain),
    Column("site", Plain),
    Column("state", Plain, nullable=False),
    Column("complaint", Text, nullable=False),
    Column("started", Plain, nullable=False),
    Column("last", Plain, nullable=False),
    Column("last_at", Plain, nullable=False),
    Column("readings", Integer, nullable=False),
    Column("photos", Integer, nullable=False),
    Column("heads", Integer, nullable=False),
    Column("search", Plain, nullable=False),
    Index("visit_card_state", "state", "last"),
    Index("visit_card_last", "last"),
    Index("visit_card_system", "system", "last"),
)

#: What visits wait for; a list of what comes back is read by the day.
pending = Table(
    "pending",
    DERIVED,
    Column("visit", Plain, primary_key=True),
    Column("about", Plain, primary_key=True),
    Column("system", Plain),
    Column("kind", Plain, nullable=False),
    Column("due", Plain, nullable=False),
    Column("what", Text, nullable=False),
    Column("heads", Integer, nullable=False),
    Index("pending_due", "due", "about"),
)

system_card = Table(
    "system_card",
    DERIVED,
    Column("system", Plain, primary_key=True),
    Column("site", Plain),
    Column("name", Text, nullable=False),
    Column("signal", Text, nullable=False),
    Column("range", Text, nullable=False),
    Column("visits", Integer, nullable=False),
    Column("open_visits", Integer, nullable=False),
    Column("last", Plain, nullable=False),
    Column("heads", Integer, nullable=False),
    Column("search", Plain, nullable=False),
    Index("system_card_last", "last"),
    Index("system_card_site", "site"),
)
