"""Three ways to look at one machine: ideal, expected (with its losses) and measured; and whether the boxes agree.

The ideal view leaves the losses out. The expected view takes the losses that were typed. The measured view takes the
effort that the scale showed and asks what was lost. A measured effort is therefore never a contradiction.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

import uncertainties

from calc.formula import evaluate, parse_comparison, symbols
from calc.messages import Message, message
from calc.model import Calculator, Condition, holds_in
from calc.question import Question, limits, takes_zero
from calc.shown import value_text
from calc.solve import ASSUMED, Bounds, Solution, Step, plan, reach, relation_symbols, run

RELATIVE_TOLERANCE = 0.005
_COMPARE = {
    "<": lambda a, b: a < b,
    "<=": lambda a, b: a <= b,
    ">": lambda a, b: a > b,
    ">=": lambda a, b: a >= b,
}
TITLES = {"ideal": "Ideal", "expected": "With friction", "measured": "Measured", "plain": "Result"}


@dataclass
class View:
    """One view: its name, what was taken as given, what came out, and the remarks on it."""

    name: str
    given: dict[str, Any]
    solution: Solution
    remarks: list[tuple[str, Message]] = field(default_factory=list)

    @property
    def values(self) -> Mapping[str, Any]:
        """Every known value (SI)."""
        return self.solution.values

    @property
    def assumed(self) -> set[str]:
        """The symbols whose value was assumed, not given or worked out."""
        return {step.symbol for step in self.solution.steps if step.how == ASSUMED}


@dataclass
class Findings:
    """All views of a question, the messages per box, and the boxes that wait for another."""

    views: dict[str, View]
    errors: dict[str, Message]
    waiting: set[str]
    coefficients: frozenset[str] = frozenset()

    def best(self, symbol: str) -> tuple[str, Any] | None:
        """The view and value that stand for a symbol: measured before expected before ideal.

        A typed friction coefficient stands before the one that would explain the measured effort.
        """
        first = ("expected", "measured") if symbol in self.coefficients else ("measured", "expected")
        for name in (*first, "ideal", "plain"):
            view = self.views.get(name)
            if view is not None and symbol in view.values:
                return name, view.values[symbol]
        return None


class _Machine:
    """One calculator in one case: its relations and defaults for each view."""

    def __init__(self, question: Question) -> None:
        self.question = question
        self.bounds = {s: Bounds(*limits(q)) for s, q in question.quantities.items()}
        self.defaults = tuple(
            (symbol, quantity.default) for symbol, quantity in question.quantities.items() if quantity.default
        )
        self._relations: dict[str, tuple[tuple[str, str], ...]] = {}

    def relations(self, view: str) -> tuple[tuple[str, str], ...]:
        if view not in self._relations:
            active = self.question.calculator.active(self.question.choices, view, self.question.counts)
            self._relations[view] = tuple((relation.text, relation.words) for relation in active)
        return self._relations[view]

    def conditions(self, view: str) -> list[Condition]:
        case = {**self.question.choices, "view": view}
        return [c for c in self.question.calculator.conditions if holds_in(c.when, case)]

    def reach(self, view: str, known: frozenset[str], *, assuming: bool = True) -> set[str]:
        return reach(self.relations(view), known, self.defaults if assuming else ())

    def solve(self, view: str, given: Mapping[str, Any], blocked: frozenset[str]) -> Solution:
        """Run the plan; a blocked box is neither known nor worked out."""
        relations = tuple(pair for pair in self.relations(view) if not blocked.intersection(relation_symbols(pair[0])))
        defaults = tuple(pair for pair in self.defaults if pair[0] not in blocked)

        def stops(values: Mapping[str, Any]) -> bool:
            return all(holds(c, values) is not False for c in self.conditions(view) if c.stop)

        return run(plan(relations, frozenset(given), defaults), given, self.bounds, stops)


def holds(condition: Condition, values: Mapping[str, Any]) -> bool | None:
    """Whether a condition is true; None while one of its symbols is unknown."""
    left, sign, right = parse_comparison(condition.text)
    if any(name not in values for name in symbols(left) + symbols(right)):
        return None
    nominal = {name: uncertainties.nominal_value(values[name]) for name in symbols(left) + symbols(right)}
    try:
        return bool(_COMPARE[sign](evaluate(left, nominal), evaluate(right, nominal)))
    except (ValueError, ZeroDivisionError, OverflowError):
        return None


def find(question: Question) -> Findings:
    """Work a question out in each view that it has."""
    question = _giving_way(question.refusing(_broken_by_given(question)))
    machine = _Machine(question)
    calculator, blocked = question.calculator, question.blocked
    filled = frozenset(question.given) | blocked
    views: dict[str, View] = {}
    errors: dict[str, Message] = dict(question.errors)
    waiting: set[str] = set()
    for name, taken in _cases(calculator, machine, filled).items():
        given = {symbol: value for symbol, value in question.given.items() if symbol in taken}
        view = View(name, given, machine.solve(name, given, blocked & taken))
        reached = machine.reach(name, frozenset(taken))
        clash = _disagreement(machine, name, given, blocked & taken)
        if clash:
            errors.setdefault(*clash)
            view.solution = Solution(dict(given))
        _check(machine, view, errors)
        views[name] = view
        waiting |= reached - set(view.values)
    losses = {symbol: question.quantities[symbol] for symbol in calculator.losses if symbol in question.quantities}
    coefficients = frozenset(symbol for symbol, quantity in losses.items() if quantity.kind == "friction")
    for name, view in views.items():
        if name != "ideal" or len(views) == 1:
            # the coefficient that would explain a measured effort does not stand for one that can't be read
            waiting -= view.values.keys() - (
                coefficients if name == "measured" and "expected" in views else frozenset()
            )
    return Findings(views, errors, waiting - set(errors), coefficients)


def _giving_way(question: Question) -> Question:
    """The question without those fills of a choice that follow from what is typed (the effort left out)."""
    calculator, measured = question.calculator, question.calculator.measured
    if not question.filled:
        return question
    machine = _Machine(question)
    typed = frozenset(question.readings) | question.blocked
    kept = {}
    for symbol, fill in question.filled.items():
        view = ("expected" if symbol in calculator.losses else "ideal") if measured else "plain"
        if symbol not in machine.reach(view, typed - {measured}, assuming=False):
            kept[symbol] = fill
    return replace(question, filled=kept)


def _cases(calculator: Calculator, machine: _Machine, filled: frozenset[str]) -> dict[str, frozenset[str]]:
    """The views that a question has, and which of the filled boxes each takes."""
    if not calculator.measured:
        return {"plain": filled}
    effort, losses = calculator.measured, calculator.losses

    def without_effort(view: str, boxes: frozenset[str]) -> frozenset[str]:
        spare = boxes - {effort}
        return spare if effort in machine.reach(view, spare) else boxes

    cases = {"ideal": without_effort("ideal", filled - losses)}
    if filled & losses:
        taken = without_effort("expected", filled)
        if effort in machine.reach("expected", taken) or effort not in machine.reach("ideal", cases["ideal"]):
            cases["expected"] = taken
            if effort in taken:  # the effort helps to find another box: an ideal machine would be another machine
                del cases["ideal"]
                return cases
    if effort in filled and effort not in cases["ideal"]:
        cases["measured"] = filled - losses
    return cases


def enough(question: Question) -> list[str]:
    """The fewest empty boxes of level 1 that would give the others (the effort, which is the question, left out)."""
    machine, calculator = _Machine(question), question.calculator
    view = "ideal" if calculator.measured else "plain"
    filled = frozenset(question.given) | question.blocked
    level_1 = [s for s, q in question.quantities.items() if q.level == 1 and not q.measured]
    missing = set(level_1) - machine.reach(view, filled)
    needed = [symbol for symbol in level_1 if symbol in missing]
    for symbol in reversed(needed):
        fewer = [other for other in needed if other != symbol]
        if missing <= machine.reach(view, filled | frozenset(fewer)):
            needed = fewer
    return needed


def _broken_by_given(question: Question) -> dict[str, Message]:
    """Stop conditions that the typed boxes alone break, each at its box."""
    given, found = question.given, {}
    case = {**question.choices, "view": "given"}
    for condition in question.calculator.conditions:
        broken = condition.stop and not condition.withdraws and holds_in(condition.when, case)
        if broken and holds(condition, given) is False:
            found[_place(question, condition)] = message(condition.code)
    return found


def relation_names(condition: Condition) -> tuple[str, ...]:
    """The symbols of a condition."""
    left, _, right = parse_comparison(condition.text)
    return symbols(left) + symbols(right)


def _check(machine: _Machine, view: View, errors: dict[str, Message]) -> None:
    """Withdraw what a stop condition or a limit forbids, with words; collect the remarks."""
    question, solution = machine.question, view.solution
    for condition in machine.conditions(view.name):
        true = holds(condition, solution.values)
        if true is None or true is condition.stop:
            continue
        if condition.stop:
            withdraw(solution, condition.withdraws or tuple(step.symbol for step in solution.steps))
            errors.setdefault(_place(question, condition), message(condition.code))
        else:
            view.remarks.append((condition.at, message(condition.code)))
    for symbol, value in list(solution.values.items()):
        if symbol in view.given or symbol not in solution.values or symbol not in question.quantities:
            continue
        quantity = question.quantities[symbol]
        low, nominal = limits(quantity)[0], uncertainties.nominal_value(value)
        if nominal < 0 <= low:
            if question.calculator.measured in view.given and quantity.loss:
                withdraw(solution, (symbol,))
                continue
            text = value_text(quantity, value, question.system)
            withdraw(solution, (symbol,))
            if quantity.level:
                errors.setdefault(symbol, message("e-below", name=quantity.label, v=text))
        elif nominal == 0 and not takes_zero(quantity) and "pos" not in _formula_text(solution, symbol):
            withdraw(solution, (symbol,))
            if quantity.level:
                errors.setdefault(symbol, message("e-calc", name=quantity.label))
    for symbol, why in solution.failed.items():
        if question.quantities[symbol].level and symbol not in errors:
            label = question.quantities[symbol].label
            code = {"big": "e-big", "noroot": "e-noroot-plain"}.get(why, "e-calc")
            errors[symbol] = message(code, name=label)
    for symbol, root in solution.other_roots.items():
        if symbol in solution.values:
            quantity = question.quantities[symbol]
            text = value_text(quantity, root, question.system)
            view.remarks.append((symbol, message("n-root2", name=quantity.label, v=text)))


def _formula_text(solution: Solution, symbol: str) -> str:
    return next((step.relation.text for step in solution.steps if step.symbol == symbol), "")


def _place(question: Question, condition: Condition) -> str:
    if condition.at in question.typed:
        return condition.at
    return next((name for name in relation_names(condition) if name in question.typed), condition.at)


def withdraw(solution: Solution, names: tuple[str, ...]) -> None:
    """Take back values and all that was worked out from them."""
    gone = set(names)
    kept: list[Step] = []
    for step in solution.steps:
        if step.symbol in gone or gone.intersection(step.needs):
            gone.add(step.symbol)
        else:
            kept.append(step)
    worked_out = {step.symbol for step in solution.steps}
    solution.steps[:] = kept
    for symbol in gone & worked_out:
        solution.values.pop(symbol, None)
        solution.failed.pop(symbol, None)


def _disagreement(
    machine: _Machine, view: str, given: dict[str, Any], blocked: frozenset[str]
) -> tuple[str, Message] | None:
    """If more is typed than needed and it disagrees: the box to clear, and the words."""
    boxes = frozenset(given) | blocked
    if not any(symbol in machine.reach(view, boxes - {symbol}, assuming=False) for symbol in given):
        return None
    off = _off(machine, view, given, blocked)
    if not off:
        return None
    question = machine.question
    restoring = [
        symbol for symbol in off if not _off(machine, view, {s: v for s, v in given.items() if s != symbol}, blocked)
    ]
    names = [symbol for symbol in restoring or off if symbol in question.typed] or list(off)
    name = question.edited if question.edited in names else names[-1]
    quantity = question.quantities[name]
    return name, message("e-over", name=quantity.label, v=value_text(quantity, off[name], question.system))


def _off(machine: _Machine, view: str, given: Mapping[str, Any], blocked: frozenset[str]) -> dict[str, Any]:
    """The typed boxes that disagree with what the others give, with that value."""
    off = {}
    for symbol, value in given.items():
        others = {s: v for s, v in given.items() if s != symbol}
        worked_out = machine.solve(view, others, blocked)
        found = worked_out.values.get(symbol)
        assumed = {step.symbol for step in worked_out.steps if step.how == ASSUMED}
        if found is None or symbol in assumed:
            continue
        a, b = uncertainties.nominal_value(value), uncertainties.nominal_value(found)
        doubt = (
            2 * uncertainties.std_dev(value - found)
            if not (isinstance(value, float) and isinstance(found, float))
            else 0
        )
        resolution = machine.question.readings[symbol].resolution
        if abs(a - b) > max(RELATIVE_TOLERANCE * max(abs(a), abs(b)), resolution, doubt):
            off[symbol] = found
    return off
