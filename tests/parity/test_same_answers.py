"""The browser's engine gives the answers that CPython gives: the same words, the same figures, the same drawings."""

from __future__ import annotations

import json
import random
import re
from collections.abc import Iterator, Sequence
from itertools import batched
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

import calc
from calc.lab.plan import LABS
from calc.lab.scale import POSITIONS, SCALE_UNITS
from calc.registry import CALCULATORS

FORCES = ("40", "12.5 lbf", "200 N", "15 ± 0.5 lbf", "0.3 kN", "35 lb", "heavy", "-3", "10 kg", "")
LENGTHS = ("6", "24", "8 ft", "5 ft 3-1/2 in", "2.4 m", "600 mm", "96 ± 1/8", "5.3'", "1,5 m", "")
ANGLES = ("14.5", "1:4", "25 %", "0.3 rad", "")
PLAIN = ("0.3", "0.5", "0", "0.25 ± 0.05", "3", "")
SHARES = ("75", "46.9 %", "0.75", "120", "")
TEXTS = {"force": FORCES, "length": LENGTHS, "angle": ANGLES, "friction": PLAIN, "efficiency": SHARES}
PARTS = (None, None, None, None, None, "numbers", "working", "pictures")
CELLS = ("10 1/2", "12", "2 ft", "0", "-4", "12.5 N", "3 ± 1", "about ten", "")
ASK_ALL = """async (requests) => {
  const answers = [];
  for (const [i, request] of requests.entries()) answers.push(await engine.ask("parity " + i, request));
  return answers;
}"""


def requests(count: int, seed: int) -> list[dict[str, Any]]:
    """So many requests over all calculators in turn, good and bad, always the same ones."""
    dice = random.Random(seed)
    found = []
    for i in range(count):
        key = calc.keys()[i % len(calc.keys())]
        units = dice.choice(("us", "si"))
        request = calc.example(key, units)
        calculator = CALCULATORS[key]
        counts = {rows.name: dice.randint(1, rows.high) for rows in calculator.rows}
        quantities = calculator.written_out(counts)
        for symbol, quantity in quantities.items():
            if quantity.level and dice.random() < 0.45:
                number = f"{10 ** dice.uniform(-0.5, 2):.{dice.randint(2, 5)}g}"
                request["given"][symbol] = dice.choice((*TEXTS.get(quantity.kind, (number,)), number, number))
        for choice in calculator.choices:
            request["choices"][choice.symbol] = dice.choice(choice.options)[0]
        request |= {"digits": dice.choice((3, 6)), "travel": dice.randint(0, 100), "only": dice.choice(PARTS)}
        request |= {"draw": dice.choice(("wide", "narrow", "both")) if dice.random() < 0.2 else None}
        request |= {"edited": dice.choice(list(quantities)), "hide": ["E"] if dice.random() < 0.05 else []}
        found.append(request)
    return found


def record_sheets(count: int, seed: int) -> list[dict[str, Any]]:
    """So many record sheets over all labs in turn: the sample with cells, boxes and instruments changed."""
    dice = random.Random(seed)
    found = []
    for i in range(count):
        lab = list(LABS.values())[i % len(LABS)]
        units = dice.choice(("us", "si"))
        request = calc.sample_record(lab.key, units)
        for row in request["rows"]:
            row["out"] = dice.random() < 0.1
            for column in lab.columns:
                if column.kind != "words" and dice.random() < 0.3:
                    number = f"{float(row.get(column.symbol, 20)) * dice.uniform(0.8, 1.2):.{dice.randint(2, 4)}g}"
                    row[column.symbol] = dice.choice((*CELLS, *(number,) * 12))
        for symbol in lab.once:
            if dice.random() < 0.2:
                request["once"][symbol] = dice.choice((*LENGTHS, "3"))
        if dice.random() < 0.3:
            request["tools"] |= {"unit": dice.choice(list(SCALE_UNITS)), "position": dice.choice(list(POSITIONS))}
            request["tools"] |= {"division": dice.choice(("0.1", "1/4", "none")), "accuracy": dice.choice(("", "0.5"))}
        request |= {"group": f"group {i}", "file": True, "tare": dice.choice(("", "", "0.2", "x"))}
        request |= {"draw": dice.choice(("wide", "narrow")) if dice.random() < 0.2 else None}
        found.append(request)
    return found


def class_requests(sheets: Sequence[dict[str, Any]]) -> Iterator[dict[str, Any]]:
    """The sheets as files, opened by a group and read for a class, some with a line lost; and a class of each ten."""
    groups: list[Any] = []
    for i, request in enumerate(sheets):
        text = calc.answer(request)["file"]
        if i % 7 == 0:
            text = "\r\n".join(text.split("\r\n")[:-3]).replace(",", ";")
        yield {"record": request["record"], "open": text} if i % 3 == 0 else {"group_file": text, "name": f"{i}.csv"}
        groups += calc.answer({"group_file": text, "name": f"{i}.csv"})["groups"]
        if len(groups) >= 10:
            yield {"class": groups}
            groups = []


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


def assert_answered_alike(sheet: Page, asked: Sequence[dict[str, Any]]) -> None:
    """Each answer of the page beside CPython's, asked in batches."""
    for batch in batched(asked, 200):
        for request, answer in zip(batch, sheet.evaluate(ASK_ALL, list(batch)), strict=True):
            assert_same(json.loads(json.dumps(calc.answer(request))), answer, json.dumps(request))


def test_three_thousand_requests_are_answered_alike(sheet: Page) -> None:
    asked = requests(3000, seed=20)
    assert {request["calculator"] for request in asked} == set(calc.keys())
    assert_answered_alike(sheet, asked)


def test_record_sheets_are_judged_alike(sheet: Page) -> None:
    """Sheets typed, sheets as files, and classes put together of them."""
    sheets = record_sheets(300, seed=22)
    assert {request["record"] for request in sheets} == set(LABS)
    assert_answered_alike(sheet, [*sheets, *class_requests(sheets)])


def test_where_only_the_four_operations_are_used_the_numbers_are_equal_to_the_last_bit(sheet: Page) -> None:
    plain = ("any-machine", "same-work")
    asked = [r for r in requests(600, seed=21) if r["calculator"] in plain and r["only"] is None and not r["hide"]]
    for request, answer in zip(asked, sheet.evaluate(ASK_ALL, asked), strict=True):
        here = {s: v["si"] for s, v in calc.answer(request)["values"].items()}
        assert {s: v["si"] for s, v in answer["values"].items()} == here
