"""The browser's engine gives the answers that CPython gives: the same words, the same figures, the same drawings."""

from __future__ import annotations

import json
import random
import re
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

import calc

FORCES = ("40", "12.5 lbf", "200 N", "15 ± 0.5 lbf", "0.3 kN", "35 lb", "heavy", "-3", "10 kg", "")
LENGTHS = ("6", "24", "8 ft", "5 ft 3-1/2 in", "2.4 m", "600 mm", "96 ± 1/8", "5.3'", "1,5 m", "")
ANGLES = ("14.5", "1:4", "25 %", "0.3 rad", "")
PLAIN = ("0.3", "0.5", "0", "0.25 ± 0.05", "3", "")
SHARES = ("75", "46.9 %", "0.75", "120", "")
TEXTS = {"force": FORCES, "length": LENGTHS, "angle": ANGLES, "friction": PLAIN, "efficiency": SHARES}
ASK_ALL = """async (requests) => {
  const answers = [];
  for (const [i, request] of requests.entries()) answers.push(await engine.ask("parity " + i, request));
  return answers;
}"""


def requests(count: int, seed: int) -> list[dict[str, Any]]:
    """So many requests over all calculators, good and bad, always the same ones."""
    from calc.registry import CALCULATORS

    dice = random.Random(seed)
    found = []
    for i in range(count):
        key = dice.choice(calc.keys())
        units = dice.choice(("us", "si"))
        request = calc.example(key, units)
        quantities = CALCULATORS[key].written_out(CALCULATORS[key].row_counts(()))
        for symbol, quantity in quantities.items():
            if quantity.level and dice.random() < 0.45:
                number = f"{10 ** dice.uniform(-0.5, 2):.{dice.randint(2, 5)}g}"
                request["given"][symbol] = dice.choice((*TEXTS.get(quantity.kind, (number,)), number, number))
        for choice in CALCULATORS[key].choices:
            request["choices"][choice.symbol] = dice.choice(choice.options)[0]
        request |= {"digits": dice.choice((3, 6)), "travel": dice.randint(0, 100)}
        request |= {"draw": dice.choice(("wide", "narrow")) if i % 5 == 0 else None, "edited": "R"}
        found.append(request)
    return found


def assert_same(here: Any, there: Any, path: str) -> None:
    """Equal, floats to 1e-12 relative."""
    if isinstance(here, float) or isinstance(there, float):
        assert there == pytest.approx(here, rel=1e-12, abs=1e-300), path
    elif isinstance(here, dict):
        assert here.keys() == there.keys(), path
        for key, value in here.items():
            assert_same(value, there[key], f"{path}.{key}")
    elif isinstance(here, list):
        assert len(here) == len(there), path
        for i, value in enumerate(here):
            assert_same(value, there[i], f"{path}[{i}]")
    elif isinstance(here, str) and here.startswith("<svg"):
        assert_same_drawing(here, there, path)
    else:
        assert here == there, path


def assert_same_drawing(here: str, there: str, path: str) -> None:
    """The same lines and words; a coordinate may fall to the other side of its last printed tenth."""
    coordinate = re.compile(r"(?<![\w#])-?\d+(?:\.\d)?(?![\w.])")
    assert coordinate.sub("", here) == coordinate.sub("", there), path
    pairs = zip(coordinate.findall(here), coordinate.findall(there), strict=True)
    assert all(abs(float(a) - float(b)) < 0.11 for a, b in pairs), path


@pytest.fixture(scope="module")
def sheet(browser: Browser, file_url: str) -> Any:
    page: Page = browser.new_page()
    page.goto(file_url + "lever.html")
    yield page
    page.close()


def test_four_hundred_requests_are_answered_alike(sheet: Page) -> None:
    asked = requests(400, seed=20)
    answers = sheet.evaluate(ASK_ALL, asked)
    for request, answer in zip(asked, answers, strict=True):
        assert_same(json.loads(json.dumps(calc.answer(request))), answer, json.dumps(request))


def test_where_only_the_four_operations_are_used_the_numbers_are_equal_to_the_last_bit(sheet: Page) -> None:
    asked = [r for r in requests(200, seed=21) if r["calculator"] in ("any-machine", "same-work")]
    for request, answer in zip(asked, sheet.evaluate(ASK_ALL, asked), strict=True):
        here = {s: v["si"] for s, v in calc.answer(request)["values"].items()}
        assert {s: v["si"] for s, v in answer["values"].items()} == here
