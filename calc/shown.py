"""Values as words: a number with its unit, rounded by the one rule, with its doubt if it has one."""

from __future__ import annotations

import re
from typing import Any

import uncertainties

from calc.figures import feet_and_inches, plain, shown, sixteenths, to_places, with_doubt
from calc.model import Quantity
from calc.question import Question, box_unit, limits
from calc.units import KINDS, in_unit


def number_text(quantity: Quantity, value: Any, system: str, digits: int = 3) -> str:
    """The number alone, in the unit of the box: '92.1', '2.86 ± 0.11', '14.5'."""
    unit = box_unit(quantity, system)
    if quantity.parts:
        inches = in_unit(uncertainties.nominal_value(value), "in")
        text = feet_and_inches(inches, quantity.parts) if unit == "ft" else sixteenths(inches, parts=quantity.parts)
        return text.removesuffix(" in")
    nominal, u = _number_and_doubt(value, unit)
    if u > 0:
        return " ± ".join(with_doubt(nominal, u))
    if KINDS[quantity.kind].whole and nominal == round(nominal):
        return plain(nominal)
    if digits == 3 and unit in ("°", "%"):
        return to_places(nominal, 1)
    return shown(nominal, digits)


def _number_and_doubt(value: Any, unit: str) -> tuple[float, float]:
    number = in_unit(value, unit)
    return uncertainties.nominal_value(number), uncertainties.std_dev(number)


def value_text(quantity: Quantity, value: Any, system: str, digits: int = 3) -> str:
    """Number and unit: '92.1 in', '14.5°', '46.9 %'."""
    unit = "in" if quantity.parts else box_unit(quantity, system)
    return with_unit(number_text(quantity, value, system, digits), unit)


def typed_text(quantity: Quantity, value: Any, system: str) -> str:
    """A typed value as it would be typed in the box's unit: '40 lbf', '96 in', '15 ± 0.5 lbf'."""
    unit = box_unit(quantity, system)
    return with_unit(typed_number(value, unit), unit)


def typed_number(value: Any, unit: str) -> str:
    """A value as a number that could be typed in a box of this unit: '40', '15 ± 0.5'."""
    nominal, u = _number_and_doubt(value, unit)
    return f"{plain(nominal)} ± {plain(2 * u)}" if u > 0 else plain(nominal)


def with_unit(number: str, unit: str) -> str:
    """A number with its unit; no space before a degree sign."""
    return f"{number}°" if unit == "°" else f"{number} {unit}".rstrip()


def unit_of(quantity: Quantity, system: str) -> str:
    """The unit shown beside the box; '' for a plain number."""
    return box_unit(quantity, system) if KINDS[quantity.kind].us else ""


def exact(question: Question, symbol: str) -> str:
    """What was typed in a readable box, with its unit made explicit: '40' in a box of pounds-force is '40 lbf'."""
    reading, quantity = question.readings[symbol], question.quantities[symbol]
    text = " ".join(reading.text.split())
    bare = re.fullmatch(r"[\d\s.,/±+\-−–eE¼½¾⅛⅜⅝⅞⅓⅔]+", text) is not None
    unit = box_unit(quantity, question.system)
    return with_unit(text, unit) if bare and unit not in ("%", "") else text


def counted_words(question: Question, symbol: str) -> str:
    """Why a whole number is the smallest: what one less would give."""
    counted, quantity = question.counted[symbol], question.quantities[symbol]
    if counted.value == limits(quantity)[0]:
        return f"{counted.value:g} is the fewest there can be."
    if counted.before is None:
        return "The fewest that do."
    tested = question.quantities[counted.tested]
    would = value_text(tested, counted.before, question.system)
    return f"The fewest that do: with {counted.value - 1:g} the {tested.label.lower()} would be {would}."
