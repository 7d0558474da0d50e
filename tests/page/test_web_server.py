"""The site on a real web server: any path, packed, asked again, a new version, a whole class at once."""

from __future__ import annotations

import base64
import gzip
import hashlib
import re
import shutil
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from html import unescape
from pathlib import Path
from threading import Barrier
from urllib.parse import urljoin

import pytest
from playwright.sync_api import Browser, Route, expect

from build_tools.bench.waiting import until
from build_tools.engine import payload
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
        with urllib.request.urlopen(request, timeout=600) as answer:
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
    """35 clients, all let go at once, each over six lines as browsers do it, packed; all bytes are compared.

    Then all come again, as in the next lesson: the server sends no file twice.
    """
    page = (site / "lever.html").read_text("utf-8")
    parts = [urljoin(served, f"assets/engine/{file.name}") for file in (site / "assets/engine").glob("*.js")]
    wanted = [served + "lever.html", *files_of(page, served + "lever.html"), *parts]
    assert len(wanted) > 15
    sums = {url: hashlib.sha256((site / url.split("?")[0][len(served) :]).read_bytes()).hexdigest() for url in wanted}
    together = Barrier(CLASS)
    tags: dict[str, str] = {}

    def fetch(url: str) -> str:
        status, headers, body = asked(url, Accept_Encoding="gzip")
        text = gzip.decompress(body) if headers.get("content-encoding") == "gzip" else body
        tags[url] = headers.get("etag", "")
        return "" if (status, hashlib.sha256(text).hexdigest()) == (200, sums[url]) else f"{status} {url}"

    def again(url: str) -> str:
        status, _, body = asked(url, Accept_Encoding="gzip", If_None_Match=tags[url])
        return "" if (status, body) == (304, b"") else f"{status} {url}"

    def visit(ask: Callable[[str], str]) -> list[str]:
        together.wait(600)
        with ThreadPoolExecutor(6) as lines:
            return [failed for failed in lines.map(ask, wanted) if failed]

    with ThreadPoolExecutor(CLASS) as class_:
        for ask in (fetch, again):
            assert [failed for visitor in class_.map(visit, [ask] * CLASS) for failed in visitor] == []


# -- a new version on the server while a page is open -----------------------------------------------


RAN = "(window.newerRan = window.newerRan || []).push(document.currentScript.src);"


def newer(site: Path, folder: Path, *, keep_old: bool) -> Path:
    """The site as another build would leave it: another mark, engine parts under other names, scripts that tell.

    With ``keep_old`` it is as if copied over the old version, of which every file stays that the new one lacks.
    """
    shutil.copytree(site, folder)
    (old,) = set(re.findall(r'name="build" content="([^"]+)"', (folder / "lever.html").read_text("utf-8")))
    for file in (*folder.glob("*.html"), *(folder / "assets").glob("*.js"), folder / "assets/engine/parts.js"):
        file.write_text(file.read_text("utf-8").replace(old, "newer-mark"), "utf-8")
    for script in (folder / "assets").glob("*.js"):
        script.write_text(script.read_text("utf-8") + RAN, "utf-8")
    listed = folder / "assets/engine/parts.js"
    for part in (folder / "assets/engine").glob("*.*.js"):
        fresh, text = packed_at_another_time(part)
        if not keep_old:
            part.unlink()
        part.with_name(f"{fresh}.js").write_text(text, "ascii")
        for listing in (listed, folder / "assets/engine.js"):
            listing.write_text(listing.read_text("utf-8").replace(part.stem, fresh), "utf-8")
    return folder


def packed_at_another_time(part: Path) -> tuple[str, str]:
    """A part's name and script as if its gzip (RFC 1952) bore another time: other bytes, the same content."""
    travels = base64.b64decode(payload.base64_in(part.read_text("ascii")))
    other = travels[:4] + bytes([1, 0, 0, 0]) + travels[8:]
    called = f"{part.name.split('.')[0]}.{hashlib.sha256(other).hexdigest()[:12]}"
    return called, payload.script(called, other)


@pytest.fixture
def renewed(root: Path, site: Path, line: str, tmp_path: Path) -> Iterator[tuple[str, Callable[..., None]]]:
    """nginx with the README's line and this version, and what puts a newer one in its place."""
    yield from served_and_renewed(root, site, line, tmp_path)


@pytest.fixture
def renewed_and_long_kept(root: Path, site: Path, line: str, tmp_path: Path) -> Iterator[tuple[str, Callable]]:
    """The same from a server that lets browsers keep everything for a day without asking again."""
    yield from served_and_renewed(root, site, line.replace("no-cache", "max-age=86400"), tmp_path)


def served_and_renewed(root: Path, site: Path, line: str, work: Path) -> Iterator[tuple[str, Callable[..., None]]]:
    """The folder that nginx serves is a link, changed all at once: at no moment is a file missing."""
    path, folder = re.findall(r"location (\S+) \{ alias (\S+);", line)[0]
    place, to_come = work / "served", work / "to come"
    place.symlink_to(site, target_is_directory=True)

    def renew(keep_old: bool = False) -> None:
        to_come.symlink_to(newer(site, work / "newer", keep_old=keep_old), target_is_directory=True)
        to_come.replace(place)

    with nginx.serving(nginx.program(root), line.replace(folder, f"{place}/"), work) as home:
        yield f"{home}{path.strip('/')}/", renew


SWITCH_AT = ["assets/whole.js", "assets/engine/snapshot.", "assets/engine.js", "assets/engine/wasm.", "assets/sheet.js"]


@pytest.mark.parametrize("keep_old", [False, True], ids=["replaced", "copied over"])
@pytest.mark.parametrize("switch_at", SWITCH_AT)
def test_a_page_that_meets_the_new_version_on_its_way_is_all_old_or_says_so(
    browser: Browser, renewed, switch_at: str, keep_old: bool
) -> None:
    """The page came before the new version, one of its files after it, as on a slow line."""
    address, renew = renewed
    page = browser.new_page()
    done = []

    def late(route) -> None:
        if not done and switch_at in route.request.url:
            done.append(True)
            renew(keep_old)
        route.continue_()

    page.route("**/*.js*", late)
    page.goto(address + "lever.html")
    until(page, "(window.engine && engine.state !== 'starting') || document.querySelector('.missing-file')", SLOW)
    assert done
    assert [url for url in page.evaluate("window.newerRan ?? []") if "whole.js" not in url] == []
    told = " ".join(page.locator(".missing-file, #lever-sheet .wait").all_inner_texts())
    answers = page.evaluate("window.engine?.state === 'ready'")
    assert answers or "Load the page again." in told
    expect(page.locator("#lever-sheet .say")).to_contain_text("10.00 lbf")  # the worked example stays
    page.reload()
    until(page, "window.engine && engine.state === 'ready'", SLOW)
    expect(page.locator(".missing-file")).to_have_count(0)
    assert page.evaluate("newerRan.length") > 5
    page.close()


def test_an_open_page_of_the_old_version_never_takes_up_the_new_engine(browser: Browser, renewed) -> None:
    """All scripts of the page are old, and what its engine asks for comes after the new version."""
    address, renew = renewed
    page = browser.new_page()
    held: list[Route] = []
    open_again = []
    page.route("**/assets/engine/wasm.*", lambda route: route.continue_() if open_again else held.append(route))
    page.goto(address + "lever.html", wait_until="commit")
    until(page, "window.engine && customElements.get('calculator-sheet')", SLOW)
    renew()
    open_again.append(True)
    for route in held:
        route.continue_()
    until(page, "engine.state === 'failed'", SLOW)
    assert page.evaluate("engine.reason") == (
        "This page and the calculator's files are of different versions. Load the page again."
    )
    expect(page.locator("#lever-sheet .wait")).to_contain_text("Load the page again.")
    page.close()


def test_a_script_fetched_late_by_an_old_page_is_refused_and_the_reader_is_told(browser: Browser, renewed) -> None:
    """The share script is asked for when somebody shares, which may be a day after the page was opened."""
    address, renew = renewed
    page = browser.new_page()
    page.goto(address + "lever.html")
    until(page, "engine.state === 'ready'", SLOW)
    renew()
    page.locator("#lever-sheet [data-act=share]").click()
    expect(page.locator(".missing-file")).to_contain_text("different versions", timeout=SLOW)
    expect(page.locator(".missing-file")).to_contain_text("Load the page again.")
    assert page.evaluate("window.newerRan") is None
    page.locator("#lever-R").fill("80")
    expect(page.locator("#lever-sheet .say")).to_contain_text("20.0 lbf", timeout=SLOW)  # 80 * 6 / 24
    page.close()


def test_a_page_from_the_browsers_cache_stays_old_or_says_so(browser: Browser, renewed_and_long_kept) -> None:
    """Where a server lets pages be kept, the old one comes back from the cache after the new version."""
    address, renew = renewed_and_long_kept
    context = browser.new_context()
    page = context.new_page()
    for name in ("lever.html", "wedge.html"):
        page.goto(address + name)
        until(page, "engine.state === 'ready'", SLOW)
    renew()
    page.goto(address + "lever.html")
    until(page, "(window.engine && engine.state !== 'starting') || document.querySelector('.missing-file')", SLOW)
    assert page.evaluate("document.querySelector('meta[name=build]').content") != "newer-mark"
    assert page.evaluate("window.newerRan") is None
    assert page.evaluate("engine.state") == "ready"  # everything it needs was kept with it
    page.reload()
    until(page, "window.engine && engine.state === 'ready'", SLOW)
    assert page.evaluate("document.querySelector('meta[name=build]').content") == "newer-mark"
    context.close()


def test_a_page_with_its_engine_running_goes_on_and_turns_to_the_new_version_whole(browser: Browser, renewed) -> None:
    address, renew = renewed
    page = browser.new_page(viewport={"width": 1366, "height": 768})
    page.goto(address + "lever.html")
    until(page, "engine.state === 'ready'", SLOW)
    page.evaluate("engine.ask('whole', {calculator: 'lever', given: {}})")  # its last parts are asked for after that
    page.wait_for_load_state("networkidle")
    renew()
    page.locator("#lever-R").fill("80")
    expect(page.locator("#lever-sheet .say")).to_contain_text("20.0 lbf", timeout=SLOW)  # 80 * 6 / 24
    page.locator(".book a").filter(has_text="Wedge").first.click()
    page.wait_for_url("**/wedge.html")
    expect(page.locator("meta[name=build]")).to_have_attribute("content", "newer-mark", timeout=SLOW)
    until(page, "window.engine && engine.state === 'ready'", SLOW)
    marks = page.evaluate("[...document.scripts].map(it => it.src).filter(it => /assets\\/[a-z]+\\.js/.test(it))")
    assert marks
    assert all(mark.endswith("?newer-mark") for mark in marks)
    page.close()
