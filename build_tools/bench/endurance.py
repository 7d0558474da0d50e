"""A long lesson in one tab: thousands of numbers typed, and pages turned, with the tab's memory before and after.

The browser tool keeps what each page fetched in the memory of that page's process, and would be measured with it. So
the tab is one that the tool does not know: it is opened and asked through the browser's own session.
"""

import json
import time
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from playwright.sync_api import Browser, CDPSession

from build_tools.bench import tab_memory

RECALCULATIONS = 10_000
PAGE_CHANGES = 200
LONGEST_SECONDS = 600
SETTLING_SECONDS = 5
"""Time in which the page finishes what it puts off while somebody types."""
COLLECTING_SECONDS = 1
_TYPE = """(async (id, times) => {
  await watch.first;
  const box = document.getElementById(id);
  const question = { calculator: id.split("-")[0], only: "numbers" };
  for (let done = 0; done < times; done += 2) {
    box.value = String(100 + (done % 900));
    box.dispatchEvent(new Event("input", { bubbles: true }));
    await engine.ask("bench", question); // this one is answered after the box's own
  }
})"""
_TURN = """(async (pages, times) => {
  for (let done = 1; done <= times; done += 1) {
    const [name, key] = pages[done % pages.length];
    document.querySelector(`nav a[href$="${name}"]`).click();
    do await new Promise((resolve) => setTimeout(resolve, 20)); while (!watch.answered(key));
  }
})"""


@dataclass(frozen=True)
class Endured:
    """Memory of the tab in MB, garbage collected; None where the system does not tell.

    fresh: after the first answer. recalculated: after the numbers. turned: after the pages too. again: after as many of
    both once more.
    """

    fresh: float | None = None
    recalculated: float | None = None
    turned: float | None = None
    again: float | None = None


class _Tab:
    """A tab of the browser's own, outside every context of the browser tool."""

    def __init__(self, browser: Browser, address: str) -> None:
        self.session: CDPSession = browser.new_browser_cdp_session()
        self.answers: dict[int, dict[str, Any]] = {}
        self.session.on("Target.receivedMessageFromTarget", self._hear)
        self.target = self.session.send("Target.createTarget", {"url": address})["targetId"]
        self.line = self.session.send("Target.attachToTarget", {"targetId": self.target})["sessionId"]
        self.asked = 0
        self.workers: list[str] = []
        while not self._is_watched():
            time.sleep(0.05)
        self.ask("Target.setAutoAttach", autoAttach=True, waitForDebuggerOnStart=False, flatten=False)

    def _is_watched(self) -> bool:
        try:
            answer = self.ask("Runtime.evaluate", expression="Boolean(window.watch)")
        except RuntimeError:  # the empty page has just been left
            return False
        return bool(answer["result"]["value"])

    def _hear(self, event: dict[str, Any]) -> None:
        message = json.loads(event["message"])
        if message.get("method") == "Target.attachedToTarget":
            self.workers.append(message["params"]["sessionId"])
        elif message.get("method") == "Target.detachedFromTarget":
            self.workers.remove(message["params"]["sessionId"])
        self.answers[message.get("id", 0)] = message

    def ask(self, method: str, **parameters: Any) -> dict[str, Any]:
        self.asked += 1
        message = json.dumps({"id": self.asked, "method": method, "params": parameters})
        self.session.send("Target.sendMessageToTarget", {"sessionId": self.line, "message": message})
        end = time.monotonic() + LONGEST_SECONDS
        while self.asked not in self.answers:
            if time.monotonic() > end:
                raise TimeoutError(f"no answer to {method}")
            time.sleep(0.05)
            self.session.send("Browser.getVersion")  # what has come meanwhile is heard while waiting for this
        answer = self.answers.pop(self.asked)
        problem = answer.get("error") or answer["result"].get("exceptionDetails")
        if problem:
            raise RuntimeError(json.dumps(problem))
        result: dict[str, Any] = answer["result"]
        return result

    def run(self, function: str, *values: object) -> None:
        call = f"{function}({', '.join(json.dumps(value) for value in values)})"
        self.ask("Runtime.evaluate", expression=call, awaitPromise=True)

    def collect(self) -> None:
        """Collect the garbage of the page and of its workers."""
        collect = {"id": 1, "method": "HeapProfiler.collectGarbage"}
        self.ask(str(collect["method"]))
        for line in self.workers:
            self.ask("Target.sendMessageToTarget", sessionId=line, message=json.dumps(collect))
        time.sleep(COLLECTING_SECONDS)  # a worker does not tell this tab when it is done

    def close(self) -> None:
        self.session.send("Target.closeTarget", {"targetId": self.target})
        self.session.detach()


def lesson(browser: Browser, address: str, pages: Sequence[tuple[str, str]], box: str) -> Endured:
    """Open the first page, type into the box with this id, turn to and fro between the pages, and all of it again.

    pages: the name of each, and the key of a calculator that only it has; if there is one alone, none is turned.
    Raises RuntimeError for what goes wrong in the page, TimeoutError if it takes too long.
    """
    tab = _Tab(browser, address + pages[0][0])
    try:
        tab.run(_TYPE, box, 0)
        fresh = _memory(browser, tab)
        tab.run(_TYPE, box, RECALCULATIONS)
        recalculated = _memory(browser, tab)
        if len(pages) == 1:
            return Endured(fresh, recalculated)
        tab.run(_TURN, list(pages), PAGE_CHANGES)
        turned = _memory(browser, tab)
        tab.run(_TYPE, box, RECALCULATIONS)
        tab.run(_TURN, list(pages), PAGE_CHANGES)
        return Endured(fresh, recalculated, turned, _memory(browser, tab))
    finally:
        tab.close()


def _memory(browser: Browser, tab: _Tab) -> float | None:
    time.sleep(SETTLING_SECONDS)
    tab.collect()
    return tab_memory.of_page(browser)
