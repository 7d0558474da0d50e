"""The site on a real web server: any path, packed, asked again, a new version, a whole class at once."""

from __future__ import annotations

import gzip
import hashlib
import re
import shutil
import urllib.error
import urllib.request
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from html import unescape
from pathlib import Path
from urllib.parse import urljoin

import pytest
from playwright.sync_api import Browser, expect

from build_tools.bench.waiting import until
from build_tools.local_server import serving
from tests.page import nginx

SLOW = 30_000
CLASS = 35


@pytest.fixture(scope="module")
def line(root: Path) -> str:
    """The line for nginx as the README gives it."""
    (found,) = re.findall(r"^ *(location /.*)$", (root / "README.md").read_text("utf-8"), re.M)
    return found


@pytest.fixture(scope="module")
def served(root: Path, site: Path, line: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The site under the README's path, by the README's line."""
    path, folder = re.findall(r"location (\S+) \{ alias (\S+);", line)[0]
    with nginx.serving(nginx.program(root), line.replace(folder, f"{site}/"), tmp_path_factory.mktemp("nginx")) as home:
        yield home + path.strip("/") + "/"


def asked(address: str, **headers: str) -> tuple[int, dict[str, str], bytes]:
    request = urllib.request.Request(address, headers={name.replace("_", "-"): text for name, text in headers.items()})
    try:
        with urllib.request.urlopen(request, timeout=60) as answer:
            return answer.status, {name.lower(): text for name, text in answer.headers.items()}, answer.read()
    except urllib.error.HTTPError as error:
        return error.code, {name.lower(): text for name, text in error.headers.items()}, b""


def files_of(page: str, address: str) -> list[str]:
    """Every script and style that a page names, as a browser asks for them."""
    names = re.findall(r'<(?:script|link)\b[^>]*\b(?:src|href)="([^"]+\.(?:js|css)(?:\?[^"]*)?)"', page)
    return [urljoin(address, unescape(name)) for name in dict.fromkeys(names)]


@pytest.mark.parametrize("name", ["lever.html", "assets/sheet.js", "assets/look.css", "assets/favicon.svg"])
def test_files_come_with_the_type_that_browsers_insist_on(served: str, name: str) -> None:
    """The media types of WHATWG HTML and RFC 9239; nosniff browsers run a script only with one of these."""
    kinds = {"html": "text/html", "js": "application/javascript", "css": "text/css", "svg": "image/svg+xml"}
    status, headers, _ = asked(served + name)
    assert status == 200
    assert headers["content-type"].split(";")[0] == kinds[name.rpartition(".")[2]]


def test_scripts_and_styles_come_packed(served: str, site: Path) -> None:
    for name in ("lever.html", "assets/sheet.js", "assets/look.css"):
        _, headers, body = asked(served + name, Accept_Encoding="gzip")
        assert headers["content-encoding"] == "gzip"
        assert gzip.decompress(body) == (site / name).read_bytes()
        assert len(body) < 0.5 * (site / name).stat().st_size


def test_a_browser_asks_again_and_hears_that_nothing_changed(served: str) -> None:
    for name in ("lever.html", "assets/engine/parts.js", "assets/sheet.js"):
        _, headers, _ = asked(served + name)
        assert headers["cache-control"] == "no-cache"
        status, _, body = asked(
            served + name, If_None_Match=headers["etag"], If_Modified_Since=headers["last-modified"]
        )
        assert (status, body) == (304, b"")


def test_a_page_answers_under_the_path(browser: Browser, served: str) -> None:
    page = browser.new_page()
    other = []
    page.on(
        "request",
        lambda request: other.append(request.url) if not request.url.startswith((served, "blob:", "data:")) else None,
    )
    page.goto(served + "lever.html")
    until(page, "engine.state === 'ready'", SLOW)
    page.locator("#lever-R").fill("80")
    expect(page.locator("#lever-sheet .say")).to_contain_text("20.0 lbf", timeout=SLOW)  # 80 * 6 / 24
    assert other == []
    page.close()


def test_a_class_that_opens_one_page_at_the_same_moment_gets_every_file(served: str, site: Path) -> None:
    """35 clients, each asks for the page and for every file that a first visit needs; all bytes are compared."""
    page = (site / "lever.html").read_text("utf-8")
    parts = [urljoin(served, f"assets/engine/{file.name}") for file in (site / "assets/engine").glob("*.js")]
    wanted = [served + "lever.html", *files_of(page, served + "lever.html"), *parts]
    assert len(wanted) > 15
    sums = {url: hashlib.sha256((site / url.split("?")[0][len(served) :]).read_bytes()).hexdigest() for url in wanted}

    def visit(_: int) -> list[str]:
        failed = []
        for url in wanted:
            status, _, body = asked(url)
            if status != 200 or hashlib.sha256(body).hexdigest() != sums[url]:
                failed.append(f"{status} {url}")
        return failed

    with ThreadPoolExecutor(CLASS) as class_:
        assert [failed for visitor in class_.map(visit, range(CLASS)) for failed in visitor] == []


# -- a new version on the server while a page is open -----------------------------------------------


def newer(site: Path, place: Path) -> Path:
    """The site as another build would leave it: another mark, and engine parts under other names."""
    folder = shutil.copytree(site, place)
    (old,) = set(re.findall(r'name="build" content="([^"]+)"', (folder / "lever.html").read_text("utf-8")))
    for file in (*folder.glob("*.html"), folder / "assets/engine/parts.js"):
        file.write_text(file.read_text("utf-8").replace(old, "newer-mark"), "utf-8")
    listed = folder / "assets/engine/parts.js"
    for part in (folder / "assets/engine").glob("*.*.js"):
        stem = part.stem
        fresh = f"{stem.split('.')[0]}.{'0' * 12}"
        part.write_text(part.read_text("ascii").replace(stem, fresh, 1), "ascii")
        part.rename(part.with_name(f"{fresh}.js"))
        listed.write_text(listed.read_text("ascii").replace(stem, fresh), "ascii")
    return folder


@pytest.fixture
def renewed(site: Path, tmp_path: Path) -> Iterator[tuple[str, object]]:
    """A server with this version, and what puts a newer one in its place: all at once, no file is ever missing."""
    place, to_come = tmp_path / "served", tmp_path / "to come"
    place.symlink_to(site, target_is_directory=True)
    to_come.symlink_to(newer(site, tmp_path / "newer"), target_is_directory=True)
    with serving(place) as address:
        yield address, lambda: to_come.replace(place)


def test_an_open_page_of_the_old_version_never_takes_up_the_new_engine(browser: Browser, renewed) -> None:
    """The page came before the new version, its engine's list after it, as on a slow line."""
    address, renew = renewed
    page = browser.new_page()
    done = []

    def late(route) -> None:
        if not done:
            done.append(True)
            renew()
        route.continue_()

    page.route("**/assets/engine/parts.js*", late)
    page.goto(address + "lever.html")
    until(page, "engine.state === 'failed'", SLOW)
    assert page.evaluate("engine.reason") == (
        "This page and the calculator's files are of different versions. Load the page again."
    )
    expect(page.locator("#lever-sheet .say")).to_contain_text("10.00 lbf")  # the worked example stays
    expect(page.locator("#lever-sheet .wait")).to_contain_text("Load the page again.")
    page.reload()
    until(page, "engine.state === 'ready'", SLOW)
    page.close()


def test_a_page_with_its_engine_running_goes_on_and_turns_to_the_new_version_whole(browser: Browser, renewed) -> None:
    address, renew = renewed
    page = browser.new_page(viewport={"width": 1366, "height": 768})
    page.goto(address + "lever.html")
    until(page, "engine.state === 'ready'", SLOW)
    page.wait_for_timeout(1500)  # the engine's last parts have come
    renew()
    page.locator("#lever-R").fill("80")
    expect(page.locator("#lever-sheet .say")).to_contain_text("20.0 lbf", timeout=SLOW)  # 80 * 6 / 24
    page.locator(".book a").filter(has_text="Wedge").first.click()
    page.wait_for_url("**/wedge.html")
    until(page, "window.engine && engine.state === 'ready'", SLOW)
    assert page.locator("meta[name=build]").get_attribute("content") == "newer-mark"
    marks = page.evaluate("[...document.scripts].map(it => it.src).filter(it => /assets\\/[a-z]+\\.js/.test(it))")
    assert marks
    assert all(mark.endswith("?newer-mark") for mark in marks)
    page.close()
