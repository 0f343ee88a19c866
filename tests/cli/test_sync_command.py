"""`steadyhead sync` against an app that is really served, and everything out of one record into another by files."""

from __future__ import annotations

import json
import socket
import threading
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

import pytest
import uvicorn

from steadyhead.bootstrap import Home, open_home, place_named
from steadyhead.cli import sync_work
from steadyhead.service.record.finding import find
from steadyhead.service.record.handed import handed
from steadyhead.service.record.photos import add_photo
from steadyhead.service.record.visits import start_visit
from steadyhead.web.app import make_app
from steadyhead.web.joining import Joining
from tests.cli.terminal import Terminal
from tests.service.photos.made import jpeg

PLATE = {"signal": "0.5..4.5 V ratiometric", "range": "0..100 psi"}

pytestmark = pytest.mark.laptop  # a browser's Python has no ports


@dataclass
class Laptop:
    """An app that is served to phones on a port of its own."""

    home: Home
    joining: Joining
    address: str


@pytest.fixture
def laptop(tmp_path: Path) -> Iterator[Laptop]:
    """Serve an app, and end it."""
    home = open_home(place_named(str(tmp_path / "laptop.db")))
    port = socket.create_server(("127.0.0.1", 0))
    address = f"http://127.0.0.1:{port.getsockname()[1]}"
    joining = Joining(f"{address}/", home.clock)
    app = make_app(replace(home.given, author="Ana"), joining=joining)
    server = uvicorn.Server(uvicorn.Config(app, log_level="critical", lifespan="off", http="h11", loop="asyncio"))
    serving = threading.Thread(target=server.run, kwargs={"sockets": [port]})
    serving.start()
    yield Laptop(home, joining, address)
    server.should_exit = True
    serving.join(timeout=20)
    home.close()


@pytest.fixture(autouse=True)
def _own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Stand in a folder of its own, with a record there; wait for nobody."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("STEADYHEAD_DATA", str(tmp_path / "record.db"))
    monkeypatch.setattr(sync_work, "PAUSES_S", (0.0,))


def own(name: str) -> str:
    """Put a visit with a photo into this computer's record; return its id."""
    home = open_home(place_named(None))
    visit = start_visit(home.given, {"text": "no water"}, sensor=PLATE, name=name)
    add_photo(home.given, visit, jpeg())
    home.close()
    return visit


def test_two_records_are_brought_together_and_the_second_time_nothing_goes(terminal: Terminal, laptop: Laptop) -> None:
    """Three facts and a photo here, two facts there; a key was given, so that no code is needed again."""
    visit = own("Molina")
    start_visit(laptop.home.given, {"text": "hunts"}, sensor=PLATE, name="Harbour")
    first = terminal.run("sync", laptop.address, "--code", laptop.joining.code())
    assert (first.code, first.err) == (0, "")
    assert "Went: 3 entries, 1 photos." in first.out
    assert "Came: 2 entries, 0 photos." in first.out
    again = json.loads(terminal.run("sync", laptop.address, "--json").out)
    assert (again["sent"], again["photos_sent"], again["came"]["new"]) == (0, 0, 0)
    assert find(laptop.home.given, "molina").systems
    home = open_home(place_named(None))
    assert find(home.given, "harbour").systems
    note = handed(home.given, visit)
    assert note is not None
    assert note.way == "sync"
    home.close()


def test_what_stands_in_the_way_is_told_with_2(terminal: Terminal, laptop: Laptop) -> None:
    """No code, a wrong one, no address, nobody there, another server than ours."""
    for words, said in (
        ((laptop.address,), "asks for its code"),
        ((laptop.address, "--code", "1"), "does not let you in"),
        (("http://x/y",), "is no address"),
        (("127.0.0.1:1", "--code", "1"), "No answer from 127.0.0.1:1"),
    ):
        answer = terminal.run("sync", *words)
        assert (answer.code, answer.out) == (2, "")
        assert said in " ".join(answer.err.split())


def test_a_key_that_lets_in_no_more_is_forgotten(terminal: Terminal, laptop: Laptop) -> None:
    """The laptop sent everybody away."""
    assert terminal.run("sync", laptop.address, "--code", laptop.joining.code()).code == 0
    with laptop.home.given.writing() as work:
        work.set_setting("phones", "[]")
        work.commit()
    for _ in range(2):
        assert "asks for its code" in " ".join(terminal.run("sync", laptop.address).err.split())


def test_everything_goes_into_one_file_and_out_of_it_into_another_record(terminal: Terminal) -> None:
    """Two visits with a photo each: twice three facts, one photo, since both are the same picture."""
    own("Molina")
    own("Harbour")
    told = json.loads(terminal.run("export", "all", "all.visits", "--json").out)
    assert (told["files"], told["visits"], told["facts"], told["photos"]) == (["all.visits"], 2, 6, 1)
    taken = json.loads(terminal.run("import", "all.visits", "--data", "other.db", "--json").out)
    assert (taken["new"], taken["photos"], len(taken["visits"])) == (6, 1, 2)
    said = terminal.run("import", "all.visits", "--data", "other.db")
    assert "0 entries that were new here" in said.out
    assert "Nothing is written over" in terminal.run("export", "all", "all.visits").err
    assert ".visits" in terminal.run("export", "all", "all.zip").err
