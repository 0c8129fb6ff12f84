"""A browser without a window, driven through its own debugging pipe; nothing but the standard library.

The pipe carries JSON messages that end in a zero byte. Everything that the page asks the network for, and every error
in its console, is kept, so that a test can say that there was none.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from base64 import b64decode
from collections.abc import Iterator
from contextlib import contextmanager
from fcntl import F_DUPFD, fcntl
from pathlib import Path
from select import select
from tempfile import TemporaryDirectory
from time import monotonic
from typing import Any

_NAMES = ("chromium", "chromium-browser", "google-chrome", "chrome")
_ARGUMENTS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--hide-scrollbars",
    "--remote-debugging-pipe",
    "about:blank",
)
_PATIENCE_S = 30.0
#: The browser reads from its descriptor 3 and writes to its descriptor 4.
_LAUNCH = "import os, sys; a, b, *c = sys.argv[1:]; os.dup2(int(a), 3); os.dup2(int(b), 4); os.execv(c[0], c)"
_FIRST_FREE = 10


def browser_path() -> str | None:
    """Return the browser of this machine: the one that SOILROTA_BROWSER names, or one on the path; None without."""
    named = os.environ.get("SOILROTA_BROWSER")
    return named or next((found for name in _NAMES if (found := shutil.which(name))), None)


class Page:
    """One page of a browser."""

    def __init__(self, to: int, back: int) -> None:
        self._to, self._back = to, back
        self._unread = b""
        self._number = 0
        self._session: str | None = None
        self.requests: list[str] = []
        self.errors: list[str] = []
        self._events: list[str] = []
        target = self._tell("Target.createTarget", url="about:blank")["targetId"]
        self._session = self._tell("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Network", "Log"):
            self._tell(f"{domain}.enable")

    def open(self, address: str) -> None:
        """Open an address and wait until it has loaded."""
        self._events.clear()
        self._tell("Page.navigate", url="about:blank")
        self._wait_for("Page.loadEventFired")
        self._events.clear()
        self.requests.clear()
        self._tell("Page.navigate", url=address)
        self._wait_for("Page.loadEventFired")

    def size(self, width: int, height: int = 900) -> None:
        """Set the size of the window [px]."""
        narrow = width < 600
        self._tell("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=narrow)

    def without_script(self, *, off: bool = True) -> None:
        """Switch the scripts of pages off, or on again."""
        self._tell("Emulation.setScriptExecutionDisabled", value=off)

    def media(self, kind: str) -> None:
        """Show the page as on a kind of medium: `screen` or `print`."""
        self._tell("Emulation.setEmulatedMedia", media=kind)

    def ask(self, script: str) -> Any:
        """Return what an expression gives, awaited where it is a promise."""
        answer = self._tell("Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True)
        if "exceptionDetails" in answer:
            raise AssertionError(answer["exceptionDetails"])
        return answer["result"].get("value")

    def press(self, key: str, *, shift: bool = False) -> None:
        """Press a key: a letter, or `Tab`, `Enter`, `Escape`, `ArrowDown`, `Space`."""
        codes = {"Tab": 9, "Enter": 13, "Escape": 27, "Space": 32, "ArrowDown": 40, "Home": 36}
        text = {"Enter": "\r", "Space": " "}.get(key, key if len(key) == 1 else "")
        event: dict[str, Any] = {
            "key": " " if key == "Space" else key,
            "code": key,
            "windowsVirtualKeyCode": codes.get(key, 0),
            "modifiers": 8 if shift else 0,
        }
        self._tell("Input.dispatchKeyEvent", type="keyDown", **event, **({"text": text} if text else {}))
        self._tell("Input.dispatchKeyEvent", type="keyUp", **event)

    def picture(self, to: Path, *, whole: bool = False) -> None:
        """Write a picture of what is seen, or of the whole page."""
        answer = self._tell("Page.captureScreenshot", format="png", captureBeyondViewport=whole)
        to.write_bytes(b64decode(answer["data"]))

    def printed(self) -> bytes:
        """Return the page as it prints, as PDF."""
        answer = self._tell("Page.printToPDF", preferCSSPageSize=True, printBackground=True)
        return b64decode(answer["data"])

    def names_read_out(self) -> list[tuple[str, str]]:
        """Return role and name of everything that is read out, in order."""
        nodes = self._tell("Accessibility.getFullAXTree")["nodes"]
        return [(node["role"]["value"], node.get("name", {}).get("value", "")) for node in nodes if not node["ignored"]]

    def _tell(self, method: str, **parameters: Any) -> dict[str, Any]:
        """Send a message and return its answer; what comes in between is kept."""
        self._number += 1
        message: dict[str, Any] = {"id": self._number, "method": method, "params": parameters}
        if self._session:
            message["sessionId"] = self._session
        os.write(self._to, json.dumps(message).encode() + b"\0")
        while True:
            heard = self._hear()
            if heard.get("id") == self._number:
                if "error" in heard:
                    raise AssertionError(f"{method}: {heard['error']}")
                result: dict[str, Any] = heard["result"]
                return result

    def _wait_for(self, event: str) -> None:
        """Wait for an event."""
        while event not in self._events:
            self._hear()

    def _hear(self) -> dict[str, Any]:
        """Return the next message."""
        until = monotonic() + _PATIENCE_S
        while b"\0" not in self._unread:
            ready, _, _ = select([self._back], [], [], max(until - monotonic(), 0))
            if not ready:
                raise AssertionError(f"the browser said nothing for {_PATIENCE_S:g} s")
            self._unread += os.read(self._back, 1 << 20)
        first, _, self._unread = self._unread.partition(b"\0")
        message: dict[str, Any] = json.loads(first)
        self._keep(message)
        return message

    def _keep(self, message: dict[str, Any]) -> None:
        """Keep what the page did."""
        method, about = message.get("method", ""), message.get("params", {})
        self._events.append(method)
        if method == "Network.requestWillBeSent":
            self.requests.append(about["request"]["url"])
        elif method == "Runtime.exceptionThrown":
            self.errors.append(json.dumps(about["exceptionDetails"]))
        elif method == "Runtime.consoleAPICalled" and about["type"] in {"error", "warning", "assert"}:
            self.errors.append(json.dumps(about["args"]))
        elif method == "Log.entryAdded" and about["entry"]["level"] in {"error", "warning"}:
            self.errors.append(about["entry"]["text"])


def _moved_up(descriptor: int) -> int:
    """Return the same file under a number that the browser's own two do not cover."""
    moved = fcntl(descriptor, F_DUPFD, _FIRST_FREE)
    os.close(descriptor)
    return moved


@contextmanager
def a_page(browser: str) -> Iterator[Page]:
    """Start a browser with one empty page; it ends with the block."""
    child_in, to = os.pipe()
    back, child_out = os.pipe()
    child_in, child_out = (_moved_up(one) for one in (child_in, child_out))
    with TemporaryDirectory(prefix="browser-", ignore_cleanup_errors=True) as profile:
        process = subprocess.Popen(
            [
                sys.executable,
                "-c",
                _LAUNCH,
                str(child_in),
                str(child_out),
                browser,
                f"--user-data-dir={profile}",
                *_ARGUMENTS,
            ],
            pass_fds=(child_in, child_out),
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        os.close(child_in)
        os.close(child_out)
        try:
            yield Page(to, back)
        finally:
            process.terminate()
            process.wait(timeout=20)
            os.close(to)
            os.close(back)
