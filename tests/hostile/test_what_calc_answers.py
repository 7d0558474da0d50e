"""Hostile requests by the thousand: the door answers each with JSON, escaped text, and numbers that can be put back.

The usual run takes a sample, the same on every machine. The long run is

    .venv/bin/python -m pytest tests/hostile --long -n auto

with two hundred thousand cases here and five thousand in the browser; ``--first N`` begins at another number, so that
the cases are others. A case that fails is named by its dice ("plans 4711"); what was found is kept in ``found.py``.
"""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from typing import Any

import html5lib
import pytest

import calc
from calc.measure import Reading, read
from calc.messages import Message, Refused
from calc.registry import CALCULATORS
from calc.units import KINDS
from tests.hostile import asked
from tests.hostile.clean import known
from tests.hostile.found import FOUND
from tests.hostile.fragments import NotWellFormed, fragments, marks
from tests.hostile.holding import answered, crosses
from tests.hostile.typed import MARKUP, Dice

PART = 1000
"""Cases in one test of the long run, so that they spread over all cores."""
DOORS: dict[str, tuple[Callable[[Dice], Any], int]] = {
    **{f"sheet {key}": (lambda dice, key=key: asked.sheet(dice, key), 3) for key in sorted(CALCULATORS)},
    "links": (asked.link, 12),
    "record sheets": (asked.record_sheet, 10),
    "record files": (asked.opened_sheet, 10),
    "class files": (asked.class_file, 8),
    "classes": (asked.class_of_groups, 5),
    "plans": (asked.plan, 6),
    "kit files": (asked.kit_file, 8),
    "practice": (asked.practice, 8),
    "any JSON": (asked.anything, 8),
}
"""Each use of the door: its requests, and how many thousands of them the long run takes."""
SHEET, DOOR, TEXT = 30, 150, 60
"""Cases in the usual run: of one calculator, of one other use of the door, of one kind of quantity."""


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """The parts of the long run, or one part of each for the usual one."""
    config = metafunc.config
    long, first = config.getoption("--long"), config.getoption("--first")
    if "door" in metafunc.fixturenames:
        parts = [
            (door, range(first + PART * part, first + PART * (part + 1)))
            if long
            else (door, range(SHEET if door.startswith("sheet ") else DOOR))
            for door, (_, thousands) in DOORS.items()
            for part in range(thousands if long else 1)
        ]
        metafunc.parametrize(("door", "cases"), parts, ids=[f"{door}, from {cases[0]}" for door, cases in parts])
    elif "kind" in metafunc.fixturenames:
        metafunc.parametrize(
            ("kind", "cases"),
            [(kind, range(2 * first, 2 * first + 2 * PART) if long else range(TEXT)) for kind in KINDS],
        )


def each(cases: range, name: str, check: Callable[[Dice], object]) -> None:
    """Runs a check with the dice of every case; a failure says which dice those were."""
    for case in cases:
        try:
            check(Dice(f"{name} {case}"))
        except BaseException as problem:
            problem.add_note(f'The dice: Dice("{name} {case}")')
            raise


def test_the_door_answers_any_request(door: str, cases: range, record_property: Callable[[str, object], None]) -> None:
    make, _ = DOORS[door]
    each(cases, door, lambda dice: answered(make(dice)))
    record_property(f"cases {door.partition(' ')[0] if door.startswith('sheet ') else door}", len(cases))


def test_any_text_is_read_or_refused_in_words(
    kind: str, cases: range, record_property: Callable[[str, object], None]
) -> None:
    def check(dice: Dice) -> None:
        text, system = dice.typed(), dice.one(asked.SYSTEMS)
        reading = read_or_refused(text, kind, system)
        if isinstance(reading, Message):
            assert reading.start
            assert len(reading.text) < 600
            return
        assert abs(reading.nominal) < float("inf")
        assert 0 <= reading.resolution < float("inf")

    def read_or_refused(text: str, kind: str, system: str) -> Reading | Message:
        try:
            return read(text, KINDS[kind], "Box", KINDS[kind].us if system == "us" else KINDS[kind].si, system)
        except Refused as refused:
            return refused.message

    each(cases, f"text {kind}", check)
    record_property("cases texts", len(cases))


@pytest.mark.parametrize("request_", FOUND, ids=[words for words, _ in FOUND])
def test_what_once_broke_it_is_answered(request_: tuple[str, Callable[[], dict[str, Any]]]) -> None:
    answered(request_[1]())


def test_no_template_makes_an_element_that_runs_or_loads() -> None:
    elements = {element for element, _ in known()}
    assert not elements & {
        "script",
        "style",
        "img",
        "image",
        "iframe",
        "object",
        "embed",
        "form",
        "link",
        "base",
        "meta",
    }
    assert not [name for _, name in known() if name.startswith("on") or name in ("style", "srcdoc", "src")]


@pytest.mark.parametrize(
    "text", [*(text for text in MARKUP if "<" in text), "a < b", "a & b", "<b", "<b>", "]]>", "</p>"]
)
def test_a_text_that_is_not_escaped_is_seen(text: str) -> None:
    """The check bites: such a text in a template's place is refused, or shows an element that no template makes."""
    assert _is_seen(f'<p class="none">{text} lbf</p>')


@pytest.mark.parametrize("text", [text for text in MARKUP if '"' in text or "<" in text])
def test_a_text_that_is_not_escaped_is_seen_in_an_attribute(text: str) -> None:
    assert _is_seen(f'<td data-label="{text}">1</td>')


def _is_seen(fragment: str) -> bool:
    try:
        return bool(marks(fragment) - known())
    except NotWellFormed:
        return True


def test_html5lib_reads_the_same_elements() -> None:
    """A second reader, which follows the HTML standard: it forgives nothing here, and sees what our grammar sees."""
    for request in (calc.example("lever") | {"draw": "both"}, calc.sample_record("ramp-lab") | {"draw": "both"}):
        for fragment in fragments(calc.answer(request)):
            parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
            place = "tr" if fragment.startswith("<td") else "div"
            tree = parser.parseFragment(fragment, container=place)
            seen = {str(element.tag).rpartition("}")[2] for element in tree.iter() if isinstance(element.tag, str)}
            assert seen - {"DOCUMENT_FRAGMENT", "tbody"} == {name for name, other in marks(fragment) if not other} - {
                "tbody"
            }


def test_a_value_beside_the_nearest_float_is_seen() -> None:
    """The check that puts values back bites as near as floats lie: the right angle's is math.pi/2."""
    values = {"F_d": 1e-29, "F": 65.0}
    turned = math.pi / 2

    def stands(gamma: float) -> bool:
        return crosses("F_d = F*cos(gamma)", "gamma", {**values, "gamma": gamma})

    assert stands(turned)
    assert not any(stands(turned * (1 + sign * 1e-12)) for sign in (-1, 1))
    assert not crosses("y = 1/(x - 1)", "x", {"y": 3.0, "x": 1.0 + 2e-16})  # the sides jump apart there


def test_a_text_that_is_no_request_gets_the_key_message() -> None:
    for text in ("", "[]", "null", "{", "[" * 100_000, '{"calculator": ' + "[" * 50_000, "1" * 5000, "\x00"):
        assert json.loads(calc.answer_json(text))["errors"][0]["code"] == "e-key"
