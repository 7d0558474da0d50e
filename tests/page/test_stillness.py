"""Nothing that a reader has begun to read moves away while the page's scripts and its engine come."""

from typing import Any

import pytest
from playwright.sync_api import Browser, expect

from build_tools.bench.waiting import until

pytestmark = pytest.mark.browser

WATCH = """
  window.moved = [];
  new PerformanceObserver((list) => {
    for (const { value, sources } of list.getEntries()) {
      const nodes = sources.map(({ node }) => node?.parentElement && (node.closest ? node : node.parentElement));
      if (nodes.length && nodes.every((node) => node?.closest(".site-foot"))) continue;
      moved.push([value, nodes.map((node) => node?.className)]);
    }
  }).observe({ type: "layout-shift", buffered: true });
"""
"""The foot alone may move: a browser that gets a page in two pieces shows the first with the foot below it."""
PAGES = ["lever", "wheel-and-axle", "plank", "lab-lever", "planner", "class-results", "safety"]


def moves(browser: Browser, address: str, width: int, height: int) -> list[Any]:
    page = browser.new_page(viewport={"width": width, "height": height})
    page.add_init_script(WATCH)
    page.goto(address)
    until(page, "document.documentElement.classList.contains('js')")
    until(page, "!window.engine || engine.state === 'ready'")
    page.wait_for_timeout(300)
    found: list[Any] = page.evaluate("moved")
    page.close()
    return found


@pytest.mark.parametrize("size", [(1366, 768), (390, 844)], ids=["Chromebook", "phone"])
@pytest.mark.parametrize("name", PAGES)
def test_a_page_stands_still_while_it_comes_to_life(
    browser: Browser, http_url: str, name: str, size: tuple[int, int]
) -> None:
    found = moves(browser, f"{http_url}{name}.html", *size)
    assert sum(value for value, _ in found) < 0.001, found


@pytest.mark.parametrize(("scripts", "lost"), [(False, "nothing"), (True, "assets/practice.js")])
def test_without_its_script_a_page_keeps_no_room_for_what_would_live(
    browser: Browser, http_url: str, scripts: bool, lost: str
) -> None:
    context = browser.new_context(java_script_enabled=scripts)
    page = context.new_page()
    page.route(f"**/{lost}*", lambda route: route.abort())
    page.goto(f"{http_url}practice.html")
    expect(page.locator(".no-scripts")).to_be_visible()
    assert [part.bounding_box() for part in page.locator("practice-set .live").all()] == [None] * 4
    context.close()
