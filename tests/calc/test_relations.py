"""Formulas for print: each relation as a book writes it, true for the answer that the same calculator gives."""

from __future__ import annotations

import re
from typing import Any
from xml.etree import ElementTree

import pytest

import calc
from calc.formula import evaluate, parse_equation, symbols

VIEWS = ("ideal", "expected", "measured")


def by_symbol(key: str, symbol: str, **case: Any) -> dict[str, Any]:
    return next(found for found in calc.relations(key, **case) if found["yields"] == symbol)


def plain(mathml: list[str]) -> str:
    """What is left of MathML without its marks; a fraction's two lines stand side by side."""
    return re.sub(r"<[^>]+>", "", "".join(mathml))


@pytest.mark.parametrize("key", calc.keys())
def test_every_relation_can_be_printed_with_its_letters_named(key: str) -> None:
    for view in VIEWS:
        for relation in calc.relations(key, view=view):
            for piece in relation["mathml"]:
                assert ElementTree.fromstring(piece).tag == "math"
            assert plain(relation["mathml"]).count("=") >= 1
            assert all(symbol["label"] and symbol["html"] for symbol in relation["symbols"])
            assert "sum" not in plain(relation["mathml"]).replace("sum of", "")
            assert relation["yields"] in relation["text"].replace("[i]", "_i")


@pytest.mark.parametrize("key", calc.keys())
@pytest.mark.parametrize("units", ["us", "si"])
def test_a_printed_relation_is_true_for_the_example(key: str, units: str) -> None:
    """Second way: each side worked out by itself from the solved values, which came from one side only."""
    answer = calc.answer(calc.example(key, units))
    view = answer["columns"][-1]["view"] if answer["columns"] else "ideal"
    values = {symbol: value["si"] for symbol, value in answer["values"].items()}
    compared = 0
    for relation in calc.relations(key, answer["choices"], view):
        if "[" in relation["text"] or " for " in relation["text"]:
            continue
        left, right = parse_equation(relation["text"])
        if not {*symbols(left), *symbols(right)} <= values.keys():
            continue
        sides = evaluate(left, values), evaluate(right, values)
        assert sides[0] == pytest.approx(sides[1], rel=1e-6, abs=1e-9), relation["text"]
        compared += 1
    assert compared >= 1


def test_the_case_chooses_the_relation() -> None:
    # Slope length over rise along the ramp, run over rise for a level push: physics texts, and see often-printed-wrong.
    assert by_symbol("ramp", "IMA")["text"] == "IMA = L/h"
    assert by_symbol("ramp", "IMA", choices={"pull": "level"})["text"] == "IMA = b/h"
    assert by_symbol("ramp", "E", view="ideal")["text"] == "E = R/IMA"


def test_a_sum_over_the_sheaves_is_written_with_its_sign_and_limits() -> None:
    # Tensions fall off as k, k^2, ... k^n: rigging handbooks' factor per sheave.
    shares = by_symbol("tackle", "K")
    assert "<mo>∑</mo>" in shares["mathml"][0]
    assert plain(shares["mathml"]) == "K=∑i=1nki"
    assert [symbol["symbol"] for symbol in shares["symbols"]] == ["K", "k", "n"]


def test_a_product_over_stages_names_the_quantity_of_each_stage() -> None:
    whole = by_symbol("chain", "IMA", view="ideal")
    assert plain(whole["mathml"]) == "IMA=∏iIMAi"
    assert whole["symbols"][1]["label"] == "Ideal advantage of stage"


def test_a_sum_of_differences_keeps_its_brackets() -> None:
    turning = by_symbol("loaded-bar", "M")
    assert plain(turning["mathml"]) == "M=∑iFi·(xf−xi)+w·(xf−xc)"
    slip = by_symbol("gears-and-belts", "rpm_out", choices={"drive": "belt"})
    assert "(1−s)" in plain(slip["mathml"])


@pytest.mark.parametrize(
    ("key", "choices"), [("no-such", {}), ("ramp", {"pull": "sideways"}), ("ramp", {"colour": "red"})]
)
def test_what_does_not_exist_is_refused(key: str, choices: dict[str, str]) -> None:
    with pytest.raises(KeyError):
        calc.relations(key, choices)


def test_every_meaning_of_every_letter_is_listed_once() -> None:
    listed = calc.letters()
    meanings = [(entry["symbol"], entry["label"]) for entry in listed]
    assert len(meanings) == len(set(meanings))
    for key in set(calc.keys()) - {"measures"}:
        for box in calc.describe(key)["quantities"]:
            if box["symbol"] not in ("turns", "gap", "tail", "idlers"):  # words that say themselves
                assert (box["symbol"], box["label"]) in meanings


def test_letters_stand_in_the_order_of_the_alphabet_and_greek_last() -> None:
    symbols_ = [entry["symbol"] for entry in calc.letters()]
    assert symbols_.index("aE") < symbols_.index("R") < symbols_.index("t") < symbols_.index("mu")
    (load,) = (entry for entry in calc.letters() if entry["symbol"] == "R")
    assert load["units"] == {"us": ["lbf"], "si": ["N"]}
