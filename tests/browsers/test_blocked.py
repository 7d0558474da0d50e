"""Firefox and WebKit on locked-down computers, and without a connection: a full page, or a worked sheet and why."""

import shutil
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from build_tools import other_browsers
from build_tools.driving import starting
from build_tools.driving.webdriver import Window
from build_tools.local_server import serving
from tests.browsers.conftest import READY
from tests.locked import NO_STORAGE, SENTENCE

pytestmark = pytest.mark.browser


@dataclass(frozen=True)
class Lock:
    """How a computer is locked.

    firefox: its settings. options, environment: WebKit's. policy: a content policy added to the page, as a filter does.
    script: runs before the page's own.
    """

    firefox: dict[str, object] = field(default_factory=dict)
    options: tuple[str, ...] = ()
    environment: dict[str, str] = field(default_factory=dict)
    policy: str = ""
    script: str = ""


NO_WASM = Lock(firefox={"javascript.options.wasm": False}, environment={"JSC_useWasm": "0", "JSC_useWebAssembly": "0"})
NO_WORKERS = Lock(policy="worker-src 'none'")
NO_SCRIPTS = Lock(firefox={"javascript.enabled": False}, options=("--enable-javascript-markup=false",))
STORAGE_BLOCKED = {"firefox": Lock(firefox={"dom.storage.enabled": False}), "webkit": Lock(script=NO_STORAGE)}
"""WebKit's small browser has no switch for it."""

Start = Callable[[Lock], AbstractContextManager[Window]]
SiteAs = Callable[[Lock], AbstractContextManager[str]]


@pytest.fixture(params=["firefox", "webkit"])
def start(request: pytest.FixtureRequest, root: Path, tmp_path: Path) -> Start:
    """Starts each browser in turn, locked."""

    def firefox(lock: Lock) -> AbstractContextManager[Window]:
        return starting.firefox(other_browsers.firefox(root), tmp_path, lock.firefox)

    def webkit(lock: Lock) -> AbstractContextManager[Window]:
        return starting.webkit(other_browsers.webkit(root), tmp_path, lock.options, lock.environment)

    return {"firefox": firefox, "webkit": webkit}[request.param]


@pytest.fixture(params=["disk", "http"])
def site_as(request: pytest.FixtureRequest, site: Path, tmp_path_factory: pytest.TempPathFactory) -> SiteAs:
    """The address of the site, opened each way, as the lock lets it through."""

    @contextmanager
    def opened(lock: Lock) -> Iterator[str]:
        folder = site
        if lock.policy or lock.script:
            folder = tmp_path_factory.mktemp("locked") / "site"
            shutil.copytree(site, folder)
            for page in folder.glob("*.html"):
                meta = f'<meta http-equiv="Content-Security-Policy" content="{lock.policy}">'
                page.write_text(page.read_text("utf-8").replace("<head>", f"<head>{meta}", 1), "utf-8")
            first = folder / "assets" / "whole.js"
            first.write_text(f"{lock.script}\n{first.read_text('utf-8')}", "utf-8")
        if request.param == "disk":
            yield f"{folder.as_uri()}/"
        else:
            with serving(folder) as address:
                yield address

    return opened


def is_a_worked_sheet(window: Window) -> None:
    """The worked example of the lever as it is printed: 40 lbf at 6 in, so 10 lbf at 24 in."""
    window.shows("#lever-sheet .say", "10.00 lbf")
    window.shows("#lever-sheet .results", "IMA")
    window.until("document.querySelector('#lever-sheet .machine svg').getBoundingClientRect().width > 100")


@pytest.mark.parametrize("lock", [NO_WASM, NO_WORKERS], ids=["no WebAssembly", "no workers"])
def test_where_the_engine_cannot_run_the_sheet_is_whole_and_says_so(start: Start, site_as: SiteAs, lock: Lock) -> None:
    with start(lock) as window, site_as(lock) as site:
        window.open(site + "lever.html")
        window.shows("#lever-sheet .wait", SENTENCE)
        is_a_worked_sheet(window)
        window.type("#lever-R", "80")
        window.shows("#lever-sheet .wait", "The results below belong to the worked example.")
        window.open(site + "lab-ramp.html")
        window.shows(".wait:not([hidden])", "settings block it" if lock is NO_WASM else "cannot run here")


def test_without_scripts_each_page_is_whole_or_says_what_to_do(start: Start, site_as: SiteAs) -> None:
    with start(NO_SCRIPTS) as window, site_as(NO_SCRIPTS) as site:
        window.open(site + "lever.html")
        assert window.run("return typeof engine") == "undefined"
        is_a_worked_sheet(window)
        window.open(site + "practice.html")
        window.shows(".no-scripts", "This page needs scripts.")
        window.open(site + "lab-ramp.html")
        assert window.text(".r-verdict")


def test_with_storage_blocked_everything_works(start: Start, site_as: SiteAs, request: pytest.FixtureRequest) -> None:
    lock = STORAGE_BLOCKED["firefox" if "firefox" in request.node.name else "webkit"]
    with start(lock) as window, site_as(lock) as site:
        window.open(site + "lever.html")
        window.until(READY)
        window.type("#lever-R", "80")
        window.shows("#lever-sheet .say", "20.0 lbf")  # 80 x 6 / 24
        window.open(site + "lab-ramp.html")
        window.until(READY)
        window.click("#ramp-lab-record [data-act=sample]")
        window.shows("#ramp-lab-record .r-results", "%")
        window.click("#ramp-lab-record input[name=keep]")
        window.shows("#ramp-lab-record .wait", "This device keeps nothing for this page.")


def test_without_a_connection_the_open_page_goes_on(start: Start, site: Path) -> None:
    with start(Lock()) as window:
        with serving(site) as address:
            window.open(address + "lever.html")
            window.until(READY)
        window.type("#lever-R", "80")
        window.shows("#lever-sheet .say", "20.0 lbf")  # 80 x 6 / 24


def test_without_a_connection_a_page_read_before_comes_again(root: Path, site: Path, tmp_path: Path) -> None:
    """Firefox alone: a WebKit that is driven keeps no cache."""
    with starting.firefox(other_browsers.firefox(root), tmp_path) as window:
        with serving(site) as address:
            for name in ("inclined-plane.html", "lever.html"):
                window.open(address + name)
                window.until(READY)
            window.run("window.kept = true; document.querySelector('nav a[href$=\"inclined-plane.html\"]').click()")
            window.until("document.getElementById('ramp-R')")
        window.type("#ramp-R", "90")
        window.shows("#ramp-sheet .say", "22.5 lbf")  # 90 x 24 / 96
        window.run("document.querySelector('nav a[href$=\"lever.html\"]').click()")
        window.until("document.getElementById('lever-R')")
        window.type("#lever-R", "80")
        window.shows("#lever-sheet .say", "20.0 lbf")
        assert window.run("return window.kept")
