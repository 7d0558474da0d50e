"""Formula text as a small tree: read it, list its symbols, work it out, write it the other way round.

Formula text comes only from the calculators' own declarations. It is parsed with ``ast`` into five kinds of node
and never reaches ``eval``; what a reader types is never parsed as a formula.
"""

from __future__ import annotations

import ast
import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from types import SimpleNamespace
from typing import Any

FUNCTIONS = ("sin", "cos", "tan", "asin", "acos", "atan", "sqrt", "exp", "log", "pos", "floor")
IN_DEGREES = {"sind": "sin", "cosd": "cos", "tand": "tan", "atand": "atan"}
"""The same in degrees, for formulas whose numbers are as a page shows them; plain numbers only."""


class FormulaError(ValueError):
    """A declared formula uses something that this language does not have."""


@dataclass(frozen=True)
class Number:
    """A constant written in a formula."""

    value: float


@dataclass(frozen=True)
class Symbol:
    """A quantity, by its symbol."""

    name: str


@dataclass(frozen=True)
class Binary:
    """``left op right`` with op one of + - * / **."""

    op: str
    left: Node
    right: Node


@dataclass(frozen=True)
class Negative:
    """``-arg``."""

    arg: Node


@dataclass(frozen=True)
class Call:
    """A function of one argument: one of FUNCTIONS or IN_DEGREES.

    ``pos(x)`` is x or 0 at least, ``floor(x)`` its whole part.
    """

    name: str
    arg: Node


Node = Number | Symbol | Binary | Negative | Call

_OPS: dict[type[ast.operator], str] = {ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/", ast.Pow: "**"}
_COMPARE: dict[type[ast.cmpop], str] = {ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">="}
_CONSTANTS = {"pi": math.pi}


def parse(text: str) -> Node:
    """The tree of one expression. Raises FormulaError for anything outside the language."""
    return _convert(_expression(text), text)


@cache
def parse_equation(text: str) -> tuple[Node, Node]:
    """The two sides of ``left = right``."""
    left, sign, right = text.partition("=")
    if not sign or "=" in right:
        raise FormulaError(f"not one equation: {text}")
    return parse(left), parse(right)


@cache
def parse_comparison(text: str) -> tuple[Node, str, Node]:
    """Left side, sign and right side of ``left < right`` (also <= > >=)."""
    node = _expression(text)
    if not isinstance(node, ast.Compare) or len(node.ops) != 1 or type(node.ops[0]) not in _COMPARE:
        raise FormulaError(f"not one comparison: {text}")
    sign = _COMPARE[type(node.ops[0])]
    return _convert(node.left, text), sign, _convert(node.comparators[0], text)


def _expression(text: str) -> ast.expr:
    try:
        return ast.parse(text.strip(), mode="eval").body
    except SyntaxError as problem:
        raise FormulaError(f"cannot read {text!r}") from problem


def _convert(node: ast.expr, text: str) -> Node:
    match node:
        case ast.Constant(value=int() | float() as value) if not isinstance(value, bool):
            return Number(float(value))
        case ast.Name(id=name):
            return Symbol(name)
        case ast.BinOp(left=left, op=op, right=right) if type(op) in _OPS:
            return Binary(_OPS[type(op)], _convert(left, text), _convert(right, text))
        case ast.UnaryOp(op=ast.USub(), operand=arg):
            return Negative(_convert(arg, text))
        case ast.Call(func=ast.Name(id=name), args=[arg], keywords=[]) if name in FUNCTIONS or name in IN_DEGREES:
            return Call(name, _convert(arg, text))
    raise FormulaError(f"{ast.unparse(node)!r} is not part of the formula language (in {text!r})")


def walk(node: Node) -> Iterator[Node]:
    """The node and all nodes below it, left to right."""
    yield node
    match node:
        case Binary(_, left, right):
            yield from walk(left)
            yield from walk(right)
        case Negative(arg) | Call(_, arg):
            yield from walk(arg)


@cache
def symbols(node: Node) -> tuple[str, ...]:
    """The symbols in a tree, each once, in order of reading; constants such as pi are left out."""
    found = (part.name for part in walk(node) if isinstance(part, Symbol))
    return tuple(dict.fromkeys(name for name in found if name not in _CONSTANTS))


def occurrences(node: Node, name: str) -> int:
    """How often a symbol stands in a tree."""
    return sum(isinstance(part, Symbol) and part.name == name for part in walk(node))


def _pos(value: Any) -> Any:
    return value if getattr(value, "nominal_value", value) > 0 else value * 0


def _cos(angle: float) -> float:
    """The cosine, where 90 degrees, which no float hits, leaves nothing: noise must never be shown."""
    found = math.cos(angle)
    return 0.0 if abs(found) < 1e-15 else found


def _floor(value: Any) -> float:
    """Rounding noise must not cost a whole one: 3 in over 1/2 in are 6. A doubt ends here."""
    nominal = getattr(value, "nominal_value", value)
    return float(math.floor(nominal + 1e-9 * abs(nominal)))


BEYOND_MATH = {"pos": _pos, "floor": _floor}
"""The functions that no library of maths has, the same for floats and for uncertain numbers."""

_PLAIN = {name: BEYOND_MATH.get(name) or getattr(math, name) for name in FUNCTIONS} | {"cos": _cos}
_DEGREES: dict[str, Callable[[float], float]] = {
    "sind": lambda angle: math.sin(math.radians(angle)),
    "cosd": lambda angle: _cos(math.radians(angle)),
    "tand": lambda angle: math.tan(math.radians(angle)),
    "atand": lambda ratio: math.degrees(math.atan(ratio)),
}
FLOAT_MATHS = SimpleNamespace(**_PLAIN, **_DEGREES)


def evaluate(node: Node, values: Mapping[str, Any], maths: Any = FLOAT_MATHS) -> Any:
    """The value of a tree for the given symbols.

    ``maths`` holds the functions for the kind of number used (floats, or uncertain numbers through
    ``uncertainties.umath``). Raises KeyError for a missing symbol, ZeroDivisionError, ValueError or OverflowError
    where the arithmetic does.
    """
    match node:
        case Symbol(name):
            return values[name] if name in values else _CONSTANTS[name]
        case Number(value):
            return value
        case Binary(op, left, right):
            a, b = evaluate(left, values, maths), evaluate(right, values, maths)
            return _BINARY[op](a, b)
        case Negative(arg):
            return -evaluate(arg, values, maths)
        case Call(name, arg):
            return getattr(maths, name)(evaluate(arg, values, maths))


def _minus(a: Any, b: Any) -> Any:
    """a - b, where two numbers that differ in their last bits only leave nothing: noise must never be shown."""
    rest = a - b
    noise = 1e-14 * abs(getattr(a, "nominal_value", a))
    cancels = abs(getattr(rest, "nominal_value", rest)) < noise and getattr(rest, "std_dev", 0.0) < noise
    return 0.0 if cancels else rest


def _power(base: Any, exponent: Any) -> Any:
    result = base**exponent
    if isinstance(result, complex):
        raise ValueError("a root of a negative number")
    return result


_BINARY: dict[str, Callable[[Any, Any], Any]] = {
    "+": lambda a, b: a + b,
    "-": _minus,
    "*": lambda a, b: a * b,
    "/": lambda a, b: a / b,
    "**": _power,
}


# Building trees without needless ones and zeros, so that a rearranged formula reads as a teacher would write it.

ZERO, ONE = Number(0.0), Number(1.0)


def add(a: Node, b: Node) -> Node:
    """a + b."""
    if a == ZERO:
        return b
    if b == ZERO:
        return a
    if isinstance(b, Negative):
        return subtract(a, b.arg)
    if isinstance(a, Negative):
        return subtract(b, a.arg)
    return Binary("+", a, b)


def subtract(a: Node, b: Node) -> Node:
    """a - b."""
    if b == ZERO:
        return a
    if a == ZERO:
        return negate(b)
    if isinstance(b, Negative):
        return add(a, b.arg)
    return Binary("-", a, b)


def negate(a: Node) -> Node:
    """-a."""
    if a == ZERO:
        return ZERO
    return a.arg if isinstance(a, Negative) else Negative(a)


def multiply(a: Node, b: Node) -> Node:
    """a * b."""
    if ZERO in (a, b):
        return ZERO
    if a == ONE:
        return b
    if b == ONE:
        return a
    if isinstance(a, Negative):
        return negate(multiply(a.arg, b))
    if isinstance(b, Negative):
        return negate(multiply(a, b.arg))
    return Binary("*", a, b)


def divide(a: Node, b: Node) -> Node:
    """a / b."""
    if b == ONE or a == ZERO:
        return a
    return Binary("/", a, b)
