"""The formula language: what it reads, what it refuses."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.formula import (
    ZERO,
    Binary,
    FormulaError,
    Negative,
    Number,
    Symbol,
    add,
    evaluate,
    negate,
    occurrences,
    parse,
    parse_equation,
    symbols,
)
from calc.rearrange import rearranged
from calc.rows import written_out


@pytest.mark.parametrize(
    "text",
    [
        "__import__('os')",
        "open('x')",
        "a.b",
        "a[0]",
        "lambda: 1",
        "a if b else c",
        "'text'",
        "sin(a, b)",
        "sin(x=a)",
        "a @ b",
        "not a",
        "f'{a}'",
        "[a]",
        "True",
        "a b",
        "(a",
    ],
)
def test_anything_but_arithmetic_is_refused(text: str) -> None:
    with pytest.raises(FormulaError):
        parse(text)


@pytest.mark.parametrize("text", ["a", "a = b = c", ""])
def test_a_relation_has_one_equals_sign(text: str) -> None:
    with pytest.raises(FormulaError):
        parse_equation(text)


def test_a_tree_is_what_the_text_says() -> None:
    assert parse("a + 2*b") == Binary("+", Symbol("a"), Binary("*", Number(2.0), Symbol("b")))
    assert symbols(parse("b*sin(a) + b + pi")) == ("b", "a")
    assert occurrences(parse("b*sin(a) + b"), "b") == 2


@given(st.floats(0.1, 100), st.floats(0.1, 100), st.floats(0.1, 1.4))
def test_evaluation_is_python_arithmetic(a: float, b: float, c: float) -> None:
    tree = parse("a*(b + sin(c))/(a + sqrt(b)) - b**2*cos(c)")
    assert evaluate(tree, {"a": a, "b": b, "c": c}) == a * (b + math.sin(c)) / (a + math.sqrt(b)) - b**2 * math.cos(c)


def test_a_symbol_that_occurs_several_times_linearly_is_gathered() -> None:
    cost, formula = rearranged("E = R*(sin(theta) + mu*cos(theta))/(cos(delta) + mu*sin(delta))", "mu")
    assert cost == 2
    assert formula == parse("(E*cos(delta) - R*sin(theta))/(R*cos(theta) - E*sin(delta))")


def test_a_symbol_that_no_rearrangement_frees_needs_a_search() -> None:
    assert rearranged("E = R*(sin(theta) + mu*cos(theta))", "theta") == (3, None)


def test_a_root_is_written_as_books_write_it() -> None:
    assert rearranged("A = a**2", "a")[1] == parse("sqrt(A)")
    root = rearranged("V = a**3", "a")[1]
    assert root is not None
    assert evaluate(root, {"V": 27.0}) == pytest.approx(3)  # 3 x 3 x 3


def test_a_sum_with_a_negative_part_is_a_difference() -> None:
    a, b = Symbol("a"), Symbol("b")
    assert add(a, Negative(b)) == parse("a - b")
    assert add(Negative(a), b) == parse("b - a")
    assert [negate(ZERO), negate(a), negate(Negative(a))] == [ZERO, Negative(a), a]


def test_row_formulas_are_written_out() -> None:
    assert written_out("M = sum(F[i]*x[i] for i in loads)", {"loads": 3}) == "M = F_1 * x_1 + F_2 * x_2 + F_3 * x_3"
    assert written_out("IMA = prod(a[i] for i in s)", {"s": 2}) == "IMA = a_1 * a_2"
    assert written_out("E[i] = R[i - 1]/a[i]", {"s": 3}, 2) == "E_2 = R_1 / a_2"
