"""A judged sheet as the page shows it: the state of each row, the verdict in words, the results with their doubt."""

from __future__ import annotations

from collections.abc import Mapping
from html import escape
from typing import TYPE_CHECKING, Any

from calc.figures import shown as rounded
from calc.figures import with_doubt
from calc.lab.cells import Cells, size_of, unit_of
from calc.lab.judge import Judged, several_loads
from calc.lab.plan import Lab
from calc.lab.scale import SCALE_UNITS
from calc.units import factor

if TYPE_CHECKING:
    from calc.lab.sheet import Sheet

SAYS = {"stop": "Measure again.", "look": "Look here.", "fine": ""}
LOST_OVER = '<span class="mark">not possible: re-measure</span>'


def rows(judged: Judged, cells: Cells) -> list[dict[str, Any]]:
    """For each row that holds something: its number, its state, and its advantage and efficiency as text."""
    trials = {trial.number: trial for trial in judged.trials}
    ima = (judged.values.get("IMA") or judged.ima or (0.0, 0.0))[0]
    odd = {number for numbers in judged.odd.values() for number in numbers}
    found = []
    for row in cells.rows:
        trial = trials.get(row.number)
        entry: dict[str, Any] = {"row": row.number, "state": "waiting", "ama": "", "eta": "", "mark": ""}
        if row.out:
            entry |= {"state": "out", "mark": "left out"}
        elif any(number == row.number for number, _ in cells.errors):
            entry |= {"state": "error", "mark": "one cell to mend"}
        elif trial is not None:
            state = "impossible" if trial.impossible else "odd" if row.number in odd else "trial"
            mark = {"impossible": "not possible: re-measure", "odd": "far from the others"}.get(state, "")
            eta = f"{rounded(100 * trial.ama / ima)} %" if ima else ""
            entry |= {"state": state, "ama": rounded(trial.ama), "eta": eta, "mark": mark}
        found.append(entry)
    return found


def column_units(lab: Lab, scale_unit: str, system: str) -> dict[str, str]:
    """The unit of each column, as it stands in the head of the table."""
    return {column.symbol: unit_of(column, scale_unit, system) for column in lab.columns}


def verdict(judged: Judged, sheet: Sheet) -> str:
    """The verdict as HTML: one paragraph for each thing to say, the gravest first; then what was corrected."""
    order = {"stop": 0, "look": 1, "fine": 2}
    said = []
    for kind, it in sorted(judged.verdicts, key=lambda pair: order[pair[0]]):
        said.append(f'<p class="v-{kind}"><strong>{escape(it.start)}</strong> {escape(it.words)}</p>')
        if it.code in ("v-over", "v-steep"):
            said.append(f"<ol>{''.join(f'<li>{escape(cause)}</li>' for cause in judged.causes)}</ol>")
    notes = _notes(judged, sheet)
    if notes:
        said.append(f'<p class="v-note">{escape(" ".join(notes))}</p>')
    return "".join(said)


def _notes(judged: Judged, sheet: Sheet) -> list[str]:
    notes = []
    if sheet.tools.unit in ("kg", "g"):
        notes.append(f"The scale shows mass. Each {sheet.tools.unit} is taken as its weight under standard gravity.")
    if judged.waiting:
        notes.append(f"Not complete yet, so not counted: row {_numbers(judged.waiting)}.")
    if judged.left_out:
        notes.append(f"Left out by you: row {_numbers(judged.left_out)}.")
    if sheet.tools.hook and sheet.tools.position not in ("use", "down") and "position" not in sheet.errors["tools"]:
        notes.append("The weight of hook and rod is added to each pull.")
    if sheet.tare:
        notes.append("The pull that holds the empty bar is added to each effort.")
    return notes


def _numbers(rows: list[int]) -> str:
    return ", ".join(map(str, rows))


def results(judged: Judged, sheet: Sheet) -> str:
    """Means and results as one table: quantity, value with its doubt, and for a mean how often it was read."""
    lines = []
    unit = sheet.tools.unit
    for column in sheet.lab.columns:
        found = judged.columns.get(column.symbol)
        if found is None or (several_loads(judged.trials) and column.kind == "force"):
            continue
        size = size_of(column, unit, sheet.system)
        spread = "" if found.s is None else f"s = {rounded(found.s / size)}, " if found.s else "s = 0, "
        value = _with_doubt(found.mean / size, found.u / size, unit_of(column, unit, sheet.system))
        lines.append((f"{column.label}, mean", value, f"{spread}n = {found.n}"))
    over = judged.values.get("AMA", (0.0, 0.0))[0] > judged.values.get("IMA", (float("inf"), 0.0))[0] * (1 + 1e-12)
    energy = "ft·lbf" if sheet.system == "us" else "J"
    for symbol, label, one, word in (
        ("IMA", "IMA, ideal", 1.0, ""),
        ("AMA", "AMA, actual", 1.0, ""),
        ("Win", "Work in", factor(energy), energy),
        ("Wout", "Work out", factor(energy), energy),
        ("Wlost", "Work lost", factor(energy), energy),
        ("eta", "Efficiency", 0.01, "%"),
    ):
        if symbol not in judged.values:
            continue
        nominal, u = judged.values[symbol]
        text = _with_doubt(nominal / one, u / one, word)
        struck = over and symbol in ("AMA", "Wlost", "eta")
        note = LOST_OVER if struck and symbol == "eta" else ""
        lines.append((label, f"<s>{text}</s>" if struck else text, note))
    if judged.line is not None:
        size, line = SCALE_UNITS[unit], judged.line
        lines.append(
            ("Effort with no load", _with_doubt(line.a / size, line.u_a / size, unit), "where the line starts")
        )
        lines.append(("Effort for each unit of load", _with_doubt(line.b, line.u_b, ""), "how the line climbs"))
        if judged.ima:
            lines.append(("IMA, ideal", _with_doubt(*judged.ima, ""), ""))
    if not lines:
        return ""
    body = "".join(f'<tr><th scope="row">{a}</th><td>{b}</td><td class="none">{c}</td></tr>' for a, b, c in lines)
    head = '<tr><td></td><th scope="col">Value</th><th scope="col">Repeats</th></tr>'
    return f'<table class="block block-2"><caption>Results</caption><thead>{head}</thead><tbody>{body}</tbody></table>'


def _with_doubt(value: float, u: float, unit: str) -> str:
    text = " ± ".join(with_doubt(value, u)) if u > 0 else rounded(value)
    return escape(f"{text} {unit}".rstrip())


def as_text(values: Mapping[str, tuple[float, float]], symbol: str) -> str:
    """One value with its doubt, without a unit; empty if it is not known."""
    return _with_doubt(*values[symbol], "") if symbol in values else ""
