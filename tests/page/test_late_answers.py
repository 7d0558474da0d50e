"""What comes late belongs to what was asked: files, cards and workings, however the reader goes on meanwhile."""

from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

import calc
from build_tools.bench.waiting import until

pytestmark = pytest.mark.browser

SLOW = 60_000

HOLD = """(slot) => {
  const ask = engine.ask.bind(engine);
  window.held = [];
  const released = new Promise((resolve) => { window.release = resolve; });
  engine.ask = async (asked, request) => {
    if (slot && asked.split(" ")[0] !== slot && asked.split(" ")[1] !== slot) return ask(asked, request);
    held.push(asked);
    await released;
    return ask(asked, request);
  };
  window.goOn = async () => {
    const busy = ask("busy", { calculator: "lever", given: {} });  // what is asked meanwhile has to wait
    release();
    await busy;
    for (let quiet = 0; quiet < 9; quiet += 1) await ask(`quiet ${quiet}`, { practice: { link: "" } });
  };
}"""
"""Holds questions of one sort back (or all) until `goOn()`, which settles once everything is answered."""


@pytest.fixture
def opened(browser: Browser, file_url: str) -> Iterator[Callable[[str], Page]]:
    pages = []

    def open_(name: str) -> Page:
        pages.append(page := browser.new_page(viewport={"width": 1366, "height": 768}))
        page.add_init_script("window.print = () => {}")
        page.goto(f"{file_url}{name}.html")
        until(page, "engine.state === 'ready'", SLOW)
        return page

    yield open_
    for page in pages:
        page.close()


def sheet_file(*pulls: str) -> str:
    rows = [{"R": "36", "E": pull} for pull in pulls]
    asked = {"record": "ramp-lab", "units": "us", "once": {"L": "96", "h": "24"}, "tools": {}, "tare": "", "rows": rows}
    return calc.answer({**asked, "group": "3", "file": True})["file"]


def given(name: str, text: str) -> dict:
    return {"name": name, "mimeType": "text/csv", "buffer": text.encode()}


def test_a_record_file_is_opened_though_somebody_types_on(opened) -> None:
    page = opened("lab-ramp")
    page.evaluate(HOLD, "")
    page.locator("record-sheet input[type=file]").set_input_files(given("sheet.csv", sheet_file("12.5", "13")))
    until(page, "held.some((slot) => slot.startsWith('open'))")
    page.locator("record-sheet tr[data-row='1'] [name=E]").fill("20")
    until(page, "held.length > 1")
    page.evaluate("goOn()")
    expect(page.locator("record-sheet tr[data-row='2'] [name=E]")).to_have_value("13")
    page.locator("record-sheet [data-act=undo]").click()  # and what was typed is not lost
    expect(page.locator("record-sheet tr[data-row='1'] [name=E]")).to_have_value("20")


def test_a_kit_file_is_opened_though_the_task_changes(opened) -> None:
    page = opened("planner")
    until(page, "document.querySelector('.planner-form').dataset.shown")
    page.evaluate(HOLD, "")
    file = calc.answer({"write_kit": {"plank": [{"name": "long board", "length": "8 ft"}]}, "name": "barn"})["file"]
    page.locator("input[type=file]").set_input_files(given("barn.toml", file))
    until(page, "held.includes('planner open')")
    page.locator("#plan-R").fill("50 lbf")
    until(page, "held.includes('planner plan')")
    page.evaluate("goOn()")
    expect(page.locator("[name=kit-name]")).to_have_value("barn")
    expect(page.locator("#plan-R")).to_have_value("50 lbf")


def test_a_card_of_another_task_stays_away(opened) -> None:
    page = opened("planner")
    until(page, "document.querySelector('.planner-form').dataset.shown")
    page.evaluate(HOLD, "card")
    page.locator("[data-card]").first.click()
    until(page, "held.length === 1")
    page.locator("#plan-R").fill("50 lbf")
    page.evaluate("goOn()")
    expect(page.locator(".p-card-place")).to_be_hidden()
    expect(page.locator(".p-card")).to_be_empty()


def test_class_results_that_are_emptied_stay_empty(opened) -> None:
    page = opened("class-results")
    page.locator("input[type=file]").set_input_files(given("one.csv", sheet_file("12.5", "13")))
    expect(page.locator(".class-table table")).to_be_visible(timeout=SLOW)
    page.evaluate(HOLD, "file")
    page.locator("input[type=file]").set_input_files(
        [given("two.csv", sheet_file("14", "13")), given("three.csv", sheet_file("12", "12"))]
    )
    until(page, "held.length === 1")
    page.locator("[data-act=clear]").click()
    page.evaluate("goOn()")
    expect(page.locator(".class-table")).to_be_empty()
    expect(page.locator("[data-act=clear]")).to_be_disabled()
    assert page.evaluate("held.length") == 1, "the third file was read for nothing"


def test_two_files_of_one_name_at_the_same_time_are_both_read(opened) -> None:
    """From two folders, as `sheet.csv` of two groups: the newer one counts, and nothing foreign is said."""
    page = opened("class-results")
    page.evaluate(HOLD, "file")
    for pull in ("12.5", "14"):
        page.locator("input[type=file]").set_input_files(given("sheet.csv", sheet_file(pull, pull)))
    until(page, "held.length === 2")
    page.evaluate("goOn()")
    expect(page.locator(".class-table tbody tr")).to_have_count(1, timeout=SLOW)
    expect(page.locator(".r-errors")).to_be_hidden()


def test_two_quick_clicks_open_one_big_view(opened) -> None:
    page = opened("pulley")
    page.evaluate(HOLD, "pictures")
    page.locator("#tackle-sheet [data-act=big]").evaluate("it => { it.click(); it.click(); }")
    until(page, "held.length")
    page.evaluate("goOn()")
    expect(page.locator(".leave-big")).to_have_count(1)
    assert page.evaluate("held.filter((it) => it.startsWith('tackle '))") == ["tackle pictures"]
    page.keyboard.press("Escape")
    expect(page.locator(".leave-big")).to_have_count(0)
    assert page.evaluate("'big' in document.documentElement.dataset") is False


def test_a_working_that_was_asked_for_stays_until_the_set_changes(opened) -> None:
    """The key of a set comes later than the working of one of its seats."""
    page = opened("practice-sets")
    expect(page.locator(".p-key-table table")).to_be_visible(timeout=SLOW)
    page.evaluate(HOLD, "key")
    page.get_by_label("Set code").fill("hens-2")
    until(page, "held.length === 1")
    page.locator("[name=seat]").fill("7")
    page.locator("[data-act=working]").click()
    expect(page.locator(".p-worked-part li").first).to_be_visible(timeout=SLOW)
    page.evaluate("goOn()")
    expect(page.locator(".p-key-part")).to_contain_text("hens-2", timeout=SLOW)
    expect(page.locator(".p-worked-part li").first).to_be_visible()
    page.get_by_label("Set code").fill("hens-3")
    expect(page.locator(".p-worked-part")).to_be_empty()
