"""The two browsers the drawings are shown in: opened once, asked in JavaScript, looked at.

Chromium is driven by playwright. Firefox is spoken to in WebDriver BiDi over a socket, since no
driver of it comes with Debian: https://w3c.github.io/webdriver-bidi/.
"""

from __future__ import annotations

import base64
import io
import itertools
import json
import re
import shutil
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

PATIENCE = 120.0  # seconds: a busy machine takes many times as long as an idle one
CHROMIUM = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
)  # fmt: skip
# Firefox asks nobody for anything, and shows no page of its own.
PREFERENCES = {
    "app.normandy.enabled": False,
    "app.update.enabled": False,
    "browser.aboutwelcome.enabled": False,
    "browser.safebrowsing.downloads.enabled": False,
    "browser.shell.checkDefaultBrowser": False,
    "browser.startup.page": 0,
    "datareporting.policy.dataSubmissionEnabled": False,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
    "remote.prefs.recommended": True,
    "toolkit.telemetry.enabled": False,
}


def place_of(*names: str) -> str:
    """Return where a browser is; fail the test, with the remedy, where there is none."""
    for name in names:
        found = shutil.which(name)
        if found is not None:
            return found
    pytest.fail(f"{names[0]} is not here: apt-get install chromium firefox-esr")


class Browser:
    """A browser with one page: what is asked of it, said by it and fetched for it."""

    name: str

    def __init__(self) -> None:
        self.said: list[str] = []
        self.fetched: list[str] = []

    def show(self, address: str) -> None:
        """Show a page; forget what was said and fetched before."""
        self.said.clear()
        self.fetched.clear()
        self._go(address)

    def ask(self, expression: str) -> Any:
        """Return what a JavaScript expression comes to, as JSON carries it."""
        raise NotImplementedError

    def look(self) -> Image.Image:
        """Return a picture of what is on the screen."""
        raise NotImplementedError

    def images(self, name: str) -> int:
        """Return how many images a screen reader is told of by that name."""
        raise NotImplementedError

    def prefer(self, scheme: str) -> None:
        """Let the device ask for the light or the dark scheme, where that can be changed."""

    def _go(self, address: str) -> None:
        raise NotImplementedError

    def _note(self, address: str) -> None:
        if not address.startswith("data:"):  # nothing is fetched for it
            self.fetched.append(address)


class Chromium(Browser):
    """Chromium, by playwright."""

    name = "chromium"

    def __init__(self, page: Any) -> None:
        super().__init__()
        self._page = page
        page.set_default_timeout(PATIENCE * 1000)
        page.on("console", lambda message: self.said.append(message.text))
        page.on("pageerror", lambda error: self.said.append(str(error)))
        page.on("request", lambda request: self._note(request.url))
        self._tools = page.context.new_cdp_session(page)

    def ask(self, expression: str) -> Any:
        return self._page.evaluate(expression)

    def look(self) -> Image.Image:
        return Image.open(io.BytesIO(self._page.screenshot())).convert("RGB")

    def images(self, name: str) -> int:
        nodes = self._tools.send("Accessibility.getFullAXTree")["nodes"]
        told = [
            (node.get("role", {}).get("value"), node.get("name", {}).get("value"))
            for node in nodes
            if not node["ignored"]
        ]
        return told.count(("image", name))

    def prefer(self, scheme: str) -> None:
        self._page.emulate_media(color_scheme=scheme)

    def _go(self, address: str) -> None:
        self._page.goto(address)


class Firefox(Browser):
    """Firefox, by WebDriver BiDi."""

    name = "firefox"

    def __init__(self, address: str) -> None:
        import websocket

        super().__init__()
        self._socket = websocket.create_connection(
            f"{address}/session", timeout=PATIENCE, suppress_origin=True
        )
        self._count = itertools.count(1)
        self._send("session.new", capabilities={})
        self._send("session.subscribe", events=["log.entryAdded", "network.beforeRequestSent"])
        self._page = self._send("browsingContext.getTree")["contexts"][0]["context"]
        size = {"width": 1280, "height": 900}
        self._send("browsingContext.setViewport", context=self._page, viewport=size)

    def ask(self, expression: str) -> Any:
        found = self._send(
            "script.evaluate",
            expression=f"JSON.stringify({expression})",
            target={"context": self._page},
            awaitPromise=True,
        )
        assert found["type"] == "success", found
        return json.loads(found["result"].get("value", "null"))

    def look(self) -> Image.Image:
        taken = self._send("browsingContext.captureScreenshot", context=self._page)
        return Image.open(io.BytesIO(base64.b64decode(taken["data"]))).convert("RGB")

    def images(self, name: str) -> int:
        wanted = {"type": "accessibility", "value": {"role": "image", "name": name}}
        found = self._send("browsingContext.locateNodes", context=self._page, locator=wanted)
        return len(found["nodes"])

    def close(self) -> None:
        self._send("browser.close")
        self._socket.close()

    def _go(self, address: str) -> None:
        self._send("browsingContext.navigate", context=self._page, url=address, wait="complete")

    def _send(self, method: str, **params: Any) -> dict[str, Any]:
        """Send a command and return its result; keep what is told meanwhile."""
        number = next(self._count)
        self._socket.send(json.dumps({"id": number, "method": method, "params": params}))
        while True:
            told = json.loads(self._socket.recv())
            if told.get("id") == number:
                assert told["type"] == "success", told
                return told["result"]
            self._hear(told)

    def _hear(self, told: dict[str, Any]) -> None:
        if told.get("method") == "log.entryAdded":
            self.said.append(str(told["params"]["text"]))
        elif told.get("method") == "network.beforeRequestSent":
            self._note(told["params"]["request"]["url"])


@contextmanager
def chromium() -> Iterator[Chromium]:
    """Open Chromium for a while, with a profile of its own."""
    from playwright.sync_api import sync_playwright

    place = place_of("chromium", "chromium-browser")
    with sync_playwright() as driver:
        browser = driver.chromium.launch(
            executable_path=place, args=list(CHROMIUM), timeout=PATIENCE * 1000
        )
        yield Chromium(browser.new_page(viewport={"width": 1280, "height": 900}))
        browser.close()


@contextmanager
def firefox(profile: Path) -> Iterator[Firefox]:
    """Open Firefox for a while, with a new profile in the folder `profile`."""
    place = place_of("firefox-esr", "firefox")
    lines = (f"user_pref({json.dumps(k)}, {json.dumps(v)});\n" for k, v in PREFERENCES.items())
    (profile / "user.js").write_text("".join(lines))
    log = profile / "log.txt"
    with log.open("wb") as out:
        process = subprocess.Popen(
            [place, "--headless", "--no-remote", "--profile", str(profile),
             "--remote-debugging-port", "0"],
            stdout=out, stderr=out,
        )  # fmt: skip
    try:
        browser = Firefox(_address(log, process))
        yield browser
        browser.close()
        process.wait(PATIENCE)
    finally:
        process.kill()
        process.wait(PATIENCE)


def _address(log: Path, process: subprocess.Popen[bytes]) -> str:
    """Return the address that Firefox says it listens on."""
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        found = re.search(r"WebDriver BiDi listening on (ws://\S+)", log.read_text())
        if found is not None:
            return found[1]
        if process.poll() is not None:
            break
        time.sleep(0.1)
    pytest.fail(f"Firefox did not start: {log.read_text()[-500:]}")
