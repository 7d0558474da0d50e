"""Three ways to look at one machine: ideal, expected (with its losses) and measured; and whether the boxes agree.

The ideal view leaves the losses out. The expected view takes the losses that were typed. The measured view takes the
effort that the scale showed and asks what was lost. A measured effort is therefore never a contradiction.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

import uncertainties

from calc.agreement import disagreement
from calc.machine import Machine, holds
from calc.messages import Message, message
from calc.model import Calculator, holds_in
from calc.question import Question, limits, takes_zero
from calc.settle import place
from calc.shown import value_text
from calc.solve import ASSUMED, Solution, Step

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


def find(question: Question) -> Findings:
    """Work a settled question out in each view that it has."""
    machine = Machine(question)
    calculator, blocked = question.calculator, question.blocked
    filled = frozenset(question.given) | blocked
    views: dict[str, View] = {}
    errors: dict[str, Message] = dict(question.errors)
    waiting: set[str] = set()
    for name, taken in _cases(calculator, machine, filled).items():
        given = {symbol: value for symbol, value in question.given.items() if symbol in taken}
        view = View(name, given, machine.solve(name, given, blocked & taken))
        reached = machine.reach(name, frozenset(taken))
        clash = disagreement(machine, name, given, blocked & taken, view.assumed)
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


def _cases(calculator: Calculator, machine: Machine, filled: frozenset[str]) -> dict[str, frozenset[str]]:
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
    machine, calculator = Machine(question), question.calculator
    view = "ideal" if calculator.measured else "plain"
    filled = frozenset(question.given) | question.blocked
    here = {s: q for s, q in question.quantities.items() if holds_in(q.when, question.choices)}
    level_1 = [s for s, q in here.items() if q.level == 1 and not q.measured]
    missing = set(level_1) - machine.reach(view, filled)
    needed = [symbol for symbol in level_1 if symbol in missing]
    for symbol in reversed(needed):
        fewer = [other for other in needed if other != symbol]
        if missing <= machine.reach(view, filled | frozenset(fewer)):
            needed = fewer
    return needed


def _check(machine: Machine, view: View, errors: dict[str, Message]) -> None:
    """Withdraw what a stop condition or a limit forbids, with words; collect the remarks."""
    question, solution = machine.question, view.solution
    for condition in machine.conditions(view.name):
        true = holds(condition.text, solution.values)
        if true is None or true is condition.stop:
            continue
        if condition.stop:
            withdraw(solution, condition.withdraws or tuple(step.symbol for step in solution.steps))
            errors.setdefault(place(question, condition), message(condition.code))
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
