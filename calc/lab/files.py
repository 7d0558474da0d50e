"""The record sheet as a CSV file (RFC 4180), written and read; nothing in it is ever run by a spreadsheet.

A file begins with lines of two cells, name and text: ``record`` (the lab), ``units``, ``group``, then the boxes by
their symbols and ``scale unit``, ``scale division`` and so on, and ``prediction`` with the unit that its scale showed.
A line that starts with ``trial`` is the head of the table: one column a quantity, its unit in brackets. Below it stands
one line a trial; ``x`` in the column ``out`` leaves a row out.
Reading also takes semicolons and tabs between cells, and a table alone.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from calc.lab.cells import LONGEST_NOTE, MOST_ROWS, unit_of
from calc.lab.instruments import DEFAULTS, LABELS
from calc.lab.plan import LABS, Lab
from calc.lab.scale import SCALE_UNITS
from calc.measure import shortened

MARK = "record sheet, version 1"
LONGEST_FILE = 2_000_000
MOST_COLUMNS = 50
LONGEST_HEAD = 60
_RUN = ("=", "+", "-", "@", "\t", "\r")
_LENGTHS = {"in": "us", "mm": "si"}
_HEAD = re.compile(r"\s*([A-Za-z_]+)\s*(?:[(\[]\s*([^)\]]*?)\s*[)\]])?\s*")
_TOOL_WORDS = {"scale unit": "unit", "scale division": "division", "scale capacity": "capacity"}
_TOOL_WORDS |= {"scale limit": "accuracy", "hook and rod": "hook", "scale position": "position"}
_TOOL_WORDS |= {"tape division": "tape", "calliper division": "calliper"}


def safe(text: str) -> str:
    """A cell that no spreadsheet takes for a formula: such a beginning gets an apostrophe before it.

    One that begins with apostrophes and then so gets one more, for ``unsafe`` to take away.
    """
    return f"'{text}" if text.lstrip("'").startswith(_RUN) else text


def unsafe(text: str) -> str:
    """The cell as it was before ``safe``."""
    return text[1:] if text.startswith("'") and text.lstrip("'").startswith(_RUN) else text


def written(request: Mapping[str, Any], lab: Lab, system: str) -> str:
    """The sheet as the text of a file. Everything that was typed is in it, readable or not."""
    tools = {**DEFAULTS[system], **_texts(request.get("tools"))}
    lines: list[list[str]] = [
        [MARK, ""],
        ["record", lab.key],
        ["units", system],
        ["group", str(request.get("group") or "")],
    ]
    lines += [[words, tools.get(name, "")] for words, name in _TOOL_WORDS.items() if tools.get(name)]
    lines += [[symbol, text] for symbol, text in _texts(request.get("once")).items() if text and symbol in lab.once]
    if request.get("tare"):
        lines.append(["tare", str(request["tare"])])
    if (prediction := _prediction(request)) is not None:
        lines.append(["prediction", prediction])
    scale_unit = tools["unit"] if tools["unit"] in SCALE_UNITS else DEFAULTS[system]["unit"]
    heads = []
    for column in lab.columns:
        unit = unit_of(column, scale_unit, system)
        heads.append(f"{column.symbol} ({unit})" if unit else column.symbol)
    lines += [[], ["trial", *heads, "out"]]
    rows = request.get("rows")
    for number, row in enumerate(rows if isinstance(rows, list) else [], 1):
        if isinstance(row, Mapping):
            cells = [str(row.get(column.symbol) or "") for column in lab.columns]
            lines.append([str(number), *cells, "x" if row.get("out") is True else ""])
    while lines and not any(cell for cell in lines[-1][1:]):
        lines.pop()
    out = io.StringIO()
    csv.writer(out, lineterminator="\r\n").writerows([[safe(cell) for cell in line] for line in lines])
    return out.getvalue()


def _texts(given: Any) -> dict[str, str]:
    return {str(k): str(v) for k, v in given.items()} if isinstance(given, Mapping) else {}


def _prediction(request: Mapping[str, Any]) -> str | None:
    asked = request.get("predict")
    made = asked.get("made") if isinstance(asked, Mapping) else None
    if not isinstance(made, Mapping) or not made.get("text"):
        return None
    return f"{made['text']} {made.get('unit') or ''}".strip()


@dataclass
class Problem:
    """Something in a file that could not be used: line, column (1 is the first; 0: all of it), words."""

    line: int
    column: int
    words: str


@dataclass
class Opened:
    """A file that was read: what stands in it, and what of it could not be used."""

    lab: str = ""
    units: str = "us"
    group: str = ""
    tare: str = ""
    prediction: str = ""
    once: dict[str, str] = field(default_factory=dict)
    tools: dict[str, str] = field(default_factory=dict)
    rows: list[dict[str, Any]] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    def as_answer(self) -> dict[str, Any]:
        """For the page, JSON."""
        return {
            "opened": {
                "record": self.lab,
                "units": self.units,
                "group": self.group,
                "tare": self.tare,
                "once": self.once,
                "tools": self.tools,
                "rows": self.rows,
                **({"predict": self._predict()} if self.prediction else {}),
            },
            "problems": [{"line": p.line, "column": p.column, "words": p.words} for p in self.problems],
        }

    def _predict(self) -> dict[str, Any]:
        text, _, unit = self.prediction.rpartition(" ")
        made = {"text": text, "unit": unit} if unit in SCALE_UNITS else {"text": self.prediction, "unit": ""}
        return {"on": True, "made": made, "declined": False}


def opened(text: str) -> Opened:
    """Read a file's text. Never raises; whatever can't be used is a problem with its line and column."""
    found = Opened()
    if len(text) > LONGEST_FILE:
        found.problems.append(Problem(0, 0, "This file is too large to be a record sheet."))
        return found
    if "\x00" in text:
        found.problems.append(Problem(0, 0, "This is not a text file. Save the sheet as CSV."))
        return found
    lines, unreadable = _cut(text.removeprefix("\ufeff"))
    heads: list[tuple[str, str]] | None = None
    for number, cells in lines:
        first = cells[0].strip().lower() if cells else ""
        if heads is not None:
            if len(found.rows) >= MOST_ROWS:
                rest = f"A sheet takes {MOST_ROWS} rows. The lines from here on were left out."
                found.problems.append(Problem(number, 0, rest))
                break
            _take_row(found, heads, cells, number)
        elif first == "trial":
            heads = _heads(found, cells, number)
        elif any(cell.strip() for cell in cells):
            _take_setting(found, first, cells, number)
    if unreadable:
        words = "From here on the file can’t be cut into cells. The rest was left out."
        found.problems.append(Problem(unreadable, 0, words))
    if heads is None:
        words = "There is no line that starts with “trial”. It names the columns: trial, R (lbf), E (lbf)."
        found.problems.append(Problem(len(lines), 0, words))
    return found


def _cut(text: str) -> tuple[list[tuple[int, list[str]]], int]:
    """The lines with their numbers, cut into cells at whichever of comma, semicolon and tab the head uses.

    The second is the line from which on that does not work, or 0.
    """
    head = next((line for line in text.splitlines() if line.strip().lower().startswith(("trial", '"trial'))), "")
    sample = head or text[:2000]
    delimiter = max(",;\t", key=sample.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter)
    lines: list[tuple[int, list[str]]] = []
    try:
        for cells in reader:
            lines.append((reader.line_num, [unsafe(cell) for cell in cells]))
            if len(lines) > MOST_ROWS + 200:
                break
    except csv.Error:
        return lines, reader.line_num
    return lines, 0


def _take_setting(found: Opened, name: str, cells: list[str], number: int) -> None:
    text = cells[1].strip() if len(cells) > 1 else ""
    if name == MARK:
        return
    if name == "record":
        found.lab = text
        if text not in LABS:
            words = f"There is no lab “{shortened(text)}”. There are: {', '.join(LABS)}."
            found.problems.append(Problem(number, 2, words))
    elif name == "units":
        found.units = text if text in _LENGTHS.values() else "us"
        if text not in _LENGTHS.values():
            found.problems.append(Problem(number, 2, f"Units are us or si, not “{shortened(text)}”. I took us."))
    elif name == "group":
        found.group = text[:20]
    elif name == "tare":
        found.tare = text
    elif name == "prediction":
        found.prediction = text
    elif name in _TOOL_WORDS:
        found.tools[_TOOL_WORDS[name]] = text
    elif found.lab in LABS and cells[0].strip() in LABS[found.lab].once:
        found.once[cells[0].strip()] = text
    else:
        found.problems.append(Problem(number, 1, f"I do not know “{shortened(cells[0].strip())}”. It was left out."))


def _heads(found: Opened, cells: list[str], number: int) -> list[tuple[str, str]]:
    known = {c.symbol: c for lab in LABS.values() for c in lab.columns}
    heads = [("trial", "")]
    seen: dict[str, str] = {}
    if len(cells) > MOST_COLUMNS:
        words = f"A sheet has {MOST_COLUMNS} columns at most. Those from here on were left out."
        found.problems.append(Problem(number, MOST_COLUMNS + 1, words))
    for place, cell in enumerate(cells[1:MOST_COLUMNS], 2):
        match = _HEAD.fullmatch(cell) if len(cell) <= LONGEST_HEAD else None
        symbol, unit = (match[1], match[2] or "") if match else ("", "")
        words = ""
        if symbol not in known and symbol != "out":
            if cell.strip():
                words = f"I do not know the column “{shortened(cell.strip())}”. There are: {', '.join(known)}."
            symbol = ""
        elif symbol in {name for name, _ in heads}:
            words = f"There are two columns {symbol}. This one was left out."
        elif symbol in known and unit:
            words = _wrong_unit(found, known[symbol].kind, unit, seen)
        if words:
            found.problems.append(Problem(number, place, words))
            symbol = ""
        heads.append((symbol, unit))
    return heads


def _wrong_unit(found: Opened, kind: str, unit: str, seen: dict[str, str]) -> str:
    """Take a column's unit for the sheet's, or say why the column can't be used. ``seen``: the lengths' unit so far."""
    if kind == "force":
        if unit not in SCALE_UNITS:
            return f"Forces stand in {', '.join(SCALE_UNITS)}, not in “{shortened(unit)}”. This column was left out."
        own = found.tools.setdefault("unit", unit)
        if own != unit:
            return f"This column is in {unit}, the scale shows {own}. A sheet has one scale unit. It was left out."
    if kind == "length":
        if unit not in _LENGTHS:
            return f"Lengths stand in {', '.join(_LENGTHS)}, not in “{shortened(unit)}”. This column was left out."
        if seen.setdefault("length", unit) != unit:
            return f"This column is in {unit}, another one in {seen['length']}. It was left out."
        found.units = _LENGTHS[unit]
    return ""


def _take_row(found: Opened, heads: list[tuple[str, str]], cells: list[str], number: int) -> None:
    row: dict[str, Any] = {}
    for place, cell in enumerate(cells[: len(heads)]):
        symbol, text = heads[place][0], cell.strip()
        if not text or symbol in ("", "trial"):
            continue
        if symbol == "out":
            row["out"] = True
        elif symbol == "note":
            row["note"] = text[:LONGEST_NOTE]
        else:
            row[symbol] = text
            if not any(letter.isnumeric() for letter in text):
                words = f"“{shortened(text)}” is not a number."
                found.problems.append(Problem(number, place + 1, words))
    if len(cells) > len(heads) and any(cell.strip() for cell in cells[len(heads) :]):
        found.problems.append(Problem(number, len(heads) + 1, "There are more cells than columns. They were left out."))
    if row:
        found.rows.append(row)


def labels() -> Mapping[str, str]:
    """The names of the instruments' boxes."""
    return LABELS
