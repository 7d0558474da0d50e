"""The numbers of the next key, found before it is pressed: in the key's own frame, and never those of another sheet."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from build_tools.bench.waiting import until
from tests.questions import ALL_ANSWERED, LISTEN, frames

pytestmark = pytest.mark.browser

SLOW = 60_000

NUMBERS = "asked.filter((it) => it.only === 'numbers' && it.calculator === 'lever')"

WATCH_KEY = """() => {
  addEventListener("input", () => {
    const before = asked.length;
    requestAnimationFrame(() => {
      window.inTheFrame = {
        sent: asked.length - before,
        effort: document.getElementById("lever-E-value").textContent,
        sentence: document.querySelector("#lever-sheet .say").textContent,
      };
    });
  }, true);
}"""
"""Sees what stands on the page when the first frame after a key is about to be painted."""

MOST = 12


@pytest.fixture
def opened(browser: Browser, site_url: str) -> Iterator[Page]:
    page = browser.new_page(viewport={"width": 1366, "height": 768})
    page.add_init_script(LISTEN)
    page.goto(site_url + "lever.html")
    until(page, "engine.state === 'ready'", SLOW)
    settle(page)  # until all of its library is there, the engine foresees nothing
    practised = False
    while not practised:  # a fresh engine is given some practice
        more = numbers_since(page)
        quiet(page)
        practised = more() == 0
    yield page
    page.close()


def settle(page: Page) -> None:
    """Everything that was asked is answered, and what the page asks by itself then too."""
    page.evaluate("engine.ask('settle', { calculator: 'lever', given: {} })")
    until(page, ALL_ANSWERED, SLOW)


def quiet(page: Page) -> None:
    """Whatever the page asks by itself is asked and answered."""
    until(page, ALL_ANSWERED, SLOW)
    frames(page)
    until(page, ALL_ANSWERED, SLOW)


def foreseen(page: Page, symbol: str, text: str) -> None:
    """Waits until this text of the box has been asked for and answered."""
    until(page, f"asked.some((it) => it.given?.{symbol} === '{text}' && answered.includes(it.id))", SLOW)


def press(page: Page, key: str) -> Any:
    """What stands in the key's own frame."""
    page.evaluate("delete window.inTheFrame")
    page.evaluate(WATCH_KEY)
    page.keyboard.press(key)
    until(page, "window.inTheFrame")
    return page.evaluate("inTheFrame")


def box(page: Page, symbol: str):
    return page.locator(f"#lever-{symbol}")


def numbers_since(page: Page) -> Callable[[], int]:
    """How many questions for numbers have been sent to the worker since."""
    before = page.evaluate(f"{NUMBERS}.length")
    return lambda: page.evaluate(f"{NUMBERS}.length") - before


def test_a_key_has_its_number_in_its_own_frame_and_without_the_worker(opened: Page) -> None:
    # Law of moments: 400 lbf x 6 in / 24 in = 100.0 lbf, and 40 x 6 / 24 = 10.00.
    box(opened, "R").focus()
    opened.keyboard.press("End")
    foreseen(opened, "R", "400")
    shown = press(opened, "0")
    assert (shown["sent"], shown["effort"]) == (0, "100.0")
    assert "100.0 lbf" in shown["sentence"]
    foreseen(opened, "R", "4009")  # the last one
    shown = press(opened, "Backspace")
    assert (shown["sent"], shown["effort"]) == (0, "10.00")


def test_a_digit_in_the_place_of_a_selected_number_too(opened: Page) -> None:
    # Law of moments: 5 lbf x 6 in / 24 in = 1.250 lbf.
    box(opened, "aR").focus()
    opened.keyboard.press("Shift+Tab")  # the browser selects what stands in the box
    expect(box(opened, "R")).to_be_focused()
    foreseen(opened, "R", "5")
    shown = press(opened, "5")
    assert (shown["sent"], shown["effort"]) == (0, "1.250")


def test_a_digit_in_the_middle_where_the_caret_was_put(opened: Page) -> None:
    # Law of moments: 450 lbf x 6 in / 24 in = 112.5 lbf.
    box(opened, "R").focus()
    opened.keyboard.press("End")
    foreseen(opened, "R", "405")
    opened.keyboard.press("ArrowLeft")
    foreseen(opened, "R", "450")
    shown = press(opened, "5")
    assert (shown["sent"], shown["effort"]) == (0, "112.5")


def test_the_same_answer_comes_foreseen_as_asked(opened: Page) -> None:
    box(opened, "R").focus()
    opened.keyboard.press("End")
    foreseen(opened, "R", "400")
    press(opened, "0")
    shown, asked = opened.evaluate("""async () => {
      const sheet = document.querySelector("calculator-sheet").sheet;
      const request = sheet.request("numbers");
      const foreseen = await engine.ask("one", request);
      return [foreseen, await engine.ask("two", { ...request, draw: {} })];  // other words for the same, not foreseen
    }""")
    assert shown == asked


def test_another_box_changed_meanwhile_counts(opened: Page) -> None:
    # Law of moments: 400 lbf x 6 in / 48 in = 50.0 lbf; what was foreseen, with 24 in, was 100.0.
    box(opened, "R").focus()
    opened.keyboard.press("End")
    foreseen(opened, "R", "400")
    opened.evaluate("""() => {
      for (const [symbol, text] of [["aE", "48"], ["R", "400"]]) {
        const input = document.getElementById(`lever-${symbol}`);
        input.value = text;
        input.dispatchEvent(new Event("input", { bubbles: true }));
      }
    }""")
    expect(opened.locator("#lever-E-value")).to_have_text("50.0")
    settle(opened)
    assert opened.locator("#lever-E-value").inner_text() == "50.0"


def test_units_switched_meanwhile_count(opened: Page) -> None:
    # The arms of 6 in and 24 in make a quarter of the load: 1779.29 N / 4 = 445 N (444.82).
    box(opened, "R").focus()
    opened.keyboard.press("End")
    foreseen(opened, "R", "400")
    opened.locator("#lever-sheet input[value=si]").check()
    expect(box(opened, "R")).to_have_value("177.929")
    box(opened, "R").fill("1779.29")
    expect(opened.locator("#lever-E-value")).to_have_text("445")
    settle(opened)
    assert opened.locator("#lever-E-value").inner_text() == "445"


def test_a_newer_foreseen_number_is_not_written_over_by_an_older_one(opened: Page) -> None:
    # Law of moments: 400 lbf x 6 in / 24 in = 100.0 lbf; the older question, for 43.21 lbf, is still with the worker.
    box(opened, "R").focus()
    opened.keyboard.press("End")
    foreseen(opened, "R", "409")  # the last one: the worker has nothing to do now
    opened.evaluate("""() => {
      for (const text of ["43.21", "400"]) {
        const input = document.getElementById("lever-R");
        input.value = text;
        input.dispatchEvent(new Event("input", { bubbles: true }));
      }
    }""")
    assert opened.evaluate("asked.some((it) => it.given?.R === '43.21')")
    assert opened.locator("#lever-E-value").inner_text() == "100.0"
    settle(opened)
    assert opened.locator("#lever-E-value").inner_text() == "100.0"


def test_the_drawing_and_the_working_follow_a_foreseen_number(opened: Page) -> None:
    box(opened, "R").focus()
    opened.keyboard.press("End")
    foreseen(opened, "R", "405")
    press(opened, "5")
    expect(opened.locator("#lever-sheet .machine .is-wide")).to_contain_text("405 lbf")
    expect(opened.locator("#lever-sheet .steps")).to_contain_text("405")


def test_only_the_focused_box_is_foreseen_once_and_a_dozen_texts_of_it(opened: Page) -> None:
    more = numbers_since(opened)
    box(opened, "R").focus()
    opened.keyboard.press("End")
    foreseen(opened, "R", "409")
    quiet(opened)
    texts = opened.evaluate(f"{NUMBERS}.slice(-{more()}).map((it) => it.given.R)")
    assert 0 < len(texts) == len(set(texts)) <= 2 * MOST, "of the selected text, and of the caret at its end"
    still = numbers_since(opened)
    quiet(opened)
    assert still() == 0


def test_nothing_is_foreseen_while_no_box_has_the_focus(opened: Page) -> None:
    more = numbers_since(opened)
    opened.evaluate("""() => {
      const input = document.getElementById("lever-R");
      input.value = "44";
      input.dispatchEvent(new Event("input", { bubbles: true }));
    }""")
    expect(opened.locator("#lever-E-value")).to_have_text("11.00")  # 44 x 6 / 24
    quiet(opened)
    assert more() == 1


def test_a_box_that_is_locked_or_holds_a_prediction_is_not_foreseen(opened: Page) -> None:
    box(opened, "R").evaluate("it => { it.readOnly = true; }")
    more = numbers_since(opened)
    box(opened, "R").focus()
    quiet(opened)
    assert more() == 0
    opened.locator("#lever-sheet [data-act=predict]").click()
    expect(box(opened, "E")).to_be_focused()
    settle(opened)
    quiet(opened)
    more = numbers_since(opened)
    opened.keyboard.press("1")
    quiet(opened)
    assert more() == 0
