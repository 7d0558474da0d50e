"""Over http the engine goes on running from page to page; anything unexpected is an ordinary visit."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from build_tools.bench.waiting import until


def to(page: Page, title: str) -> None:
    page.locator(".book a, .site-foot a").filter(has_text=title).first.click()


@pytest.fixture
def started(page: Page, http_url: str) -> Page:
    page.set_viewport_size({"width": 1366, "height": 768})
    page.goto(http_url + "lever.html")
    until(page, "window.engine && engine.state === 'ready'")
    page.evaluate("window.kept = true")
    return page


def test_the_engine_goes_on_to_the_next_page(started: Page, http_url: str) -> None:
    asked: list[str] = []
    started.on("request", lambda request: asked.append(request.url))
    to(started, "Inclined plane")
    expect(started).to_have_url(http_url + "inclined-plane.html")
    started.locator("input[name=R]").first.fill("60")
    expect(started.locator(".say").first).to_contain_text("15.00 lbf")  # 60 * 24 / 96
    assert started.evaluate("window.kept")
    assert started.title().startswith("Inclined plane")
    assert not [url for url in asked if "/engine/wasm" in url or "/engine/snapshot" in url]


def test_back_and_forward_show_each_page_with_what_was_typed(started: Page, http_url: str) -> None:
    started.locator("input[name=R]").first.fill("80")
    expect(started.locator(".say").first).to_contain_text("20.0 lbf")
    to(started, "Any machine")
    expect(started.locator("#any-machine-title")).to_be_visible()
    started.go_back()
    expect(started).to_have_url(http_url + "lever.html")
    expect(started.locator("input[name=R]").first).to_have_value("80")
    expect(started.locator(".say").first).to_contain_text("20.0 lbf")
    started.go_forward()
    expect(started.locator("#any-machine-title")).to_be_visible()
    assert started.evaluate("window.kept")


def test_the_next_page_is_announced_by_its_title(started: Page) -> None:
    to(started, "Inclined plane")
    expect(started.locator("main h1")).to_be_focused()


def test_a_page_of_another_build_is_visited_in_the_ordinary_way(started: Page, http_url: str) -> None:
    started.evaluate("document.querySelector('meta[name=build]').content = 'older'")
    to(started, "Inclined plane")
    expect(started).to_have_url(http_url + "inclined-plane.html")
    expect(started.locator("#ramp-title")).to_be_visible()
    until(started, "window.engine")
    assert started.evaluate("window.kept") is None


def test_when_the_next_page_cannot_be_fetched_the_browser_goes_there_itself(started: Page, http_url: str) -> None:
    started.evaluate("() => { window.fetch = () => Promise.reject(new TypeError('no network')); }")
    to(started, "Inclined plane")
    expect(started).to_have_url(http_url + "inclined-plane.html")
    expect(started.locator("#ramp-title")).to_be_visible()
    assert started.evaluate("window.kept") is None


def test_from_a_disk_each_page_starts_its_own_engine(page: Page, file_url: str) -> None:
    page.set_viewport_size({"width": 1366, "height": 768})
    page.goto(file_url + "lever.html")
    page.evaluate("window.kept = true")
    to(page, "Inclined plane")
    page.locator("input[name=R]").first.fill("60")
    expect(page.locator(".say").first).to_contain_text("15.00 lbf", timeout=60_000)
    assert page.evaluate("window.kept") is None
