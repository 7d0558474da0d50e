"""The drawings of an answer, and the sliders that move them."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from html import escape
from typing import Any

import uncertainties

from calc import results
from calc.drawing.scene import NARROW, WIDE, Scene
from calc.figures import plain
from calc.question import Question, box_unit, example_text, limits
from calc.shown import exact, with_unit
from calc.units import KINDS, factor, in_unit
from calc.views import Findings

_SLIDE = (0.5, 2.5)
"""The range of a slider in multiples of the example, where the author wants no other."""


def drawings(question: Question, findings: Findings, request: Mapping[str, Any]) -> dict[str, str]:
    """The SVGs asked for, with their captions; none where the shape is not known yet.

    ``draw`` is "wide", "narrow" or "both", or one of them for each of "machine", "work" and "page". ``asked`` names
    typed boxes that are shown as "?", and so is all that was worked out; the rest stands as typed.
    """
    asked = request.get("draw")
    widths_of = {"wide": (WIDE,), "narrow": (NARROW,), "both": (WIDE, NARROW)}
    calculator = question.calculator
    pictures = {"machine": calculator.draw, "work": calculator.draw_work, "page": calculator.draw_page}
    found: dict[str, str] = {}
    for name, draw in pictures.items():
        widths = widths_of.get(str(asked.get(name) if isinstance(asked, Mapping) else asked), ())
        for width in widths if draw else ():
            if name == "page" and width != WIDE:  # paper has one width
                continue
            drawing = draw(_scene(question, findings, request, name, width)) if draw else None
            if drawing is not None:
                found[f"{name}_{'wide' if width == WIDE else 'narrow'}"] = drawing.svg
                found[f"{name}_caption"] = escape(drawing.caption)
    return found


def _scene(question: Question, findings: Findings, request: Mapping[str, Any], picture: str, width: int) -> Scene:
    values, texts = {}, {}
    asked = request["asked"] if isinstance(request.get("asked"), list | tuple) else None
    for symbol in question.quantities:
        best = findings.best(symbol)
        if best is not None and symbol not in findings.waiting:
            value = uncertainties.nominal_value(best[1])
            values[symbol], texts[symbol] = value, results.text_in(question, symbol, best[1])
            if asked is not None:
                known = symbol in question.readings and symbol not in asked
                texts[symbol] = exact(question, symbol) if known else "?"
    for choice in question.calculator.choices:
        texts[choice.symbol] = dict(choice.options)[question.choices[choice.symbol]]
    part = travel_of(request) / 100
    length, force = _length_unit(question, asked), "lbf" if question.system == "us" else "N"
    key = f"{question.calculator.key}-work" if picture == "work" else question.calculator.key
    choices = dict(question.choices)
    return Scene(key, width, values, texts, choices, part, (length, factor(length)), (force, factor(force)))


def _length_unit(question: Question, asked: Sequence[str] | None) -> str:
    """What the drawing's scale counts in: the unit of the first length's box, or the one that a problem gives it in."""
    lengths = [symbol for symbol, it in question.quantities.items() if it.kind == "length" and it.level]
    given = [symbol for symbol in lengths if symbol in question.readings] if asked is not None else []
    if given:
        return question.readings[given[0]].unit
    return box_unit(question.quantities[lengths[0]], question.system) if lengths else "in"


def travel_of(request: Mapping[str, Any]) -> int | float:
    """How far the machine has moved, 0 to 100 %; half way if the request does not say so in a number."""
    travel = request.get("travel", 50)
    if not isinstance(travel, int | float) or travel != travel:
        return 50
    return min(max(travel, 0), 100)


def sliders(question: Question, findings: Findings, request: Mapping[str, Any]) -> list[dict[str, Any]]:
    """What the reader can slide: each typed box of level 1 that starts with an example, and the machine's travel."""
    found = []
    for symbol, quantity in question.quantities.items():
        example = example_text(quantity, question.system)
        reading = question.readings.get(symbol)
        slide = quantity.slide or (None if quantity.kind == "ratio" else _SLIDE)
        if quantity.level != 1 or not example or reading is None or slide is None:
            continue
        if float(example) == 0:  # no multiple of it is a range
            continue
        unit = box_unit(quantity, question.system)
        middle, value = float(example), in_unit(reading.nominal, unit)
        low, high = (_nice(middle * part) for part in slide)
        step = _step(middle)
        if KINDS[quantity.kind].whole:
            low, high, step = _whole_ends(low, high, limits(quantity))
        found.append(_slider(symbol, quantity.label, min(low, value), max(high, value), step, value, unit))
    if question.calculator.draw is not None and not question.calculator.still:
        found.append(_slider("travel", "Travel", 0, 100, 1, travel_of(request), "%"))
    return found


def _slider(symbol: str, label: str, low: float, high: float, step: float, value: float, unit: str) -> dict[str, Any]:
    low, high, value = (float(plain(x)) for x in (low, high, value))
    return {
        "symbol": symbol,
        "label": label,
        "low": low,
        "high": high,
        "step": step,
        "value": value,
        "unit": unit,
        "low_text": with_unit(plain(low), unit),
        "high_text": with_unit(plain(high), unit),
        "text": with_unit(plain(value), unit),
    }


def _whole_ends(low: float, high: float, reach: tuple[float, float]) -> tuple[float, float, float]:
    """The ends and the step of a slider that counts."""
    return max(math.floor(low), reach[0]), min(math.ceil(high), reach[1]), 1


def _step(middle: float) -> float:
    """A slider step of about a fiftieth of the example's value: 1, 2 or 5 times a power of ten."""
    size = 10.0 ** math.floor(math.log10(middle / 40))
    return float(plain(max(part * size for part in (1, 2, 5) if part * size <= middle / 40 * 1.0001)))


def _nice(value: float) -> float:
    return float(f"{value:.2g}")
