"""A long lesson in one tab: thousands of numbers typed, and pages turned, with the tab's memory before and after."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Browser, Page

from build_tools.bench import tab_memory, visits
from build_tools.bench.pages import calculators_on

RECALCULATIONS = 10_000
PAGE_CHANGES = 200
SETTLING_MS = 5000
"""Time in which the page finishes what it puts off while somebody types."""
_TYPE = """async ([id, times]) => {
  const box = document.getElementById(id);
  const question = { calculator: id.split("-")[0], only: "numbers" };
  for (let done = 0; done < times; done += 2) {
    box.value = String(100 + (done % 900));
    box.dispatchEvent(new Event("input", { bubbles: true }));
    await engine.ask("bench", question); // this one is answered after the box's own
  }
}"""


@dataclass(frozen=True)
class Endured:
    """Memory of the tab in MB, garbage collected; None where the system does not tell."""

    fresh: float | None = None
    recalculated: float | None = None
    turned: float | None = None


def lesson(browser: Browser, site: Path, address: str, page_names: Sequence[str], box: str) -> Endured:
    """Open the first page, type into the box with this id, then turn to and fro between the pages."""
    first, *_ = page_names
    with visits.visit(browser) as page:
        visits.first_answer(page, address + first, calculators_on(site / first))
        fresh = _memory(browser, page)
        page.evaluate(_TYPE, [box, RECALCULATIONS])
        recalculated = _memory(browser, page)
        for number in range(1, PAGE_CHANGES + 1):
            name = page_names[number % len(page_names)]
            visits.first_answer_of_next_page(page, name, calculators_on(site / name))
        return Endured(fresh, recalculated, _memory(browser, page))


def _memory(browser: Browser, page: Page) -> float | None:
    page.wait_for_timeout(SETTLING_MS)
    page.context.new_cdp_session(page).send("HeapProfiler.collectGarbage")
    return tab_memory.of_page(browser)
