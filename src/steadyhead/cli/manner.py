"""How a command speaks: the region that its option names, in the language of the environment.

Rules
-----
1. ``STEADYHEAD_LANGUAGE`` (two letters) chooses the language of what a command shows, of what it says in its JSON, of
   its help and of what is wrong with a command line; a language that is not here is refused. Nothing set is English.
2. A language brings its usual decimal sign along. Figures in JSON stay figures.
3. What is typed (commands, options, ids) is the same in every language.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from steadyhead.words import Manner, Speaker

VARIABLE = "STEADYHEAD_LANGUAGE"


def manner(region: str, *, unit: str = "", environ: Mapping[str, str] = os.environ) -> Manner:
    """Return how a command speaks.

    Parameters
    ----------
    region
        Of its ``--region``.
    unit
        Unit of pressure; empty for the system's own.
    environ
        The environment.

    Raises
    ------
    UnknownWordError
        ``region-unknown``, ``language-unknown`` or ``word-unknown``.

    Examples
    --------
    >>> manner("elsewhere", environ={"STEADYHEAD_LANGUAGE": "es"}).speaker().name("remedy", "replace-sensor")
    'cambiar el sensor'
    """
    from steadyhead.words import USUAL  # noqa: PLC0415 - a help in English needs no words

    return replace(USUAL, region=region, unit=unit).usual_in(environ.get(VARIABLE) or "en")


def usual_speaker() -> Speaker:
    """Return who speaks for a command that knows no region: in the usual one's words.

    Raises
    ------
    UnknownWordError
        ``language-unknown``.
    """
    return manner("north-america").speaker()
