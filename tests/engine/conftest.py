"""The toy project packed once, and a small site around it."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from build_tools.engine import pack
from build_tools.local_server import serving
from build_tools.one_at_a_time import one_at_a_time

ROOT = Path(__file__).parent.parent.parent
PYODIDE = ROOT / "node_modules" / "pyodide"
CACHE = ROOT / "build" / "engine" / "compiled"
TOY = Path(__file__).parent / "toy_project"
QUESTIONS = Path(__file__).parent / "toy_questions.py"
PAGE = """<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>Toy</title>
<meta http-equiv="Content-Security-Policy"
 content="default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src blob:">
<script src="assets/engine.js" defer></script></head>
<body><p id="printed">The printed answer.</p></body></html>
"""


@pytest.fixture(scope="session")
def toy_engine() -> Path:
    """The folder with the toy project's engine."""
    out = ROOT / "build" / "toy-engine"
    with one_at_a_time(ROOT / "build" / "toy-engine.lock"):
        pack(TOY, out, PYODIDE, CACHE, questions=QUESTIONS)
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


@pytest.fixture
def disk(toy_site: Path) -> str:
    """The toy page's address on the disk."""
    return toy_site.as_uri() + "/index.html"


@pytest.fixture(params=["file", "http"])
def address(request: pytest.FixtureRequest, toy_site: Path, disk: str) -> Iterator[str]:
    """The toy page's address on the disk and, in a second run of the test, on a server."""
    if request.param == "file":
        yield disk
        return
    with serving(toy_site) as home:
        yield home + "index.html"
