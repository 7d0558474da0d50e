"""The record sheet's part of the door: what was typed in, what it says out; and the sheet as a file.

Request (all but ``record`` may be absent): ``record`` the lab's key; ``units``; ``once`` and ``tools`` and ``tare``:
texts; ``rows``: a list of rows, each symbol to text, ``out`` true for a row left out; ``group``; ``draw``: wide, narrow
or both; ``file`` true to get the sheet as text for a file; ``open``: the text of such a file, to be read instead;
``predict`` and ``invented``: see ``prediction``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from html import escape
from typing import Any

from calc.lab import files, prediction, shown, trial_plots
from calc.lab.cells import Cells, read_rows, unit_of
from calc.lab.instruments import DEFAULTS, LABELS, instruments, within
from calc.lab.judge import Judged, judge, slope_of
from calc.lab.plan import LABS, Column, Lab
from calc.lab.scale import POSITIONS, SCALE_UNITS, Instruments
from calc.measure import read, shortened
from calc.messages import Message, Refused, message
from calc.model import Quantity
from calc.question import box_unit, limits
from calc.shown import unit_of as unit_beside
from calc.units import KINDS, factor


@dataclass
class Sheet:
    """A record sheet made safe: what of it could be read, and the message for each part that could not."""

    lab: Lab
    system: str
    tools: Instruments
    once: dict[str, float] = field(default_factory=dict)
    choices: dict[str, str] = field(default_factory=dict)
    tare: float = 0.0
    cells: Cells = field(default_factory=Cells)
    errors: dict[str, dict[str, Message]] = field(default_factory=lambda: {"once": {}, "tools": {}})
    group: str = ""


def answer(request: Mapping[str, Any]) -> dict[str, Any]:
    """Answer for one record sheet. Never raises for a dict of JSON values."""
    if isinstance(request.get("open"), str):
        return files.opened(request["open"]).as_answer()
    key = request.get("record")
    if not isinstance(key, str) or key not in LABS:
        problem = message("e-key", x=shortened(str(key)), list=", ".join(LABS))
        return {"record": None, "errors": [{"at": "record", "name": "", "text": problem.text}], "cells": [], "rows": []}
    sheet = read_sheet(LABS[key], request)
    judged = judge_sheet(sheet)
    guess = prediction.predicted(request, sheet)
    if guess.problem:
        sheet.errors["predict"] = {"prediction": guess.problem}
    result: dict[str, Any] = {
        "record": key,
        "units": sheet.system,
        "errors": [
            {"at": part, "name": name, "start": problem.start, "words": problem.words, "text": problem.text}
            for part, found in sheet.errors.items()
            for name, problem in found.items()
        ],
        "cells": [
            {"row": row, "symbol": symbol, "start": it.start, "words": it.words, "fill": it.fill, "code": it.code}
            for (row, symbol), it in sheet.cells.errors.items()
        ],
        "rows": shown.rows(judged, sheet.cells),
        "columns": shown.column_units(sheet.lab, sheet.tools.unit, sheet.system),
        "values": {symbol: {"si": value, "u": u} for symbol, (value, u) in judged.values.items()},
        "verdicts": [{"kind": kind, "code": it.code, "text": it.text} for kind, it in judged.verdicts],
        "html": {
            "verdict": shown.verdict(judged, sheet),
            "results": shown.results(judged, sheet),
            **trial_plots.plots(judged, sheet, request.get("draw")),
        },
    }
    if guess.effort is not None:
        result["html"]["prediction"] = escape(
            prediction.told(guess.effort, judged, sheet, request.get("invented") is True)
        )
    if guess.waiting:
        result |= _held_back(result)
    if request.get("file") is True:
        result["file"] = files.written(request, sheet.lab, sheet.system)
    return result


def _held_back(result: Mapping[str, Any]) -> dict[str, Any]:
    """The parts of an answer that wait for a prediction, without anything to read off them."""
    rows = [row | {"ama": "", "eta": "", "mark": ""} for row in result["rows"]]
    html = {"verdict": "", "results": ""}
    return {"rows": rows, "values": {}, "verdicts": [], "html": html, "waiting": True}


def judge_sheet(sheet: Sheet) -> Judged:
    """What the sheet's readings say together."""
    choices = {**sheet.lab.choices, **sheet.choices}
    return judge(sheet.lab, sheet.once, choices, sheet.cells.rows, sheet.tools, sheet.tare, sheet.system)


def read_sheet(lab: Lab, request: Mapping[str, Any]) -> Sheet:
    """Read all that was typed. What can't be used becomes a message, and the rest is used."""
    system = request.get("units") if request.get("units") in ("us", "si") else "us"
    tools, tool_errors = instruments(request.get("tools"), str(system))
    sheet = Sheet(lab, str(system), tools, group=str(request.get("group") or "")[:20])
    sheet.errors["tools"] = tool_errors
    typed = request.get("once")
    typed = {str(k): str(v).strip() for k, v in typed.items()} if isinstance(typed, Mapping) else {}
    for quantity in once_quantities(lab):
        text = typed.get(quantity.symbol, "")
        if text:
            _read_once(sheet, quantity, text)
    tare = str(request.get("tare") or "").strip()
    if lab.tare and tare:
        try:
            pull = read(tare, KINDS["ratio"], "Tare", "", sheet.system).nominal
            if pull < 0:
                raise Refused("e-neg", name="Holding the empty bar")
            within(pull * SCALE_UNITS[tools.unit], "force", "Holding the empty bar", tools.unit, sheet.system)
            sheet.tare = pull * SCALE_UNITS[tools.unit]
        except Refused as refused:
            sheet.errors["once"]["tare"] = refused.message
    if tools.position == "slope" and tools.hook and slope_of(sheet.once) is None:
        tool_errors["position"] = message("e-slope")
    sheet.cells = read_rows(request.get("rows"), lab.columns, tools.unit, sheet.system)
    return sheet


def _read_once(sheet: Sheet, quantity: Quantity, text: str) -> None:
    try:
        reading = read(text, KINDS[quantity.kind], quantity.label, box_unit(quantity, sheet.system), sheet.system)
        low, high = limits(quantity)
        if reading.nominal == 0 and low > 0:
            raise Refused("e-zero", name=quantity.label)
        if reading.nominal < 0 <= low:
            raise Refused("e-neg", name=quantity.label)
        if not low <= reading.nominal <= high:
            ends = [
                f"{edge / factor(unit):.4g} {unit}".strip()
                for unit in [box_unit(quantity, sheet.system)]
                for edge in (low, high)
            ]
            raise Refused("e-range", name=quantity.label, a=ends[0], b=ends[1])
        sheet.once[quantity.symbol] = reading.nominal
    except Refused as refused:
        sheet.errors["once"][quantity.symbol] = refused.message


def once_quantities(lab: Lab) -> list[Quantity]:
    """The calculator's quantities that this lab measures once, in the lab's order."""
    quantities = {q.symbol: q for q in lab.calculator.quantities}
    return [quantities[symbol] for symbol in lab.once]


def describe(key: str, units: str = "us") -> dict[str, Any]:
    """What a record sheet's form needs before anything is typed. Raises KeyError for an unknown lab."""
    lab = LABS[key]
    scale_unit = DEFAULTS[units]["unit"]
    return {
        "key": key,
        "title": lab.title,
        "calculator": lab.calculator_key,
        "once": [
            {
                "symbol": q.symbol,
                "label": q.label,
                "hint": q.hint,
                "units": {system: unit_beside(q, system) for system in ("us", "si")},
            }
            for q in once_quantities(lab)
        ],
        "tare": lab.tare,
        "position": lab.position,
        "positions": dict(POSITIONS),
        "scale_units": list(SCALE_UNITS),
        "tools": {system: dict(tools) for system, tools in DEFAULTS.items()},
        "tool_labels": dict(LABELS),
        "columns": [
            {"symbol": c.symbol, "label": c.label, "kind": c.kind, "needed": c.needed, "hint": c.hint}
            | {"unit": unit_of(c, scale_unit, units)}
            for c in lab.columns
        ],
    }


def sample(key: str, units: str = "us") -> dict[str, Any]:
    """A filled-in request with invented readings, as the page shows it before anything is typed.

    The SI twin has round numbers near the US ones. Raises KeyError for an unknown lab.
    """
    lab = LABS[key]
    columns = {c.symbol: c for c in lab.columns}

    def cell(symbol: str, text: str) -> str:
        return text if units == "us" else _in_si(columns[symbol], text)

    quantities = {q.symbol: q for q in once_quantities(lab)}
    once = {s: text if units == "us" else _once_in_si(quantities[s], text) for s, text in lab.sample.items()}
    rows = [{symbol: cell(symbol, text) for symbol, text in row.items()} for row in lab.sample_rows]
    return {"record": key, "units": units, "once": once, "tools": dict(DEFAULTS[units]), "rows": rows}


def _in_si(column: Column, text: str) -> str:
    if column.kind == "force":
        return f"{2 * round(float(text) * factor('lbf') / 2):d}"
    return f"{5 * round(float(text) * 25.4 / 5):d}" if column.kind == "length" else text


def _once_in_si(quantity: Quantity, text: str) -> str:
    kind, unit = KINDS[quantity.kind], box_unit(quantity, "si")
    if kind.name not in ("length", "force", "pitch"):
        return text
    return f"{float(text) * factor(box_unit(quantity, 'us')) / factor(unit):.3g}"
