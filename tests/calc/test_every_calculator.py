"""What holds for every calculator as it is declared: its words, its examples, solving back, and scaling."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from typing import Any

import pytest

import calc
from calc.library import table_of
from calc.model import Calculator
from calc.registry import CALCULATORS
from calc.units import KINDS, factor
from tests.calc.asking import INCH, LBF

SYSTEMS = ("us", "si")
HANGING = ("windlass", "single-pulley", "tackle", "tackle-rope", "wheel-and-axle", "journal-friction")
SI_UNIT = {"force": "N", "length": "m", "pitch": "m", "work": "J", "torque": "N·m", "power": "W", "time": "s"}
SI_UNIT |= {"angle": "rad", "efficiency": "%", "speed": "rad/s", "turns": "turns", "mass": "kg"}
SI_UNIT |= {"stress": "Pa", "heft": "N/m³"}
BLANKS = {"r_p": "3 mm"}  # what a question needs beside the example's boxes

Typed = dict[str, str]


def in_si(calculator: Calculator, symbol: str, value: float) -> str:
    """A value as text, exact to the last bit where its unit allows."""
    kind = calculator.written_out({rows.name: rows.high for rows in calculator.rows})[symbol].kind
    return f"{value / factor('%') if kind == 'efficiency' else value!r} {SI_UNIT.get(kind, '')}".strip()


def ask(key: str, given: Typed, choices: dict[str, str], units: str = "us") -> dict[str, Any]:
    return calc.answer({"calculator": key, "given": given, "choices": choices, "units": units})


def si_values(answer: dict[str, Any]) -> dict[str, float]:
    return {symbol: entry["si"] for symbol, entry in answer["values"].items()}


def standing(key: str, units: str = "us", choices: dict[str, str] | None = None) -> tuple[Typed, dict[str, str]]:
    """The example's boxes, what its choices fill included, each as exact SI text; and the choices."""
    calculator, example = CALCULATORS[key], calc.example(key, units)
    example["choices"] |= choices or {}
    answer = calc.answer({**example})
    filled = {
        symbol
        for choice in calculator.choices
        for symbol in choice.fills.get(example["choices"][choice.symbol], ())
        if answer["fields"].get(symbol, {}).get("state") == "assumed"
    }
    boxes = [s for s in answer["fields"] if (s in example["given"] or s in filled) and s in answer["values"]]
    return {s: in_si(calculator, s, answer["values"][s]["si"]) for s in boxes}, example["choices"]


def cases(calculator: Calculator) -> Iterator[dict[str, str]]:
    """The default choices, and each other option alone."""
    yield {}
    for choice in calculator.choices:
        for option, _ in choice.options:
            if option != choice.default("us"):
                yield {choice.symbol: option}


@pytest.mark.parametrize("key", CALCULATORS)
def test_what_a_declaration_names_exists(key: str) -> None:
    calculator = CALCULATORS[key]
    quantities = calculator.written_out({rows.name: rows.high for rows in calculator.rows})
    boxes = {symbol for symbol, quantity in quantities.items() if quantity.level}
    assert set(calculator.asks) <= boxes
    for condition in calculator.conditions:
        assert condition.code in table_of("messages.toml")
        assert condition.at in quantities
        assert condition.code.startswith("e-" if condition.stop else "n-") or condition.stop
        assert set(condition.withdraws) <= set(quantities)
    for quantity in quantities.values():
        assert quantity.kind in KINDS
        if quantity.least:
            assert quantity.kind == "count"
            assert quantity.none in table_of("messages.toml")
    for sentence in calculator.sentences:
        assert set(re.findall(r"\{(\w+)", sentence.text)) <= set(quantities)
    for choice in calculator.choices:
        assert not choice.before or quantities[choice.before].level == choice.level
    if calculator.beside:
        for i, name in enumerate(calculator.beside.choices, 1):
            assert name in {choice.symbol for choice in calculator.choices}
            assert {f"{stem}_{i}" for stem, _ in calculator.beside.lines} <= set(quantities)
    named = {name for relation in calculator.relations for name in relation.when}
    assert named <= {choice.symbol for choice in calculator.choices} | {"view"}


@pytest.mark.parametrize("key", CALCULATORS)
@pytest.mark.parametrize("units", SYSTEMS)
def test_every_example_reaches_no_error_in_any_case(key: str, units: str) -> None:
    """The default choices without any message; another option may need another number, but must say so at a box."""
    for case in cases(CALCULATORS[key]):
        example = calc.example(key, units)
        answer = calc.answer({**example, "choices": {**example["choices"], **case}, "draw": "both"})
        if not case:
            assert answer["errors"] == []
        for error in answer["errors"]:
            assert error["symbol"] in answer["fields"], (case, error)


@pytest.mark.parametrize("key", [key for key, calculator in CALCULATORS.items() if not calculator.book_case])
@pytest.mark.parametrize(
    ("units", "pull", "load", "lift"), [("us", 25 * LBF, 100 * LBF, 12 * INCH), ("si", 110, 450, 0.3)]
)
def test_a_class_can_set_up_every_example(key: str, units: str, pull: float, load: float, lift: float) -> None:
    """Common practice, no source: what one student pulls steadily, what hangs on a class rig, and how high."""
    found = si_values(calc.answer(calc.example(key, units)))
    slack = 1 + 1e-9
    assert found.get("E", 0) <= pull * slack
    assert found.get("R", 0) <= load * slack
    if key in HANGING:
        assert found.get("h", 0) <= lift * slack


@pytest.mark.parametrize(("key", "symbol"), [(key, s) for key, c in CALCULATORS.items() for s in c.asks])
def test_what_can_be_asked_is_found_and_gives_back_what_it_came_from(key: str, symbol: str) -> None:
    """Solve for it, put it in, take out something that it was found from: that returns."""
    returned = False
    for case in cases(CALCULATORS[key]):
        base, choices = standing(key, "us", case)
        for given in ways_to_ask(key, base, choices, symbol):
            found = round_trips(key, given, choices, symbol)
            returned = returned or (found and not case)
            if found:
                break
        assert returned or case, f"{key}: no way to ask for {symbol} with the example's numbers"


def ways_to_ask(key: str, base: Typed, choices: dict[str, str], symbol: str) -> Iterator[Typed]:
    """Sets of boxes from which the symbol may follow: the example without it, and with one computed box more."""
    calculator = CALCULATORS[key]
    rest = {s: text for s, text in base.items() if s != symbol}
    if symbol not in base:
        yield rest
    solved = ask(key, base, choices)
    values = si_values(solved)
    blank = {s: text for s, text in BLANKS.items() if s in solved["fields"] and s not in (*base, symbol)}
    if (effort := calculator.measured) and effort in values and effort not in base and symbol != effort:
        for share in (1, 1.01, 1.3):  # a pull without and with some loss
            pull = {effort: in_si(calculator, effort, share * values[effort])}
            yield {**rest, **pull}
            yield {**rest, **blank, **pull}
    for other, box in solved["fields"].items():
        if box["state"] == "computed" and other not in (symbol, calculator.measured) and other in values:
            yield {**rest, other: in_si(calculator, other, values[other])}


def round_trips(key: str, given: Typed, choices: dict[str, str], symbol: str) -> bool:
    """Whether the symbol is found from these boxes; if so, asserts that it gives back what it came from."""
    calculator, answer = CALCULATORS[key], ask(key, given, choices)
    if answer["errors"] or answer["fields"].get(symbol, {}).get("state") not in ("computed", "assumed"):
        return False
    values = si_values(answer)
    if symbol not in values:
        return False
    back = False
    for removed, text in given.items():
        others = {s: t for s, t in given.items() if s != removed}
        again = ask(key, {**others, symbol: in_si(calculator, symbol, values[symbol])}, choices)
        found = again["values"].get(removed)
        if again["errors"] or found is None or again["fields"][removed]["state"] != "computed":
            continue
        if any(note["code"] == "n-root2" for note in (*again["notes"], *answer["notes"])):
            continue  # two true answers: the smaller one is shown
        was = si_values(ask(key, {removed: text}, choices))[removed]
        assert found["si"] == pytest.approx(was, rel=1e-7), (choices, given, symbol, removed)
        back = True
    return back


FORCE_EXPONENT = {"force": 1, "torque": 1, "work": 1, "power": 1, "stress": 1, "heft": 1}
LENGTH_EXPONENT = {"length": 1, "pitch": 1, "torque": 1, "work": 1, "power": 1, "stress": -2, "heft": -3}
TIME_EXPONENT = {"time": 1, "speed": -1, "power": -1}


@pytest.mark.parametrize("key", CALCULATORS)
@pytest.mark.parametrize(
    "exponents", [FORCE_EXPONENT, LENGTH_EXPONENT, TIME_EXPONENT], ids=["forces", "lengths", "times"]
)
@pytest.mark.parametrize("scale", [0.8, 1.25])
def test_scaling_all_forces_lengths_or_times_scales_the_answer(
    key: str, exponents: dict[str, int], scale: float
) -> None:
    """Twice the forces on the same machine: twice the effort, the same advantage. No formula holds a hidden unit."""
    calculator = CALCULATORS[key]
    quantities = calculator.written_out({rows.name: rows.high for rows in calculator.rows})
    for case in cases(calculator):
        base, choices = standing(key, "us", case)
        first = ask(key, base, choices)
        if first["errors"]:
            continue
        values = si_values(first)

        def size(symbol: str) -> float:
            return float(scale ** exponents.get(quantities[symbol].kind, 0))

        scaled = {s: in_si(calculator, s, values[s] * size(s)) for s in base}
        second = ask(key, scaled, choices)
        if second["errors"]:  # out of the boxes' limits
            continue
        for symbol, value in si_values(second).items():
            assert value == pytest.approx(values[symbol] * size(symbol), rel=1e-9, abs=1e-12), (case, symbol)


@pytest.mark.parametrize("key", CALCULATORS)
def test_the_units_of_the_sheet_change_no_number(key: str) -> None:
    for case in cases(CALCULATORS[key]):
        base, choices = standing(key, "us", case)
        us, si = (si_values(ask(key, base, choices, units)) for units in SYSTEMS)
        assert us == pytest.approx(si, rel=1e-12)


@pytest.mark.parametrize("key", [key for key, calculator in CALCULATORS.items() if calculator.six_lines])
def test_a_real_machine_loses_work_and_its_ratios_agree(key: str) -> None:
    """AMA = IMA eta, Wout = eta Win and Win >= Wout, for the example's numbers spread by a third, with losses."""
    calculator, spread = CALCULATORS[key], random.Random(key)
    seen = 0
    for case in cases(calculator):
        base, choices = standing(key, "us", case)
        values = si_values(ask(key, base, choices))
        for _ in range(8):
            given = {
                s: in_si(calculator, s, values[s] * spread.uniform(0.75, 1.3)) for s in base if is_real(calculator, s)
            }
            given = {**base, **given}
            if not calculator.losses & given.keys():
                given["eta"] = f"{spread.uniform(30, 99):.3f} %"
            answer = ask(key, given, choices)
            found = si_values(answer)
            if answer["errors"] or not {"AMA", "IMA", "eta"} <= set(found):
                continue
            seen += 1
            assert found["AMA"] == pytest.approx(found["IMA"] * found["eta"], rel=1e-9)
            if {"Win", "Wout", "Wlost"} <= set(found):
                assert found["Wout"] == pytest.approx(found["eta"] * found["Win"], rel=1e-9)
                assert found["eta"] > 1 or found["Wlost"] >= -1e-9 * found["Win"]
    assert seen, "no draw gave an efficiency"


def is_real(calculator: Calculator, symbol: str) -> bool:
    quantities = calculator.written_out({rows.name: rows.high for rows in calculator.rows})
    return not KINDS[quantities[symbol].kind].whole and quantities[symbol].kind != "efficiency"
