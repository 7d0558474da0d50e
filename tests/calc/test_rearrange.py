"""Relations turned round: each operation undone as algebra books do it, checked by putting numbers back."""

from __future__ import annotations

import pytest

from calc.formula import evaluate, parse, parse_equation
from calc.rearrange import NO_WAY, rearranged

NUMBERS = {"a": 0.31, "b": 0.47, "c": 0.83, "d": 0.59, "x": 0.71}


@pytest.mark.parametrize(
    ("equation", "name", "cost", "formula"),
    [
        ("a = b + c", "a", 0, "b + c"),
        ("a = b + c", "b", 1, "a - c"),
        ("a = b + c", "c", 1, "a - b"),
        ("b + c = a", "c", 1, "a - b"),
        ("a = b - c", "b", 1, "a + c"),
        ("a = b - c", "c", 1, "b - a"),
        ("a = b*c", "b", 1, "a/c"),
        ("a = b*c", "c", 1, "a/b"),
        ("a = b/c", "b", 1, "a*c"),
        ("a = b/c", "c", 1, "b/a"),
        ("a = b**2", "b", 1, "sqrt(a)"),
        ("a = b**4", "b", 1, "a**(1/4)"),
        ("a = b**c", "c", 1, "log(a)/log(b)"),
        ("a = -b", "b", 1, "-a"),
        ("a = sqrt(b)", "b", 1, "a**2"),
        ("a = pos(b)", "b", 1, "a"),
        ("a = exp(b)", "b", 1, "log(a)"),
        ("a = log(b)", "b", 1, "exp(a)"),
        ("a = sin(b)", "b", 1, "asin(a)"),
        ("a = cos(b)", "b", 1, "acos(a)"),
        ("a = tan(b)", "b", 1, "atan(a)"),
        ("a = asin(b)", "b", 1, "sin(a)"),
        ("a = acos(b)", "b", 1, "cos(a)"),
        ("a = atan(b)", "b", 1, "tan(a)"),
        ("a = c*(d + b)/x", "b", 1, "a*x/c - d"),
        ("a = x*b + c*x", "x", 2, "a/(b + c)"),
        ("a = b*x - c*x", "x", 2, "a/(b - c)"),
        ("a = b + a*c", "a", 2, "b/(1 - c)"),
        ("a = x/(x + b)", "x", 2, "-(a*b)/(a - 1)"),
        ("a = (x + b)/(c - x)", "x", 2, "(a*c - b)/(1 + a)"),
        ("a*x = b - c*x", "x", 2, "b/(a + c)"),
        ("a = b/x + c/x", "x", 2, "(b + c)/a"),
        ("a = b/x - c/x", "x", 2, "(b - c)/a"),
        ("a = x/b + x/c", "x", 2, "a*b*c/(b + c)"),
        ("a = x/b - x/c", "x", 2, "a*b*c/(c - b)"),
        ("a = b/x + c", "x", 1, "b/(a - c)"),
        ("a = b/x + c/d + 1/x", "x", 2, "(b + 1)/(a - c/d)"),
        ("a = -x - x*b", "x", 2, "-a/(1 + b)"),
    ],
)
def test_a_relation_is_turned_round(equation: str, name: str, cost: int, formula: str) -> None:
    """The formulas on the right are turned by hand."""
    found_cost, found = rearranged(equation, name)
    assert found_cost == cost
    assert found is not None
    assert evaluate(found, NUMBERS) == pytest.approx(evaluate(parse(formula), NUMBERS), rel=1e-12)


@pytest.mark.parametrize(
    ("equation", "name", "formula"),
    [
        ("a = b - c", "b", "a + c"),
        ("a = b*c", "b", "a/c"),
        ("a = x*b + c*x", "x", "a/(b + c)"),
        ("a*x = b - c*x", "x", "-b/(-c - a)"),
    ],
)
def test_it_reads_as_it_would_be_written(equation: str, name: str, formula: str) -> None:
    assert rearranged(equation, name)[1] == parse(formula)


@pytest.mark.parametrize(
    ("equation", "name", "cost"),
    [
        ("a = x*x", "x", 3),
        ("a = x**b", "x", 3),
        ("a = b**x + x", "x", 3),
        ("a = x + x*x", "x", 3),
        ("a = x*x + x", "x", 3),
        ("a = 0*x + 0*x", "x", 3),
        ("a = b", "x", 3),
        ("a = b*(x + c) + sin(x)", "x", 3),
        ("a = (x + 1)/(x*x)", "x", 3),
        ("a = x/(1 + x) + x/(2 + x)", "x", 3),
        ("a = -sin(x) + x", "x", 3),
        ("a = sind(b)", "b", 3),
        ("x*x = a", "x", 3),
        ("a*x = b/(c + x)", "x", 3),
        ("a = c/(x + d) + x", "x", 3),
        ("a = x + c/(x + d)", "x", 3),
        ("a = b/x + c/(x + d)", "x", 3),
        ("b/(c + x) = a*x", "x", 3),
        ("a = floor(b)", "b", NO_WAY),
        ("a = floor(b) + b", "b", NO_WAY),
        ("floor(b) + b = a", "b", NO_WAY),
        ("a = b*b + floor(c)", "b", 3),
    ],
)
def test_what_cannot_be_turned_says_how_else_it_is_found(equation: str, name: str, cost: int) -> None:
    assert rearranged(equation, name) == (cost, None)


@pytest.mark.parametrize(
    ("equation", "name"),
    [("a = (x + b)/(c - x) + d", "x"), ("a = x/(1 + b) - (x - c)/d", "x"), ("a = (b - x)*c/(x*d + 1)", "x")],
)
def test_a_gathered_formula_makes_both_sides_equal(equation: str, name: str) -> None:
    cost, formula = rearranged(equation, name)
    assert cost == 2
    assert formula is not None
    left, right = (evaluate(side, {**NUMBERS, name: evaluate(formula, NUMBERS)}) for side in parse_equation(equation))
    assert left == pytest.approx(right, rel=1e-12)
