"""The first version: facts, what they replace, collisions, photos, settings."""

from __future__ import annotations

from alembic import op
from sqlalchemy import Column, ForeignKey, Integer, LargeBinary, String, Text

revision = "0001"
down_revision = None

#: Text that sorts byte by byte.
_PLAIN = Text().with_variant(String(collation="C"), "postgresql")


def upgrade() -> None:
    """Make the lasting tables."""
    _make_facts()
    _make_photos()
    op.create_table(
        "setting", Column("name", _PLAIN, primary_key=True), Column("value", Text, nullable=False)
    )
    op.create_table("alembic_version", Column("version_num", String(32), primary_key=True))


def _make_facts() -> None:
    op.create_table(
        "fact",
        Column("id", _PLAIN, primary_key=True),
        Column("kind", _PLAIN, nullable=False),
        Column("about", _PLAIN, nullable=False),
        Column("visit", _PLAIN),
        Column("at", _PLAIN, nullable=False),
        Column("zone", Text, nullable=False),
        Column("author", Text, nullable=False),
        Column("instrument", _PLAIN),
        Column("program", Text, nullable=False),
        Column("body", Text, nullable=False),
        Column("extra", Text, nullable=False),
    )
    for column in ("about", "visit", "kind"):
        op.create_index(f"fact_{column}", "fact", [column, "id"])
    op.create_table(
        "supersedes",
        Column("fact", _PLAIN, ForeignKey("fact.id"), primary_key=True),
        Column("place", Integer, primary_key=True, autoincrement=False),
        Column("names", _PLAIN, nullable=False),
    )
    op.create_index("supersedes_names", "supersedes", ["names"])
    op.create_table(
        "collision",
        Column("fact", _PLAIN, ForeignKey("fact.id"), primary_key=True),
        Column("sha256", _PLAIN, primary_key=True),
        Column("content", Text, nullable=False),
    )


def _make_photos() -> None:
    op.create_table(
        "blob",
        Column("sha256", _PLAIN, primary_key=True),
        Column("media_type", Text, nullable=False),
        Column("size", Integer, nullable=False),
        Column("bytes", LargeBinary, nullable=False),
    )
    op.create_table(
        "thumbnail",
        Column("sha256", _PLAIN, ForeignKey("blob.sha256", ondelete="CASCADE"), primary_key=True),
        Column("media_type", Text, nullable=False),
        Column("bytes", LargeBinary, nullable=False),
    )
