"""Short ways to ask a calculator in a test."""

from __future__ import annotations

from typing import Any

import calc
from calc.units import factor

LBF, INCH, FT_LBF = factor("lbf"), factor("in"), factor("ft·lbf")


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
