"""Computers that schools have locked: each way of locking gives a full page, or a worked sheet and a sentence why."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Route, expect

from build_tools import chromium
from build_tools.bench.waiting import until
from tests.locked import NO_STORAGE, SENTENCE

SLOW = 60_000

NO_WORKER = "delete window.Worker;"
WORKER_REFUSED = """window.Worker = class { constructor() { throw new DOMException("refused", "SecurityError"); } };"""
WORKER_FAILS = """const Real = Worker; window.Worker = class extends EventTarget { constructor() { super();
  setTimeout(() => this.onerror?.(new Event("error"))); } postMessage() {} terminate() {} };"""
NO_WASM = "delete window.WebAssembly;"
NO_UNPACKING = "delete window.DecompressionStream;"

WITHOUT_ENGINE = {
    "no worker": NO_WORKER,
    "worker refused": WORKER_REFUSED,
    "worker fails": WORKER_FAILS,
    "no WebAssembly": NO_WASM,
    "no unpacking": NO_UNPACKING,
}


def locked(context: BrowserContext, script: str) -> Page:
    context.add_init_script(script)
    return context.new_page()


def is_a_worked_sheet(page: Page) -> None:
    """The worked example of the lever as it is printed: 40 lbf at 6 in, so 10 lbf at 24 in."""
    expect(page.locator("#lever-sheet .say")).to_contain_text("10.00 lbf")
    expect(page.locator("#lever-sheet .results")).to_contain_text("IMA")
    expect(page.locator("#lever-sheet .machine svg:visible").first).to_be_visible()
    expect(page.locator("#lever-sheet .working")).to_be_visible()


def test_with_storage_blocked_everything_works_and_the_tick_says_it_cannot(
    context: BrowserContext, site_url: str
) -> None:
    page = locked(context, NO_STORAGE)
    said: list[str] = []
    page.on("pageerror", lambda problem: said.append(str(problem)))
    page.goto(site_url + "lever.html")
    until(page, "engine.state === 'ready'", SLOW)
    page.locator("#lever-R").fill("80")
    expect(page.locator("#lever-sheet .say")).to_contain_text("20.0 lbf", timeout=SLOW)  # 80 * 6 / 24
    page.goto(site_url + "lab-ramp.html")
    until(page, "engine.state === 'ready'", SLOW)
    page.locator("#ramp-lab-record [data-act=sample]").click()
    expect(page.locator("#ramp-lab-record .r-results")).to_contain_text("%", timeout=SLOW)
    page.locator("#ramp-lab-record input[name=keep]").check()
    expect(page.locator("#ramp-lab-record .wait")).to_contain_text("This device keeps nothing for this page.")
    assert said == []


@pytest.mark.parametrize("script", WITHOUT_ENGINE.values(), ids=WITHOUT_ENGINE)
def test_where_the_engine_cannot_run_the_sheet_is_whole_and_says_so(
    context: BrowserContext, site_url: str, script: str
) -> None:
    page = locked(context, script)
    page.goto(site_url + "lever.html")
    wait = page.locator("#lever-sheet .wait")
    expect(wait).to_contain_text(SENTENCE, timeout=SLOW)
    is_a_worked_sheet(page)
    page.locator("#lever-R").fill("80")
    expect(wait).to_contain_text("The results below belong to the worked example.")
    expect(page.locator("#lever-R")).to_have_value("80")


@pytest.mark.parametrize("name", ["lab-ramp", "practice", "planner", "class-results", "practice-sets"])
def test_other_pages_say_so_too(context: BrowserContext, file_url: str, name: str) -> None:
    page = locked(context, NO_WORKER)
    page.goto(f"{file_url}{name}.html")
    expect(page.locator(".wait:visible").first).to_contain_text("this computer’s settings block it", timeout=SLOW)


def test_a_browser_started_without_webassembly_says_so(browser: Browser, root: Path, site_url: str) -> None:
    """V8 without compiling to machine code, as hardened systems start it, has no WebAssembly."""
    strict = browser.browser_type.launch(
        executable_path=chromium.find_or_install(root), args=[*chromium.LAUNCH, "--js-flags=--jitless"]
    )
    page = strict.new_page()
    page.goto(site_url + "lever.html")
    assert page.evaluate("typeof WebAssembly") == "undefined"
    expect(page.locator("#lever-sheet .wait")).to_contain_text(SENTENCE, timeout=SLOW)
    is_a_worked_sheet(page)
    strict.close()


@pytest.mark.parametrize("rule", ["script-src 'self' 'unsafe-inline'", "worker-src 'self'"])
def test_a_stricter_rule_of_the_server_or_a_filter_gives_a_sentence(page: Page, http_url: str, rule: str) -> None:
    """A policy that a school's filter adds to the answer: no WebAssembly, or no worker but from a file."""

    def stricter(route: Route) -> None:
        answer = route.fetch()
        route.fulfill(response=answer, headers={**answer.headers, "content-security-policy": rule})

    page.route("**/lever.html", stricter)
    page.goto(http_url + "lever.html")
    expect(page.locator("#lever-sheet .wait")).to_contain_text(SENTENCE, timeout=SLOW)
    is_a_worked_sheet(page)


@pytest.mark.parametrize("name", ["lever", "lab-ramp", "practice", "planner", "class-results"])
def test_without_scripts_each_page_is_whole_or_says_what_to_do(browser: Browser, site_url: str, name: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{site_url}{name}.html")
    if name == "lever":
        is_a_worked_sheet(page)
    elif name in ("lab-ramp", "planner"):
        expect(page.locator(".r-verdict").first).not_to_have_text("")
    else:
        expect(page.locator(".no-scripts").first).to_contain_text("This page needs scripts.")
    for button in page.locator("main button").all():
        expect(button).to_be_hidden()  # nothing to press that does nothing
    context.close()


def test_behind_a_filter_that_blocks_other_hosts_nothing_is_missed(context: BrowserContext, http_url: str) -> None:
    blocked: list[str] = []

    def only_ours(route: Route) -> None:
        if route.request.url.startswith(http_url):
            route.continue_()
        else:
            blocked.append(route.request.url)
            route.abort("blockedbyclient")

    context.route("**/*", only_ours)
    page = context.new_page()
    page.goto(http_url + "lever.html")
    until(page, "engine.state === 'ready'", SLOW)
    page.locator("#lever-R").fill("80")
    expect(page.locator("#lever-sheet .say")).to_contain_text("20.0 lbf", timeout=SLOW)  # 80 * 6 / 24
    expect(page.locator(".missing-file")).to_have_count(0)
    assert blocked == []


def test_without_a_connection_the_open_page_and_pages_read_before_go_on(context: BrowserContext, http_url: str) -> None:
    page = context.new_page()
    page.set_viewport_size({"width": 1366, "height": 768})
    page.goto(http_url + "wedge.html")
    until(page, "engine.state === 'ready'", SLOW)
    page.locator(".book a").filter(has_text="Lever").first.click()
    page.wait_for_url("**/lever.html")
    page.evaluate("engine.ask('settle', {calculator: 'lever', given: {}})")
    page.wait_for_load_state("networkidle")
    context.set_offline(True)
    page.locator("#lever-R").fill("80")
    expect(page.locator("#lever-sheet .say")).to_contain_text("20.0 lbf", timeout=SLOW)  # 80 * 6 / 24
    page.locator(".book a").filter(has_text="Screw").first.click()
    told = page.locator(".no-connection")
    expect(told).to_contain_text("There is no connection, so that page cannot be fetched.", timeout=SLOW)
    assert page.url.endswith("/lever.html")
    expect(page.locator("#lever-R")).to_have_value("80")
    page.locator(".book a").filter(has_text="Wedge").first.click()
    page.wait_for_url("**/wedge.html")
    expect(page.locator("h1")).to_contain_text("Wedge")
    expect(told).to_have_count(0)
    context.set_offline(False)
    page.locator(".book a").filter(has_text="Screw").first.click()
    page.wait_for_url("**/screw.html")
