"""Over http the engine goes on running from page to page; anything unexpected is an ordinary visit."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, Page, expect

from build_tools.bench.waiting import until
from tests.questions import ALL_ANSWERED, LISTEN, frames


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


def test_a_page_under_the_pointer_has_its_first_numbers_ready(browser: Browser, http_url: str) -> None:
    page = browser.new_page(viewport={"width": 1366, "height": 768})
    page.add_init_script(LISTEN)
    page.goto(http_url + "lever.html")
    until(page, "window.engine && engine.state === 'ready'")
    ramp = "asked.filter((it) => it.calculator === 'ramp' && it.only === 'numbers').length"
    page.locator('.book a[href="inclined-plane.html"]').hover()
    until(page, f"{ramp} === 1 && {ALL_ANSWERED}")
    to(page, "Inclined plane")
    expect(page.locator("#ramp-shape-sheet .acts")).to_be_visible()
    frames(page)
    until(page, ALL_ANSWERED)
    assert page.evaluate(ramp) == 1  # before the click
    link = page.evaluate("document.querySelector('calculator-sheet').sheet.link")
    assert link.startswith("c=ramp&")  # the sheet has its answer
    page.close()


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


HELD = """() => {
    const { setTimeout: later } = window;
    window.held = [];
    window.setTimeout = (then, ms, ...more) => (ms === 50 ? held.push(then) : later(then, ms, ...more));
}"""
"""Stops the timer after which a page is shown without its answer, so that a slow machine's answer is not too late."""

LOOKS = """() => {
    window.looks = [];
    document.addEventListener("focusin", ({ target }) => {
        if (!target.matches("h1")) return;
        if (window.onPaper) dispatchEvent(new Event("beforeprint"));
        looks.push([Boolean(document.getElementById("in-your-own-words")), document.querySelector(".steps").hidden]);
    });
}"""
"""Looks at the next page before it is painted, when its title takes the focus: its end there? the working hidden?"""


def title(page: Page) -> str | None:
    return page.locator("main h1").text_content()


def test_the_answer_comes_before_the_page_is_laid_out(started: Page) -> None:
    started.evaluate(HELD)
    started.evaluate("""() => {
        window.stood = {};
        const ask = engine.ask.bind(engine);
        engine.ask = async (slot, request) => {
            const answer = await ask(slot, request);
            stood[slot] ??= document.querySelector("main h1").textContent;
            return answer;
        };
    }""")
    to(started, "Inclined plane")
    until(started, "stood['ramp working']")
    assert started.evaluate("[stood['ramp numbers'], stood['ramp working']]") == ["Lever", "Inclined plane"]


def test_a_page_does_not_wait_for_an_engine_that_is_silent(started: Page, http_url: str) -> None:
    started.evaluate("() => { engine.ask = () => new Promise(() => {}); }")
    to(started, "Inclined plane")
    expect(started.locator("main h1")).to_have_text("Inclined plane")
    expect(started.locator(".steps").first).to_be_visible()
    expect(started.locator("#in-your-own-words")).to_be_visible()
    assert started.evaluate("window.kept")


def test_of_two_clicks_the_later_one_counts(started: Page, http_url: str) -> None:
    started.evaluate("""() => {
        const { fetch } = window;
        window.fetch = async (address, ...more) => {
            const answer = await fetch(address, ...more);
            if (address.endsWith("inclined-plane.html")) await new Promise((resolve) => { window.release = resolve; });
            return answer;
        };
    }""")
    to(started, "Inclined plane")
    to(started, "Any machine")
    expect(started.locator("#any-machine-title")).to_be_visible()
    until(started, "window.release")
    started.evaluate("async () => { release(); await new Promise((resolve) => setTimeout(resolve)); }")
    assert (title(started), started.url) == ("Any machine", http_url + "any-machine.html")


def test_going_back_before_the_next_page_is_there_stays_on_this_one(started: Page, http_url: str) -> None:
    started.evaluate(HELD)
    started.evaluate("() => { engine.ask = () => new Promise(() => {}); }")
    to(started, "Inclined plane")
    until(started, "held.length === 1")
    started.go_back()
    expect(started).to_have_url(http_url + "lever.html")
    started.evaluate("async () => { held[0](); await new Promise((resolve) => requestAnimationFrame(resolve)); }")
    assert title(started) == "Lever"


@pytest.mark.parametrize(
    ("height", "on_paper", "first_look"),
    [(768, False, [False, True]), (3000, False, [True, False]), (768, True, [True, False])],
    ids=["below the window", "a window for all of it", "printed at once"],
)
def test_what_nobody_sees_yet_comes_a_frame_later(
    started: Page, height: int, on_paper: bool, first_look: list[bool]
) -> None:
    started.set_viewport_size({"width": 1366, "height": height})
    started.evaluate(LOOKS)
    started.evaluate("(it) => { window.onPaper = it; }", on_paper)
    to(started, "Inclined plane")
    until(started, "looks.length")
    assert started.evaluate("looks[0]") == first_look
    expect(started.locator("#in-your-own-words")).to_be_visible()
    expect(started.locator(".steps").first).to_be_visible()
    expect(started.locator("#ramp-shape-sheet .acts")).to_be_visible()
    assert started.locator("#in-your-own-words").count() == 1


@pytest.mark.parametrize("size", [(1366, 768), (390, 844)])
def test_nothing_moves_when_the_rest_of_a_page_comes(started: Page, size: tuple[int, int]) -> None:
    started.set_viewport_size({"width": size[0], "height": size[1]})
    started.evaluate("""() => {
        window.moves = new PerformanceObserver((list) => seen.push(...list.getEntries()));
        window.seen = [];
        document.addEventListener("focusin", ({ target }) => {
            if (target.matches("h1")) moves.observe({ type: "layout-shift" });
        });
        document.querySelector('nav.book a[href="inclined-plane.html"]').click();
    }""")
    expect(started.locator("#in-your-own-words")).to_be_attached()
    moved = started.evaluate("""async () => {
        for (let frames = 2; frames; frames -= 1) await new Promise((resolve) => requestAnimationFrame(resolve));
        const moved = [...seen, ...moves.takeRecords()];
        return moved.map(({ value, sources }) => [value, sources.map(({ node }) => node?.className ?? node?.data)]);
    }""")
    assert moved == []


def test_from_a_disk_each_page_starts_its_own_engine(page: Page, file_url: str) -> None:
    page.set_viewport_size({"width": 1366, "height": 768})
    page.goto(file_url + "lever.html")
    page.evaluate("window.kept = true")
    to(page, "Inclined plane")
    page.locator("input[name=R]").first.fill("60")
    expect(page.locator(".say").first).to_contain_text("15.00 lbf", timeout=60_000)
    assert page.evaluate("window.kept") is None
