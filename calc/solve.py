"""Forward chaining: from what is given, step by step, to everything that follows from it.

A plan is made once for each combination of relations and filled boxes (cheapest step first, ties in declared order)
and then run on numbers. The steps that were taken are the working that is shown.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache, lru_cache, partial
from itertools import pairwise
from types import SimpleNamespace
from typing import Any

import uncertainties
from uncertainties import umath

from calc.formula import BEYOND_MATH, FLOAT_MATHS, FUNCTIONS, Node, evaluate, parse, parse_equation, symbols
from calc.model import Relation
from calc.rearrange import NO_WAY, rearranged

GIVEN, DIRECT, TURNED, GATHERED, SEARCHED = "given", "direct", "turned", "gathered", "searched"
_HOW = (DIRECT, TURNED, GATHERED, SEARCHED)
ASSUMED = "assumed"


@dataclass(frozen=True)
class Step:
    """One step of a chain: which symbol, from which relation, by which formula (None for a search)."""

    symbol: str
    relation: Relation
    formula: Node | None
    how: str

    @property
    def needs(self) -> tuple[str, ...]:
        """The symbols that must be known first."""
        if self.formula is not None:
            return symbols(self.formula)
        return tuple(name for name in relation_symbols(self.relation.text) if name != self.symbol)


@dataclass(frozen=True)
class Bounds:
    """Where a quantity may lie (SI, inclusive) and whether a value of zero is sensible."""

    low: float
    high: float


@dataclass
class Solution:
    """What came out of one run: values (given ones too), the steps taken, and what failed and why."""

    values: dict[str, Any]
    steps: list[Step] = field(default_factory=list)
    failed: dict[str, str] = field(default_factory=dict)
    other_roots: dict[str, float] = field(default_factory=dict)


@cache
def relation_symbols(text: str) -> tuple[str, ...]:
    """The symbols of an equation, each once."""
    left, right = parse_equation(text)
    return tuple(dict.fromkeys(symbols(left) + symbols(right)))


@lru_cache(maxsize=4096)
def plan(
    relations: tuple[tuple[str, str], ...], known: frozenset[str], defaults: tuple[tuple[str, str], ...] = ()
) -> tuple[Step, ...]:
    """The steps that can be taken from the known symbols. ``relations`` are (text, words) pairs.

    Defaults (symbol, formula) are assumed one at a time, in order, only when nothing else moves.
    """
    reached = set(known)
    steps: list[Step] = []
    open_relations = list(relations)
    while True:
        best: tuple[int, int, Step] | None = None
        for order, (text, words) in enumerate(open_relations):
            unknown = [name for name in relation_symbols(text) if name not in reached]
            if len(unknown) != 1:
                continue
            cost, formula = rearranged(text, unknown[0])
            if cost == NO_WAY:
                continue
            if best is None or cost < best[0]:
                best = cost, order, Step(unknown[0], Relation(text, words), formula, _HOW[cost])
            if cost == 0:
                break
        step = best[2] if best is not None else _assumption(defaults, reached)
        if best is not None:
            del open_relations[best[1]]
        if step is None:
            return tuple(steps)
        steps.append(step)
        reached.add(step.symbol)


def _assumption(defaults: tuple[tuple[str, str], ...], reached: set[str]) -> Step | None:
    """The first default that is still open and can be worked out."""
    for name, text in defaults:
        if name not in reached and all(part in reached for part in symbols(parse(text))):
            return Step(name, Relation(f"{name} = {text}"), parse(text), ASSUMED)
    return None


def reach(
    relations: tuple[tuple[str, str], ...], known: Collection[str], defaults: tuple[tuple[str, str], ...] = ()
) -> set[str]:
    """The symbols that are known or follow."""
    return set(known) | {step.symbol for step in plan(relations, frozenset(known), defaults)}


def _function(name: str, value: Any) -> Any:
    """A function of a formula, also of an uncertain number; a plain one gives what it gives among plain ones."""
    if isinstance(value, float):
        return getattr(FLOAT_MATHS, name)(value)
    return (BEYOND_MATH.get(name) or getattr(umath, name))(value)


MATHS = SimpleNamespace(**{name: partial(_function, name) for name in FUNCTIONS})


def run(
    steps: Sequence[Step],
    given: Mapping[str, Any],
    bounds: Mapping[str, Bounds],
    stops: Callable[[Mapping[str, Any]], bool] = lambda values: True,
) -> Solution:
    """Take the steps in order. A step that fails leaves its symbol, and what needs it, without a value.

    ``failed`` says why: "domain" (no such number), "big" (not finite), "noroot" or "low:..." is left to the caller
    who knows the words. ``stops`` tells whether the stop conditions hold, for choosing among roots.
    """
    solution = Solution(dict(given))
    for step in steps:
        if any(name not in solution.values for name in step.needs):
            continue
        try:
            if step.formula is None:
                value = _search(step, solution, bounds, stops)
            else:
                value = evaluate(step.formula, solution.values, MATHS)
            value = value if value is None else _without_noise(value)
        except (ValueError, ZeroDivisionError):
            solution.failed[step.symbol] = "domain"
            continue
        except OverflowError:
            solution.failed[step.symbol] = "big"
            continue
        if value is None:
            solution.failed[step.symbol] = "noroot"
            continue
        if not math.isfinite(uncertainties.nominal_value(value)):
            solution.failed[step.symbol] = "big"
            continue
        solution.values[step.symbol] = value
        solution.steps.append(step)
    return solution


_NOISE = 1e-12
"""A doubt with a smaller share of its value than this is what rounding left of one that cancels."""


def _without_noise(value: Any) -> Any:
    """A value without a doubt that cancels: on another machine the same noise may be nothing, and is shown as such."""
    nominal = float(uncertainties.nominal_value(value))
    return nominal if uncertainties.std_dev(value) <= _NOISE * abs(nominal) else value


_GRID = 240


def _search(
    step: Step, solution: Solution, bounds: Mapping[str, Bounds], stops: Callable[[Mapping[str, Any]], bool]
) -> Any:
    """The smallest root within the quantity's limits, by a grid and bisection to the last bit; None if there is none.

    A pole (the two sides jump apart) is no root, and a root must satisfy the stop conditions. An uncertain input
    gets one Newton step with uncertain numbers, so that du = -(df/da)/(df/du) da.
    """
    left, right = parse_equation(step.relation.text)
    nominal = {name: uncertainties.nominal_value(value) for name, value in solution.values.items()}

    def difference(x: float) -> float:
        trial = {**nominal, step.symbol: x}
        try:
            return float(evaluate(left, trial) - evaluate(right, trial))
        except (ValueError, ZeroDivisionError, OverflowError):
            return math.nan

    limits = bounds[step.symbol]
    roots = [root for root in _roots(difference, limits.low, limits.high) if stops({**nominal, step.symbol: root})]
    if not roots:
        return None
    if len(roots) > 1:
        solution.other_roots[step.symbol] = roots[1]
    root = roots[0]
    if nominal == solution.values:
        return root
    width = max(abs(root), 1e-3) * 1e-6
    slope = (difference(root + width) - difference(root - width)) / (2 * width)
    uncertain = {**solution.values, step.symbol: root}
    return root - (evaluate(left, uncertain, MATHS) - evaluate(right, uncertain, MATHS)) / slope


def _roots(difference: Callable[[float], float], low: float, high: float) -> list[float]:
    roots = []
    points = [low + (high - low) * i / _GRID for i in range(_GRID + 1)]
    values = [difference(x) for x in points]
    spread = max((abs(value) for value in values if value == value), default=0.0)
    for (a, fa), (b, fb) in pairwise(zip(points, values, strict=True)):
        if fa == 0:
            roots.append(a)
        elif fa * fb < 0:
            root = _bisect(difference, a, fa, b)
            if abs(difference(root)) <= spread:
                roots.append(root)
    if values[-1] == 0:
        roots.append(points[-1])
    return roots


def _bisect(difference: Callable[[float], float], a: float, fa: float, b: float) -> float:
    while True:
        middle = (a + b) / 2
        if middle in (a, b):
            return middle
        value = difference(middle)
        if value == 0:
            return middle
        if (value < 0) == (fa < 0):
            a, fa = middle, value
        else:
            b = middle


def told(steps: Sequence[Step], wanted: Sequence[str]) -> list[Step]:
    """The steps that lead to the wanted symbols, each just before it is needed (depth first from the answer)."""
    by_symbol = {step.symbol: step for step in steps}
    order: list[Step] = []

    def visit(name: str) -> None:
        step = by_symbol.get(name)
        if step is None or step in order:
            return
        for need in step.needs:
            visit(need)
        order.append(step)

    for name in wanted:
        visit(name)
    return order
