"""Where a home answers another one, and which version is spoken there."""

from __future__ import annotations

VERSION = 1
PREFIX = f"/sync/{VERSION}"
