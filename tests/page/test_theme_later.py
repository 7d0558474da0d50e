"""The theme's own scripts come after the calculators' first answer, and at once for whoever needs them before."""

from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Browser, Page, Route, expect

from build_tools.bench.waiting import until

pytestmark = pytest.mark.browser

SLOW = 60_000
THEMES = "[...document.scripts].filter((it) => it.src.includes('/javascripts/')).length"


@pytest.fixture
def held(browser: Browser, site_url: str) -> Iterator[tuple[Page, Callable[[], None]]]:
    """The lever's page whose engine does not get Python before it is let go."""
    page = browser.new_page(viewport={"width": 1366, "height": 768})
    routes: list[Route] = []
    gone = []
    page.route("**/assets/engine/wasm.*", lambda route: route.continue_() if gone else routes.append(route))
    page.goto(site_url + "lever.html", wait_until="commit")
    until(page, "customElements.get('calculator-sheet') && document.documentElement.matches('.js')", SLOW)

    def go() -> None:
        gone.append(True)
        for route in routes:
            route.continue_()

    yield page, go
    page.close()


def test_they_come_once_the_engine_has_started(held) -> None:
    page, go = held
    assert page.evaluate(THEMES) == 0
    go()
    until(page, "engine.state === 'ready'", SLOW)
    until(page, f"{THEMES} === 2", SLOW)
    page.get_by_text("Dark", exact=True).click()
    expect(page.locator("body")).to_have_attribute("data-md-color-scheme", "slate")


def test_who_searches_before_that_need_not_wait(held) -> None:
    page, _ = held
    page.get_by_placeholder("Search").click()
    page.keyboard.type("wedge")
    expect(page.locator(".md-search-result__item").first).to_be_visible(timeout=SLOW)
    assert page.evaluate("engine.state") == "starting"
    assert page.evaluate(THEMES) == 2


def test_they_come_where_the_engine_can_not_start(browser: Browser, site_url: str) -> None:
    page = browser.new_page()
    page.add_init_script("delete window.WebAssembly")
    page.goto(site_url + "lever.html")
    until(page, "engine.state === 'failed'", SLOW)
    until(page, f"{THEMES} === 2", SLOW)
    page.close()


def test_on_paper_every_part_is_open_before_that_too(held) -> None:
    page, _ = held
    closed = page.locator("#lever-sheet details:not([open])")
    before = closed.count()
    assert before > 0
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    expect(closed).to_have_count(0)
    page.evaluate("dispatchEvent(new Event('afterprint'))")
    expect(closed).to_have_count(before)
