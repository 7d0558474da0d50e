"""What a calculator's form needs before anybody has typed: its boxes, choices, rows and example."""

from __future__ import annotations

from typing import Any

from calc import symbols
from calc.messages import message
from calc.model import Calculator, Quantity
from calc.question import example_text
from calc.registry import CALCULATORS
from calc.shown import unit_of


def keys() -> tuple[str, ...]:
    """The key of every calculator."""
    return tuple(CALCULATORS)


def describe(key: str) -> dict[str, Any]:
    """What a calculator's form needs: title, choices, boxes in order, groups of rows. Raises KeyError."""
    calculator: Calculator = CALCULATORS[key]
    return {
        "key": key,
        "title": calculator.title,
        "choices": [
            {
                "symbol": choice.symbol,
                "label": choice.label,
                "level": choice.level,
                "before": choice.before,
                "options": [{"value": value, "label": label} for value, label in choice.options],
                "default": {system: choice.default(system) for system in ("us", "si")},
            }
            for choice in calculator.choices
        ],
        "quantities": [_described(q) for q in calculator.quantities if q.level],
        "rows": [
            {
                "name": rows.name,
                "label": rows.label,
                "quantities": [_described(q) for q in rows.quantities if q.level],
                "high": rows.high,
                "example": [dict(row) for row in rows.example],
            }
            for rows in calculator.rows
        ],
        "labels": {q.symbol: q.label for q in calculator.written_out(calculator.row_counts(())).values()},
        "page_act": calculator.page_act,
        "draws": calculator.draw is not None,
        "cautions": list(calculator.cautions),
        "book_case": message("n-book").text if calculator.book_case else "",
    }


def _described(quantity: Quantity) -> dict[str, Any]:
    return {
        "symbol": quantity.symbol,
        "label": quantity.label,
        "symbol_html": symbols.html(quantity.symbol, quantity.role == "effort"),
        "role": quantity.role if quantity.kind == "force" else "",
        "level": quantity.level,
        "hint": quantity.hint,
        "units": {system: unit_of(quantity, system) for system in ("us", "si")},
        "example": {system: example_text(quantity, system) for system in ("us", "si")},
    }


def example(key: str, units: str = "us") -> dict[str, Any]:
    """The request that the page starts with: the example's boxes and the default choices. Raises KeyError."""
    calculator: Calculator = CALCULATORS[key]
    quantities = calculator.written_out(calculator.row_counts(()))
    given = {s: text for s, q in quantities.items() if q.level and (text := example_text(q, units))}
    return {
        "calculator": key,
        "given": given,
        "choices": {choice.symbol: choice.default(units) for choice in calculator.choices},
        "units": units,
    }
