"""Starts Firefox and WebKit and evaluates expressions in a page of theirs.

Firefox is spoken to in WebDriver BiDi, which it understands by itself; WebKit, the engine of many
phones, in WebDriver by the driver that Debian has for it (packages firefox-esr, and
webkit2gtk-driver with xvfb).
"""

import json
import os
import re
import shutil
import subprocess
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from typing import Any

import websocket
from selenium.webdriver.common.options import ArgOptions
from selenium.webdriver.webkitgtk.options import Options
from selenium.webdriver.webkitgtk.service import Service
from selenium.webdriver.webkitgtk.webdriver import WebDriver
from websocket import WebSocket

Evaluate = Callable[[str], Any]  # an expression of JavaScript to its value: plain or text
START_S = 60.0


@contextmanager
def firefox(url: str, profile: Path) -> Iterator[Evaluate]:
    """Open `url` in Firefox with an empty profile; give what evaluates in the page."""
    log = profile.with_suffix(".log")
    profile.mkdir()
    command = ["firefox-esr", "--headless", "--no-remote", "--remote-debugging-port", "0"]
    with log.open("wb") as written:
        started = subprocess.Popen(
            [*command, "--profile", str(profile), "about:blank"],
            stdout=written,
            stderr=written,
            env={**os.environ, "HOME": str(profile)},
        )
        try:
            with closing(_socket(_awaited(log))) as socket:
                yield _page_of_firefox(socket, url)
        finally:
            started.terminate()
            started.wait()


def _awaited(log: Path) -> str:
    """Return the address Firefox listens at, as it writes it into its log."""
    end = time.monotonic() + START_S
    while time.monotonic() < end:
        found = re.search(r"ws://\S+", log.read_text(encoding="utf-8", errors="replace"))
        if found:
            return found[0]
        time.sleep(0.1)
    raise TimeoutError(f"Firefox did not start: {log.read_text(errors='replace')}")


def _socket(address: str) -> WebSocket:
    return websocket.create_connection(f"{address}/session", timeout=START_S, suppress_origin=True)


def _page_of_firefox(socket: WebSocket, url: str) -> Evaluate:
    count = iter(range(1, 1_000_000))

    def send(method: str, **parameters: Any) -> Any:
        number = next(count)
        message = {"id": number, "method": method, "params": parameters}
        socket.send(json.dumps(message))
        while (answer := json.loads(socket.recv())).get("id") != number:
            pass
        assert answer["type"] == "success", answer
        return answer["result"]

    send("session.new", capabilities={})
    place = send("browsingContext.getTree")["contexts"][0]["context"]
    send("browsingContext.navigate", context=place, url=url, wait="complete")

    def evaluate(expression: str) -> Any:
        told = send(
            "script.evaluate",
            expression=expression,
            target={"context": place},
            awaitPromise=True,
        )
        assert told["type"] == "success", told
        return told["result"].get("value")

    return evaluate


@contextmanager
def webkit(url: str, folder: Path) -> Iterator[Evaluate]:
    """Open `url` in WebKit on a screen that nobody sees; give what evaluates in the page."""
    with _screen(folder) as display:
        environment = {**os.environ, "DISPLAY": display, "WEBKIT_DISABLE_COMPOSITING_MODE": "1"}
        driver = WebDriver(options=_unsandboxed(), service=_service(environment))
        try:
            driver.set_script_timeout(START_S)
            driver.get(url)
            yield lambda expression: driver.execute_script(f"return {expression}")
        finally:
            with suppress(Exception):
                driver.quit()
            driver.command_executor.close()


def _service(environment: Mapping[str, str]) -> Service:
    return Service(executable_path=shutil.which("WebKitWebDriver"), env=dict(environment))


def _unsandboxed() -> ArgOptions:
    options = Options()
    options.binary_location = _mini_browser()
    options.add_argument("--automation")
    return options


def _mini_browser() -> str:
    """Return the little browser that Debian ships beside the library."""
    (found, *_) = sorted(Path("/usr/lib").glob("*/webkit2gtk-4.*/MiniBrowser"))
    return str(found)


@contextmanager
def _screen(folder: Path) -> Iterator[str]:
    """Give the name of a display that is only in memory."""
    reading, writing = os.pipe()
    with (folder.with_suffix(".log")).open("wb") as log:
        started = subprocess.Popen(
            ["Xvfb", "-displayfd", str(writing), "-screen", "0", "1280x900x24"],
            pass_fds=(writing,),
            stderr=log,
        )
        os.close(writing)
        try:
            yield f":{os.read(reading, 16).decode().strip()}"
        finally:
            started.terminate()
            started.wait()
            os.close(reading)
