"""The working: every line, worked out again from its own printed text, gives its own right-hand side."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any
from xml.etree import ElementTree

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import calc
from calc import registry
from tests.calc.asking import ask
from tests.calc.line_reader import gives, read

DIGITS = (3, 6)


def check(line: str, digits: int = 3) -> None:
    """A line, read from its own text, gives each of its results within the rounding that it prints.

    "formula = numbers put in = result = the same in the box's unit"; "symbol = known value = in another unit".
    What is only stated (a chosen value, one found by trying) has nothing to work out. A line that says "(unrounded)"
    has had too few figures for its last one.
    """
    last = line.rpartition(", so ")[2].removesuffix(" (unrounded)")
    parts = last.split(" = ")
    if "±" in line or len(parts) == 2:
        return
    put_in, results = (parts[1], parts[2:]) if len(parts) == 3 else (parts[2], parts[3:])
    for result in results:
        if re.search(r"\d/\d| ft \d", result):
            assert as_fractions(result) == pytest.approx(read(put_in).to("inch").magnitude, abs=1 / 4), line
        else:
            assert gives(put_in, result, digits, 3 if line.endswith("(unrounded)") else 1), line


def as_fractions(text: str) -> float:
    """Feet and inches as a tape shows them, in inches: '5 ft 3-1/2 in'."""
    match = re.fullmatch(r"(?:(\d+) ft ?)?(?:(\d+)(?:-|$| (?=in)))?(?:(\d+)/(\d+))?(?: in)?", text)
    assert match, text
    feet, whole, top, bottom = (float(part or 0) for part in match.groups())
    return 12 * feet + whole + (top / bottom if bottom else 0)


def pulled(example: dict[str, Any], key: str) -> list[dict[str, Any]]:
    """The request, and the same with a measured effort where the calculator has one."""
    answer = calc.answer(example)
    if not registry.CALCULATORS[key].measured or "E" not in answer["values"]:
        return [example]
    pull = f"{1.3 * answer['values']['E']['si']:.4g} N"
    return [example, {**example, "given": {**example["given"], "E": pull}}]


def cases(key: str, units: str) -> Iterator[dict[str, Any]]:
    """The example with the options of each choice, of long lists one in some, with and without a measured effort."""
    example = calc.example(key, units)
    options = [
        (choice.symbol, name)
        for choice in registry.CALCULATORS[key].choices
        for name, _ in choice.options[:: 1 + len(choice.options) // 8]
    ]
    for symbol, name in options or [("", "")]:
        choices = {**example["choices"], **({symbol: name} if symbol else {})}
        yield from pulled({**example, "choices": choices}, key)


CASES = [
    ("lever", "us", {}, {"R": "40", "aR": "6", "aE": "24"}),
    ("lever", "us", {}, {"R": "40", "aR": "6", "aE": "2 ft", "E": "10.5"}),
    ("lever", "us", {}, {"R": "240", "aR": "6", "aE": "48", "r_p": "1/4", "mu": "0.2"}),
    ("lever", "us", {"class": "3"}, {"R": "12", "aR": "54", "aE": "20", "eta": "90"}),
    ("lever", "si", {"class": "2"}, {"R": "180", "aR": "15 cm", "aE": "600"}),
    ("ramp", "us", {}, {"R": "30", "L": "8 ft", "h": "24", "E": "16"}),
    ("ramp", "us", {}, {"R": "120", "L": "96", "h": "24", "mu": "0.3"}),
    ("ramp", "us", {"pull": "level"}, {"R": "120", "L": "96", "h": "24", "mu": "0.3"}),
    ("ramp", "us", {"pull": "angled"}, {"R": "120", "L": "96", "h": "24", "mu": "0.3", "delta": "20"}),
    ("ramp", "us", {"motion": "hold"}, {"R": "120", "theta": "20", "L": "96", "mu_s": "0.35"}),
    ("ramp", "us", {}, {"R": "140", "h": "24", "mu": "0.1", "E": "50"}),
    ("ramp", "si", {}, {"R": "135", "h": "0.6", "b": "2.3", "E": "80"}),
    ("any-machine", "us", {}, {"R": "36", "dR": "24", "dE": "96", "E": "12"}),
    ("same-work", "us", {}, {"R": "36", "h": "2 ft", "eta": "75", "IMA_1": "3"}),
]


@pytest.mark.parametrize(("key", "units", "choices", "given_"), CASES)
def test_every_line_recomputes_to_what_it_shows(key: str, units: str, choices: dict, given_: dict) -> None:
    answer = ask(key, units, choices, **given_)
    assert answer["working"]
    for line in answer["working"]:
        check(line["text"])


@pytest.mark.parametrize("key", calc.keys())
@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("digits", DIGITS)
def test_every_line_of_every_example_recomputes(key: str, units: str, digits: int) -> None:
    """Over 2000 lines: the options of every choice, with and without a measured effort, at three and six figures."""
    read_lines: set[str] = set()
    for request in cases(key, units):
        for line in calc.answer({**request, "digits": digits})["working"]:
            if line["text"] not in read_lines:
                read_lines.add(line["text"])
                check(line["text"], digits)
    assert len(read_lines) > 1 or key == "measures"


@pytest.mark.parametrize(
    ("line", "holds"),
    [
        ("Win = E*dE = 12 lbf × 8 ft = 96.0 ft·lbf", True),
        ("Win = E*dE = 12 lbf × 8 ft = 96.1 ft·lbf", False),
        ("eta = AMA / IMA = 460 / 598 = 0.769 = 76.9 %", True),
        ("eta = AMA / IMA = 460 / 598 = 0.76926 = 76.9 %", False),
        ("lam = atan(l / C) = atan(0.0787 in / 1.818 in) = 2.5°", True),
        ("E*r = R*l, so E = R*l / r = 100 lbf × 6 in / 24 in = 25.0 lbf", True),
        ("F_ozf = F_lbf = 40.5 lbf = 647 ozf", False),
    ],
)
def test_the_reader_of_lines_sees_a_wrong_one(line: str, holds: bool) -> None:
    """By hand: 12 × 8 = 96, 460/598 = 0.76923, atan(0.0433) = 2.48°, 600/24 = 25, 40.5 × 16 = 648."""
    if holds:
        check(line)
    else:
        with pytest.raises(AssertionError):
            check(line)


def test_the_reader_adds_no_unlike_things() -> None:
    with pytest.raises(pint.DimensionalityError):
        check("E = R + L = 40 lbf + 8 ft = 48.0 lbf")
    with pytest.raises(pint.DimensionalityError):
        check("E = R*sin(L) = 40 lbf × sin(8 ft) = 5.57 lbf")


@settings(max_examples=60)
@given(st.floats(1, 400), st.floats(20, 240), st.floats(0.05, 0.7), st.floats(0.05, 0.6))
def test_ramp_lines_recompute_for_any_numbers(R: float, L: float, part: float, mu: float) -> None:
    for line in ask("ramp", R=f"{R:.4g}", L=f"{L:.4g}", h=f"{L * part:.4g}", mu=f"{mu:.2g}")["working"]:
        check(line["text"])


@settings(max_examples=60)
@given(st.floats(1, 100), st.floats(1, 40), st.floats(1, 90), st.floats(0.1, 99))
def test_lever_lines_recompute_for_any_numbers(R: float, aR: float, aE: float, E: float) -> None:
    for line in ask("lever", R=f"{R:.4g}", aR=f"{aR:.4g}", aE=f"{aE:.4g}", E=f"{E:.4g}")["working"]:
        check(line["text"])


@pytest.mark.parametrize("key", calc.keys())
def test_the_mathml_of_every_line_is_well_formed(key: str) -> None:
    for line in calc.answer(calc.example(key))["working"]:
        for piece in line["mathml"]:
            assert ElementTree.fromstring(piece).tag == "math"


def test_a_line_uses_one_coherent_set_of_units() -> None:
    answer = ask("any-machine", R="36", dR="24 in", dE="96 in", E="12")
    line = next(x["text"] for x in answer["working"] if x["text"].startswith("Win"))
    assert line == "Win = E*dE = 12 lbf × 8 ft = 96.0 ft·lbf"


def test_a_unit_is_changed_once_and_visibly() -> None:
    answer = ask("lever", R="40", aR="15 cm", aE="24")
    assert answer["working"][0]["text"] == "aR = 15 cm = 5.90551 in"
