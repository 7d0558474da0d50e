"""What docs/privacy.md promises, on the main pages at work: nothing sent, no cookie, nothing kept unasked."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Request, expect

from build_tools.bench.waiting import until
from build_tools.local_server import serving

SLOW = 60_000
SECRET = "73.59"
"""A number that stands in no file of the site: it may be in no request."""

KEPT = """async () => ({
  cookie: document.cookie,
  local: Object.keys(localStorage),
  databases: (await indexedDB.databases()).map(it => it.name),
  caches: await caches.keys(),
  workers: (await navigator.serviceWorker.getRegistrations()).length,
})"""
NOTHING = {"cookie": "", "local": [], "databases": [], "caches": [], "workers": 0}


@pytest.fixture(scope="module")
def address(site: Path) -> Iterator[str]:
    with serving(site) as served:
        yield served


class Visit:
    """A page in a fresh browser profile, and every request that it made."""

    def __init__(self, browser: Browser, address: str) -> None:
        self.context = browser.new_context(viewport={"width": 1366, "height": 768}, accept_downloads=True)
        self.address = address
        self.asked: list[Request] = []
        self.context.on("request", lambda request: self.asked.append(request))
        self.page = self.context.new_page()

    def open(self, name: str) -> Page:
        self.page.goto(self.address + name)
        until(self.page, "window.engine && engine.state === 'ready'", SLOW)
        return self.page

    def settle(self) -> None:
        self.page.evaluate("engine.ask('settle', {calculator: 'lever', given: {}})")

    def names_of_this_tab(self) -> list[str]:
        return self.page.evaluate("Object.keys(sessionStorage)")

    def kept(self) -> dict:
        return self.page.evaluate(KEPT)

    def sent(self) -> list[str]:
        """The requests that are anything else than asking this site for one of its files."""
        return [
            request.url
            for request in self.asked
            if not request.url.startswith(("blob:", "data:"))
            and (
                not request.url.startswith(self.address)
                or request.method != "GET"
                or request.post_data is not None
                or SECRET in request.url
                or "cookie" in request.headers
            )
        ]


@pytest.fixture
def visit(browser: Browser, address: str) -> Iterator[Visit]:
    visiting = Visit(browser, address)
    yield visiting
    visiting.context.close()


def on_a_calculator(visit: Visit) -> str:
    page = visit.open("lever.html")
    page.locator("#lever-R").fill(SECRET)
    expect(page.locator("#lever-sheet .say")).to_contain_text("18.40 lbf", timeout=SLOW)  # 73.59 * 6 / 24
    page.locator("#lever-sheet [data-act=share]").click()
    expect(page.locator("#lever-sheet .share-code svg")).to_be_visible(timeout=SLOW)
    return "/lever.html lever"


def on_a_lab(visit: Visit) -> str:
    page = visit.open("lab-ramp.html")
    page.locator("#ramp-lab-record table input[type=text]").first.fill(SECRET)
    page.locator("#ramp-lab-record input[name=group]").fill("3")
    page.locator("#ramp-lab-record input[name=group]").blur()
    return "record ramp-lab"


def on_practice(visit: Visit) -> str:
    page = visit.open("practice.html#p=garden-1;qL1,qM1,qS4;0;3;us;&v=1")
    page.get_by_label("Seat number").fill("7")
    page.get_by_label("Seat number").press("Enter")
    expect(page.locator(".p-text")).to_contain_text("Pry bar", timeout=SLOW)
    page.locator("#practice-answer").fill(SECRET)
    page.locator("#practice-answer").press("Enter")
    expect(page.locator(".p-said")).not_to_have_text("", timeout=SLOW)
    return "practice"


def on_the_planner(visit: Visit) -> str:
    page = visit.open("planner.html")
    page.locator(".planner-form .r-boxes input[type=text]").nth(1).fill(SECRET)
    until(page, "sessionStorage.getItem('planner')", SLOW)
    return "planner"


def on_class_results(visit: Visit) -> str:
    visit.open("lab-ramp.html")
    visit.page.locator("#ramp-lab-record [data-act=sample]").click()
    visit.page.locator("#ramp-lab-record input[name=group]").fill("3")
    with visit.page.expect_download() as saved:
        visit.page.locator("#ramp-lab-record [data-act=save]").click()
    file = Path(saved.value.path()).with_name("group-3.csv")
    saved.value.save_as(file)
    page = visit.open("class-results.html")
    page.locator("class-results input[type=file]").set_input_files(file)
    expect(page.locator(".class-table table")).to_be_visible(timeout=SLOW)
    return "class-results"


MAIN_PAGES = (on_a_calculator, on_a_lab, on_practice, on_the_planner, on_class_results)


@pytest.mark.parametrize("work", MAIN_PAGES, ids=lambda work: work.__name__)
def test_at_work_nothing_is_sent_and_only_this_tab_remembers(visit: Visit, work) -> None:
    name = work(visit)
    visit.settle()
    assert visit.sent() == []
    assert visit.kept() == NOTHING
    assert visit.context.cookies() == []
    allowed = {name, "record ramp-lab"} if work is on_class_results else {name}
    assert name in visit.names_of_this_tab()
    assert set(visit.names_of_this_tab()) <= allowed


@pytest.mark.parametrize("work", [on_a_lab, on_practice, on_the_planner], ids=lambda work: work.__name__)
def test_only_a_tick_keeps_something_and_taking_it_away_forgets_it(visit: Visit, work) -> None:
    name = work(visit)
    tick = visit.page.locator("input[name=keep]").first
    tick.check()
    until(visit.page, f"localStorage.getItem('{name}')")
    assert visit.kept() == {**NOTHING, "local": [name]}
    tick.uncheck()
    until(visit.page, f"localStorage.getItem('{name}') === null")
    assert visit.kept() == NOTHING


@pytest.mark.parametrize("work", [on_a_lab, on_practice, on_class_results], ids=lambda work: work.__name__)
def test_clear_forgets_it_everywhere(visit: Visit, work) -> None:
    name = work(visit)
    if work is not on_class_results:
        visit.page.locator("input[name=keep]").first.check()
        until(visit.page, f"localStorage.getItem('{name}')")
    visit.page.locator("[data-act=clear]").first.click()
    until(visit.page, f"localStorage.getItem('{name}') === null")
    assert SECRET not in visit.page.evaluate(f"sessionStorage.getItem('{name}') ?? ''")
    assert visit.kept() == NOTHING


def test_what_a_tab_remembers_is_gone_in_another_tab(visit: Visit) -> None:
    on_a_calculator(visit)
    other = visit.context.new_page()
    other.goto(visit.address + "lever.html")
    until(other, "engine.state === 'ready'", SLOW)
    assert other.evaluate("Object.keys(sessionStorage)") == []
    expect(other.locator("#lever-R")).to_have_value("40")


def test_only_the_button_for_light_and_dark_is_remembered(visit: Visit) -> None:
    page = visit.open("lever.html")
    assert visit.kept() == NOTHING
    page.locator(".site-scheme label:visible").click()
    until(page, "Object.keys(localStorage).length")
    (name,) = visit.kept()["local"]
    assert name.endswith("__palette")


def test_the_page_about_privacy_stands_in_both_editions(site: Path, class_site: Path) -> None:
    for folder in (site, class_site):
        assert 'href="privacy.html"' in (folder / "lever.html").read_text("utf-8")
        assert "never asks another host" in (folder / "privacy.html").read_text("utf-8")
