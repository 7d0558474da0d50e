"""The state of each box: typed, computed, measured, waiting or wrong, with its words."""

from __future__ import annotations

from typing import Any

import uncertainties

from calc.figures import sixteenths
from calc.messages import Message
from calc.model import holds_in
from calc.question import Question, box_unit
from calc.shown import counted_words, exact, number_text, typed_number, unit_of, value_text
from calc.units import KINDS, factor
from calc.views import TITLES, Findings, View


def remarks_of(findings: Findings) -> list[tuple[str, Message]]:
    """The remarks of all views, each code once, with the box it stands at."""
    found: dict[str, tuple[str, Message]] = {}
    for view in findings.views.values():
        for at, note in view.remarks:
            found.setdefault(note.code, (at, note))
    return list(found.values())


def field(question: Question, findings: Findings, symbol: str) -> dict[str, Any]:
    """All that the page needs to show one box."""
    quantity, typed = question.quantities[symbol], question.typed.get(symbol, "")
    box: dict[str, Any] = {
        "state": "empty",
        "text": typed,
        "shown": "",
        "unit": unit_of(quantity, question.system),
        "mark": "",
        "note": "",
        "error": None,
    }
    if not holds_in(quantity.when, question.choices):
        return {**box, "state": "unused"}
    problem = findings.errors.get(symbol)
    if problem is not None:
        box["error"] = {"code": problem.code, "start": problem.start, "words": problem.words, "fill": problem.fill}
        box["state"] = "error"
        return {**box, **_restated(question, symbol)}
    remarks = " ".join(note.text for at, note in remarks_of(findings) if at == symbol)
    if typed:
        measured = symbol == question.calculator.measured and "measured" in findings.views
        box["state"] = "measured" if measured else "typed"
        box["mark"] = "limit" if symbol in question.limits else "measured" if measured else ""
        fits = _within_limit(question, findings, symbol) or _fits(question, findings, symbol)
        note = " ".join(part for part in (_echo(question, symbol), fits, remarks) if part)
        return {**box, "note": note, **_restated(question, symbol)}
    best = findings.best(symbol)
    if symbol in findings.waiting or (best is None and findings.waiting & {symbol}):
        names = [question.quantities[name].label.lower() for name in findings.errors if name in question.quantities]
        waits = f"Waits for the {names[0]}." if names else "Waits for another box."
        return {**box, "state": "waiting", "mark": "out of date", "note": waits}
    if best is None:
        return box
    name, value = best
    if symbol == "eta" and uncertainties.nominal_value(value) > 1 + 1e-12:
        return {**box, "note": "Over 100 %: not possible. Re-measure."}
    view = findings.views[name]
    box["shown"] = number_text(quantity, value, question.system, question.digits)
    filled = question.filled.get(symbol)
    assumed = symbol in view.assumed or filled is not None
    box["state"] = "assumed" if assumed else "computed"
    box["mark"] = "assumed" if assumed else "computed"
    box["note"] = " ".join(part for part in (_origin(question, findings, symbol, view), remarks) if part)
    return box


def _restated(question: Question, symbol: str) -> dict[str, Any]:
    """What was typed, with its unit made explicit, and as it would stand in the box of either system."""
    reading = question.readings.get(symbol)
    if reading is None:
        return {}
    quantity = question.quantities[symbol]
    own = {}
    for system in ("us", "si"):
        unit = box_unit(quantity, system)
        own[system] = typed_number(reading.value, unit)
    return {"exact": exact(question, symbol), "converted": own}


def _echo(question: Question, symbol: str) -> str:
    reading = question.readings.get(symbol)
    return "" if reading is None else " ".join(part for part in (reading.echo, reading.warning) if part)


def _within_limit(question: Question, findings: Findings, symbol: str) -> str:
    """Beside a limit, the value that the whole number found for it gives."""
    best = findings.best(symbol) if symbol in question.limits else None
    if best is None:
        return ""
    quantity = question.quantities[symbol]
    return f"The {quantity.label.lower()} itself: {value_text(quantity, best[1], question.system)}."


def _fits(question: Question, findings: Findings, symbol: str) -> str:
    """Beside a typed value, what the other views say of the same quantity."""
    measured = findings.views.get("measured")
    if symbol == question.calculator.measured and measured is not None:
        parts = [
            f"{TITLES[name]}: {value_text(question.quantities[symbol], view.values[symbol], question.system)}."
            for name in ("ideal", "expected")
            if (view := findings.views.get(name)) and symbol in view.values
        ]
        return " ".join(parts)
    if measured is not None and symbol in question.calculator.losses and symbol in measured.values:
        value = value_text(question.quantities[symbol], measured.values[symbol], question.system)
        return f"Your measured effort fits {value}."
    return ""


def _on_a_tape(inches: float, *, cut: bool) -> str:
    """A length in sixteenths of an inch, where that says more than the decimal number."""
    if cut:
        return f"To cut: {sixteenths(inches, 'up')} in, rounded up."
    count = inches * 16
    if abs(count - round(count)) > 1e-6:
        return f"About {sixteenths(inches)} in."
    return "" if round(count) % 16 == 0 else f"That is {sixteenths(inches)} in."


def _origin(question: Question, findings: Findings, symbol: str, view: View) -> str:
    """Under a computed box: where its value comes from."""
    quantity, value = question.quantities[symbol], view.values[symbol]
    if symbol in question.filled:
        return question.filled[symbol].note
    if symbol in question.counted:
        return counted_words(question, symbol)
    if symbol in view.assumed:
        return quantity.default_note
    if quantity.measured:
        if view.name == "expected":
            ideal = findings.views["ideal"].values.get(symbol)
            rest = "" if ideal is None else f" Ideal: {value_text(quantity, ideal, question.system)}."
            return f"With the losses you gave.{rest}"
        return "Ideal: no friction at all." if view.name == "ideal" else ""
    if view.name == "measured" and symbol in question.calculator.losses and symbol != "eta":
        return "The one value that would explain the measured effort."
    if symbol == "eta" and view.name == "expected":
        return "To expect with this friction."
    if KINDS[quantity.kind].whole and (nominal := uncertainties.nominal_value(value)) != round(nominal):
        return f"Not a whole number. The nearest is {round(nominal)}."
    if quantity.kind == "length" and unit_of(quantity, question.system) == "in":
        inches = uncertainties.nominal_value(value) / factor("in")
        if 1 <= inches < 10000:
            return _on_a_tape(inches, cut=quantity.cut)
    return ""
