"""The working: every line, worked out again from its own printed text, gives its own right-hand side."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import calc
from calc import registry
from calc.formula import evaluate, parse
from calc.units import factor
from tests.calc.asking import ask

_UNIT = (
    r"(?:ft·lbf/s|in·lbf/s|N·mm/s|ft·lbf|in·lbf|lbf·in|lbf·ft|N·mm|N·m|lbf|rad/s|rpm|turns|TPI|hp|kW|min|mm|in|ft"
    r"|J|N|W|m|s|h)"
)


def number(text: str) -> float:
    """A printed number as a float; percent as a share, degrees as radians."""
    text = text.strip()
    value = float(re.sub(rf"\s*(?:{_UNIT}|°|%)$", "", text))
    return value * 0.017453292519943295 if text.endswith("°") else value / 100 if text.endswith("%") else value


def half_a_unit(text: str) -> float:
    """Half a unit of the last printed digit."""
    digits = re.sub(rf"\s*(?:{_UNIT}|°|%)$", "", text.strip())
    decimals = len(digits.partition(".")[2])
    if "." in digits:
        half = 0.5 * 10.0**-decimals
    else:
        stripped = digits.rstrip("0")
        half = 0.5 * 10.0 ** (len(digits) - max(len(stripped), 3)) if len(digits) > 3 else 0.5
    return (
        half * 0.017453292519943295
        if text.strip().endswith("°")
        else half / 100
        if text.strip().endswith("%")
        else half
    )


def recomputed(put_in: str) -> float:
    """The middle part of a line, evaluated as it is printed."""
    bare = re.sub(rf"(?<=\d) {_UNIT}(?![\w·])", "", put_in)
    bare = re.sub(r"([\d.]+)°", r"(\1*0.017453292519943295)", bare).replace("×", "*")
    return float(evaluate(parse(bare), {}))


def in_si(text: str) -> float:
    """A printed value in SI, by the unit behind it; feet and inches as a tape shows them."""
    if match := re.fullmatch(r"(?:(\d+) ft ?)?(?:(\d+)(?:-|$| (?=in)))?(?:(\d+)/(\d+))?(?: in)?", text):
        feet, whole, top, bottom = (float(part or 0) for part in match.groups())
        return (12 * feet + whole + (top / bottom if bottom else 0)) * factor("in")
    amount, _, unit = text.partition(" ")
    return float(amount) * factor(unit)


def half_in_si(text: str) -> float:
    """Half a unit of the last printed figure, in SI; a fraction of an inch stands for its half."""
    if "/" in text or " ft " in text:
        return factor("in") / 2
    return half_a_unit(text) * factor(text.partition(" ")[2])


def check(line: str) -> None:
    if "±" in line:
        return
    last = line.rpartition(", so ")[2].removesuffix(" (unrounded)")
    parts = last.split(" = ")
    if len(parts) < 4 and "±" not in line and len(parts) != 4:
        if len(parts) == 2:  # an assumed value or one found by trying
            return
        if len(parts) == 3:  # a change of units
            return
    put_in, results = parts[2], parts[3:]
    if re.fullmatch(r"\w+", parts[1]):  # a known value in another unit
        first, second = parts[2:]
        assert abs(in_si(first) - in_si(second)) <= 1.02 * (half_in_si(first) + half_in_si(second)), line
        return
    got = recomputed(put_in)
    first = results[0]
    if line.endswith("(unrounded)"):
        assert got == pytest.approx(number(first), rel=1e-3)
        return
    slack = half_a_unit(first) * 1.02 + 1e-12 * abs(got)
    if re.search(r"eta = ", last) and len(results) == 2:
        assert abs(got - number(results[1])) <= half_a_unit(results[1]) * 1.02, line
        return
    assert abs(got - number(first)) <= slack, line


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
def test_every_line_of_every_example_recomputes(key: str, units: str) -> None:
    example = calc.example(key, units)
    answer = calc.answer(example)
    requests = [example]
    if registry.CALCULATORS[key].measured and "E" in answer["values"]:
        pull = f"{1.3 * answer['values']['E']['si']:.4g} N"
        requests.append({**example, "given": {**example["given"], "E": pull}})
    for request in requests:
        for line in calc.answer(request)["working"]:
            check(line["text"])


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
