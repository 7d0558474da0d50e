"""A question made ready for solving: broken conditions named, fills that give way taken back, whole numbers counted."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import uncertainties

from calc.formula import Symbol, evaluate, parse_comparison, symbols
from calc.machine import Machine, holds
from calc.messages import Message, message
from calc.model import Condition, Quantity, holds_in
from calc.question import Counted, Question, limits
from calc.shown import value_text
from calc.solve import Solution

_TYPED = re.compile(r"typed\((\w+)\)")


def settled(question: Question) -> Question:
    """The question as it is solved: with further messages, fills and whole numbers."""
    question = _giving_way(question.refusing(_broken_by_given(question)))
    for symbol, quantity in question.quantities.items():
        if quantity.least and symbol not in question.typed and symbol not in question.filled:
            question = _counting(question, quantity)
    return question


def place(question: Question, condition: Condition) -> str:
    """The box at which a broken condition is named: its own if something is typed there, else another one of it."""
    left, _, right = parse_comparison(condition.text)
    typed = (name for name in (condition.at, *symbols(left), *symbols(right)) if name in question.typed)
    return next(typed, condition.at)


def _broken_by_given(question: Question) -> dict[str, Message]:
    """Stop conditions that the typed boxes alone break, each at its box."""
    given, found = question.given, {}
    case = {**question.choices, "view": "given"}
    for condition in question.calculator.conditions:
        broken = condition.stop and not condition.withdraws and holds_in(condition.when, case)
        if broken and holds(condition.text, given) is False:
            found[place(question, condition)] = message(condition.code)
    return found


def _giving_way(question: Question) -> Question:
    """The question without those fills of a choice that follow from what is typed (the effort left out)."""
    if not question.filled:
        return question
    calculator, measured, machine = question.calculator, question.calculator.measured, Machine(question)
    typed = frozenset(question.readings) | question.blocked
    kept = {}
    for symbol, fill in question.filled.items():
        view = ("expected" if symbol in calculator.losses else "ideal") if measured else "plain"
        if symbol not in machine.reach(view, typed - {measured}, assuming=()):
            kept[symbol] = fill
    return replace(question, filled=kept)


def _counting(question: Question, quantity: Quantity) -> Question:
    """The question with the smallest whole number for an empty box, or with the message that there is none.

    Unchanged while the number follows from other boxes, or the condition cannot be worked out yet.
    """
    bounds = tuple(symbol for symbol in _TYPED.findall(quantity.least))
    if any(symbol not in question.readings for symbol in bounds):
        return question
    text = _TYPED.sub(r"typed_\1", quantity.least)
    left = parse_comparison(text)[0]
    tested = left.name if isinstance(left, Symbol) else ""
    typed = {f"typed_{symbol}": question.readings[symbol].value for symbol in bounds}
    low, high = limits(quantity)
    before, solution = None, Solution({})
    for number in range(round(low), round(high) + 1):
        trial = replace(question, counted={**question.counted, quantity.symbol: Counted(float(number), bounds)})
        solution = _solved(trial)
        true = holds(text, {**solution.values, **typed})
        if true is None:
            return question
        if true or _just_meets(text, {**solution.values, **typed}):
            counted = Counted(float(number), bounds, tested, before)
            return replace(question, counted={**question.counted, quantity.symbol: counted})
        before = solution.values.get(tested)
    return question.refusing({(*bounds, quantity.symbol)[0]: _none_works(question, quantity, solution.values)})


def _just_meets(text: str, values: Mapping[str, Any]) -> bool:
    """Whether both sides are equal but for their last bits: a limit that is met exactly is met."""
    left, _, right = parse_comparison(text)
    nominal = {name: uncertainties.nominal_value(value) for name, value in values.items()}
    return math.isclose(evaluate(left, nominal), evaluate(right, nominal), rel_tol=1e-9)


def _solved(question: Question) -> Solution:
    """The solution that a whole number is judged by: with the losses, if any are given."""
    losses = frozenset(question.given) & question.calculator.losses
    view = ("expected" if losses else "ideal") if question.calculator.measured else "plain"
    return Machine(question).solve(view, question.given, question.blocked - question.limits)


def _none_works(question: Question, quantity: Quantity, values: Any) -> Message:
    """The words for when even the highest number is not enough; they may name any value that it would give."""
    texts = {s: value_text(question.quantities[s], v, question.system) for s, v in values.items()}
    try:
        return message(quantity.none, **{**texts, "name": quantity.label})
    except KeyError:  # one of the values could not be worked out
        return message("e-noroot-plain", name=quantity.label)
