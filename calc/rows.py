"""Row formulas: ``F[i]``, ``sum(... for i in loads)`` and ``prod(...)`` written out for a given number of rows.

The solver, the working and the tests only ever see the written-out symbols F_1, F_2, ...
"""

from __future__ import annotations

import ast
from collections.abc import Mapping
from functools import cache

from calc.formula import FormulaError


def written_out(text: str, counts: Mapping[str, int], i: int | None = None) -> str:
    """The formula text with each row symbol written out; ``i`` is the row of an ``each`` relation (from 1)."""
    return _written_out(text, tuple(counts.items()), i)


@cache
def _written_out(text: str, counts: tuple[tuple[str, int], ...], i: int | None) -> str:
    if "[" not in text and " for " not in text:
        return text
    left, sign, right = text.partition("=")
    writer = _Writer(dict(counts), {} if i is None else {"i": i})
    sides = [ast.unparse(writer.visit(ast.parse(side.strip(), mode="eval").body)) for side in (left, right)]
    return f" {sign} ".join(sides)


class _Writer(ast.NodeTransformer):
    def __init__(self, counts: Mapping[str, int], index: Mapping[str, int]) -> None:
        self.counts, self.index = counts, index

    def visit_Subscript(self, node: ast.Subscript) -> ast.expr:
        """``F[i]`` or ``F[i - 1]`` becomes ``F_3``."""
        if not isinstance(node.value, ast.Name):
            raise FormulaError(f"only a symbol can have rows: {ast.unparse(node)}")
        number = ast.unparse(node.slice)
        for name, value in self.index.items():
            number = number.replace(name, str(value))
        first, _, less = number.partition(" - ")
        return ast.Name(f"{node.value.id}_{int(first) - int(less or 0)}", ast.Load())

    def visit_Call(self, node: ast.Call) -> ast.expr:
        """A sum or product over rows becomes its terms."""
        match node:
            case ast.Call(
                func=ast.Name(id="sum" | "prod" as name),
                args=[ast.GeneratorExp(elt=term, generators=[ast.comprehension(target=ast.Name(id=i), iter=over)])],
            ):
                terms = [
                    _Writer(self.counts, {**self.index, i: row}).visit(ast.parse(ast.unparse(term), mode="eval").body)
                    for row in range(1, self.counts[ast.unparse(over)] + 1)
                ]
                total: ast.expr = terms[0]
                for part in terms[1:]:
                    total = ast.BinOp(total, ast.Add() if name == "sum" else ast.Mult(), part)
                return ast.copy_location(total, node)
        self.generic_visit(node)
        return node
