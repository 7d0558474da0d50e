"""Big view: of one sheet only drawing, numbers and formulas, large; Escape leaves it; nothing is remembered."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from build_tools.bench.waiting import until


@pytest.fixture(scope="module")
def tackle(browser: Browser, file_url: str) -> Iterator[Page]:
    page = browser.new_page(viewport={"width": 1366, "height": 768})
    page.goto(file_url + "pulley.html")
    until(page, "engine.state === 'ready'")
    yield page
    page.close()


def size(page: Page, selector: str) -> float:
    return page.locator(selector).first.evaluate("it => parseFloat(getComputedStyle(it).fontSize)")


def unseen(page: Page, selector: str) -> bool:
    return page.locator(selector).evaluate("it => getComputedStyle(it).clipPath === 'inset(50%)' && it.offsetWidth < 2")


def drawn(page: Page) -> float:
    """The height of the largest words in the drawing on the screen, in px."""
    return page.locator("#tackle-sheet .machine svg:visible text").first.evaluate(
        "it => it.getBoundingClientRect().height"
    )


def test_it_shows_drawing_numbers_and_formulas_larger_and_nothing_else(tackle: Page) -> None:
    before, words = size(tackle, "#tackle-sheet .say"), drawn(tackle)
    tackle.locator("#tackle-sheet [data-act=big]").focus()
    tackle.keyboard.press("Enter")
    expect(tackle.locator(".leave-big")).to_be_focused()
    for part in (".machine svg:visible", ".say", ".results", ".steps .formula"):
        expect(tackle.locator(f"#tackle-sheet {part}").first).to_be_visible()
    for part in (
        ".site-head",
        ".site-foot",
        ".book",
        "#tackle-sheet .left",
        "#tackle-sheet .acts",
        "#tackle-sheet .steps li > p:not(.formula)",
    ):
        expect(tackle.locator(part).first).to_be_hidden()
    assert unseen(tackle, "h1")  # the page's name stays for who listens
    assert tackle.locator("calculator-sheet:visible").count() == 1
    assert size(tackle, "#tackle-sheet .say") > 1.3 * before
    assert drawn(tackle) > 1.3 * words
    assert tackle.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_escape_leaves_it_and_the_page_is_as_before(tackle: Page) -> None:
    tackle.keyboard.press("Escape")
    expect(tackle.locator("h1")).to_be_visible()
    expect(tackle.locator("#tackle-sheet .left")).to_be_visible()
    expect(tackle.locator("#tackle-sheet [data-act=big]")).to_be_focused()
    assert tackle.locator(".leave-big").count() == 0
    assert tackle.locator("[data-big]").count() == 0


def test_its_button_leaves_it_too_and_a_reload_remembers_nothing(tackle: Page) -> None:
    tackle.locator("#tackle-sheet [data-act=big]").click()
    tackle.locator(".leave-big").click()
    expect(tackle.locator("h1")).to_be_visible()
    tackle.locator("#tackle-sheet [data-act=big]").click()
    expect(tackle.locator(".site-head")).to_be_hidden()
    assert unseen(tackle, "h1")
    tackle.reload()
    expect(tackle.locator("h1")).to_be_visible()
    assert tackle.locator("[data-big]").count() == 0
