"""The formula language: what it reads, what it refuses."""

from __future__ import annotations

import math
import warnings

import pytest
import uncertainties
from hypothesis import given
from hypothesis import strategies as st

from calc.formula import (
    ONE,
    ZERO,
    Binary,
    FormulaError,
    Negative,
    Number,
    Symbol,
    add,
    divide,
    evaluate,
    multiply,
    negate,
    occurrences,
    parse,
    parse_comparison,
    parse_equation,
    symbols,
)
from calc.rearrange import rearranged
from calc.rows import written_out
from calc.solve import MATHS


@pytest.mark.parametrize(
    "text",
    [
        "__import__('os')",
        "open('x')",
        "open(x)",
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


@pytest.mark.parametrize("text", ["a.b", "a.b + 1", "1 + a.b", "-a.b", "sin(a.b)"])
def test_a_refusal_quotes_the_part_and_the_whole(text: str) -> None:
    with pytest.raises(FormulaError) as refused:
        parse(text)
    assert str(refused.value) == f"'a.b' is not part of the formula language (in {text!r})"


def test_a_text_that_is_no_expression_is_quoted() -> None:
    with pytest.raises(FormulaError, match=r"cannot read .\(a"):
        parse("(a")


@pytest.mark.parametrize("text", ["a", "a = b = c", ""])
def test_a_relation_has_one_equals_sign(text: str) -> None:
    with pytest.raises(FormulaError) as refused:
        parse_equation(text)
    assert str(refused.value) == f"not one equation: {text}"


@pytest.mark.parametrize("sign", ["<", "<=", ">", ">="])
def test_a_comparison_has_two_sides_and_a_sign(sign: str) -> None:
    assert parse_comparison(f"a + 1 {sign} 2*b") == (parse("a + 1"), sign, parse("2*b"))


@pytest.mark.parametrize("text", ["a", "a + b", "a == b", "a != b", "a < b < c", "a < b == c", "a in b"])
def test_anything_else_is_no_comparison(text: str) -> None:
    with pytest.raises(FormulaError) as refused:
        parse_comparison(text)
    assert str(refused.value) == f"not one comparison: {text}"


@pytest.mark.parametrize("text", ["a.b < 1", "1 < a.b"])
def test_a_comparison_of_what_is_no_arithmetic_is_quoted(text: str) -> None:
    with pytest.raises(FormulaError) as refused:
        parse_comparison(text)
    assert str(refused.value) == f"'a.b' is not part of the formula language (in {text!r})"


def test_a_tree_is_what_the_text_says() -> None:
    assert parse("a + 2*b") == Binary("+", Symbol("a"), Binary("*", Number(2.0), Symbol("b")))
    assert symbols(parse("b*sin(a) + b + pi")) == ("b", "a")
    assert occurrences(parse("b*sin(a) + b"), "b") == 2


@given(st.floats(0.1, 100), st.floats(0.1, 100), st.floats(0.1, 1.4))
def test_evaluation_is_python_arithmetic(a: float, b: float, c: float) -> None:
    tree = parse("a*(b + sin(c))/(a + sqrt(b)) - b**2*cos(c)")
    assert evaluate(tree, {"a": a, "b": b, "c": c}) == a * (b + math.sin(c)) / (a + math.sqrt(b)) - b**2 * math.cos(c)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("cos(x)", 0),
        ("sin(x)", 1),
        ("cosd(90)", 0),
        ("cosd(60)", 0.5),
        ("sind(30)", 0.5),
        ("tand(45)", 1),
        ("atand(1)", 45),
        ("pos(x - 1)", math.pi / 2 - 1),
        ("pos(-x)", 0),
        ("floor(3/0.5)", 6),
        ("floor(x)", 1),
    ],
)
def test_functions_have_their_textbook_values(text: str, value: float) -> None:
    """x is a right angle. Its cosine is nothing at all, although no float is half of pi."""
    found = evaluate(parse(text), {"x": math.pi / 2})
    assert found == (value if value == 0 else pytest.approx(value, rel=1e-12))


@pytest.mark.parametrize("whole", [6, 5_000_000])
def test_a_whole_part_is_not_lost_by_the_last_bit(whole: int) -> None:
    assert evaluate(parse("floor(x)"), {"x": math.nextafter(whole, 0)}) == whole


@pytest.mark.parametrize("a", [0.3, 3e8])
def test_what_differs_in_its_last_bits_leaves_nothing(a: float) -> None:
    b = math.nextafter(a, math.inf)
    assert [evaluate(parse("a - b"), {"a": a, "b": b}), evaluate(parse("a - b"), {"a": 0.0, "b": b})] == [0, -b]


@pytest.mark.parametrize(
    ("text", "slope"),
    [
        ("sin(a) + 1", math.cos(0.5)),
        ("1 + sin(a)", math.cos(0.5)),
        ("-sin(a)", math.cos(0.5)),
        ("exp(sin(a))", math.cos(0.5) * math.exp(math.sin(0.5))),
        ("a - 0.5", 1),
        ("a - 0.4", 1),
        ("pos(a)", 1),
        ("pos(-a)", 0),
        ("floor(10*a)", 0),
    ],
)
def test_a_doubt_goes_through_every_part_of_a_formula(text: str, slope: float) -> None:
    """du = |f'(a)| da, the derivative by hand; nothing on the way is given up by the library that carries it."""
    values = {"a": uncertainties.ufloat(0.5, 0.01)}
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        found = evaluate(parse(text), values, MATHS)
    assert uncertainties.std_dev(found) == pytest.approx(0.01 * slope)


def test_a_root_of_a_negative_number_is_refused() -> None:
    with pytest.raises(ValueError, match=r"^a root of a negative number$"):
        evaluate(parse("a**0.5"), {"a": -2.0})


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


def test_a_product_with_a_negative_part_is_negative_and_nothing_shared_is_nothing() -> None:
    a, b = Symbol("a"), Symbol("b")
    assert [multiply(Negative(a), b), multiply(a, Negative(b))] == [Negative(parse("a*b"))] * 2
    assert multiply(Negative(a), Negative(b)) == parse("a*b")
    assert [divide(ZERO, b), divide(a, ONE), divide(a, b)] == [ZERO, a, parse("a/b")]


def test_row_formulas_are_written_out() -> None:
    assert written_out("M = sum(F[i]*x[i] for i in loads)", {"loads": 3}) == "M = F_1 * x_1 + F_2 * x_2 + F_3 * x_3"
    assert written_out("IMA = prod(a[i] for i in s)", {"s": 2}) == "IMA = a_1 * a_2"
    assert written_out("E[i] = R[i - 1]/a[i]", {"s": 3}, 2) == "E_2 = R_1 / a_2"
