"""What axe finds while a page is in use, light and dark: a mistake, a link, the big view, a set, a plan, a lab."""

from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from build_tools.bench.waiting import until
from tests.page.barriers import barriers

pytestmark = pytest.mark.browser

SLOW = 120_000


@pytest.fixture(scope="module", params=["light", "dark"])
def opened(browser: Browser, file_url: str, request: pytest.FixtureRequest) -> Iterator[Callable[[str], Page]]:
    """Opens a page of the site in one window, alive."""
    context = browser.new_context(color_scheme=request.param, viewport={"width": 1366, "height": 768})
    page = context.new_page()

    def alive(address: str) -> Page:
        page.goto("about:blank")
        page.goto(file_url + address)
        until(page, "engine.state === 'ready'", SLOW)
        scheme = "slate" if request.param == "dark" else "default"
        expect(page.locator("body")).to_have_attribute("data-md-color-scheme", scheme)
        return page

    yield alive
    context.close()


def test_a_sheet_with_a_mistake_its_link_open_and_a_prediction_asked_for(opened: Callable[[str], Page]) -> None:
    page = opened("inclined-plane.html")
    page.locator("#ramp-R").fill("1,5")
    expect(page.locator("#ramp-R-error")).to_be_visible(timeout=SLOW)
    page.locator("#ramp-sheet [data-act=share]").click()
    expect(page.locator("#ramp-sheet .share-holds")).to_contain_text("In this link", timeout=SLOW)
    assert barriers(page) == []
    page.locator("#ramp-sheet [data-act=example]").click()
    page.locator("#ramp-sheet [data-act=predict]").click()
    expect(page.locator("#ramp-sheet [data-act=predict]")).to_have_attribute("aria-pressed", "true", timeout=SLOW)
    assert barriers(page) == []


def test_the_big_view(opened: Callable[[str], Page]) -> None:
    page = opened("pulley.html")
    page.locator("#tackle-sheet [data-act=big]").click()
    expect(page.locator(".leave-big")).to_be_visible(timeout=SLOW)
    assert barriers(page) == []


def test_a_practice_set_with_a_wrong_answer_and_its_working(opened: Callable[[str], Page]) -> None:
    page = opened("practice.html#p=garden-1;qL1,qM1,qS4;0;3;us;&v=1")
    page.get_by_label("Seat number").fill("7")
    page.get_by_label("Seat number").press("Enter")
    expect(page.locator(".p-text")).to_contain_text("Pry bar", timeout=SLOW)
    page.locator("#practice-answer").fill("533")  # the arms swapped: 160 x 30/9
    page.locator("#practice-answer").press("Enter")
    expect(page.locator(".p-said")).to_contain_text("Arms swapped", timeout=SLOW)
    page.locator("[data-act=hint]").click()
    expect(page.locator(".p-working li")).not_to_have_count(0, timeout=SLOW)
    expect(page.locator("practice-set figure svg:visible")).to_have_count(1, timeout=SLOW)
    assert barriers(page) == []
    page.get_by_label("Seat number").fill("no seat")
    page.get_by_role("button", name="Start").click()
    expect(page.locator(".r-errors li")).not_to_have_count(0, timeout=SLOW)
    assert barriers(page) == []


def test_a_plan_with_its_options_and_mistakes_in_task_and_kit(opened: Callable[[str], Page]) -> None:
    page = opened("planner.html")
    page.locator("details").evaluate_all("them => them.forEach(it => { it.open = true; })")
    until(page, "Number(document.querySelector('.planner-form').dataset.shown ?? 0) > 0", SLOW)
    assert barriers(page) == []
    page.locator('.p-kind[data-kind="plank"] [name=length]').first.fill("12 cubits")
    expect(page.locator(".r-errors li")).not_to_have_count(0, timeout=SLOW)
    assert barriers(page) == []
    page.locator("#plan-R").fill("60 in")
    expect(page.locator("#plan-R-error")).to_be_visible(timeout=SLOW)
    assert barriers(page) == []


def test_a_lab_sheet_filled_in_and_with_a_mistake(opened: Callable[[str], Page]) -> None:
    page = opened("lab-ramp.html")
    page.locator("record-sheet details").evaluate_all("them => them.forEach(it => { it.open = true; })")
    page.locator("record-sheet [data-act=sample]").click()
    expect(page.locator("record-sheet .r-plots svg:visible").first).to_be_visible(timeout=SLOW)
    assert barriers(page) == []
    page.locator("record-sheet .r-table [name=R]").first.fill("thirty")
    expect(page.locator("record-sheet .r-errors li")).to_have_count(1, timeout=SLOW)
    assert barriers(page) == []
