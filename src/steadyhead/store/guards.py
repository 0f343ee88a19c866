"""The triggers that keep facts as they are, whoever writes to the database.

Rules
-----
1. No fact is deleted, and none is changed but in two ways.
2. A purge: where a purge fact covers it, a fact may lose its body and its extras; its ids, its kind, its time stay.
3. A collision: where one id was met with two contents, and both are kept in `collision`, the fact may take the other.
4. A line of `supersedes` goes only with a collision; a photo never changes.
5. The triggers belong to no migration: they are made anew whenever the tables are (`renew`).
"""

from __future__ import annotations

from sqlalchemy import Connection, text

_COVERED = "EXISTS (SELECT 1 FROM purged WHERE target IN (OLD.id, OLD.about, OLD.visit))"
_COLLIDED = "EXISTS (SELECT 1 FROM collision WHERE collision.fact = OLD.{id})"
_EMPTIED = (
    "NEW.id = OLD.id AND NEW.kind = OLD.kind AND NEW.about = OLD.about AND NEW.at = OLD.at "
    "AND NEW.visit IS NOT DISTINCT FROM OLD.visit AND NEW.body = '{}' AND NEW.extra = '{}'"
)
_MAY_CHANGE = f"(({_EMPTIED} AND {_COVERED}) OR (NEW.id = OLD.id AND {_COLLIDED.format(id='id')}))"

#: table, what is done to it, when that is refused (never quoted by a person: constants all), and what is said.
GUARDS: tuple[tuple[str, str, str, str], ...] = (
    ("fact", "UPDATE", f"NOT {_MAY_CHANGE}", "a fact is never changed"),
    ("fact", "DELETE", "TRUE", "a fact is never deleted"),
    ("supersedes", "UPDATE", "TRUE", "what a fact replaces is never changed"),
    ("supersedes", "DELETE", f"NOT {_COLLIDED.format(id='fact')}", "what a fact replaces is never deleted"),
    ("blob", "UPDATE", "TRUE", "a photo is never changed"),
)


def renew(connection: Connection) -> None:
    """Put every trigger in its place, instead of those that may stand there."""
    write = {"sqlite": _sqlite, "postgresql": _postgresql}[connection.dialect.name]
    for guard in GUARDS:
        for statement in write(*guard):
            connection.execute(text(statement))


def _sqlite(table: str, event: str, refused: str, said: str) -> list[str]:
    name = f"guard_{table}_{event.lower()}"
    return [
        f"DROP TRIGGER IF EXISTS {name}",
        f"CREATE TRIGGER {name} BEFORE {event} ON {table} WHEN {refused} BEGIN SELECT RAISE(ABORT, '{said}'); END",
    ]


def _postgresql(table: str, event: str, refused: str, said: str) -> list[str]:
    name = f"guard_{table}_{event.lower()}"
    back = "NEW" if event == "UPDATE" else "OLD"
    return [
        (
            f"CREATE OR REPLACE FUNCTION {name}() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN "
            f"IF {refused} THEN RAISE EXCEPTION '{said}'; END IF; RETURN {back}; END $$"
        ),
        f"DROP TRIGGER IF EXISTS {name} ON {table}",
        f"CREATE TRIGGER {name} BEFORE {event} ON {table} FOR EACH ROW EXECUTE FUNCTION {name}()",
    ]
