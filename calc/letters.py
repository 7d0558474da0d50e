"""The letters of all calculators, for a page that explains them: each meaning once, with units and where it is used."""

from __future__ import annotations

from typing import Any

from calc import symbols
from calc.model import Calculator, Quantity
from calc.registry import CALCULATORS
from calc.shown import unit_of

_SIX_LINES = ("R", "E", "dR", "dE", "IMA", "AMA", "Win", "Wout", "Wlost", "eta")
_UNITS_ONLY = "measures"  # its boxes are units of one quantity, not letters of a formula


def letters() -> list[dict[str, Any]]:
    """Every letter that a reader meets in a box or a result, one entry for each of its meanings.

    A word that stands in a formula as itself (``turns``) is none.
    Each has ``symbol`` (F_i for one that each row has), ``html``, ``label``, ``units`` (for us and si, those that a
    sheet may use) and ``calculators`` (keys). Sorted by letter, capitals and small ones together, Greek last.
    """
    found: dict[tuple[str, str], dict[str, Any]] = {}
    for key, calculator in CALCULATORS.items():
        for symbol, quantity in _met(calculator) if key != _UNITS_ONLY else ():
            if _says_itself(symbol, quantity.label):
                continue
            html = symbols.html(symbol, quantity.role == "effort")
            new = {"symbol": symbol, "html": html, "label": quantity.label, "units": {}, "calculators": []}
            entry = found.setdefault((symbol, quantity.label), new)
            entry["calculators"].append(key)
            for system in ("us", "si"):
                units, unit = entry["units"].setdefault(system, []), unit_of(quantity, system)
                units += [unit] if unit and unit not in units else []
    return sorted(found.values(), key=lambda entry: _place(entry["symbol"]))


def _met(calculator: Calculator) -> list[tuple[str, Quantity]]:
    """The quantities that have a box or a place among the results; those of rows with an i."""
    results = {*calculator.listed, *(_SIX_LINES if calculator.six_lines else ())}
    alone = [(q.symbol, q) for q in calculator.quantities if q.level or q.symbol in results]
    return alone + [(f"{q.symbol}_i", q) for rows in calculator.rows for q in rows.quantities]


def _says_itself(symbol: str, label: str) -> bool:
    word = symbols.letter_and_index(symbol)[0]
    return len(word) > 1 and word in label.lower()


def _place(symbol: str) -> tuple[bool, str, bool, str]:
    letter, index = symbols.letter_and_index(symbol)
    return ("α" <= letter[0] <= "ω", letter.lower(), letter.islower(), index)
