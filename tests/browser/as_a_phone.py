"""Serves the app as a phone's browser does it by itself, here from a process: what its pages say and do there."""

from __future__ import annotations

from steadyhead.bootstrap import given_of
from steadyhead.web.app import make_app
from tests.browser.with_phones import serve

if __name__ == "__main__":
    serve(lambda home: make_app(given_of(home), phone=True))
