"""The second version: what comes back by itself is listed, and a visit is found by all that was written in it.

The lasting tables stay; what is derived is made anew.
"""

from __future__ import annotations

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Change no lasting table: the list of what is pending is derived, and made after the last step."""
