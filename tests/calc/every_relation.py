"""Every relation of every calculator in every case, for the tests that run over all of them."""

from __future__ import annotations

from itertools import product

from calc.model import Calculator, Quantity
from calc.registry import CALCULATORS
from calc.rows import written_out

SPANS = (1, 2, 4)
VIEWS = ("ideal", "expected", "measured", "plain")


def cases(calculator: Calculator) -> list[dict[str, str]]:
    """Every combination of choices."""
    options = [[(choice.symbol, value) for value, _ in choice.options] for choice in calculator.choices]
    return [dict(chosen) for chosen in product(*options)]


def all_relations() -> list[tuple[str, str]]:
    """(calculator key, equation text), each once; identities too."""
    found = set()
    for key, calculator in CALCULATORS.items():
        for length in SPANS if calculator.span_symbols else SPANS[:1]:
            counts = {**calculator.row_counts(()), **dict.fromkeys(calculator.span_symbols, length)}
            for chosen in cases(calculator):
                for view in VIEWS:
                    found |= {(key, relation.text) for relation in calculator.active(chosen, view, counts)}
            for relation in calculator.identities:
                for i in range(1, counts[relation.each] + 1) if relation.each else (None,):
                    found.add((key, written_out(relation.text, counts, i)))
    return sorted(found)


def quantities(key: str) -> dict[str, Quantity]:
    """All quantities of a calculator, rows written out."""
    calculator = CALCULATORS[key]
    return calculator.written_out(calculator.row_counts(()))
