"""What the checks share: the built site, where to reach it, a browser."""

from collections import Counter
from collections.abc import Generator, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Error, Page, sync_playwright

from build_tools import chromium, site_builder
from build_tools.local_server import serving
from tests.standstill import page_that_stands_still

ROOT = Path(__file__).resolve().parent.parent


def pytest_addoption(parser: pytest.Parser) -> None:
    """`--long`: hostile input by the hundred thousand instead of a sample; `--first`: others than the first of them."""
    parser.addoption("--long", action="store_true", help="tests/hostile: 200 000 cases, and 5000 in the browser")
    parser.addoption("--first", type=int, default=0, metavar="N", help="with --long: the number of the first case")


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Says how many hostile cases were tried, however many workers tried them."""
    tried: Counter[str] = Counter()
    for report in terminalreporter.getreports("passed") + terminalreporter.getreports("failed"):
        tried.update({name: count for name, count in report.user_properties if name.startswith("cases ")})
    if tried:
        listed = ", ".join(f"{name.removeprefix('cases ')} {count}" for name, count in sorted(tried.items()))
        terminalreporter.write_line(f"hostile cases: {tried.total()} ({listed})")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Marks every test that uses a browser, so that none is left in the quick run by an oversight."""
    for item in items:
        if "browser" in getattr(item, "fixturenames", ()):
            item.add_marker(pytest.mark.browser)


@pytest.hookimpl(wrapper=True)
def pytest_runtest_call(item: pytest.Item) -> Generator[None, object, object]:
    """Where the browser tool gave up, says whether the browser still drew; the test has failed all the same."""
    try:
        return (yield)
    except Error as error:
        browser = getattr(item, "funcargs", {}).get("browser")
        still = browser and page_that_stands_still(browser)
        error.add_note(f"The browser draws no frame of {still}." if still else "No page was found without frames.")
        raise


@pytest.fixture(scope="session")
def root() -> Path:
    """The project's folder."""
    return ROOT


@pytest.fixture(scope="session")
def site(root: Path) -> Path:
    """The built site, as `python3 -m build_tools site` leaves it."""
    site_builder.build(root)
    return root / "site"


@pytest.fixture(scope="session")
def class_site(root: Path) -> Path:
    """The class edition, as `site --edition class` leaves it."""
    site_builder.build(root, "class")
    return root / "site-class"


@pytest.fixture(scope="session")
def file_url(site: Path) -> str:
    """The site opened from the disk; the address ends in a slash."""
    return site.as_uri() + "/"


@pytest.fixture(scope="session")
def http_url(site: Path) -> Iterator[str]:
    """The site on a web server of this machine; the address ends in a slash."""
    with serving(site) as address:
        yield address


@pytest.fixture(params=["file", "http"])
def site_url(request: pytest.FixtureRequest) -> str:
    """Both ways to reach the site in turn: a test that uses this runs once for each."""
    return request.getfixturevalue(f"{request.param}_url")


@pytest.fixture(scope="session")
def browser(root: Path) -> Iterator[Browser]:
    """Chromium, started once; give each test a context or page of its own."""
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=chromium.find_or_install(root), args=list(chromium.LAUNCH))
        yield started
        started.close()


@pytest.fixture
def own_browser(browser: Browser, root: Path) -> Iterator[Browser]:
    """A Chromium of the test's own, for what may spoil one."""
    started = browser.browser_type.launch(executable_path=chromium.find_or_install(root), args=list(chromium.LAUNCH))
    yield started
    started.close()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A fresh browser profile."""
    fresh = browser.new_context()
    yield fresh
    fresh.close()


@pytest.fixture
def page(context: BrowserContext) -> Page:
    """One page in a fresh browser profile."""
    return context.new_page()
