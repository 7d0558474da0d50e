"""Firefox and WebKit from the system's packages, each started once."""

import shutil
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Any

import pytest

from build_tools import other_browsers
from build_tools.driving import starting
from build_tools.driving.webdriver import Window
from build_tools.local_server import serving

READY = "window.engine?.state === 'ready'"
"""What is true in a page once its calculators answer."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Marks the tests of this folder that open a window."""
    for item in items:
        if "window" in getattr(item, "fixturenames", ()):
            item.add_marker(pytest.mark.browser)


STARTS: dict[str, tuple[Callable[[Path], Any], Callable[[Any, Path], AbstractContextManager[Window]]]] = {
    "firefox": (other_browsers.firefox, starting.firefox),
    "webkit": (other_browsers.webkit, starting.webkit),
}


@pytest.fixture(scope="session", params=list(STARTS))
def window(request: pytest.FixtureRequest, root: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Window]:
    """A window of each browser in turn. Raises Missing where it cannot be had, with the command that mends it."""
    find, start = STARTS[request.param]
    with start(find(root), tmp_path_factory.mktemp(request.param)) as opened:
        yield opened


@pytest.fixture(scope="session")
def site_without_snapshot(site: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The site on a server, but for the memory snapshot of its engine."""
    copy = tmp_path_factory.mktemp("copy") / "site"
    shutil.copytree(site, copy, ignore=shutil.ignore_patterns("snapshot.*.js"))
    with serving(copy) as address:
        yield address
