"""Each template compiled once: every test has an app of its own, and an app compiles its pages' templates anew.

What a template says is compiled by its name and its whole text, so that another text is compiled for itself.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from types import CodeType

from jinja2 import BytecodeCache, Environment
from jinja2.bccache import Bucket

from steadyhead.web import render


class Compiled(BytecodeCache):
    """The compiled templates of this process."""

    def __init__(self) -> None:
        self._codes: dict[tuple[str, str], CodeType] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        """Hand out what was compiled before."""
        bucket.code = self._codes.get((bucket.key, bucket.checksum))

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep what was compiled now."""
        if bucket.code is not None:
            self._codes[bucket.key, bucket.checksum] = bucket.code


@contextmanager
def each_template_once() -> Iterator[None]:
    """Let all apps of this process share what they compile."""
    setattr(render, "Environment", partial(Environment, bytecode_cache=Compiled()))  # noqa: B010 - as tests.once does
    try:
        yield
    finally:
        setattr(render, "Environment", Environment)  # noqa: B010 - the same
