"""What holds for every relation of every calculator: dimensions, rearrangements, units."""

from __future__ import annotations

import random

import pint
import pytest
import sympy

from calc.formula import (
    Binary,
    Call,
    Negative,
    Node,
    Number,
    Symbol,
    evaluate,
    parse_comparison,
    parse_equation,
    symbols,
)
from calc.question import takes_zero
from calc.rearrange import rearranged
from calc.registry import CALCULATORS
from calc.solve import relation_symbols
from calc.units import KINDS
from tests.calc.every_relation import all_relations, quantities

UREG = pint.UnitRegistry()  # pint's own unit file: independent of ours
SI = {
    "force": "newton",
    "length": "metre",
    "work": "joule",
    "torque": "newton*metre",
    "power": "watt",
    "time": "second",
    "pitch": "metre",
    "speed": "1/second",
    "mass": "kilogram",
    "stress": "newton/metre**2",
    "heft": "newton/metre**3",
}
DIMENSIONLESS = tuple(kind.name for kind in KINDS.values() if not kind.dimension or kind.dimension == "radian")


def dimension(node: Node, key: str) -> pint.util.UnitsContainer | None:
    """The dimension of a tree by pint; None for a literal zero, which fits all. Raises AssertionError if unsound."""
    nothing = UREG.Quantity(1).dimensionality
    match node:
        case Symbol("pi"):
            return nothing
        case Symbol(name):
            kind = quantities(key)[name].kind
            return nothing if kind in DIMENSIONLESS else UREG.Quantity(1, SI[kind]).dimensionality
        case Number(value):
            return None if value == 0 else nothing
        case Negative(arg):
            return dimension(arg, key)
        case Call("pos", arg):
            return dimension(arg, key)
        case Call("sqrt", arg):
            inner = dimension(arg, key)
            return None if inner is None else inner**0.5
        case Call(_, arg):
            assert dimension(arg, key) in (None, nothing), f"argument of {node} has a dimension"
            return nothing
        case Binary("**", left, Number(value)):
            inner = dimension(left, key)
            return None if inner is None else inner**value
        case Binary("+" | "-", left, right):
            a, b = dimension(left, key), dimension(right, key)
            assert a is None or b is None or a == b, f"{node} adds {a} to {b}"
            return a if b is None else b
        case Binary("*", left, right):
            a, b = dimension(left, key), dimension(right, key)
            return None if a is None or b is None else a * b
        case Binary("/", left, right):
            a, b = dimension(left, key), dimension(right, key)
            return a if b is None else None if a is None else a / b
    raise AssertionError(node)


@pytest.mark.parametrize(("key", "text"), all_relations())
def test_both_sides_have_one_dimension(key: str, text: str) -> None:
    left, right = parse_equation(text)
    a, b = dimension(left, key), dimension(right, key)
    assert a is None or b is None or a == b, text


@pytest.mark.parametrize(
    ("key", "text"), [(key, c.text) for key, calculator in CALCULATORS.items() for c in calculator.conditions]
)
def test_both_sides_of_a_condition_have_one_dimension(key: str, text: str) -> None:
    left, _, right = parse_comparison(text)
    a, b = dimension(left, key), dimension(right, key)
    assert a is None or b is None or a == b, text


def in_sympy(node: Node) -> sympy.Expr:
    match node:
        case Symbol("pi"):
            return sympy.pi
        case Symbol(name):
            return sympy.Symbol(name, positive=True)
        case Number(value):
            return sympy.nsimplify(value)
        case Negative(arg):
            return -in_sympy(arg)
        case Call("pos", arg):
            return in_sympy(arg)  # rearranged only where the pull is above zero
        case Call(name, arg):
            return getattr(sympy, name)(in_sympy(arg))
        case Binary(op, left, right):
            a, b = in_sympy(left), in_sympy(right)
            return {"+": a + b, "-": a - b, "*": a * b, "/": a / b, "**": a**b}[op]
    raise AssertionError(node)


def rearrangements() -> list[tuple[str, str]]:
    texts = sorted({text for _, text in all_relations()})
    return [(text, name) for text in texts for name in relation_symbols(text) if rearranged(text, name)[1] is not None]


@pytest.mark.parametrize(("text", "name"), rearrangements())
def test_sympy_agrees_with_the_rearrangement(text: str, name: str) -> None:
    """Put back into the relation, the rearranged formula makes both sides equal: by SymPy, symbol for symbol."""
    left, right = (in_sympy(side) for side in parse_equation(text))
    formula = rearranged(text, name)[1]
    assert formula is not None
    difference = (left - right).subs(sympy.Symbol(name, positive=True), in_sympy(formula))
    if sympy.simplify(difference) == 0:
        return
    # Inverse functions on their principal branch: at points where the relation is true, the formula must give the
    # symbol back, to 30 of 40 digits.
    assert isinstance(left, sympy.Symbol), f"SymPy cannot decide {text} for {name}"
    spread, tried = random.Random(text + name), 0
    while tried < 5:
        point = {s: sympy.Float(spread.uniform(0.05, 0.7), 40) for s in right.free_symbols}
        value = sympy.N(right.subs(point), 40)
        if value.is_real and value > 0:
            point[left] = value
            found = sympy.N(in_sympy(formula).subs(point), 40)
            assert abs(found - point[sympy.Symbol(name, positive=True)]) < 1e-30, (text, name, point)
            tried += 1


@pytest.mark.parametrize(("key", "text"), all_relations())
def test_every_symbol_is_declared(key: str, text: str) -> None:
    assert set(relation_symbols(text)) <= set(quantities(key))


@pytest.mark.parametrize("key", CALCULATORS)
def test_every_default_is_a_number_within_reach(key: str) -> None:
    from calc.formula import parse

    for quantity in CALCULATORS[key].quantities:
        if quantity.default:
            node = parse(quantity.default)
            if not symbols(node):
                least = 0 if takes_zero(quantity) else 1e-12
                assert evaluate(node, {}) >= least


def test_a_torque_is_never_taken_for_work() -> None:
    """pint cannot tell them apart; our kinds must: no relation equates a torque to work without an angle."""
    assert KINDS["torque"].dimension == KINDS["work"].dimension
    for key, text in all_relations():
        kinds = {quantities(key)[name].kind for name in relation_symbols(text)}
        assert not {"torque", "work"} <= kinds or "angle" in kinds, text
