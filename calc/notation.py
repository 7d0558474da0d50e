"""A formula tree as MathML and as plain text, with symbols or with numbers put in; one precedence table for both."""

from __future__ import annotations

from collections.abc import Callable
from html import escape

from calc import symbols
from calc.formula import Binary, Call, Negative, Node, Number, Symbol

SIGNS = {"+": 1, "-": 1, "*": 2, "/": 2, "**": 4}
"""How tightly each sign binds."""

_PREFIX, _ATOM = 3, 9
_INVERSE = {"asin": "sin", "acos": "cos", "atan": "tan"}

Leaf = Callable[[str, bool], tuple[str, str]]
"""Gives (number, unit) for a symbol; the flag says whether it stands inside sin, cos or tan."""


def rank(node: Node) -> int:
    """How tightly a node holds together."""
    match node:
        case Binary(op, _, _):
            return SIGNS[op]
        case Negative():
            return _PREFIX
        case _:
            return _ATOM


def number_text(value: float) -> str:
    """A constant of a formula."""
    return f"{value:g}"


def mathml(node: Node, leaf: Leaf | None = None, turning: bool = False) -> str:
    """The tree as MathML without the outer <math>; with ``leaf``, numbers and units stand for the symbols."""
    match node:
        case Symbol(name):
            return symbols.mathml(name) if leaf is None or name == "pi" else _quantity(*leaf(name, turning))
        case Number(value):
            return f"<mn>{number_text(value)}</mn>"
        case Negative(arg):
            return f"<mrow><mo>−</mo>{_in_brackets(arg, 2, leaf, turning)}</mrow>"
        case Call("sqrt", arg):
            return f"<msqrt>{mathml(arg, leaf, turning)}</msqrt>"
        case Call("pos", arg):
            inner = mathml(arg, leaf, turning)
            return f"<mrow><mi>max</mi><mo>(</mo><mn>0</mn><mo>,</mo>{inner}<mo>)</mo></mrow>"
        case Call("floor", arg):
            return f"<mrow><mo>⌊</mo>{mathml(arg, leaf, turning)}<mo>⌋</mo></mrow>"
        case Call(name, arg):
            return _function(name, arg, leaf, turning)
        case Binary("/", left, right):
            return f"<mfrac>{_row(mathml(left, leaf, turning))}{_row(mathml(right, leaf, turning))}</mfrac>"
        case Binary("**", left, right):
            needs = leaf is not None or rank(left) < _ATOM
            base = mathml(left, leaf, turning)
            return f"<msup>{_brackets(base) if needs else _row(base)}{_row(mathml(right, leaf, turning))}</msup>"
        case Binary(op, left, right):
            sign = sign_between(op, left, leaf)
            a = _in_brackets(left, SIGNS[op], leaf, turning)
            b = _in_brackets(right, SIGNS[op] + (op == "-"), leaf, turning)
            return f"<mrow>{a}{f'<mo>{sign}</mo>' if sign else ''}{b}</mrow>"


def sign_between(op: str, left: Node, leaf: Leaf | None) -> str:
    """The sign of a sum or product: a dot between symbols, a cross between numbers, nothing between the two."""
    if op != "*":
        return {"+": "+", "-": "−"}[op]
    if leaf is not None:
        return "×"
    return "" if isinstance(left, Number) else "·"


def _quantity(number: str, unit: str) -> str:
    if not unit:
        return f"<mn>{number}</mn>"
    if unit == "°":
        return f"<mn>{number}°</mn>"
    return f'<mrow><mn>{number}</mn><mspace width=".22em"/><mtext>{escape(unit)}</mtext></mrow>'


def quantity(number: str, unit: str) -> str:
    """A number with its unit as MathML."""
    return _quantity(number, unit)


def _function(name: str, arg: Node, leaf: Leaf | None, turning: bool) -> str:
    inside = turning or name in ("sin", "cos", "tan")
    inner = mathml(arg, leaf, inside if name not in _INVERSE else False)
    bare = isinstance(arg, Symbol | Number) and name not in ("exp", "log")
    label = (
        f"<msup><mi>{_INVERSE[name]}</mi><mrow><mo>−</mo><mn>1</mn></mrow></msup>"
        if name in _INVERSE
        else f"<mi>{'ln' if name == 'log' else name}</mi>"
    )
    argument = '<mspace width=".17em"/>' + _row(inner) if bare and (leaf is None or inside) else _brackets(inner)
    return f"<mrow>{label}{argument}</mrow>"


def _in_brackets(node: Node, above: int, leaf: Leaf | None, turning: bool) -> str:
    inner = mathml(node, leaf, turning)
    needs = rank(node) < above and not (isinstance(node, Binary) and node.op == "/")
    return _brackets(inner) if needs else inner


def _brackets(inner: str) -> str:
    return f"<mrow><mo>(</mo>{inner}<mo>)</mo></mrow>"


def _row(inner: str) -> str:
    return inner if inner.startswith("<mrow>") else f"<mrow>{inner}</mrow>"


def text(node: Node, leaf: Leaf | None = None, turning: bool = False) -> str:
    """The tree as a line of plain text; ``×`` stands between numbers, ``*`` between symbols."""
    match node:
        case Symbol(name):
            if leaf is None or name == "pi":
                return name
            number, unit = leaf(name, turning)
            return f"{number}°" if unit == "°" else f"{number} {unit}".rstrip()
        case Number(value):
            return number_text(value)
        case Negative(arg):
            return f"-{_bracketed(arg, 2, leaf, turning)}"
        case Call(name, arg):
            inside = (turning or name in ("sin", "cos", "tan")) and name not in _INVERSE
            return f"{name}({text(arg, leaf, inside)})"
        case Binary(op, left, right):
            sign = {"+": " + ", "-": " - ", "*": " × " if leaf else "*", "/": " / ", "**": "**"}[op]
            a = _bracketed(left, SIGNS[op] + (op == "**"), leaf, turning)
            b = _bracketed(right, SIGNS[op] + (op in "-/"), leaf, turning)
            return f"({a}){sign}{b}" if op == "**" and leaf else f"{a}{sign}{b}"


def _bracketed(node: Node, above: int, leaf: Leaf | None, turning: bool) -> str:
    inner = text(node, leaf, turning)
    return f"({inner})" if rank(node) < above else inner
