"""The pages for teachers on paper: how many sheets each takes, and that its words can be read there."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

import calc
from build_tools.bench.waiting import until
from tests.page.test_editions import teachers
from tests.page.test_for_everybody import pages_of

ROOT = Path(__file__).parents[2]
TICKETS = (ROOT / "docs/exit-tickets.md").read_text("utf-8").count('class="ticket"')
SLOW = 120_000
PAPERS = {"Letter": (8.5, 11), "A4": (8.27, 11.69)}
"""Inches: ANSI Y14.1 size A; ISO 216."""

MOST = {
    "changes": 1,
    "class-results": 1,
    "exit-tickets": math.ceil(TICKETS / 2) + 1,  # two to a page, then the answers
    "planner": 3,
    "practice-sets": 5,
    "safety-sign-off": 1,
    "substitute": 1,
    "week": 1,
    "often-printed-wrong": 3,  # what books say: for students too
}
ALIVE = ("class-results", "planner", "practice-sets")


@pytest.fixture(params=MOST)
def opened(request: pytest.FixtureRequest, browser: Browser, file_url: str) -> tuple[str, Page]:
    """A page as a teacher prints it, alive where it can be; the class's results with six groups in them."""
    name = request.param
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    page = context.new_page()
    page.goto(f"{file_url}{name}.html")
    if name in ALIVE:
        until(page, "engine.state === 'ready'", SLOW)
    if name == "class-results":
        page.locator("class-results input[type=file]").set_input_files(groups())
        expect(page.locator(".class-table tbody tr")).to_have_count(6, timeout=SLOW)
        expect(page.locator("figure.groups svg").first).to_be_attached(timeout=SLOW)
    if name == "practice-sets":
        expect(page.locator(".p-key tbody tr").first).to_be_visible(timeout=SLOW)
    yield name, page
    context.close()


def groups() -> list[dict]:
    """The saved sheets of six invented groups."""
    found = []
    for group, effort in enumerate((12.5, 13, 12.2, 14, 12.8, 20), start=1):
        rows = [{"R": "36", "E": str(effort + more)} for more in (0, 0.5, -0.5, 0.2)]
        sheet = {"record": "ramp-lab", "group": str(group), "once": {"L": "96", "h": "24"}, "rows": rows, "file": True}
        text = calc.answer(sheet)["file"]
        found.append({"name": f"group-{group}.csv", "mimeType": "text/csv", "buffer": text.encode()})
    return found


def test_every_page_for_teachers_is_counted_here(root: Path) -> None:
    assert teachers(root) == set(MOST) - {"often-printed-wrong"}


def test_it_takes_no_more_sheets_than_it_should_and_its_words_are_large_enough(opened: tuple[str, Page]) -> None:
    name, page = opened
    counts = {paper: pages_of(page.pdf(format=paper)) for paper in PAPERS}
    assert all(1 <= count <= MOST[name] for count in counts.values()), counts
    page.emulate_media(media="print")
    small = page.locator(".md-content__inner").evaluate(
        """part => [...part.querySelectorAll("p, li, th, td, dt, dd, h1, h2, label, code")]
             .filter(it => it.checkVisibility() && it.textContent.trim() && !it.closest(".vh"))
             .filter(it => parseFloat(getComputedStyle(it).fontSize) < 10 * 96 / 72 - 0.01)
             .map(it => it.outerHTML.slice(0, 90))"""
    )
    assert small == []


@pytest.mark.parametrize("paper", PAPERS)
def test_a_substitute_gets_half_a_page(page: Page, file_url: str, paper: str) -> None:
    page.goto(file_url + "substitute.html")
    wide, high = PAPERS[paper]
    assert pages_of(page.pdf(width=f"{wide}in", height=f"{high / 2}in")) == 1
    assert pages_of(page.pdf(width=f"{wide}in", height="2in")) > 1  # the measure can fail


@pytest.mark.parametrize("paper", PAPERS)
def test_two_exit_tickets_share_a_page_and_the_answers_are_on_none_of_theirs(
    page: Page, file_url: str, paper: str
) -> None:
    page.goto(file_url + "exit-tickets.html")
    page.emulate_media(media="print")
    heights = page.locator(".ticket").evaluate_all("them => them.map(it => it.getBoundingClientRect().height / 96)")
    room = PAPERS[paper][1] - 1  # half an inch of margin above and below
    assert len(heights) == TICKETS
    assert all(room / 3 < height < room / 2 for height in heights)
    overflow = page.locator(".ticket").evaluate_all(
        "them => them.filter(it => it.scrollHeight > it.clientHeight).length"
    )
    assert overflow == 0
    whole = pages_of(page.pdf(format=paper))
    page.locator("#answers, .ticket-key").evaluate_all("parts => parts.forEach(part => part.remove())")
    assert pages_of(page.pdf(format=paper)) == whole - 1 == math.ceil(TICKETS / 2)
    assert not re.search(r"\bAnswers\b", page.locator(".md-content__inner").inner_text())
