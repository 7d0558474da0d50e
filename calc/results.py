"""The result block and the table of rows as HTML: the same text for the prerendered page and the live one."""

from __future__ import annotations

import re
from collections.abc import Mapping
from html import escape
from typing import Any

import uncertainties

from calc import symbols
from calc.model import Beside, Quantity, Rows, Sentence, holds_in
from calc.question import Question
from calc.shown import number_text, typed_text, unit_of, value_text
from calc.views import TITLES, Findings, View

NOT_MEASURED = '<span class="none">not measured</span>'
NOT_HERE = '<span class="none">–</span>'
UNKNOWN = '<span class="none">not known yet</span>'
_ABBREVIATIONS = {"IMA": "ideal mechanical advantage", "AMA": "actual mechanical advantage"}


def spaced(text: str) -> str:
    """Groups of three digits held apart by a thin space, from 10 000 on (figures to read, not to type)."""

    def group(match: re.Match[str]) -> str:
        return re.sub(r"(?<=\d)(?=(?:\d{3})+$)", "\u202f", match[0])

    return re.sub(r"(?<![\d.])\d{5,}", group, text)


def text_in(question: Question, symbol: str, value: Any) -> str:
    """A value as the page's sentence and drawing show it: as typed if it was typed, else rounded."""
    quantity = question.quantities[symbol]
    if symbol in question.readings and value is question.readings[symbol].value:
        return typed_text(quantity, value, question.system)
    return value_text(quantity, value, question.system, question.digits)


def sentence(question: Question, findings: Findings) -> str:
    """The answer in one sentence, as HTML; empty if nothing follows yet."""
    for name in ("measured", "expected", "ideal", "plain"):
        if name in findings.views:
            measured = question.calculator.measured
            typed = "typed" if measured in findings.views[name].given else "found"
            effort = "limit" if measured in question.limits else typed
            case = {**question.choices, "view": name, "effort": effort}
            for candidate in question.calculator.sentences:
                if holds_in(candidate.when, case) and (said := _said(question, findings, candidate, name)):
                    return said
    return ""


def _said(question: Question, findings: Findings, candidate: Sentence, view: str) -> str:
    wanted = re.findall(r"\{(\w+)(?:@(\w+))?\}", candidate.text)
    parts: dict[str, str] = {}
    for symbol, other in wanted:
        if other == "typed" and symbol in question.readings:
            parts[f"{{{symbol}@typed}}"] = escape(
                typed_text(question.quantities[symbol], question.readings[symbol].value, question.system)
            )
            continue
        source = findings.views.get(other or view)
        if source is None or symbol not in source.values or (symbol in findings.waiting and not other):
            return ""
        value = source.values[symbol]
        if symbol == "eta" and uncertainties.nominal_value(value) > 1:
            return "The efficiency comes out over 100 %. That is not possible: measure again."
        shown = escape(spaced(text_in(question, symbol, value)))
        strong = question.quantities[symbol].role == "effort" and question.quantities[symbol].kind == "force"
        parts[f"{{{symbol}@{other}}}" if other else f"{{{symbol}}}"] = (
            f'<strong class="effort">{shown}</strong>' if strong and not other else shown
        )
    return re.sub(r"\{\w+(?:@\w+)?\}", lambda match: parts[match[0]], escape(candidate.text))


def table(question: Question, findings: Findings) -> str:
    """The six lines of a machine with load and effort, further results, like ones side by side, rows: what it has."""
    calculator = question.calculator
    six = _six_lines(question, findings) if calculator.six_lines else []
    listed = _listed(question, findings) if calculator.listed else []
    block = _block(list(findings.views.values()), six, listed) if six or listed else ""
    rows = [_row_table(question, findings, rows) for rows in calculator.rows if rows.columns]
    return "".join((block, _side_by_side(question, findings, calculator.beside), *rows))


def _six_lines(question: Question, findings: Findings) -> list[str]:
    views = list(findings.views.values())
    return [
        _line("Forces", [_pairs(question, findings, view, ("R", "E")) for view in views]),
        _line("Paths", [_pairs(question, findings, view, ("dR", "dE")) for view in views]),
        _line(_abbreviation("IMA"), [_value(question, view, "IMA") for view in views]),
        _line(_abbreviation("AMA"), [_actual(question, view, "AMA") for view in views]),
        _line("Work", [_work(question, view) for view in views]),
        _line("Efficiency", [_actual(question, view, "eta") for view in views]),
    ]


def _listed(question: Question, findings: Findings) -> list[str]:
    """A line for each listed result that this case has; those that nothing is known of only while nothing else is."""
    views = list(findings.views.values())
    here = [s for s in question.calculator.listed if holds_in(question.quantities[s].when, question.choices)]
    known = [symbol for symbol in here if any(symbol in view.values for view in views)]
    lines = []
    for symbol in known or here:
        here_too = [view for view in views if symbol in view.values] or views
        cells = [_pairs(question, findings, view, (symbol,)) if view in here_too else NOT_HERE for view in views]
        lines.append(_line(escape(question.quantities[symbol].label), cells))
    return lines


def _block(views: list[View], six: list[str], listed: list[str]) -> str:
    heads = "".join(f'<th scope="col">{TITLES[view.name]}</th>' for view in views)
    groups = (f"<tbody>{''.join(six)}</tbody>" if six else "", f'<tbody class="listed">{"".join(listed)}</tbody>')
    return (
        f'<table class="block block-{len(views)}"><caption>Results</caption>'
        f"<thead><tr><td></td>{heads}</tr></thead>{groups[0]}{groups[1] if listed else ''}</table>"
    )


def _side_by_side(question: Question, findings: Findings, beside: Beside | None) -> str:
    """Like results in columns, each headed by the option that was chosen; an efficiency of 100 % is called ideal."""
    columns = beside.columns(question.choices) if beside else []
    if not beside or not columns:
        return ""
    options = {choice.symbol: (choice.label, dict(choice.options)) for choice in question.calculator.choices}
    heads = "".join(
        f'<th scope="col">{escape(label)}: {escape(words[question.choices[name]])}</th>'
        for _, name in columns
        for label, words in (options[name],)
    )
    lines = [
        _line(escape(label), [_beside_cell(question, findings, f"{symbol}_{i}") for i, _ in columns])
        for symbol, label in beside.lines
    ]
    return (
        f'<table class="block beside"><caption>Side by side</caption>'
        f"<thead><tr><td></td>{heads}</tr></thead><tbody>{''.join(lines)}</tbody></table>"
    )


def _beside_cell(question: Question, findings: Findings, symbol: str) -> str:
    best = findings.best(symbol)
    if best is None:
        return UNKNOWN
    number = _number(question, symbol, best[1])
    ideal = question.quantities[symbol].kind == "efficiency" and uncertainties.nominal_value(best[1]) == 1
    return f'{number} <span class="none">ideal</span>' if ideal else number


def _line(head: str, cells: list[str]) -> str:
    return f'<tr><th scope="row">{head}</th>{"".join(f"<td>{cell}</td>" for cell in cells)}</tr>'


def _abbreviation(name: str) -> str:
    return f'<abbr title="{_ABBREVIATIONS[name]}">{name}</abbr>'


def _number(question: Question, symbol: str, value: Any) -> str:
    return escape(spaced(value_text(question.quantities[symbol], value, question.system, question.digits)))


def _value(question: Question, view: View, symbol: str) -> str:
    if symbol not in view.values:
        return UNKNOWN
    return _number(question, symbol, view.values[symbol])


def _pair(label: str, value: str) -> str:
    return f'<span class="kv"><span class="k">{label}</span> {value}</span>'


def _pairs(question: Question, findings: Findings, view: View, names: tuple[str, ...]) -> str:
    return "".join(
        _pair(symbols.html(name, question.quantities[name].role == "effort"), _value(question, view, name))
        for name in names
        if name in question.quantities
    )


def _impossible(view: View) -> bool:
    return view.name == "measured" and uncertainties.nominal_value(view.values.get("eta", 0)) > 1 + 1e-12


def _actual(question: Question, view: View, symbol: str) -> str:
    """AMA and efficiency: only a measured effort has them; an expected efficiency says that it is expected."""
    if view.name == "ideal" or (view.name == "expected" and symbol == "AMA"):
        return NOT_MEASURED
    if symbol not in view.values:
        return UNKNOWN
    number = _number(question, symbol, view.values[symbol])
    if view.name == "expected":
        return f'{number} <span class="none">expected</span>'
    if _impossible(view):
        mark = '<span class="mark">not possible: re-measure</span>' if symbol == "eta" else ""
        return f"<s>{number}</s> {mark}".strip()
    return number


def _work(question: Question, view: View) -> str:
    # An ideal machine that also lifts a part of its own says where that work goes.
    nothing = view.name == "ideal" and "Win" in view.values and "Wlost" not in view.values
    lost = "0 (ideal)" if nothing else _value(question, view, "Wlost")
    if _impossible(view):
        lost = f"<s>{lost}</s>"
    return (
        _pair("in", _value(question, view, "Win")) + _pair("out", _value(question, view, "Wout")) + _pair("lost", lost)
    )


def _row_table(question: Question, findings: Findings, rows: Rows) -> str:
    columns = [q for s in rows.columns if holds_in((q := _column(question, rows, s)).when, question.choices)]
    heads = "".join(
        f'<th scope="col">{escape(q.label)} <span class="unit">{escape(unit_of(q, question.system))}</span></th>'
        for q in columns
    )
    lines = []
    for i in range(1, question.counts[rows.name] + 1):
        cells = []
        for position, column in enumerate(columns):
            row_symbol = f"{column.symbol}_{i}"
            name = row_symbol if row_symbol in question.quantities else column.symbol
            best = findings.best(name)
            text = UNKNOWN if best is None else escape(spaced(_cell(question, name, best[1])))
            cells.append(f'<th scope="row">{text}</th>' if position == 0 else f"<td>{text}</td>")
        lines.append(f"<tr>{''.join(cells)}</tr>")
    return (
        f'<div class="wide" role="region" aria-label="{escape(question.calculator.title)}: {escape(rows.name)}"'
        f' tabindex="0"><table class="record">'
        f"<thead><tr>{heads}</tr></thead><tbody>{''.join(lines)}</tbody></table></div>"
    )


def _cell(question: Question, name: str, value: Any) -> str:
    quantity = question.quantities[name]
    if name in question.readings:
        return typed_text(quantity, value, question.system).removesuffix(unit_of(quantity, question.system)).strip()
    return number_text(quantity, value, question.system, question.digits)


def _column(question: Question, rows: Rows, symbol: str) -> Quantity:
    in_rows: Mapping[str, Quantity] = {q.symbol: q for q in rows.quantities}
    return in_rows.get(symbol) or question.quantities[symbol]
