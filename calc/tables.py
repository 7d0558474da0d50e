"""Tables of the trade, read once and offered as pick lists: threads, friction and rolling resistance, with sources.

The rows stand in ``shared/tables/*.csv`` with the source and how well it is known. An entry offers its numbers to a
calculator's boxes; they stay starting values that a typed number replaces.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cache

from calc.library import text_of
from calc.model import Fill

GRADES: Mapping[str, str] = {
    "source-text": "",
    "library-data": "",
    "secondary-print": "quoted at second hand",
    "recalled": "from memory",
}


@dataclass(frozen=True)
class Entry:
    """One row of a table: its option value and label, and a text with its unit for each named number."""

    key: str
    label: str
    texts: Mapping[str, str] = field(default_factory=dict)
    notes: Mapping[str, str] = field(default_factory=dict)


def options(entries: Iterable[Entry]) -> tuple[tuple[str, str], ...]:
    """The entries as the options of a choice."""
    return tuple((entry.key, entry.label) for entry in entries)


def fills(entries: Iterable[Entry], **columns: str) -> dict[str, dict[str, Fill]]:
    """What each entry fills: symbol=column. A number that a row does not have fills nothing.

    ``fills(acme_threads(), d="major", p="pitch")``
    """
    return {
        entry.key: {
            symbol: Fill(entry.texts[column], note=entry.notes[column])
            for symbol, column in columns.items()
            if column in entry.texts
        }
        for entry in entries
    }


def acme_threads(*sizes: str) -> tuple[Entry, ...]:
    """General-purpose Acme threads ('3/4'), all or those of these sizes: major, pitch, half_angle (14.5°)."""
    return tuple(
        _thread(row, f"{row['size']}-{row['tpi']} Acme", f"{row['major_in']} in", f"{row['tpi']} TPI", "14.5°")
        for row in _picked("acme_threads", sizes)
    )


def unified_threads(*sizes: str, series: str = "UNC") -> tuple[Entry, ...]:
    """Unified threads of one series, UNC or UNF ('3/8'): major, pitch, half_angle (30°)."""
    return tuple(
        _thread(row, f"{row['size']}-{row['tpi']} {series}", f"{row['major_in']} in", f"{row['tpi']} TPI", "30°")
        for row in _picked("unified_threads", sizes)
        if row["series"] == series
    )


def metric_threads(*sizes: str) -> tuple[Entry, ...]:
    """ISO metric coarse threads ('M10'): major, pitch, half_angle (30°)."""
    return tuple(
        _thread(row, f"{row['size']}×{row['pitch_mm']}", f"{row['d_mm']} mm", f"{row['pitch_mm']} mm", "30°")
        for row in _picked("iso_metric_coarse", sizes)
    )


def trapezoidal_threads(*sizes: str) -> tuple[Entry, ...]:
    """ISO metric trapezoidal threads ('Tr20x4'): major, pitch, half_angle (15°)."""
    return tuple(
        _thread(row, row["size"].replace("x", "×"), f"{row['d_mm']} mm", f"{row['pitch_mm']} mm", "15°")
        for row in _picked("metric_trapezoidal", sizes)
    )


def friction(*keys: str) -> tuple[Entry, ...]:
    """Friction pairs ('wood-on-wood'), all or these: mu_static and mu_kinetic as far as the source has them."""
    return tuple(
        _ranged(row, {"mu_static": "", "mu_kinetic": ""}, ("At the start", "While it moves"))
        for row in _picked("friction", keys, "key")
    )


def rolling_resistance(*keys: str) -> tuple[Entry, ...]:
    """Rolling pairs ('hard-rubber-on-concrete'): f, a length; force is weight times f over the wheel's radius."""
    return tuple(_ranged(row, {"f_mm": " mm"}, ("Rolling",)) for row in _picked("rolling_resistance", keys, "key"))


@cache
def rows_of(name: str) -> tuple[dict[str, str], ...]:
    """The rows of ``shared/tables/name.csv``, column by column as text. Raises FileNotFoundError."""
    lines = [line for line in text_of(f"tables/{name}.csv").splitlines() if not line.startswith("# ")]
    return tuple(csv.DictReader(lines))


def _picked(name: str, wanted: tuple[str, ...], column: str = "size") -> list[dict[str, str]]:
    """All rows, or the wanted ones in the order wanted. Raises KeyError for a name that the table does not have."""
    if not wanted:
        return list(rows_of(name))
    found = {pick: [row for row in rows_of(name) if row[column] == pick] for pick in wanted}
    if missing := [pick for pick, rows in found.items() if not rows]:
        raise KeyError(f"{name} has no {', '.join(missing)}")
    return [row for pick in wanted for row in found[pick]]


def _thread(row: Mapping[str, str], label: str, major: str, pitch: str, half_angle: str) -> Entry:
    key = label.replace("×", "x").replace(" ", "-")
    note = f"Of the thread {label}: {_source(row)}."
    texts = {"major": major, "pitch": pitch, "half_angle": half_angle}
    return Entry(key, label, texts, dict.fromkeys(texts, note))


def _ranged(row: Mapping[str, str], units: Mapping[str, str], words: tuple[str, ...]) -> Entry:
    """An entry whose numbers may be ranges ('0.30 to 0.50'): the middle is offered, and the range said."""
    texts, notes = {}, {}
    for (column, unit), said in zip(units.items(), words, strict=True):
        if not row[column]:
            continue
        low, _, high = row[column].partition(" to ")
        middle = f"{(float(low) + float(high)) / 2:.3g}" if high else low
        ranged = f" The middle of {low} to {high}{unit}." if high else ""
        name = column.removesuffix("_mm")
        texts[name] = middle + unit
        notes[name] = f"{said}: {_source(row)}.{ranged} Published values vary by half and more: measure your own."
    return Entry(row["key"], row["label"], texts, notes)


def _source(row: Mapping[str, str]) -> str:
    grade = GRADES[row["grade"]]
    return f"{row['source']}, {grade}" if grade else row["source"]
