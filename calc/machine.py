"""One calculator in one case: which relations and conditions it has, what can be reached, and solving."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from typing import Any

import uncertainties

from calc.formula import evaluate, parse_comparison, symbols
from calc.model import Condition, holds_in
from calc.question import Question, limits
from calc.solve import Bounds, Solution, plan, reach, relation_symbols, run

_COMPARE: Mapping[str, Callable[[Any, Any], bool]] = {
    "<": lambda a, b: a < b,
    "<=": lambda a, b: a <= b,
    ">": lambda a, b: a > b,
    ">=": lambda a, b: a >= b,
}
_ANY_LENGTH = 2  # of a span, where only its shape matters


class Machine:
    """A question's calculator in the case that was chosen: its relations and defaults for each view."""

    def __init__(self, question: Question) -> None:
        self.question = question
        self.bounds = {s: Bounds(*limits(q)) for s, q in question.quantities.items()}
        self.defaults = tuple(
            (symbol, quantity.default) for symbol, quantity in question.quantities.items() if quantity.default
        )
        self.span_symbols = question.calculator.span_symbols
        self._relations: dict[tuple[str, tuple[tuple[str, int], ...]], tuple[tuple[str, str], ...]] = {}

    def relations(self, view: str, lengths: tuple[tuple[str, int], ...] = ()) -> tuple[tuple[str, str], ...]:
        """The relations of a view as (text, words), for spans of these known lengths."""
        if (view, lengths) not in self._relations:
            counts = {**self.question.counts, **dict(lengths)}
            active = self.question.calculator.active(self.question.choices, view, counts)
            self._relations[view, lengths] = tuple((relation.text, relation.words) for relation in active)
        return self._relations[view, lengths]

    def conditions(self, view: str) -> list[Condition]:
        """The conditions of a view."""
        case = {**self.question.choices, "view": view}
        return [c for c in self.question.calculator.conditions if holds_in(c.when, case)]

    def reach(self, view: str, known: frozenset[str], *, assuming: Collection[str] | None = None) -> set[str]:
        """The symbols that are known or follow from the known ones, with the defaults named (all of them if None)."""
        defaults = self._defaults(assuming)
        lengths = self._lengths({name: self.question.given.get(name, _ANY_LENGTH) for name in known})
        reached = reach(self.relations(view, lengths), known, defaults)
        further = self._lengths({name: dict(lengths).get(name, _ANY_LENGTH) for name in reached})
        return reached if further == lengths else reach(self.relations(view, further), known, defaults)

    def solve(
        self,
        view: str,
        given: Mapping[str, Any],
        blocked: frozenset[str],
        *,
        assuming: Collection[str] | None = None,
    ) -> Solution:
        """Run the plan; a blocked box is neither known nor worked out. A span waits until its length has come out."""
        lengths, defaults = self._lengths(given), self._defaults(assuming)
        solution = self._run(view, lengths, given, blocked, defaults)
        further = self._lengths(solution.values)
        return solution if further == lengths else self._run(view, further, given, blocked, defaults)

    def _defaults(self, wanted: Collection[str] | None) -> tuple[tuple[str, str], ...]:
        return self.defaults if wanted is None else tuple(pair for pair in self.defaults if pair[0] in wanted)

    def _run(
        self,
        view: str,
        lengths: tuple[tuple[str, int], ...],
        given: Mapping[str, Any],
        blocked: frozenset[str],
        defaults: tuple[tuple[str, str], ...],
    ) -> Solution:
        relations = self.relations(view, lengths)
        if blocked:
            relations = tuple(pair for pair in relations if not blocked.intersection(relation_symbols(pair[0])))
        defaults = tuple(pair for pair in defaults if pair[0] not in blocked)

        def stops(values: Mapping[str, Any]) -> bool:
            return all(holds(c.text, values) is not False for c in self.conditions(view) if c.stop)

        return run(plan(relations, frozenset(given), defaults), given, self.bounds, stops)

    def _lengths(self, values: Mapping[str, Any]) -> tuple[tuple[str, int], ...]:
        """The known symbols of spans, where they are whole."""
        found = []
        for name in self.span_symbols:
            if name in values:
                value = uncertainties.nominal_value(values[name])
                if abs(value - round(value)) < 1e-9 * abs(value) and value <= self.bounds[name].high:
                    found.append((name, round(value)))
        return tuple(found)


def holds(text: str, values: Mapping[str, Any]) -> bool | None:
    """Whether a comparison of formulas is true; None while one of its symbols is unknown."""
    left, sign, right = parse_comparison(text)
    names = symbols(left) + symbols(right)
    if any(name not in values for name in names):
        return None
    nominal = {name: uncertainties.nominal_value(values[name]) for name in names}
    try:
        return bool(_COMPARE[sign](evaluate(left, nominal), evaluate(right, nominal)))
    except (ValueError, ZeroDivisionError, OverflowError):
        return None
