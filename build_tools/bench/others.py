"""First answers in Firefox and WebKit, each visit in a browser that was just started, with a fresh profile."""

import tempfile
import time
from collections.abc import Callable
from contextlib import AbstractContextManager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from build_tools import other_browsers
from build_tools.bench.pages import Sites
from build_tools.driving import starting
from build_tools.driving.webdriver import Window

BROWSERS: dict[str, tuple[Callable[[], Any], Callable[[Any, Path], AbstractContextManager[Window]]]] = {
    "Firefox": (other_browsers.find_firefox, starting.firefox),
    "WebKit": (other_browsers.find_webkit, starting.webkit),
}
BEFORE_A_VISIT_SECONDS = 3
"""A browser that has just opened its window still has things of its own to do."""
FIRST = "const done = arguments[arguments.length - 1]; watch.first.then(done);"


@dataclass
class FirstAnswers:
    """ms from the start of the navigation until the first answer is painted, one value a round; read as `Run`'s are."""

    disk: list[float] = field(default_factory=list)
    server: list[float] = field(default_factory=list)
    ordinary: list[float] = field(default_factory=list)


def found() -> dict[str, Any]:
    """The browsers that are on this machine, by name, each with what it takes to start it."""
    programs = {name: find() for name, (find, _) in BROWSERS.items()}
    return {name: program for name, program in programs.items() if program}


def visit_all(name: str, program: Any, into: FirstAnswers, sites: Sites, home: str, page: str) -> None:
    """One visit of each kind to a page, into the readings of the browser with this name."""
    for readings, address in (
        (into.disk, f"{sites.ours.as_uri()}/"),
        (into.server, f"{home}{sites.ours.name}/"),
        (into.ordinary, f"{home}{sites.ordinary.name}/"),
    ):
        readings.append(_first_answer(name, program, address + page))


def _first_answer(name: str, program: Any, address: str) -> float:
    start = BROWSERS[name][1]
    with tempfile.TemporaryDirectory() as profile, start(program, Path(profile)) as window:
        window.open("about:blank")
        time.sleep(BEFORE_A_VISIT_SECONDS)
        window.open(address)
        return float(window.wait_for(FIRST))
