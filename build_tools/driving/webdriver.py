"""A small client of the W3C's WebDriver: Firefox takes its commands itself, WebKit through its driver."""

import json
import socket
import time
import urllib.error
import urllib.request
from collections.abc import Callable
from typing import Any

ELEMENT = "element-6066-11e4-a52e-4f735466cecf"
"""The name under which the standard writes an element's identifier."""
ANSWER_SECONDS = 60
Tell = Callable[[str, dict[str, Any]], Any]
"""Sends a command, by its name in the standard, and returns its value. Raises RuntimeError for an error."""


class Socket:
    """The connection to Firefox: each message is its length, a colon, and a list as JSON."""

    def __init__(self, port: int) -> None:
        self.connection = socket.create_connection(("127.0.0.1", port), timeout=ANSWER_SECONDS)
        self.stream = self.connection.makefile("rb")
        self.number = 0
        self._read()

    def __call__(self, name: str, parameters: dict[str, Any]) -> Any:
        """Send a command and return its value, as `Tell` says."""
        self.number += 1
        message = json.dumps([0, self.number, f"WebDriver:{name}", parameters]).encode()
        self.connection.sendall(b"%d:%s" % (len(message), message))
        _, _, error, result = self._read()
        if error:
            raise RuntimeError(f"{error['error']}: {error['message']}")
        return result.get("value") if isinstance(result, dict) and set(result) == {"value"} else result

    def _read(self) -> Any:
        length = b""
        while not length.endswith(b":"):
            piece = self.stream.read(1)
            if not piece:
                raise RuntimeError("Firefox has hung up.")
            length += piece
        return json.loads(self.stream.read(int(length[:-1])))


class Http:
    """The connection to WebKit's driver."""

    PATHS = {
        "Navigate": ("POST", "url"),
        "ExecuteScript": ("POST", "execute/sync"),
        "ExecuteAsyncScript": ("POST", "execute/async"),
        "FindElement": ("POST", "element"),
        "ElementClick": ("POST", "element/{id}/click"),
        "ElementSendKeys": ("POST", "element/{id}/value"),
        "SetTimeouts": ("POST", "timeouts"),
        "SetWindowRect": ("POST", "window/rect"),
        "TakeScreenshot": ("GET", "screenshot"),
        "DeleteSession": ("DELETE", ""),
    }

    def __init__(self, port: int, capabilities: dict[str, Any]) -> None:
        self.home = f"http://127.0.0.1:{port}/session"
        made = self._ask("POST", self.home, {"capabilities": {"alwaysMatch": capabilities}})
        self.home += "/" + made["sessionId"]

    def __call__(self, name: str, parameters: dict[str, Any]) -> Any:
        """Send a command and return its value, as `Tell` says."""
        method, path = self.PATHS[name]
        return self._ask(method, f"{self.home}/{path}".format(**parameters).rstrip("/"), parameters)

    def _ask(self, method: str, address: str, body: dict[str, Any]) -> Any:
        data = json.dumps(body).encode() if method == "POST" else None
        request = urllib.request.Request(address, data, {"Content-Type": "application/json"}, method=method)
        opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))
        try:
            with opener.open(request, timeout=ANSWER_SECONDS) as answer:
                return json.load(answer)["value"]
        except urllib.error.HTTPError as error:
            raise RuntimeError(error.read().decode()) from None


class Window:
    """A browser's window, with what a reader does in it."""

    def __init__(self, tell: Tell) -> None:
        self.tell = tell
        tell("SetTimeouts", {"script": ANSWER_SECONDS * 1000, "pageLoad": ANSWER_SECONDS * 1000})
        tell("SetWindowRect", {"width": 1366, "height": 900})

    def open(self, address: str) -> None:
        """Visit an address anew, even if only what follows `#` differs."""
        self.tell("Navigate", {"url": "about:blank"})
        self.tell("Navigate", {"url": address})

    def run(self, script: str, *values: Any) -> Any:
        """What a script's `return` gives."""
        return self.tell("ExecuteScript", {"script": script, "args": list(values), "sandbox": None})

    def wait_for(self, script: str) -> Any:
        """What a script hands to the last of its arguments, which is a function."""
        return self.tell("ExecuteAsyncScript", {"script": script, "args": [], "sandbox": None})

    def until(self, expression: str, seconds: float = ANSWER_SECONDS) -> None:
        """Wait until an expression is true in the page. Raises TimeoutError with what the page shows."""
        end = time.monotonic() + seconds
        while not self.run(f"return Boolean({expression})"):
            if time.monotonic() > end:
                shown = self.run("return document.querySelector('main')?.innerText.slice(0, 1500)")
                raise TimeoutError(f"still not true in the page: {expression}\n{shown}")
            time.sleep(0.05)

    def shows(self, selector: str, text: str) -> None:
        """Wait until the text of the first such element holds these words."""
        asked = f"document.querySelector({json.dumps(selector)})?.textContent.replace(/\\s+/g, ' ')"
        self.until(f"{asked}?.includes({json.dumps(text)})")

    def text(self, selector: str) -> str:
        """What a reader sees in the first such element."""
        return str(self.run("return document.querySelector(arguments[0]).innerText", selector)).strip()

    def click(self, selector: str) -> None:
        """Click the first such element, in sight."""
        self.tell("ElementClick", {"id": self._find(selector)})

    def type(self, selector: str, text: str) -> None:
        """Put the text in the place of what a box holds, key by key."""
        self.run("const box = document.querySelector(arguments[0]); box.focus(); box.select();", selector)
        self.tell("ElementSendKeys", {"id": self._find(selector), "text": text, "value": list(text)})

    def press_enter(self, selector: str) -> None:
        """Press the Enter key in the first such element."""
        self.tell("ElementSendKeys", {"id": self._find(selector), "text": "\ue007", "value": ["\ue007"]})

    def picture(self) -> str:
        """The window as PNG, in base64."""
        return str(self.tell("TakeScreenshot", {"full": False}))

    def _find(self, selector: str) -> str:
        self.run("document.querySelector(arguments[0]).scrollIntoView({block: 'center'})", selector)
        return str(self.tell("FindElement", {"using": "css selector", "value": selector})[ELEMENT])
