"""The toy project packed once, a small site around it, and a browser."""

import functools
import http.server
import shutil
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from build_tools.engine import pack
from build_tools.one_at_a_time import one_at_a_time

ROOT = Path(__file__).parent.parent.parent
PYODIDE = ROOT / "node_modules" / "pyodide"
CACHE = ROOT / "build" / "engine" / "compiled"
TOY = Path(__file__).parent / "toy_project"
PAGE = """<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>Toy</title>
<script src="assets/engine.js" defer></script></head>
<body><p id="printed">The printed answer.</p></body></html>
"""


@pytest.fixture(scope="session")
def toy_engine() -> Path:
    """The folder with the toy project's engine."""
    out = ROOT / "build" / "toy-engine"
    with one_at_a_time(ROOT / "build" / "toy-engine.lock"):
        pack(TOY, out, PYODIDE, CACHE)
    return out


@pytest.fixture
def toy_site(toy_engine: Path, tmp_path: Path) -> Path:
    """A site of one page with the toy engine, to be damaged at will."""
    assets = tmp_path / "site" / "assets"
    (assets / "engine").mkdir(parents=True)
    shutil.copy(ROOT / "docs" / "assets" / "engine.js", assets)
    for script in toy_engine.glob("*.js"):
        shutil.copy(script, assets / "engine")
    (tmp_path / "site" / "index.html").write_text(PAGE, encoding="utf-8")
    return tmp_path / "site"


@pytest.fixture(scope="session")
def engine_browser() -> Iterator[Browser]:
    """The machine's own Chromium, or Playwright's."""
    found = (shutil.which(name) for name in ("chromium", "chromium-browser", "google-chrome"))
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=next(filter(None, found), None),
            args=["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-background-networking"],
        )
        yield browser
        browser.close()


@pytest.fixture
def page(engine_browser: Browser) -> Iterator[Page]:
    """A fresh page with nothing cached."""
    context = engine_browser.new_context()
    yield context.new_page()
    context.close()


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_words: object) -> None:
        pass


@pytest.fixture(params=["file", "http"])
def address(request: pytest.FixtureRequest, toy_site: Path) -> Iterator[str]:
    """The page's address, from the disk and from a server."""
    if request.param == "file":
        yield (toy_site / "index.html").as_uri()
        return
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(_Quiet, directory=str(toy_site)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/index.html"
    server.shutdown()
    server.server_close()
