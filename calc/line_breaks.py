"""Where a long formula may be broken: before the plus, minus and times signs of its outermost level, as books do.

A page cannot wrap inside one <math>, so a long formula becomes several, side by side as long as there is room.
"""

from __future__ import annotations

from calc.formula import Binary, Call, Negative, Node, Number, Symbol
from calc.notation import SIGNS, Leaf, mathml, number_text, rank, sign_between

LONGEST = 26


def broken(node: Node, leaf: Leaf | None = None, turning: bool = False) -> list[str]:
    """The tree as MathML without the outer <math>, in as many parts as it may be broken into; a short one in one."""
    if width(node, leaf, turning) <= LONGEST:
        return [mathml(node, leaf, turning)]
    match node:
        case Binary("+" | "-" | "*" as op, left, right):
            first = _bracketed(left, SIGNS[op], leaf, turning)
            second = _bracketed(right, SIGNS[op] + (op == "-"), leaf, turning)
            sign = sign_between(op, left, leaf)
            return [*first, (f"<mo>{sign}</mo>" if sign else "") + second[0], *second[1:]]
        case Negative(arg):
            parts = _bracketed(arg, 2, leaf, turning)
            return [f"<mo>−</mo>{parts[0]}", *parts[1:]]
    return [mathml(node, leaf, turning)]


def _bracketed(node: Node, above: int, leaf: Leaf | None, turning: bool) -> list[str]:
    """The parts of an inner tree, with the brackets that it needs round all of them."""
    parts = broken(node, leaf, turning)
    if rank(node) >= above or (isinstance(node, Binary) and node.op == "/"):
        return parts
    parts[0] = f"<mo>(</mo>{parts[0]}"
    parts[-1] = f"{parts[-1]}<mo>)</mo>"
    return parts


def width(node: Node, leaf: Leaf | None = None, turning: bool = False) -> int:
    """About how many characters wide a formula is; a fraction is as wide as the longer of its two lines."""
    match node:
        case Symbol(name):
            number, unit = (name, "") if leaf is None or name == "pi" else leaf(name, turning)
            return len(number) + len(unit) + bool(unit)
        case Number(value):
            return len(number_text(value))
        case Negative(arg):
            return 1 + width(arg, leaf, turning)
        case Call(name, arg):
            inside = (turning or name in ("sin", "cos", "tan")) and not name.startswith("a")
            return len(name) + 2 + width(arg, leaf, inside)
        case Binary(op, left, right):
            a, b = width(left, leaf, turning), width(right, leaf, turning)
            return max(a, b) if op == "/" else a + b + (1 if op == "**" else 3)
