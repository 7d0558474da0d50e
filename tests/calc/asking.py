"""Short ways to ask a calculator in a test."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

import calc
from calc.measure import LEAST
from calc.units import factor

LBF, INCH, FT_LBF = factor("lbf"), factor("in"), factor("ft·lbf")


def sizes(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers from one to the other, zero too if it lies there, and none so close to zero that a box refuses it."""
    return st.floats(low, high).filter(lambda number: number == 0 or abs(number) >= LEAST)


def ask(key: str, units: str = "us", choices: dict[str, str] | None = None, **given: str) -> dict[str, Any]:
    """The whole answer."""
    return calc.answer({"calculator": key, "given": given, "choices": choices or {}, "units": units})


def values(key: str, units: str = "us", choices: dict[str, str] | None = None, **given: str) -> dict[str, float]:
    """The SI values of an answer that must be without errors."""
    answer = ask(key, units, choices, **given)
    assert answer["errors"] == [], answer["errors"]
    return {symbol: entry["si"] for symbol, entry in answer["values"].items()}


def field(answer: dict[str, Any], symbol: str) -> dict[str, Any]:
    """One box of an answer."""
    return answer["fields"][symbol]
