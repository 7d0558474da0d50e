"""A problem put to the calculator that holds its physics: for its drawing, and for the check that both agree."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from calc.answer import answer as of_a_calculator
from calc.figures import plain
from calc.practice.draw import Draw
from calc.practice.families import Family, value
from calc.shown import with_unit

_NAME = re.compile(r"[A-Za-z_]\w*")


def request_for(asked: Family, draw: Draw) -> dict[str, Any]:
    """The request that puts a problem to its calculator."""
    return {
        "calculator": asked.calculator,
        "choices": dict(asked.choices or {}),
        "given": {box: _box(asked, draw, written) for box, written in (asked.given or {}).items()},
        "units": asked.system,
    }


def _box(asked: Family, draw: Draw, written: str) -> str:
    formula, _, unit = written.partition(" ")
    names = [name for name in _NAME.findall(formula) if name in asked.units or name == "ans"]
    if not unit and names and "(" not in formula:  # a tangent has no unit
        unit = asked.unit if names[0] == "ans" else asked.units[names[0]]
    number = value(formula, {**draw.numbers, "ans": draw.answer})
    return with_unit(plain(number, 12), unit)


def picture(asked: Family, draw: Draw) -> Mapping[str, str]:
    """The calculator's drawing of a problem, with "?" where a number is asked or only made up; empty if it has none.

    The keys are those of an answer's ``html``, in both widths.
    """
    if not asked.picture:
        return {}
    made_up = [
        box
        for box, written in (asked.given or {}).items()
        if "ans" in _NAME.findall(written) or not set(_NAME.findall(written.partition(" ")[0])) & set(draw.numbers)
    ]
    request = {
        **request_for(asked, draw),
        "asked": made_up,
        "draw": {"machine": "both"},
        "only": "pictures",
        "travel": 0,
    }
    return dict(of_a_calculator(request)["html"])
