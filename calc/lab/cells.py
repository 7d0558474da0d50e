"""The cells of a record sheet read: numbers in the column's unit, or a kind message for the one cell that can't be."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from calc.figures import plain
from calc.lab.plan import Column
from calc.lab.scale import SCALE_UNITS
from calc.measure import read, shortened
from calc.messages import Message, Refused, message
from calc.units import KINDS, factor

MOST_ROWS = 200
LONGEST_NOTE = 200
_PLAIN = re.compile(r"\d{1,7}(?:\.\d{1,6})?|\.\d{1,6}")
_MASS = ("kg", "g")


@dataclass(frozen=True)
class Row:
    """One row of the sheet: its readings by symbol (SI), its note, and whether the reader has left it out."""

    number: int
    values: Mapping[str, float]
    typed: Mapping[str, str]
    out: bool = False


@dataclass
class Cells:
    """All rows that hold something, and the message for each cell (row number, symbol) that could not be read."""

    rows: list[Row] = field(default_factory=list)
    errors: dict[tuple[int, str], Message] = field(default_factory=dict)


def unit_of(column: Column, scale_unit: str, system: str) -> str:
    """The unit of a column: what the scale shows, or inches or millimetres."""
    if column.kind == "force":
        return scale_unit
    return {"length": "in" if system == "us" else "mm"}.get(column.kind, "")


def size_of(column: Column, scale_unit: str, system: str) -> float:
    """How many SI units one of the column's unit is."""
    unit = unit_of(column, scale_unit, system)
    return SCALE_UNITS[unit] if column.kind == "force" else factor(unit) if unit else 1.0


def read_rows(given: Any, columns: Sequence[Column], scale_unit: str, system: str) -> Cells:
    """Read all rows. Never raises; what is beyond the two hundredth row is refused at the first such row."""
    cells = Cells()
    rows = given if isinstance(given, list) else []
    for number, row in enumerate(rows[:MOST_ROWS], 1):
        if not isinstance(row, Mapping):
            continue
        typed = {c.symbol: str(row[c.symbol]).strip() for c in columns if str(row.get(c.symbol) or "").strip()}
        if not typed:
            continue
        values: dict[str, float] = {}
        for column in columns:
            text = typed.get(column.symbol, "")
            if column.kind == "words" or not text:
                continue
            try:
                values[column.symbol] = read_cell(text, column, scale_unit, system)
            except Refused as refused:
                cells.errors[number, column.symbol] = refused.message
        cells.rows.append(Row(number, values, typed, out=row.get("out") is True))
    if len(rows) > MOST_ROWS:
        cells.errors[MOST_ROWS + 1, columns[0].symbol] = message("e-rows", most=MOST_ROWS, n=len(rows))
    return cells


def read_cell(text: str, column: Column, scale_unit: str, system: str) -> float:
    """One cell in SI. Raises Refused with the words for it."""
    size = size_of(column, scale_unit, system)
    if _PLAIN.fullmatch(text):  # nearly every cell: quick, since a class has thousands
        value = float(text) * size
    else:
        value = _in_words(text, column, scale_unit, system, size)
    if value < 0:
        raise Refused("e-neg", name=column.label)
    if value == 0 and column.symbol != "E_lower":
        raise Refused("e-zero", name=column.label)
    kind = KINDS[column.kind]
    if value and not kind.low <= value <= kind.high:
        unit = unit_of(column, scale_unit, system)
        low, high = (f"{plain(float(f'{edge / size:.4g}'))} {unit}".strip() for edge in (kind.low, kind.high))
        raise Refused("e-range", name=column.label, a=low, b=high)
    return value


def _in_words(text: str, column: Column, scale_unit: str, system: str, size: float) -> float:
    """A cell with more in it than a plain number: a fraction, feet and inches, a unit of its own."""
    own = unit_of(column, scale_unit, system)
    if "±" in text or "+-" in text or "+/-" in text:
        raise Refused("e-celldoubt")
    if column.kind == "turns":
        return read(text, KINDS["turns"], column.label, "turns", system).nominal
    if column.kind == "force" and scale_unit in _MASS:
        number, word = _number_and_word(text)
        if word and word != scale_unit:
            raise Refused("e-cellunit", x=shortened(text), own=own, fill=None, better="the number that the scale shows")
        return read(number, KINDS["ratio"], column.label, "", system).nominal * size
    reading = read(text, KINDS[column.kind], column.label, own, system)
    if column.kind == "force" and reading.unit != own:
        number = plain(float(f"{reading.nominal / size:.4g}"))  # more figures than a scale shows
        raise Refused("e-cellunit", fill=number, x=shortened(text), own=own, better=f"{number} {own}")
    return reading.nominal


def _number_and_word(text: str) -> tuple[str, str]:
    match = re.fullmatch(r"(.*?[\d.½¼¾])\s*([a-zA-Z]*)", text)
    return (match[1], match[2]) if match else (text, "")
