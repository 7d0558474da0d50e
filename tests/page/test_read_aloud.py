"""Every calculator as a screen reader reads it: names, units, states, drawings, and what is said after typing."""

import re
from collections.abc import Iterator
from itertools import pairwise

import pint
import pytest
from playwright.sync_api import Browser, Page, expect

from build_tools.bench.waiting import until
from tests.page.aloud import heard
from tests.page.pages import WITH_SHEETS

pytestmark = pytest.mark.browser

SLOW = 120_000

IN_WORDS = {
    "lbf": "pounds-force",
    "ozf": "ounces-force",
    "kgf": "kilograms-force",
    "N": "newtons",
    "kN": "kilonewtons",
    "in": "inches",
    "ft": "feet",
    "yd": "yards",
    "mm": "millimetres",
    "cm": "centimetres",
    "m": "metres",
    "s": "seconds",
    "J": "joules",
    "W": "watts",
    "kW": "kilowatts",
    "hp": "horsepower",
    "rad": "radians",
    "°": "degrees",
    "MPa": "megapascals",
}
"""The names of NIST's Guide to the SI (Special Publication 811, appendix B), from memory; pint reads most of them."""

JOINED = {
    "": "",
    "%": "percent",
    "turns": "turns",
    "ft·lbf": "foot pounds-force",
    "lbf·in": "pound-force inches",
    "in·lbf": "inch pounds-force",
    "lbf·ft": "pound-force feet",
    "N·m": "newton metres",
    "ft·lbf/s": "foot pounds-force per second",
    "rpm": "turns per minute",
    "TPI": "threads per inch",
    "psi": "pounds-force per square inch",
    "lbf/ft³": "pounds-force per cubic foot",
    "kN/m³": "kilonewtons per cubic metre",
}
"""Common practice of the trade in speaking of joined units, no source."""


@pytest.fixture(scope="module")
def window(browser: Browser, file_url: str) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 1366, "height": 768})
    page = context.new_page()
    yield page
    context.close()


@pytest.fixture(scope="module", params=WITH_SHEETS)
def read(window: Page, file_url: str, request: pytest.FixtureRequest) -> Page:
    """A page of calculators, alive, with all levels open; the tests of one page in turn, so that it is opened once."""
    window.goto(f"{file_url}{request.param}.html")
    until(window, "engine.state === 'ready'", SLOW)
    window.evaluate("document.querySelectorAll('details').forEach(it => { it.open = true; })")
    settle(window)
    return window


def settle(page: Page) -> None:
    """Waits until all that was asked has been answered and shown."""
    page.evaluate(
        "() => engine.ask('settle', {calculator: 'lever', given: {}}).then(() => new Promise(requestAnimationFrame))"
    )


def boxes(page: Page) -> list[dict[str, str]]:
    """Each calculator's boxes that can be seen: id, sheet, unit and result beside it."""
    return page.locator("calculator-sheet .q[data-symbol] input").evaluate_all(
        """them => them.filter(it => it.checkVisibility()).map(it => ({ id: it.id, sheet: it.form.id,
             unit: it.closest(".q").querySelector(".q-unit").textContent,
             result: it.closest(".q").querySelector("output").textContent }))"""
    )


def test_each_box_says_its_name_its_unit_and_its_result(read: Page) -> None:
    told, names = heard(read), set()
    for box in boxes(read):
        it = told[box["id"]]
        assert it.role == "textbox"
        assert it.name, box
        assert (box["sheet"], it.name) not in names, f"two boxes of one name: {it.name}"
        names.add((box["sheet"], it.name))
        result = f"= {box['result']}" if box["result"] else ""
        said = f"{result} {(IN_WORDS | JOINED)[box['unit']]}".strip()
        assert it.description.startswith(said), it


def test_toggles_lists_and_sliders_have_names_and_states(read: Page) -> None:
    told = heard(read).values()
    for it in told:
        if it.role in ("radio", "checkbox"):
            assert it.name, it
            assert it.states["checked"] in ("true", "false"), it
        if it.role in ("combobox", "slider", "button", "link", "DisclosureTriangle"):
            assert it.name, it
        if it.role == "DisclosureTriangle":
            assert isinstance(it.states["expanded"], bool), it
        if it.role == "button" and it.name == "Predict first":
            assert it.states["pressed"] == "false", it
    sliders = read.locator("calculator-sheet input[type=range]").evaluate_all(
        """them => them.map(it => [it.getAttribute("aria-valuetext"),
             it.closest(".change").querySelector("output").textContent])"""
    )
    assert [spoken for spoken, shown in sliders if not spoken or spoken != shown] == []


def test_each_drawing_says_its_numbers(read: Page) -> None:
    drawings = read.locator("calculator-sheet :is(figure.machine, figure.work) svg").evaluate_all(
        """them => them.filter(it => it.checkVisibility())
             .map(it => [it.getAttribute("role"), it.querySelector("desc").textContent])"""
    )
    sheets = read.locator("calculator-sheet:has(figure.machine)").count()
    assert len(drawings) >= sheets
    for role, words in drawings:
        assert role == "img"
        assert re.search(r"\d", words), words
    told = [it for it in heard(read).values() if it.role == "image"]
    for _, words in drawings:
        assert any(words in it.name for it in told), words


def test_headings_descend_in_order(read: Page) -> None:
    levels = [int(it.states["level"]) for it in heard(read).values() if it.role == "heading"]
    assert levels.count(1) == 1
    headings = read.locator(":is(h1, h2, h3, h4, h5, h6)").evaluate_all(
        """them => them.filter(it => it.checkVisibility() && !it.closest("nav, .site-foot"))
             .map(it => Number(it.localName[1]))"""
    )
    assert headings[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(headings)), headings


TYPE_IN_EACH = """text => {
    for (const sheet of document.querySelectorAll("calculator-sheet")) {
        const line = sheet.querySelector("p[role=status]");
        const boxes = [...sheet.querySelectorAll(".q[data-symbol] input")];
        const box = boxes.find(it => it.checkVisibility() && it.value && !it.readOnly);
        if (!box) continue;
        line.replaceChildren();
        line.said = [];
        line.watch?.disconnect();
        line.watch = new MutationObserver(() => line.said.push(line.textContent));
        line.watch.observe(line, { childList: true });
        box.before_ ??= box.value;
        for (const part of text ? [text.slice(0, 1), text.slice(0, 2), text] : [box.before_ + "0", box.before_]) {
            box.value = part;
            box.dispatchEvent(new InputEvent("input", { bubbles: true }));
        }
        sheet.typedIn = box;
    }
}"""

SAID = """[...document.querySelectorAll("calculator-sheet")].filter(it => it.typedIn).map(it => {
    const box = it.typedIn, label = box.closest(".q").querySelector("label").textContent.trim();
    return { id: box.id, label, said: it.querySelector("p[role=status]").said,
             say: it.querySelector(".say").textContent,
             error: box.closest(".q").querySelector(".q-error").textContent.trim() };
})"""

ALL_SAID = """[...document.querySelectorAll("calculator-sheet")].filter(it => it.typedIn)
    .every(it => it.querySelector("p[role=status]").said.length)"""


def test_an_error_is_tied_to_its_box_and_said_once_and_so_is_the_answer(read: Page) -> None:
    """Several keys in one breath, in every sheet of the page: one message each, when the answer stands."""
    live = read.evaluate(
        "[...document.querySelectorAll('calculator-sheet form')].map(it =>"
        " [...it.querySelectorAll('[role=status], [role=alert], [aria-live=polite], [aria-live=assertive]')]"
        ".filter(part => part.checkVisibility()).length)"
    )
    assert set(live) == {1}
    loud = read.locator("calculator-sheet output:not([aria-live=off])").count()
    assert loud == 0, "a result that is spoken at each key"
    read.evaluate(TYPE_IN_EACH, "abc")
    until(read, ALL_SAID, SLOW)
    settle(read)
    told = heard(read)
    for sheet in read.evaluate(SAID):
        it = told[sheet["id"]]
        assert it.states["invalid"] == "true", it
        assert sheet["error"], sheet
        assert " ".join(sheet["error"].split()) in " ".join(it.description.split()), it
        assert len(sheet["said"]) == 1, sheet
        assert f"{sheet['label']}: " in sheet["said"][0]
        assert " ".join(sheet["error"].split()) in " ".join(sheet["said"][0].split())
    read.evaluate(TYPE_IN_EACH, "")
    until(read, ALL_SAID, SLOW)
    settle(read)
    told = heard(read)
    for sheet in read.evaluate(SAID):
        assert told[sheet["id"]].states["invalid"] == "false", sheet
        assert len(sheet["said"]) == 1, sheet
        assert sheet["say"].strip() in sheet["said"][0]


def test_what_is_said_is_the_answer_to_what_was_typed_however_late_it_comes(window: Page, file_url: str) -> None:
    """The engine is held up for longer than the pause after typing: the answer before this one is not read out."""
    window.goto(file_url + "inclined-plane.html")
    until(window, "engine.state === 'ready'", SLOW)
    settle(window)
    window.evaluate(
        """() => {
            const ask = engine.ask.bind(engine);
            engine.ask = (...asked) => new Promise(done => setTimeout(done, 1500)).then(() => ask(...asked));
            const line = document.querySelector("#ramp-sheet p[role=status]");
            line.said = [];
            new MutationObserver(() => line.said.push(line.textContent)).observe(line, { childList: true });
        }"""
    )
    window.locator("#ramp-R").fill("40")
    expect(window.locator("#ramp-sheet .say")).to_contain_text("10.0", timeout=SLOW)  # by hand: 40 x 24/96
    line = "document.querySelector('#ramp-sheet p[role=status]')"
    until(window, f"{line}.said.length", SLOW)
    said = window.evaluate(f"{line}.said")
    assert len(said) == 1
    assert "10.0" in said[0]


def test_units_are_read_in_the_words_that_a_library_of_units_knows_too() -> None:
    registry = pint.UnitRegistry()
    for sign, words in IN_WORDS.items():
        if words not in ("pounds-force", "ounces-force", "kilograms-force"):  # pint writes these with the parts turned
            assert registry.Unit(words) == registry.Unit(sign), sign
