"""Nothing that was typed is lost: two tabs with one sheet, and storage that is full."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from build_tools import chromium
from build_tools.bench.waiting import until

pytestmark = pytest.mark.browser

READY = "window.engine?.state === 'ready'"


def lab(context: BrowserContext, http_url: str) -> Page:
    page = context.new_page()
    page.goto(http_url + "lab-ramp.html")
    until(page, READY)
    return page


def length(page: Page):
    return page.locator("#ramp-lab-once-L")


def test_a_second_tab_does_not_overwrite_the_sheet_that_the_first_one_keeps(
    context: BrowserContext, http_url: str
) -> None:
    first, second = lab(context, http_url), lab(context, http_url)
    for page in (first, second):
        page.locator("record-sheet [name=keep]").check()
    length(first).fill("96")
    length(second).fill("120")
    expect(second.locator("record-sheet .wait")).to_contain_text("Another tab keeps its own on this device.")
    second.reload()
    expect(length(second)).to_have_value("120")
    first.close()
    third = lab(context, http_url)
    expect(length(third)).to_have_value("96")


def test_a_second_tab_that_keeps_nothing_takes_nothing_away(context: BrowserContext, http_url: str) -> None:
    first, second = lab(context, http_url), lab(context, http_url)
    first.locator("record-sheet [name=keep]").check()
    length(first).fill("96")
    length(second).fill("120")
    expect(length(lab(context, http_url))).to_have_value("96")


def test_full_storage_is_told_and_what_was_typed_stays(context: BrowserContext, http_url: str) -> None:
    context.add_init_script(
        "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };"
    )
    page = lab(context, http_url)
    length(page).fill("96")
    expect(page.locator("record-sheet .wait")).to_contain_text("no room left to keep what stands here")
    page.evaluate("engine.ask('settle', {record: 'no-lab'})")
    expect(page.locator("record-sheet .wait")).to_be_visible()
    expect(length(page)).to_have_value("96")


def test_a_page_from_the_back_forward_cache_answers_what_is_typed_next(
    browser: Browser, root: Path, http_url: str
) -> None:
    remembering = browser.browser_type.launch(
        executable_path=chromium.find_or_install(root),
        args=list(chromium.LAUNCH),
        ignore_default_args=["--disable-back-forward-cache"],
    )
    page = remembering.new_page()
    page.goto(http_url + "inclined-plane.html")
    until(page, READY)
    page.evaluate("addEventListener('pageshow', (event) => { window.fromMemory = event.persisted; })")
    page.locator("[id='ramp-R']").fill("60 lbf")
    expect(page.locator("#ramp-sheet .say")).to_contain_text("15.00 lbf")  # 60 x 24 / 96
    page.goto("about:blank")
    page.go_back(wait_until="commit")
    until(page, READY)
    expect(page.locator("[id='ramp-R']")).to_have_value("60 lbf")
    assert page.evaluate("window.fromMemory")
    page.locator("[id='ramp-R']").fill("80 lbf")
    expect(page.locator("#ramp-sheet .say")).to_contain_text("20.0 lbf")
    remembering.close()
