"""Sums over a span, and the smallest whole number that does: counted up, told, and impossible where it is."""

from __future__ import annotations

from typing import Any

import pytest

import calc
from calc import library, registry
from calc.block import EFFORT, MEASURED, RESULTS, WORK
from calc.formula import evaluate, parse
from calc.model import Calculator, Quantity, Relation, Sentence, when
from calc.rearrange import NO_WAY, rearranged
from calc.rows import span_symbols, written_out
from tests.calc.asking import INCH, LBF

HOIST = Calculator(
    key="toy-hoist",
    title="A hoist of several parts",
    quantities=(
        Quantity("R", "Load", "force", "36 lbf", "160 N", level=1),
        Quantity("n", "Parts", "count", "4", "4", level=1, low=1, high=12, least="E <= typed(E)", none="e-toy-parts"),
        EFFORT,
        *RESULTS,
        Quantity("k", "Kept at each sheave", "efficiency", "92 %", "92 %", level=2, loss=True, low=0.5),
        Quantity("K", "Sum of the parts", "ratio"),
        Quantity("E_min", "Least pull of all", "force", "lbf", "N"),
        Quantity("h", "Height", "length", "12 in", "300 mm", level=1),
        Quantity("dR", "Load distance", "length", "in", "mm"),
        Quantity("dE", "Effort distance", "length", "in", "mm", level=1),
    ),
    relations=(
        Relation("IMA = n", "Each part carries its share."),
        *when({"view": "ideal"}, Relation("E = R/n", "The parts share the load.")),
        *when(
            {"view": "expected"},
            Relation("E = R/K", "The parts carry what the sheaves leave."),
            Relation("K = sum(k**i for i in span(1, n))", "Each sheave keeps a little."),
            Relation("E_min = R*(1 - k)/k", "However many parts."),
        ),
        Relation("dR = h"),
        Relation("dE = n*h", "Every part shortens by the height."),
        *MEASURED,
        *WORK,
    ),
    sentences=(
        Sentence("{n} parts keep the pull within {E@typed}: it is {E}.", {"effort": "limit"}),
        Sentence("The pull is {E}."),
    ),
    asks=("E", "R", "n", "k"),
)
SHELF = Calculator(
    key="toy-shelf",
    title="Boards on a shelf",
    quantities=(
        Quantity("B", "Room", "length", "12 in", "300 mm", level=1),
        Quantity("t", "Thickness", "length", "1.5 in", "38 mm", level=1),
        Quantity("c", "Boards in a layer", "ratio", level=1),
        Quantity("H", "Height of all", "length", "in", "mm", level=1, low=0.0),
        Quantity("need", "Boards needed", "count", "30", "30", level=1),
        Quantity("m", "Layers", "count", level=1, low=1, high=9, default="1", least="m*c >= need"),
    ),
    relations=(
        Relation("c = floor(B/t)", "Whole boards only."),
        Relation("H = sum(t for i in span(1, m))", "One thickness a layer."),
    ),
)


@pytest.fixture(autouse=True)
def declared(monkeypatch: pytest.MonkeyPatch) -> None:
    for toy in (HOIST, SHELF):
        monkeypatch.setitem(registry.CALCULATORS, toy.key, toy)
    words = {"start": "More parts will not do it.", "words": "With {k} the pull never falls below {E_min}."}
    monkeypatch.setitem(library.table_of("messages.toml"), "e-toy-parts", words)


def ask(toy: Calculator = HOIST, **given: str) -> dict[str, Any]:
    return calc.answer({"calculator": toy.key, "given": given, "units": "us"})


def test_a_span_is_written_out_when_its_length_is_known() -> None:
    text = "K = sum(k**i for i in span(0, n - 1))"
    assert span_symbols(text) == ("n",)
    assert written_out(text, {"n": 4}) == "K = 1 + k + k**2 + k**3"
    assert written_out(text, {"n": 1}) == "K = 1"
    assert written_out("V = sum(a + (i - 1/2)*t for i in span(1, m))", {"m": 2}) == (
        "V = a + (1 - 1 / 2) * t + (a + (2 - 1 / 2) * t)"
    )


def test_a_sum_over_a_span_is_computed_told_and_solved_back() -> None:
    """Geometric series by its closed form: k(1 - k^n)/(1 - k), an algebraic route of its own."""
    closed = 0.92 * (1 - 0.92**4) / (1 - 0.92)
    answer = ask(R="36", n="4", k="92 %")
    assert answer["values"]["E"]["si"] == pytest.approx(36 * LBF / closed, rel=1e-12)
    assert any(
        "K = k + k**2 + k**3 + k**4 = 0.92 + 0.92**2" in line["text"].replace("(", "").replace(")", "")
        for line in answer["working"]
    )
    back = ask(n="4", k="92 %", E=f"{36 / closed:.9f}")
    assert back["values"]["R"]["si"] == pytest.approx(36 * LBF, rel=1e-8)
    k = ask(R="36", n="4", E=f"{36 / closed:.9f}")
    assert k["values"]["eta"]["si"] == pytest.approx(closed / 4, rel=1e-8)


def test_a_length_that_follows_from_other_boxes_writes_the_span_out_too() -> None:
    found = ask(R="36", h="12", dE="48 in", k="92 %")["values"]
    assert found["E"]["si"] == ask(R="36", n="4", k="92 %")["values"]["E"]["si"]


def test_a_typed_effort_is_a_limit_while_the_number_is_empty() -> None:
    """36 lbf on 2, 3, 4 parts at k = 0.92 pull 20.38, 14.14 and 11.04 lbf (series summed by hand)."""
    answer = ask(R="36", E="14", k="92 %")
    assert answer["errors"] == []
    assert answer["fields"]["n"]["state"] == "computed"
    assert answer["fields"]["n"]["shown"] == "4"
    assert answer["fields"]["n"]["note"] == "The fewest that do: with 3 the effort would be 14.14 lbf."
    assert (answer["fields"]["E"]["mark"], answer["fields"]["E"]["text"]) == ("limit", "14")
    assert answer["fields"]["E"]["note"] == "The effort itself: 11.04 lbf."
    assert answer["values"]["E"]["text"] == "11.04 lbf"
    assert answer["html"]["sentence"].startswith("4 parts keep the pull within 14 lbf")
    assert [column["view"] for column in answer["columns"]] == ["ideal", "expected"]
    assert "11.04 lbf" in answer["html"]["results"]
    assert answer["working"][0]["text"] == "n = 4"
    assert answer["working"][0]["words"].startswith("Found by counting up.")
    assert "E=14_lbf" in answer["link"]
    assert "n=" not in answer["link"]


def test_a_limit_that_is_just_met_is_met() -> None:
    assert ask(R="36", E="9")["fields"]["n"]["shown"] == "4"
    assert ask(R="36", E="40")["fields"]["n"]["note"] == "1 is the fewest there can be."


def test_a_typed_number_makes_the_effort_a_measured_one() -> None:
    answer = ask(R="36", n="4", E="14")
    assert answer["fields"]["E"]["mark"] == "measured"
    assert answer["fields"]["n"]["state"] == "typed"


def test_no_number_is_enough_and_the_words_say_what_is_left() -> None:
    """The pull never falls below R (1 - k)/k = 36 * 0.2/0.8 = 9 lbf, however many parts."""
    answer = ask(R="36", E="8.9", k="80 %")
    assert [(e["symbol"], e["code"]) for e in answer["errors"]] == [("E", "e-toy-parts")]
    assert answer["errors"][0]["text"].endswith("With 80.0 % the pull never falls below 9.00 lbf.")
    assert "n" not in answer["values"]


def test_the_other_limits_stay_where_the_number_needs_another_box_first() -> None:
    answer = ask(E="14", k="92 %")
    assert answer["errors"] == []
    assert answer["fields"]["n"]["state"] == "empty"


def test_a_least_number_without_a_typed_limit_counts_by_itself() -> None:
    """12 in of room take eight boards of 1-1/2 in; thirty boards need four layers."""
    answer = ask(SHELF, B="12", t="1.5", need="30")
    assert answer["values"]["c"]["si"] == 8
    assert answer["fields"]["m"]["shown"] == "4"
    assert answer["values"]["H"]["si"] == pytest.approx(4 * 1.5 * INCH)
    assert ask(SHELF, B="12", t="1.5")["fields"]["m"]["state"] == "assumed"


def test_what_stands_inside_a_floor_is_not_sought() -> None:
    assert rearranged("c = floor(B/t)", "B") == (NO_WAY, None)
    assert evaluate(parse("floor(x)"), {"x": 0.0762 / 0.0127}) == 6
