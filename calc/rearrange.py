"""Writing a relation for another of its symbols: turn the tree inside out, or gather the terms."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from calc.formula import (
    ONE,
    ZERO,
    Binary,
    Call,
    Negative,
    Node,
    Number,
    Symbol,
    add,
    divide,
    multiply,
    negate,
    occurrences,
    parse_equation,
    subtract,
    walk,
)

_INVERSE = {
    "sin": "asin",
    "cos": "acos",
    "tan": "atan",
    "asin": "sin",
    "acos": "cos",
    "atan": "tan",
    "exp": "log",
    "log": "exp",
}


NO_WAY = 4


@cache
def rearranged(equation: str, name: str) -> tuple[int, Node | None]:
    """How costly it is to get a symbol out of an equation, and the formula for it.

    Cost 0: it stands alone on the left; 1: it occurs once and the tree is turned inside out; 2: it occurs several
    times but linearly and the terms are gathered; 3: neither (formula None), a search is needed; NO_WAY: it stands
    inside a floor, where many values would do.
    """
    left, right = parse_equation(equation)
    in_left, in_right = occurrences(left, name), occurrences(right, name)
    if left == Symbol(name) and not in_right:
        return 0, right
    if in_left + in_right == 1:
        formula = _isolate(left, right, name) if in_left else _isolate(right, left, name)
    else:
        formula = None
    if formula is not None:
        return 1, formula
    if any(isinstance(part, Call) and part.name == "floor" and occurrences(part, name) for part in _all(left, right)):
        return NO_WAY, None
    gathered = _gather(left, right, name)
    return (3, None) if gathered is None else (2, gathered)


def _all(*sides: Node) -> Iterator[Node]:
    for side in sides:
        yield from walk(side)


def _isolate(side: Node, other: Node, name: str) -> Node | None:
    """``other`` carried through the inverse of each operation round the symbol; the positive root of a square."""
    while side != Symbol(name):
        match side:
            case Binary(op, left, right):
                inner_left = occurrences(left, name) > 0
                match op, inner_left:
                    case "+", True:
                        side, other = left, subtract(other, right)
                    case "+", False:
                        side, other = right, subtract(other, left)
                    case "-", True:
                        side, other = left, add(other, right)
                    case "-", False:
                        side, other = right, subtract(left, other)
                    case "*", True:
                        side, other = left, divide(other, right)
                    case "*", False:
                        side, other = right, divide(other, left)
                    case "/", True:
                        side, other = left, multiply(other, right)
                    case "/", False:
                        side, other = right, divide(left, other)
                    case "**", True if isinstance(right, Number):
                        side, other = left, _root(other, right)
                    case _:
                        side, other = right, divide(Call("log", other), Call("log", left))
            case Negative(arg):
                side, other = arg, negate(other)
            case Call("sqrt", arg):
                side, other = arg, Binary("**", other, Number(2.0))
            case Call("pos", arg):
                side = arg
            case Call(function, arg) if function in _INVERSE:
                side, other = arg, Call(_INVERSE[function], other)
            case _:
                return None
    return other


def _root(node: Node, exponent: Number) -> Node:
    return Call("sqrt", node) if exponent.value == 2 else Binary("**", node, divide(ONE, exponent))


def _gather(left: Node, right: Node, name: str) -> Node | None:
    """Clear fractions, collect the symbol's terms on the right, divide."""
    a, b = _fraction(left, name), _fraction(right, name)
    if a is None or b is None:
        return None
    on_left, on_right = _product(a[0], b[1]), _product(b[0], a[1])
    if on_left is None or on_right is None:
        return None
    (slope_left, rest_left), (slope_right, rest_right) = on_left, on_right
    slope = subtract(slope_right, slope_left)
    return None if slope == ZERO else divide(subtract(rest_left, rest_right), slope)


Line = tuple[Node, Node]  # slope and rest of a straight-line function of the symbol


def _fraction(node: Node, name: str) -> tuple[Line, Line] | None:
    """The tree as one straight line in the symbol over another, or None where that can't be."""
    if occurrences(node, name) == 0:
        return (ZERO, node), (ZERO, ONE)
    match node:
        case Symbol():
            return (ONE, ZERO), (ZERO, ONE)
        case Negative(arg):
            inner = _fraction(arg, name)
            return inner and ((negate(inner[0][0]), negate(inner[0][1])), inner[1])
        case Binary("+" | "-" as op, left, right):
            return _sum(_fraction(left, name), _fraction(right, name), op)
        case Binary("*", left, right):
            return _times(_fraction(left, name), _fraction(right, name))
        case Binary("/", left, right):
            divisor = _fraction(right, name)
            return _times(_fraction(left, name), divisor and divisor[::-1])
    return None


def _sum(a: tuple[Line, Line] | None, b: tuple[Line, Line] | None, op: str) -> tuple[Line, Line] | None:
    if a is None or b is None:
        return None
    join = add if op == "+" else subtract
    if a[1] == b[1]:
        return (join(a[0][0], b[0][0]), join(a[0][1], b[0][1])), a[1]
    first, second, below = _product(a[0], b[1]), _product(b[0], a[1]), _product(a[1], b[1])
    if first is None or second is None or below is None:
        return None
    return (join(first[0], second[0]), join(first[1], second[1])), below


def _times(a: tuple[Line, Line] | None, b: tuple[Line, Line] | None) -> tuple[Line, Line] | None:
    if a is None or b is None:
        return None
    top, bottom = _product(a[0], b[0]), _product(a[1], b[1])
    return None if top is None or bottom is None else (top, bottom)


def _product(a: Line, b: Line) -> Line | None:
    """The product of two lines, or None if it would be a parabola."""
    if a[0] != ZERO and b[0] != ZERO:
        return None
    slope = multiply(a[1], b[0]) if a[0] == ZERO else multiply(a[0], b[1])
    return slope, multiply(a[1], b[1])
