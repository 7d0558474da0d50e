"""Row formulas: ``F[i]``, ``sum(... for i in loads)`` and ``prod(...)`` written out for a given number of rows.

``span(1, n)`` in the place of the rows counts from the first to the second, both included, once n is known:
``sum(k**i for i in span(1, n))`` is k + k**2 + k**3 for n = 3. The solver, the working and the tests only ever see what
is written out: F_1, F_2, ...
"""

from __future__ import annotations

import ast
from collections.abc import Mapping
from functools import cache

from calc.formula import FormulaError, evaluate, parse, symbols


def written_out(text: str, counts: Mapping[str, int], i: int | None = None) -> str:
    """The formula text with each row symbol written out; ``i`` is the row of an ``each`` relation (from 1)."""
    return _written_out(text, tuple(counts.items()), i)


@cache
def span_symbols(text: str) -> tuple[str, ...]:
    """The symbols that must be known whole numbers before a formula can be written out."""
    if "span(" not in text:
        return ()
    left, _, right = text.partition("=")
    found: list[str] = []
    for side in (left, right):
        for node in ast.walk(ast.parse(side.strip(), mode="eval")):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "span":
                for end in node.args:
                    found.extend(symbols(parse(ast.unparse(end))))
    return tuple(dict.fromkeys(found))


@cache
def _written_out(text: str, counts: tuple[tuple[str, int], ...], i: int | None) -> str:
    if "[" not in text and " for " not in text:
        return text
    left, sign, right = text.partition("=")
    writer = _Writer(dict(counts), {} if i is None else {"i": i})
    sides = [ast.unparse(writer.visit(ast.parse(side.strip(), mode="eval").body)) for side in (left, right)]
    return f" {sign} ".join(sides).replace(" ** ", "**")


class _Writer(ast.NodeTransformer):
    def __init__(self, counts: Mapping[str, int], index: Mapping[str, int]) -> None:
        self.counts, self.index = counts, index

    def visit_Subscript(self, node: ast.Subscript) -> ast.expr:
        """``F[i]`` or ``F[i - 1]`` becomes ``F_3``."""
        if not isinstance(node.value, ast.Name):
            raise FormulaError(f"only a symbol can have rows: {ast.unparse(node)}")
        return ast.Name(f"{node.value.id}_{self._whole(node.slice)}", ast.Load())

    def visit_Name(self, node: ast.Name) -> ast.expr:
        """The index itself becomes its number."""
        return ast.Constant(self.index[node.id]) if node.id in self.index else node

    def visit_BinOp(self, node: ast.BinOp) -> ast.expr:
        """Powers of 0 and 1 are written as 1 and the base."""
        self.generic_visit(node)
        match node:
            case ast.BinOp(op=ast.Pow(), right=ast.Constant(value=0)):
                return ast.Constant(1)
            case ast.BinOp(left=base, op=ast.Pow(), right=ast.Constant(value=1)):
                return base
        return node

    def visit_Call(self, node: ast.Call) -> ast.expr:
        """A sum or product over rows or a span becomes its terms."""
        match node:
            case ast.Call(
                func=ast.Name(id="sum" | "prod" as name),
                args=[ast.GeneratorExp(elt=term, generators=[ast.comprehension(target=ast.Name(id=i), iter=over)])],
            ):
                terms = [
                    _Writer(self.counts, {**self.index, i: row}).visit(ast.parse(ast.unparse(term), mode="eval").body)
                    for row in self._indices(over)
                ]
                total: ast.expr = terms[0] if terms else ast.Constant(0 if name == "sum" else 1)
                for part in terms[1:]:
                    total = ast.BinOp(total, ast.Add() if name == "sum" else ast.Mult(), part)
                return ast.copy_location(total, node)
        self.generic_visit(node)
        return node

    def _indices(self, over: ast.expr) -> range:
        match over:
            case ast.Call(func=ast.Name(id="span"), args=[first, last]):
                return range(self._whole(first), self._whole(last) + 1)
        return range(1, self.counts[ast.unparse(over)] + 1)

    def _whole(self, node: ast.expr) -> int:
        return int(evaluate(parse(ast.unparse(node)), {**self.counts, **self.index}))
