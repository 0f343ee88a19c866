"""How a day is written, in English."""

from __future__ import annotations

ENGLISH: dict[str, str] = {
    "date-day": "{day} {month:month} {year}",
    "date-whole": "{day} {month:month} {year} {clock}",
    "date-moment": "{day} {month:month} {clock}",
}
