"""A calculator's own relations on plain numbers: what many questions in a row need, without boxes, words or doubt.

The planner has no formula of its own. It asks the same relations as the pages do, step by step as ``calc.solve`` plans
them, and keeps each answer: a kit asks the same thing many times.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from calc.machine import holds
from calc.measure import read
from calc.model import holds_in
from calc.question import box_unit, limits
from calc.registry import CALCULATORS
from calc.solve import Bounds, Step, plan, run, told
from calc.units import KINDS


class NoAnswer(ValueError):
    """The relations give no such number: the machine jams, or no size is enough."""


def worked(key: str, wanted: str, view: str = "expected", /, **given: float | str) -> dict[str, float]:
    """What one calculator says for these numbers (SI) and choices (text), as far as ``wanted`` needs it.

    ``wanted`` names symbols with spaces between. Raises NoAnswer where one of them does not come out, or where a
    condition of the calculator forbids it.
    """
    return dict(_worked(key, wanted, view, tuple(given.items())))


def one(key: str, wanted: str, view: str = "expected", /, **given: float | str) -> float:
    """The same for a single symbol."""
    return _worked(key, wanted, view, tuple(given.items()))[wanted]


@lru_cache(maxsize=4096)
def _worked(key: str, wanted: str, view: str, given: tuple[tuple[str, float | str], ...]) -> Mapping[str, float]:
    calculator = CALCULATORS[key]
    numbers = {name: float(value) for name, value in given if not isinstance(value, str)}
    chosen = {name: value for name, value in given if isinstance(value, str)}
    numbers = {**_filled(key, tuple(chosen.items())), **numbers}
    spans = tuple((name, round(numbers[name])) for name in calculator.span_symbols if name in numbers)
    steps, bounds, stops = _way(key, wanted, view, tuple(chosen.items()), tuple(numbers), spans)
    values = run(steps, numbers, bounds).values
    symbols = wanted.split()
    if any(symbol not in values for symbol in symbols) or any(holds(text, values) is False for text in stops):
        raise NoAnswer(f"{key} has no {wanted} here")
    return {symbol: float(values[symbol]) for symbol in symbols}


@lru_cache(maxsize=64)
def _filled(key: str, chosen: tuple[tuple[str, str], ...]) -> Mapping[str, float]:
    """What the chosen options bring along, as a thread's size does."""
    calculator, found = CALCULATORS[key], {}
    quantities = {quantity.symbol: quantity for quantity in calculator.quantities}
    for choice in calculator.choices:
        for symbol, fill in choice.fills.get(dict(chosen).get(choice.symbol, ""), {}).items():
            if symbol in quantities:
                box = quantities[symbol]
                found[symbol] = read(fill.text("us"), KINDS[box.kind], box.label, box_unit(box, "us")).nominal
    return found


@lru_cache(maxsize=512)
def _way(
    key: str,
    wanted: str,
    view: str,
    chosen: tuple[tuple[str, str], ...],
    known: tuple[str, ...],
    spans: tuple[tuple[str, int], ...],
) -> tuple[list[Step], dict[str, Bounds], list[str]]:
    """The steps to the wanted symbols, the limits of each, and the conditions that stop: one plan for many numbers."""
    calculator = CALCULATORS[key]
    choices = {choice.symbol: choice.default("us") for choice in calculator.choices} | dict(chosen)
    counts = calculator.row_counts(known)
    quantities = calculator.written_out(counts)
    active = calculator.active(choices, view, {**counts, **dict(spans)})
    relations = tuple((relation.text, relation.words) for relation in active)
    defaults = tuple((symbol, quantity.default) for symbol, quantity in quantities.items() if quantity.default)
    steps = told(plan(relations, frozenset(known), defaults), wanted.split())
    bounds = {symbol: Bounds(*limits(quantity)) for symbol, quantity in quantities.items()}
    case = {**choices, "view": view}
    stops = [c.text for c in calculator.conditions if c.stop and holds_in(c.when, case)]
    return steps, bounds, stops
