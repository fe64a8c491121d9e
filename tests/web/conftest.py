"""Both browsers, each opened once in a run; every test here is run in either."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from typing import NamedTuple

import pytest
from browsers import Browser, chromium, firefox


@pytest.fixture(scope="session", params=["chromium", "firefox"])
def browser(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Browser]:
    if request.param == "chromium":
        with chromium() as opened:
            yield opened
    else:
        with firefox(tmp_path_factory.mktemp("firefox")) as opened:
            yield opened


class Quiet(SimpleHTTPRequestHandler):
    """Files of a folder, with no word to the terminal."""

    def log_message(self, *_: object) -> None:
        pass


class Site(NamedTuple):
    """A folder, and the address at which a browser finds its files."""

    folder: Path
    address: str


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    """Serve a new folder to this machine alone."""
    folder = tmp_path_factory.mktemp("site")
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(folder)))
    Thread(target=server.serve_forever, daemon=True).start()
    yield Site(folder, f"http://127.0.0.1:{server.server_port}")
    server.shutdown()
    server.server_close()
