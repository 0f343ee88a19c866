"""An app's life under a host, as ASGI's lifespan protocol has it (asgi.readthedocs.io, Lifespan Protocol 2.0)."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import pytest
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Route

from steadyhead.errors import StartError
from steadyhead.offline.host import Host
from tests.offline.spoken import ORIGIN, Told

pytestmark = pytest.mark.laptop  # a browser's Python can't stand still until its event loop is done


def test_an_app_is_started_served_and_ended_before_what_stands_behind_it() -> None:
    """In this order; what it keeps from its start is there at each request."""
    told: list[str] = []

    @asynccontextmanager
    async def life(_: Starlette) -> AsyncIterator[dict[str, str]]:
        told.append("start")
        yield {"kept": "from the start"}
        told.append("end")

    async def page(request: Request) -> Response:
        told.append(request.state.kept)
        return PlainTextResponse("")

    async def whole() -> None:
        host = Host(Starlette(lifespan=life, routes=[Route("/", page)]), ORIGIN, lambda: told.append("closed"))
        await host.start()
        await host.answer("GET", f"{ORIGIN}/", [])
        await host.stop()

    asyncio.run(whole())
    assert told == ["start", "from the start", "end", "closed"]


def test_an_app_that_refuses_to_start_says_why() -> None:
    """Its own words reach whoever started it."""

    @asynccontextmanager
    async def life(_: Starlette) -> AsyncIterator[None]:
        (Path(__file__) / "no room").touch()
        yield

    with pytest.raises(StartError, match="no room"):
        asyncio.run(Host(Starlette(lifespan=life), ORIGIN).start())


def test_an_app_without_a_life_is_served_all_the_same() -> None:
    """It fails at the lifespan's scope: the protocol says to go on without."""
    app = Told(body=b"here")

    async def whole() -> bytes:
        host = Host(app, ORIGIN)
        await host.start()
        answer = await host.answer("GET", ORIGIN, [])
        await host.stop()
        return answer.body

    assert asyncio.run(whole()) == b"here"
