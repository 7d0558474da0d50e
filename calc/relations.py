"""A calculator's relations as a book prints them: formula, words and letters, sums over rows with their sign.

The formulas that a page prints are the ones that the calculator computes with; nothing is written twice.
"""

from __future__ import annotations

import ast
from collections.abc import Mapping
from typing import Any

from calc import symbols
from calc.formula import FormulaError, Node, parse
from calc.formula import symbols as symbols_in
from calc.line_breaks import broken
from calc.model import Calculator, Quantity, Relation, holds_in
from calc.notation import mathml, rank
from calc.registry import CALCULATORS

_SIGNS = {"sum": "∑", "prod": "∏"}
_TIMES = 2  # how tightly the inside of a sum must hold together to need no brackets


def relations(key: str, choices: Mapping[str, str] | None = None, view: str = "expected") -> list[dict[str, Any]]:
    """What a calculator knows in one case, in the order in which it is declared.

    ``choices`` are other options than the default ones; ``view`` is ideal, expected or measured. For each relation:
    ``yields`` (the symbol it is named for: the first on its left side), ``text`` as declared, ``words``, ``mathml``
    (one <math> for each piece between which a line may break) and ``symbols`` (each with ``symbol``, ``html`` and
    ``label``). Raises KeyError for a calculator, choice or option that does not exist.
    """
    calculator = CALCULATORS[key]
    case = {choice.symbol: choice.default("us") for choice in calculator.choices}
    for symbol, option in (choices or {}).items():
        known = next((dict(choice.options) for choice in calculator.choices if choice.symbol == symbol), {})
        if option not in known:
            raise KeyError(f"{key} has no choice {symbol}={option}")
        case[symbol] = option
    case["view"] = view
    return [_printed(calculator, relation) for relation in calculator.relations if holds_in(relation.when, case)]


def _printed(calculator: Calculator, relation: Relation) -> dict[str, Any]:
    left_text, _, right_text = relation.text.partition("=")
    reader = _Sums()
    left, right = reader.read(left_text), reader.read(right_text)
    pieces = broken(right)
    formula = [f"{mathml(left)}<mo>=</mo>{pieces[0]}", *pieces[1:]]
    names = [*symbols_in(left), *symbols_in(right), *reader.inside]
    return {
        "yields": symbols_in(left)[0],
        "text": relation.text,
        "words": relation.words,
        "mathml": [f"<math>{reader.put_back(piece)}</math>" for piece in formula],
        "symbols": [_described(calculator, name) for name in dict.fromkeys(names) if name not in reader.sums],
    }


def _described(calculator: Calculator, symbol: str) -> dict[str, str]:
    quantity = _quantity(calculator, symbol)
    html = symbols.html(symbol, quantity.role == "effort")
    return {"symbol": symbol, "html": html, "label": quantity.label}


def _quantity(calculator: Calculator, symbol: str) -> Quantity:
    """The quantity of a symbol; for F_i the one that each row has."""
    stem = symbol.rpartition("_")[0]
    in_rows = [q for rows in calculator.rows for q in rows.quantities]
    for wanted, found in ((symbol, calculator.quantities), (symbol, in_rows), (stem, in_rows)):
        for quantity in found:
            if quantity.symbol == wanted:
                return quantity
    raise FormulaError(f"{calculator.key} has no quantity {symbol}")


class _Sums(ast.NodeTransformer):
    """Reads a formula with rows: F[i] becomes F_i, and a sum a symbol of its own that is put back at the end."""

    def __init__(self) -> None:
        self.sums: dict[str, str] = {}
        self.inside: list[str] = []

    def read(self, text: str) -> Node:
        """The tree of one side."""
        return parse(ast.unparse(self.visit(ast.parse(text.strip(), mode="eval").body)))

    def put_back(self, piece: str) -> str:
        """The MathML with each sum in its place."""
        for name, written in self.sums.items():
            piece = piece.replace(symbols.mathml(name), written)
        return piece

    def visit_Subscript(self, node: ast.Subscript) -> ast.expr:
        """``F[i]`` is written F_i, and ``F[i - 1]``, the row before, F_before."""
        return ast.Name(f"{ast.unparse(node.value)}_{ast.unparse(node.slice).replace('i - 1', 'before')}", ast.Load())

    def visit_Call(self, node: ast.Call) -> ast.expr:
        """A sum or product over rows or a span."""
        match node:
            case ast.Call(
                func=ast.Name(id="sum" | "prod" as kind),
                args=[ast.GeneratorExp(elt=term, generators=[ast.comprehension(target=ast.Name(id=i), iter=over)])],
            ):
                name = f"{kind}{len(self.sums)}"
                body = parse(ast.unparse(self.visit(term)))
                self.inside += [symbol for symbol in symbols_in(body) if symbol != i]
                inner = mathml(body)
                if rank(body) < _TIMES:
                    inner = f"<mrow><mo>(</mo>{inner}<mo>)</mo></mrow>"
                self.sums[name] = f"<mrow>{self._sign(kind, i, over)}{inner}</mrow>"
                return ast.Name(name, ast.Load())
        self.generic_visit(node)
        return node

    def _sign(self, kind: str, i: str, over: ast.expr) -> str:
        sign, index = f"<mo>{_SIGNS[kind]}</mo>", symbols.mathml(i)
        match over:
            case ast.Call(func=ast.Name(id="span"), args=[first, last]):
                low, high = parse(ast.unparse(first)), parse(ast.unparse(last))
                self.inside += symbols_in(high)
                start = f"<mrow>{index}<mo>=</mo>{mathml(low)}</mrow>"
                return f"<munderover>{sign}{start}<mrow>{mathml(high)}</mrow></munderover>"
        return f"<munder>{sign}{index}</munder>"
