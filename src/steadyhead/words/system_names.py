"""Names of what a system's page shows."""

from __future__ import annotations

#: Keys of a system that stand in none of its tables.
SYSTEM_KEYS: dict[str, str] = {
    "name": "what it is called",
    "site": "site",
    "depends": "who depends on the water",
    "access": "how to get in",
}
