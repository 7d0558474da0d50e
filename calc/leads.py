"""Links from one sheet to another calculator's, with numbers of this one in its boxes.

A lead is shown only when every number it needs is known and fits its box. What the reader typed goes on as it was
typed; a computed number goes on with so many figures that the other sheet shows the same results.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import uncertainties

from calc.figures import significant
from calc.formula import Symbol, evaluate, parse
from calc.link import write
from calc.model import Calculator, Lead, Quantity, holds_in
from calc.question import Question, box_unit, limits
from calc.registry import CALCULATORS
from calc.shown import exact, with_unit
from calc.units import in_unit
from calc.views import Findings

_FIGURES = 9
"""More than any sheet shows, and few enough to read in a box."""


def leads(question: Question, findings: Findings) -> list[dict[str, str]]:
    """Every lead of a calculator in its order: key, words and link; the link is empty where it leads nowhere now."""
    return [
        {"calculator": lead.to, "words": lead.words, "link": _link(lead, question, findings)}
        for lead in question.calculator.leads
    ]


def _link(lead: Lead, question: Question, findings: Findings) -> str:
    if not holds_in(lead.when, question.choices):
        return ""
    target = CALCULATORS[lead.to]
    boxes = target.written_out(target.row_counts([*lead.given, *lead.typed]))
    values = _values(question, findings)
    given: dict[str, str] = {}
    for symbol, text in lead.given.items():
        found = _text(text, boxes[symbol], question, values)
        if not found:
            return ""
        given[symbol] = found
    for symbol, own in lead.typed.items():
        if own in question.readings and own in values:
            given[symbol] = exact(question, own)
    system = question.system
    choices = {choice.symbol: choice.default(system) for choice in target.choices} | dict(lead.choices)
    request = {"calculator": lead.to, "units": system, "given": given, "choices": choices}
    return write(request, levels=_levels(target, given, boxes, choices, system))


def _values(question: Question, findings: Findings) -> dict[str, Any]:
    """What is known of this sheet (SI), as its boxes and drawing show it."""
    found = {}
    for symbol in question.quantities:
        best = findings.best(symbol)
        if best is not None and symbol not in findings.waiting and symbol not in findings.errors:
            found[symbol] = best[1]
    return found


def _text(formula: str, box: Quantity, question: Question, values: Mapping[str, Any]) -> str:
    """What stands in the other sheet's box, or nothing if it is not known or does not fit there."""
    node = parse(formula)
    try:
        value = float(evaluate(node, {name: uncertainties.nominal_value(v) for name, v in values.items()}))
    except (KeyError, ValueError, ZeroDivisionError, OverflowError):
        return ""
    low, high = limits(box)
    if not low <= value <= high:
        return ""
    unit = box_unit(box, question.system)
    if isinstance(node, Symbol) and question.quantities[node.name].kind == box.kind:
        if node.name in question.readings and node.name not in question.limits:
            return exact(question, node.name)
        unit = box_unit(question.quantities[node.name], question.system)  # the reader meets the number he knows
    number = significant(in_unit(value, unit), _FIGURES)
    return with_unit(number.rstrip("0").rstrip(".") if "." in number else number, unit)


def _levels(
    target: Calculator,
    given: Mapping[str, str],
    boxes: Mapping[str, Quantity],
    choices: Mapping[str, str],
    system: str,
) -> list[int]:
    """The depths that must stand open, so that the reader sees what the link has set."""
    deep = {boxes[symbol].level for symbol in given}
    deep |= {choice.level for choice in target.choices if choices[choice.symbol] != choice.default(system)}
    return sorted(level for level in deep if level > 1)
