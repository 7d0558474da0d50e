"""Pages for every reader: keyboard only, assistive technology, small screens, no scripts, paper, no other host."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from build_tools.bench.waiting import until
from tests.page.barriers import barriers
from tests.page.conftest import LiveSheet
from tests.page.pages import PAGES, WITH_SHEETS

pytestmark = pytest.mark.browser


def test_the_main_job_is_done_by_keyboard_alone(open_sheet, site_url: str):
    """From the home page to the efficiency of a measured pull, without a pointer."""
    sheet = open_sheet(site_url + "inclined-plane.html", "ramp")
    page: Page = sheet.page
    page.goto(site_url + "index.html")

    def tab_to(test: str, steps: int = 60) -> None:
        for _ in range(steps):
            page.keyboard.press("Tab")
            if page.evaluate(f"(() => {{ const at = document.activeElement; return {test}; }})()"):
                return
        raise AssertionError(f"never reached: {test}")

    tab_to("at.textContent.trim() === 'Inclined plane'")
    page.keyboard.press("Enter")
    page.wait_for_url("**/inclined-plane.html")
    until(page, "window.engine?.state === 'ready'")
    if page.url.startswith("file:"):  # a page of its own begins at its top: the skip link leads past the book's list
        tab_to("at.classList.contains('md-skip')")
        page.keyboard.press("Enter")
    for symbol, text in (("R", "30"), ("L", "8 ft"), ("h", "2 ft"), ("E", "16")):
        tab_to(f"at.id === 'ramp-{symbol}'")
        page.keyboard.press("Control+a")
        page.keyboard.type(text)
    page.keyboard.press("Enter")
    sheet.settle()
    # By hand: IMA = 8/2 = 4.00, AMA = 30/16 = 1.875, so 1.875/4 = 46.9 %.
    expect(sheet.part(".say")).to_contain_text("46.9 %")
    expect(sheet.part("p[role=status]")).to_contain_text("46.9 %")
    assert page.url.partition("#")[0].endswith("inclined-plane.html")  # nothing was sent off as a form
    tab_to("at.tagName === 'SUMMARY'")
    page.keyboard.press("Enter")
    expect(sheet.row("eta")).to_be_visible()


def test_focus_can_be_seen(page: Page, file_url: str):
    page.goto(file_url + "lever.html")
    for _ in range(25):
        page.keyboard.press("Tab")
        width = page.evaluate(
            """() => { const at = document.activeElement.matches('.md-option')
                         ? document.activeElement.nextElementSibling : document.activeElement;
                       const look = getComputedStyle(at);
                       return look.outlineStyle === 'none' ? 0 : parseFloat(look.outlineWidth); }"""
        )
        assert width >= 1, page.evaluate("document.activeElement.outerHTML.slice(0, 120)")


@pytest.mark.parametrize(
    ("name", "scheme"),
    [
        *((name, "light") for name in PAGES),
        ("index", "dark"),
        ("lever", "dark"),
        ("more-levers", "dark"),
        ("compound", "dark"),
    ],
)
def test_axe_finds_nothing(browser: Browser, file_url: str, name: str, scheme: str):
    for width in (1366, 390) if scheme == "light" else (1366,):
        context = browser.new_context(color_scheme=scheme, viewport={"width": width, "height": 768})
        page = context.new_page()
        page.goto(f"{file_url}{name}.html")
        if name in WITH_SHEETS:
            until(page, "engine.state === 'ready'", 60_000)
            for level in page.locator("summary").all():
                level.click()
            page.locator(".quantities input:visible").first.fill("1,5")
            expect(page.locator(".q-error:visible")).to_have_count(1)
            page.wait_for_timeout(300)
            page.evaluate("scrollTo(0, 0)")  # where the page's head covers no button
        assert barriers(page) == []
        context.close()


@pytest.mark.parametrize("name", PAGES)
def test_axe_finds_nothing_in_the_dark_or_on_paper(browser: Browser, root: Path, file_url: str, name: str):
    """Dark changes colours and nothing else; paper hides parts and sets others anew."""
    context = browser.new_context(color_scheme="dark", viewport={"width": 1366, "height": 768})
    page = context.new_page()
    page.goto(f"{file_url}{name}.html")
    if name in WITH_SHEETS:
        until(page, "engine.state === 'ready'", 120_000)
    for level in page.locator("details").all():
        level.evaluate("it => { it.open = true; }")
    page.evaluate((root / "node_modules/axe-core/axe.min.js").read_text("utf-8"))
    run = "rules => axe.run(rules).then(result => result.violations.map(it => [it.id, it.nodes.map(n => n.html)]))"
    at_rest = "document.getAnimations().length === 0"  # the theme's links change colour step by step
    until(page, at_rest)
    assert page.evaluate(run, {"runOnly": ["color-contrast"]}) == []
    page.emulate_media(media="print")
    page.evaluate("() => new Promise(requestAnimationFrame)")
    until(page, at_rest)
    assert page.evaluate(run, {}) == []
    context.close()


def search(page: Page, words: str) -> Locator:
    """The first link that the search finds; it is asked again until its index is there."""
    field, result = page.locator(".md-search__input"), page.locator(".md-search-result__link").first
    for _ in range(20):
        field.press("Control+a")
        field.press_sequentially(words)  # the theme listens for keys
        page.wait_for_timeout(500)
        if result.is_visible():
            return result
    raise AssertionError("search found nothing")


@pytest.mark.parametrize("name", PAGES)
def test_no_request_leaves_for_another_host(page: Page, site_url: str, name: str):
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(f"{site_url}{name}.html")
    if name in WITH_SHEETS:
        until(page, "engine.state === 'ready'", 60_000)
    search(page, "effort")
    assert [url for url in asked if not url.startswith((site_url, "blob:", "data:", "about:"))] == []


@pytest.mark.parametrize("name", PAGES)
def test_nothing_is_complained_of_in_the_console(page: Page, site_url: str, name: str):
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text) if message.type in ("error", "warning") else None)
    page.on("pageerror", lambda error: said.append(str(error)))
    page.goto(f"{site_url}{name}.html")
    if name in WITH_SHEETS:
        until(page, "engine.state === 'ready'", 60_000)
    page.wait_for_timeout(300)
    assert said == []


def test_search_from_the_disk_leads_to_a_page(page: Page, file_url: str):
    page.goto(file_url + "index.html")
    assert "lever.html" in search(page, "barrow").get_attribute("href")


@pytest.mark.parametrize(
    ("name", "width"),
    [*((name, width) for name in PAGES for width in (320, 1366)), *(("lever", width) for width in (390, 683, 1024))],
)
def test_a_page_never_scrolls_sideways(browser: Browser, file_url: str, name: str, width: int):
    context = browser.new_context(viewport={"width": width, "height": 768})
    page = context.new_page()
    page.goto(f"{file_url}{name}.html")
    for level in page.locator("summary").all():
        level.click()
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    context.close()


CUT_LISTS = """() => [...document.querySelectorAll(".q-choice select")].filter(it => {
    const wide = it.offsetWidth;
    Object.assign(it.style, { maxWidth: "none", width: "max-content", flex: "none" });
    return it.offsetWidth > wide;
}).map(it => it.id)"""


@pytest.mark.parametrize("name", WITH_SHEETS)
def test_on_a_laptop_the_longest_entry_of_each_list_can_be_read_whole(browser: Browser, file_url: str, name: str):
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    page = context.new_page()
    page.goto(f"{file_url}{name}.html")
    for level in page.locator("summary").all():
        level.click()
    assert page.evaluate(CUT_LISTS) == []
    context.close()


@pytest.mark.parametrize("name", PAGES)
def test_targets_are_large_enough_to_hit(browser: Browser, file_url: str, name: str):
    """24 CSS pixels each way at least (WCAG 2.2, 2.5.8), links in running text apart."""
    context = browser.new_context(viewport={"width": 390, "height": 844})
    page = context.new_page()
    page.goto(f"{file_url}{name}.html")
    controls = (
        ".sheet :is(button, select, summary, input:not([type=radio])), .switch label, .site-tools a, .md-search__input"
    )
    small = page.evaluate(
        """controls => [...document.querySelectorAll(controls)]
             .filter(it => it.offsetParent && it.getBoundingClientRect().height < 24)
             .map(it => it.outerHTML.slice(0, 90))""",
        controls,
    )
    assert small == []
    context.close()


@pytest.mark.parametrize("name", WITH_SHEETS)
def test_without_scripts_a_page_is_a_complete_worked_reference(browser: Browser, file_url: str, name: str):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{file_url}{name}.html")
    for part in (".machine .is-wide svg", ".say", ".results table", ".steps math", "h1", ".caution"):
        expect(page.locator(part).first).to_be_visible()
    for dead in (".acts button", ".switch input", ".change select", "input[type=range]"):
        for control in page.locator(dead).all():
            expect(control).to_be_hidden()
    context.close()


def pages_of(pdf: bytes) -> int:
    return len(re.findall(rb"/Type\s*/Page\b", pdf))


LONG_WHEN_OPEN = {"journal-friction": 2, "wedge-with-friction": 2, "screw-with-friction": 2}
"""The most pages of a sheet with everything open and a measured effort, where 10 pt leaves no room for one page."""


@pytest.mark.parametrize("name", WITH_SHEETS)
def test_every_printed_sheet_fits_one_page(browser: Browser, http_url: str, name: str):
    """As it comes, and with a typed effort and all its levels open; with the code of its link, which takes room."""
    page = browser.new_page()
    page.goto(f"{http_url}{name}.html")
    until(page, "engine.state === 'ready'", 120_000)
    page.evaluate("() => { window.print = () => { window.printed = true; }; }")
    keys = page.locator("calculator-sheet").evaluate_all("them => them.map(it => it.getAttribute('key'))")
    needed = {}
    for key in keys:
        sheet = LiveSheet(page, key)
        for state in ("as it comes", "all open"):
            if state == "all open":
                sheet.part("details").evaluate_all("levels => levels.forEach(level => { level.open = true; })")
                if sheet.part("input[name=E]").count() and not sheet.box("E").input_value():
                    sheet.fill(E="16")
                sheet.settle()
            for paper in ("Letter", "A4"):
                page.evaluate("window.printed = false")
                sheet.part("[data-act=print]").click()
                until(page, "window.printed", 120_000)
                needed[key, state, paper] = pages_of(page.pdf(format=paper))
                until(page, "!document.documentElement.dataset.print")  # Chromium has told that it printed
    page.close()
    allowed = {at: LONG_WHEN_OPEN.get(at[0], 1) if at[1] == "all open" else 1 for at in needed}
    assert {at: pages for at, pages in needed.items() if pages > allowed[at]} == {}


def test_paper_keeps_its_words_at_ten_points(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "more-screws.html", "screw-with-friction")  # the longest
    sheet.page.emulate_media(media="print")
    sizes = sheet.part(":is(label, p, th, td, input, output, .formula math)").evaluate_all(
        "them => them.filter(it => it.checkVisibility()).map(it => parseFloat(getComputedStyle(it).fontSize))"
    )
    assert min(sizes) >= 10 * 96 / 72 - 0.01


def test_after_printing_the_page_is_whole_again(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "same-work.html", "same-work")
    sheet.page.evaluate("window.print = () => dispatchEvent(new Event('afterprint'))")
    sheet.part("[data-act=print]").click()
    sheet.settle()
    assert sheet.page.evaluate("document.documentElement.dataset.print") is None


def test_paper_shows_what_the_reader_typed_and_only_the_levels_that_are_open(open_sheet, file_url: str):
    sheet = open_sheet(file_url + "inclined-plane.html", "ramp")
    sheet.fill(R="77")
    sheet.part(".level-3 summary").click()
    sheet.page.emulate_media(media="print")
    expect(sheet.box("R")).to_have_value("77")
    expect(sheet.part(".level-2")).to_be_hidden()
    expect(sheet.part(".level-3")).to_be_visible()
    expect(sheet.part(".acts")).to_be_hidden()
    expect(sheet.part(".change")).to_be_hidden()
