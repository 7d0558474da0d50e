"""The block of a trade table: ``/// table | friction``, with the source and how well it is known beside each row.

The rows stand in ``shared/tables/*.csv`` and are read by ``calc.tables``, as the calculators' pick lists are. What
several sources say of one thing stands side by side; what is the same in every row is said once, under the table.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import groupby
from typing import Any

from build_tools.lookup_block import LookupBlock, LookupExtension, rendered
from calc.tables import rows_of

GRADE_WORDS: Mapping[str, str] = {
    "source-text": "read in the source",
    "library-data": "read in a library",
    "secondary-print": "quoted by another page",
    "recalled": "from memory",
    "companion-output": "read in a companion to the book",
}
"""How well something is known, in plain words."""


@dataclass(frozen=True)
class Column:
    """One column: its name in the file, its head, a unit under the head, and whether it holds numbers."""

    name: str
    head: str
    unit: str = ""
    number: bool = True


@dataclass(frozen=True)
class Table:
    """A table of a page: its file, what it is called, its columns; ``pair`` sets rows that name it alike together."""

    file: str
    caption: str
    columns: tuple[Column, ...]
    pair: bool = False


SOURCE = (Column("source", "Source", number=False), Column("grade", "How well known", number=False))
PITCH_DIAMETER = "Mean diameter"

TABLES: Mapping[str, Table] = {
    "friction": Table(
        "friction",
        "Friction coefficients",
        (
            Column("label", "Pair", number=False),
            Column("mu_static", "To start"),
            Column("mu_kinetic", "Moving"),
            *SOURCE,
        ),
        pair=True,
    ),
    "rolling": Table(
        "rolling_resistance",
        "Rolling resistance, as a length",
        (Column("label", "Wheel on track", number=False), Column("f_mm", "Length", "mm"), *SOURCE),
    ),
    "ramps": Table(
        "ada_ramps",
        "Ramps for people: limits of the accessibility standard",
        (
            Column("item", "What", number=False),
            Column("limit", "Limit", number=False),
            Column("section", "Section", number=False),
            *SOURCE,
        ),
    ),
    "unified": Table(
        "unified_threads",
        "Unified threads",
        (
            Column("size", "Size", number=False),
            Column("series", "Series", number=False),
            Column("major_in", "Outside diameter", "in"),
            Column("tpi", "Threads per inch"),
            Column("pitch_dia_in", PITCH_DIAMETER, "in"),
            *SOURCE,
        ),
    ),
    "metric": Table(
        "iso_metric_coarse",
        "ISO metric threads, coarse",
        (
            Column("size", "Size", number=False),
            Column("d_mm", "Outside diameter", "mm"),
            Column("pitch_mm", "Pitch", "mm"),
            Column("pitch_dia_mm", PITCH_DIAMETER, "mm"),
            *SOURCE,
        ),
    ),
    "acme": Table(
        "acme_threads",
        "Acme threads",
        (
            Column("size", "Size", number=False),
            Column("major_in", "Outside diameter", "in"),
            Column("tpi", "Threads per inch"),
            Column("pitch_dia_in", PITCH_DIAMETER, "in"),
            *SOURCE,
        ),
    ),
    "trapezoidal": Table(
        "metric_trapezoidal",
        "ISO metric trapezoidal threads",
        (
            Column("size", "Size", number=False),
            Column("d_mm", "Outside diameter", "mm"),
            Column("pitch_mm", "Pitch", "mm"),
            Column("pitch_dia_mm", PITCH_DIAMETER, "mm"),
            *SOURCE,
        ),
    ),
    "units": Table(
        "unit_factors",
        "Unit factors",
        (
            Column("unit", "One", number=False),
            Column("factor", "is"),
            Column("to", "of these", number=False),
            Column("exact", "Exact", number=False),
            *SOURCE,
        ),
    ),
}
"""The tables by what stands after '|'."""


@dataclass(frozen=True)
class Cell:
    """One cell: its text, whether it is a number, over how many rows it goes, and the number of its note."""

    text: str
    number: bool
    rows: int = 1
    note: int = 0


@dataclass
class Shown:
    """A table ready to be written: heads, rows of cells, notes, and what holds for every row."""

    columns: Sequence[Column]
    rows: list[list[Cell]] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    everywhere: list[str] = field(default_factory=list)

    @property
    def sourced(self) -> bool:
        """Whether each row names its own source, which takes room."""
        return any(column.name == "source" for column in self.columns)


def shown(table: Table) -> Shown:
    """The table with like pairs together, notes numbered, and columns that never change said once."""
    rows = rows_of(table.file)
    same = [column for column in SOURCE if len({row[column.name] for row in rows}) == 1]
    found = Shown([column for column in table.columns if column not in same])
    found.everywhere = [_text(column, rows[0]) for column in same]
    for _, group in groupby(_in_order(table, rows), key=lambda row: _pair(table, row)):
        members = list(group)
        for i, row in enumerate(members):
            cells = [Cell(_text(column, row), column.number) for column in found.columns]
            if len(members) > 1:
                cells[0] = replace(cells[0], text=_pair(table, row), rows=len(members))
            if note := row.get("note"):
                found.notes += [] if note in found.notes else [note]
                at = 1 if len(members) > 1 else 0
                cells[at] = replace(cells[at], note=found.notes.index(note) + 1)
            found.rows.append(cells[1:] if i else cells)
    return found


def _pair(table: Table, row: Mapping[str, str]) -> str:
    return row["pair"] or row["label"] if table.pair else str(id(row))


def _in_order(table: Table, rows: Sequence[Mapping[str, str]]) -> Sequence[Mapping[str, str]]:
    """The rows as the file has them, those of one pair where its first one stands."""
    first: dict[str, int] = {}
    for i, row in enumerate(rows):
        first.setdefault(_pair(table, row), i)
    return sorted(rows, key=lambda row: first[_pair(table, row)])


def _text(column: Column, row: Mapping[str, str]) -> str:
    text = row[column.name]
    if column.name == "grade":
        return GRADE_WORDS[text]
    if column.name == "factor" and row["exact"] == "no":
        return f"{float(text):.8g}"
    if column.name == "size":
        return text.replace("x", "×")
    return text.replace(" to ", " – ") if column.number else text


class TableBlock(LookupBlock):
    """One trade table."""

    NAME = "table"
    CLASS = "lookup"

    def known(self) -> tuple[str, ...]:
        """The names of the tables."""
        return tuple(TABLES)

    def html(self) -> str:
        """The table in a region that slides by itself where it is narrow."""
        table = TABLES[self.argument]
        return rendered("table.html", name=self.argument, caption=table.caption, table=shown(table))


def makeExtension(**settings: Any) -> LookupExtension:
    """The extension, as Python-Markdown asks for it."""
    return LookupExtension(TableBlock, **settings)
