"""A ramp, a set and a plan without a pointer: Tab, Enter, arrows, and the focus never lost."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from build_tools.bench.waiting import until

pytestmark = pytest.mark.browser

SLOW = 120_000


@pytest.fixture(scope="module")
def window(browser: Browser) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    yield context.new_page()
    context.close()


def alive(page: Page, address: str) -> Page:
    page.goto(address)
    until(page, "engine.state === 'ready'", SLOW)
    return page


def tab_to(page: Page, selector: str, steps: int = 120, key: str = "Tab") -> None:
    """Presses Tab until the focus stands there."""
    for _ in range(steps):
        page.keyboard.press(key)
        if page.evaluate("it => document.activeElement.matches(it)", selector):
            return
    raise AssertionError(f"never reached by {key}: {selector}")


def past_the_list(page: Page) -> None:
    """The skip link, which leads past the book's list of pages."""
    tab_to(page, ".md-skip")
    page.keyboard.press("Enter")


def test_a_ramp_is_slid_opened_shared_and_made_big(window: Page, file_url: str) -> None:
    page = alive(window, file_url + "inclined-plane.html")
    past_the_list(page)
    tab_to(page, "#ramp-sheet input[name=units]")
    page.keyboard.press("ArrowRight")
    expect(page.locator("#ramp-R")).to_have_value("133.447", timeout=SLOW)  # 30 lbf x 4.448222 N/lbf, by NIST SP 811
    page.keyboard.press("ArrowLeft")
    expect(page.locator("#ramp-R")).to_have_value("30", timeout=SLOW)
    tab_to(page, "#ramp-R")
    page.keyboard.press("Control+a")
    page.keyboard.type("1,5")
    expect(page.locator("#ramp-R-error")).to_be_visible(timeout=SLOW)
    page.keyboard.press("Escape")  # takes the mistake back
    expect(page.locator("#ramp-R")).not_to_have_attribute("aria-invalid", "true", timeout=SLOW)
    tab_to(page, "#ramp-sheet .level-2 > summary")
    page.keyboard.press("Space")
    expect(page.locator("#ramp-eta")).to_be_visible()
    tab_to(page, "#ramp-range")
    before = float(page.locator("#ramp-range").input_value())
    page.keyboard.press("ArrowRight")
    moved = float(page.locator("#ramp-range").input_value())
    assert moved > before
    slid = page.locator(f"#ramp-{page.locator('#ramp-change').input_value()}")
    expect(slid).to_have_value(page.locator("#ramp-range").input_value(), timeout=SLOW)
    page.keyboard.press("Home")
    assert page.locator("#ramp-range").input_value() == page.locator("#ramp-range").get_attribute("min")
    page.keyboard.press("End")
    assert page.locator("#ramp-range").input_value() == page.locator("#ramp-range").get_attribute("max")
    share, big = "#ramp-sheet [data-act=share]", "#ramp-sheet [data-act=big]"
    tab_to(page, share, key="Shift+Tab")
    page.keyboard.press("Enter")
    expect(page.locator("#ramp-sheet .share-holds")).to_contain_text("In this link", timeout=SLOW)
    tab_to(page, "[data-act=close-share]")
    page.keyboard.press("Enter")
    expect(page.locator(share)).to_be_focused()
    tab_to(page, big)
    page.keyboard.press("Enter")
    expect(page.locator(".leave-big")).to_be_visible(timeout=SLOW)
    page.keyboard.press("Escape")
    expect(page.locator(big)).to_be_focused()


def test_a_set_is_done_with_a_mistake_on_the_way(window: Page, file_url: str) -> None:
    """Set garden-1, seat 7, problem 1: 160 lbf at 9 in against 30 in, so 48 lbf; with the arms swapped 533."""
    page = alive(window, file_url + "practice.html#p=garden-1;qL1,qM1,qS4;0;3;us;&v=1")
    past_the_list(page)
    tab_to(page, "[name=seat]")
    page.keyboard.type("x")
    page.keyboard.press("Enter")
    expect(page.locator(".r-errors li")).to_have_count(1, timeout=SLOW)
    expect(page.locator(".p-aloud")).to_have_text(page.locator(".r-errors li").inner_text())
    page.keyboard.press("Control+a")
    page.keyboard.type("7")
    page.keyboard.press("Enter")
    expect(page.locator(".p-text")).to_contain_text("Pry bar", timeout=SLOW)
    tab_to(page, "#practice-answer")
    page.keyboard.type("533")
    page.keyboard.press("Enter")
    expect(page.locator(".p-said")).to_contain_text("Arms swapped", timeout=SLOW)
    expect(page.locator("#practice-answer")).to_be_focused()
    page.keyboard.press("Control+a")
    page.keyboard.type("48 lbf")
    page.keyboard.press("Enter")
    expect(page.locator("[data-act=next]")).to_be_focused(timeout=SLOW)
    page.keyboard.press("Enter")
    expect(page.locator("#practice-question")).to_be_focused(timeout=SLOW)
    expect(page.locator("#practice-question")).to_contain_text("Problem 2 of 3")
    tab_to(page, ".p-numbers [data-question='1']", key="Shift+Tab")
    page.keyboard.press("Enter")
    expect(page.locator("#practice-question")).to_contain_text("Problem 1 of 3", timeout=SLOW)


def test_a_plan_is_made_a_thing_added_and_a_card_opened_and_closed(window: Page, file_url: str) -> None:
    page = alive(window, file_url + "planner.html")
    shown = "Number(document.querySelector('.planner-form').dataset.shown ?? 0)"
    until(page, f"{shown} > 0", SLOW)
    past_the_list(page)
    tab_to(page, "#plan-R")
    before = page.evaluate(shown)
    page.keyboard.press("Control+a")
    page.keyboard.type("60 in")
    until(page, f"{shown} > {before}", SLOW)
    expect(page.locator("#plan-R-error")).to_be_visible(timeout=SLOW)
    expect(page.locator(".planner-form > p[role=status]")).to_contain_text("Load: ", timeout=SLOW)
    before = page.evaluate(shown)
    page.keyboard.press("Control+a")
    page.keyboard.type("60 lbf")
    until(page, f"{shown} > {before}", SLOW)
    expect(page.locator("#plan-R-error")).to_be_hidden(timeout=SLOW)
    tab_to(page, ".p-kit > summary")
    page.keyboard.press("Enter")
    tab_to(page, ".p-kind [data-act=add]")
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.matches('.p-kind tbody tr:last-child input')")
    tab_to(page, ".p-kind tbody tr:last-child [data-act=remove]")
    before = page.evaluate(shown)
    page.keyboard.press("Enter")
    expect(page.locator(":focus")).to_have_attribute("data-act", "add")
    until(page, f"{shown} > {before}", SLOW)
    tab_to(page, ".p-options [data-card='0']", steps=400)
    page.keyboard.press("Enter")
    expect(page.locator(".p-card-place")).to_be_focused(timeout=SLOW)
    expect(page.locator(".p-card svg")).to_be_visible()
    tab_to(page, "[data-act=close]")
    page.keyboard.press("Enter")
    expect(page.locator(".p-options [data-card='0']")).to_be_focused()
