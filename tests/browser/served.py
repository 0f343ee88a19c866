"""The app in a process of its own, as a person starts it; it can be stopped, and started again where it was."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path

from tests.support import ROOT


@dataclass
class Served:
    """The app, served on a port of its own from a record of its own."""

    data: Path
    address: str = ""
    program: tuple[str, ...] = ("steadyhead", "app")
    _process: subprocess.Popen[str] | None = field(default=None, repr=False)

    def start(self) -> None:
        """Start it, on the same port as before; the first time on any free one."""
        port = self.address.rstrip("/").rpartition(":")[2] or "0"
        options = ["--port", port, "--data", str(self.data), "--no-open", "--json"]
        command = [sys.executable, "-m", *self.program, *options]
        places = os.environ | {"PYTHONPATH": os.pathsep.join((str(ROOT / "src"), str(ROOT)))}
        self._process = subprocess.Popen(command, stdout=subprocess.PIPE, encoding="utf-8", env=places)
        assert self._process.stdout is not None
        self.address = json.loads(self._process.stdout.readline())["address"]

    def stop(self) -> None:
        """Kill it, as a flat battery does."""
        if self._process is not None:
            self._process.kill()
            self._process.communicate()
            self._process = None
