"""A sheet that is alive, opened in the browser."""

from collections import defaultdict
from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Browser, Page

from build_tools.bench.waiting import until


class LiveSheet:
    """One calculator on an open page, spoken of by its quantities' symbols."""

    def __init__(self, page: Page, key: str) -> None:
        self.page, self.key = page, key

    def box(self, symbol: str):
        return self.page.locator(f'[id="{self.key}-{symbol}"]')

    def row(self, symbol: str):
        return self.page.locator(f'#{self.key}-sheet .q[data-symbol="{symbol}"]')

    def part(self, selector: str):
        return self.page.locator(f"#{self.key}-sheet {selector}")

    def fill(self, **texts: str) -> None:
        for symbol, text in texts.items():
            self.box(symbol).fill(text)

    def settle(self) -> None:
        """Waits until everything asked so far is answered and shown."""
        self.page.evaluate(
            "key => engine.ask('settle', {calculator: key, given: {}}).then(() => new Promise(requestAnimationFrame))",
            self.key,
        )

    def shown(self, symbol: str) -> str:
        self.settle()
        return self.row(symbol).locator("output").inner_text()

    def start_over(self) -> None:
        """The sheet as a first visit shows it, without the cost of a new engine."""
        self.part("input[value=us]").check()
        self.part("[data-act=example]").click()
        self.part("details").evaluate_all("levels => levels.forEach(level => { level.open = false; })")
        self.page.emulate_media(media="null")
        self.page.wait_for_timeout(900)  # the answer has been said by then
        self.page.evaluate("sessionStorage.clear()")
        self.part("p[role=status]").evaluate("line => line.replaceChildren()")
        self.settle()


@pytest.fixture(scope="module")
def opened_pages(browser: Browser) -> Iterator[dict[str, Page]]:
    """The pages that a module's tests share, by address: an engine takes longer to start than to answer."""
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    yield (pages := defaultdict(context.new_page))
    pages.clear()
    context.close()


@pytest.fixture
def open_sheet(opened_pages: dict[str, Page]) -> Callable[[str, str], LiveSheet]:
    """Opens a page, or the one that another test left, and waits until its calculator answers."""

    def opened(address: str, key: str) -> LiveSheet:
        page = opened_pages[address]
        sheet = LiveSheet(page, key)
        if page.url.partition("#")[0] == address:  # what a test typed stands behind the sign
            sheet.start_over()
        else:
            page.goto(address)
            until(page, "engine.state === 'ready'")
            sheet.settle()
        return sheet

    return opened
