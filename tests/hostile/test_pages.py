"""Hostile input in the browser: typed, pasted, opened as a link or as a file. No script runs, nothing breaks.

The content policy is set aside here, so that a script which slipped into a page would really run and be caught: the
page's own escaping must hold without its second lock. `tests/page/test_links.py` says what the policy does.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from build_tools.bench.waiting import until
from tests.hostile import asked
from tests.hostile.typed import Dice

pytestmark = pytest.mark.browser

MORE = 25
"""How many times the usual run's cases the long run takes."""
BATCH = 20
TRAP = "window.hits = []; window.hit = (...what) => { window.hits.push(String(what)); };"
STRANGE = """[...document.querySelectorAll("*")].filter((it) =>
  it.matches("img[src=x], iframe, object, embed, marquee, base, form form")
  || [...it.attributes].some(({ name }) => name.startsWith("on") || name === "srcdoc")
  || /^\\s*(javascript|data):/i.test(it.getAttribute("href") ?? "")).map((it) => it.outerHTML.slice(0, 200))"""
WATCHED = """() => {
  const { engine } = window;
  window.asked = window.answered = 0;
  const ask = engine.ask.bind(engine);
  engine.ask = (slot, request) => {
    window.asked += 1;
    const answer = ask(slot, request);
    const count = () => { window.answered += 1; };
    answer.then(count, count);
    return answer;
  };
  window.turn = () => new Promise((done) => { setTimeout(done, 0); });
  window.calm = async (before) => {  // asked something since, and everything asked is answered
    while (window.asked === before || window.answered < window.asked) await window.turn();
  };
  window.chosen = (input, name, text) => {
    const files = new DataTransfer();
    files.items.add(new File([text], name));
    input.files = files.files;
    input.dispatchEvent(new Event("change", { bubbles: true }));
  };
}"""
FIELDS = """async (cases) => {
  for (const boxes of cases) {
    for (const [symbol, text] of boxes) {
      const box = document.getElementById(`lever-${symbol}`);
      box.value = text;
      box.dispatchEvent(new Event("input", { bubbles: true }));
      box.dispatchEvent(new Event("focusout", { bubbles: true }));
    }
    await engine.ask("settle", { calculator: "lever", given: {} });
  }
}"""
LINKS = """async (cases) => {
  for (const fragment of cases) {
    history.replaceState(null, "", `#${fragment}`);
    dispatchEvent(new Event("hashchange"));
    await engine.ask("settle", { calculator: "lever", given: {} });
  }
}"""
FILES = """async (cases) => {
  const input = document.querySelector("form input[type=file]");
  for (const [name, text] of cases) {
    const before = window.asked;
    window.chosen(input, name, text);
    await window.calm(before);
  }
}"""
PASTED = """async (cases) => {
  for (const text of cases) {
    const data = new DataTransfer();
    data.setData("text/plain", text);
    const before = window.asked;
    document.querySelector("record-sheet tr[data-row='1'] [name=R]").dispatchEvent(
      new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }));
    await window.calm(before);
  }
}"""
BOX = """async (cases) => {
  const form = document.querySelector("paste-link form");
  for (const text of cases) {
    form.querySelector("input").value = text;
    form.requestSubmit();
    await window.turn();
  }
}"""


def whole(text: str) -> str:
    """Without lone halves of a surrogate pair: no file and no wire can carry them."""
    return text.encode("utf-8", "replace").decode("utf-8")


def fields(dice: Dice) -> list[list[str]]:
    return [[symbol, whole(dice.typed())] for symbol in ("R", "aR", "aE", "E") if dice.likely(0.5)] or [["R", "<b>"]]


def link(dice: Dice) -> str:
    return whole("c=lever&" + asked.fragment(dice).replace("c=", "d="))


def file_of(text: Callable[[Dice], str], ending: str) -> Callable[[Dice], list[str]]:
    return lambda dice: [whole(dice.typed()) + ending, whole(text(dice))]


def table(dice: Dice) -> str:
    lines = ["\t".join(dice.typed().replace("\n", " ") for _ in range(3)) for _ in range(1 + int(dice.random() * 4))]
    return whole("\n".join(["36\t12.5", *lines]))


def pasted_text(dice: Dice) -> str:
    text = whole(dice.typed())
    return text if not any(name in text for name in ("c=", "p=")) else "<b>c</b>"


WAYS: dict[str, tuple[str, Callable[[Dice], Any], str, int]] = {
    "fields": ("lever", fields, FIELDS, 60),
    "links": ("lever", link, LINKS, 50),
    "record files": ("lab-ramp", file_of(asked.csv_file, ".csv"), FILES, 25),
    "pasted tables": ("lab-ramp", table, PASTED, 15),
    "class files": ("class-results", file_of(asked.group_table, ".csv"), FILES, 25),
    "kit files": ("planner", file_of(asked.kit_text, ".toml"), FILES, 15),
    "paste box": ("index", pasted_text, BOX, 10),
}
"""Each way into a page: the page, its cases, how they are put in, and how many of them in the usual run."""


class Watched:
    """An open page, and all that it complained about."""

    def __init__(self, page: Page, address: str) -> None:
        self.page = page
        self.said: list[str] = []
        page.on("pageerror", lambda problem: self.said.append(str(problem)))
        page.on("console", lambda it: self.said.append(it.text) if it.type in ("error", "warning") else None)
        page.on("dialog", lambda it: (self.said.append(f"dialog: {it.message}"), it.dismiss()))
        page.add_init_script(TRAP)
        page.goto(address)
        self.address = page.url
        if not address.endswith("index.html"):
            until(page, "window.engine && engine.state === 'ready'", 300_000)
            page.evaluate(WATCHED)
        else:
            page.evaluate("window.turn = () => new Promise((done) => { setTimeout(done, 0); })")


@pytest.fixture(scope="module")
def watched(browser: Browser, file_url: str) -> Iterator[Callable[[str], Watched]]:
    """Opens a page with the trap in it, once."""
    context = browser.new_context(bypass_csp=True, viewport={"width": 1366, "height": 768})
    context.set_default_timeout(300_000)
    pages: dict[str, Watched] = {}

    def opened(name: str) -> Watched:
        if name not in pages:
            pages[name] = Watched(context.new_page(), f"{file_url}{name}.html")
        return pages[name]

    yield opened
    context.close()


@pytest.mark.parametrize("way", WAYS)
def test_no_page_runs_or_breaks_on_anything(
    watched: Callable[[str], Watched],
    way: str,
    pytestconfig: pytest.Config,
    record_property: Callable[[str, object], None],
) -> None:
    name, make, put_in, few = WAYS[way]
    first = pytestconfig.getoption("--first")
    numbers = range(first, first + few * MORE) if pytestconfig.getoption("--long") else range(few)
    there = watched(name)
    for start in range(0, len(numbers), BATCH):
        batch = numbers[start : start + BATCH]
        cases = [make(Dice(f"{way} {number}")) for number in batch]
        there.page.evaluate(put_in, cases)
        what = f"after {way} {batch[0]} to {batch[-1]}"
        assert there.page.evaluate("window.hits") == [], what
        assert there.page.evaluate(STRANGE) == [], what
        assert there.said == [], what
        assert there.page.url.partition("#")[0] == there.address, what
    if name != "index":
        answer = there.page.evaluate(
            "engine.ask('check', {calculator: 'lever', given: {R: '40 lbf', aR: '6 in', aE: '24 in'}})"
        )
        assert answer["values"]["E"]["text"] == "10.00 lbf"  # 40 x 6 / 24, by hand
    record_property(f"cases in the browser: {way}", len(numbers))


def test_the_trap_catches_what_a_page_lets_in(watched: Callable[[str], Watched]) -> None:
    """It bites: a text put in as HTML without escaping runs here, and is seen as an element too."""
    there = watched("index")
    there.page.evaluate(
        """() => { const place = document.createElement("p");
                   place.innerHTML = '<b onclick="hit(1)">x</b>';
                   document.body.append(place);
                   place.firstChild.click(); }"""
    )
    assert there.page.evaluate("window.hits") == ["1"]
    assert len(there.page.evaluate(STRANGE)) == 1
    there.page.evaluate("() => { window.hits = []; document.body.lastChild.remove(); }")
