"""A prediction that was made before the answer was shown, and how far off it was."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from html import escape
from typing import Any

import uncertainties

from calc.figures import shown
from calc.measure import Reading, read
from calc.messages import Message, Refused
from calc.question import Question, box_unit
from calc.shown import typed_text, value_text
from calc.units import KINDS
from calc.views import Findings

CLOSE = 0.05
"""Within such a share a prediction is called close: a choice of ours, no source."""


def predictions(question: Question, request: Mapping[str, Any]) -> tuple[dict[str, Reading], dict[str, Message]]:
    """The predictions that can be read, by symbol, and what is wrong with the others.

    ``predicted`` in the request is a symbol to ``text`` and the ``units`` (us or si) that stood beside its box then.
    """
    given = request.get("predicted")
    found: dict[str, Reading] = {}
    wrong: dict[str, Message] = {}
    for symbol, told in given.items() if isinstance(given, Mapping) else ():
        quantity = question.quantities.get(symbol)
        text = told.get("text") if isinstance(told, Mapping) else None
        if quantity is None or not isinstance(text, str) or not text.strip():
            continue
        system = "si" if told.get("units") == "si" else "us"
        try:
            found[symbol] = read(text, KINDS[quantity.kind], quantity.label, box_unit(quantity, system), system)
        except Refused as refused:
            wrong[symbol] = refused.message
    return found, wrong


def compared(question: Question, findings: Findings, made: Mapping[str, Reading]) -> str:
    """How far each prediction is from what the sheet finds, as HTML."""
    return " ".join(escape(_compared(question, findings, symbol, reading)) for symbol, reading in made.items())


def _compared(question: Question, findings: Findings, symbol: str, reading: Reading) -> str:
    quantity = question.quantities[symbol]
    yours = typed_text(quantity, reading.nominal, question.system)
    best = findings.best(symbol)
    if best is None:
        return f"You predicted {yours}. The sheet can’t tell yet: fill in what is missing."
    actual = uncertainties.nominal_value(best[1])
    told = f"You predicted {yours}; the sheet finds {value_text(quantity, actual, question.system)}."
    return told + off(reading.nominal, actual, lambda value: value_text(quantity, value, question.system))


def off(predicted: float, actual: float, text_of: Callable[[float], str]) -> str:
    """How far off a prediction was, as a sentence with a space before it; nothing beside an actual value of zero."""
    if actual == 0:
        return ""
    apart = predicted - actual
    share = abs(apart / actual)
    if share <= CLOSE:
        return f" That is close: within {shown(100 * CLOSE, 1)} %."
    return f" That is {text_of(abs(apart))} too {'high' if apart > 0 else 'low'}, {_percent(share)} % off."


def _percent(share: float) -> str:
    return f"{100 * share:.0f}" if share < 10 else "over 900"
