"""A calculator's answer: a request dict in, an answer dict out (JSON both ways)."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from html import escape
from typing import Any

import uncertainties

from calc import results
from calc.fields import field, remarks_of
from calc.leads import leads
from calc.link import write as write_link
from calc.measure import Reading, shortened
from calc.messages import Message, message
from calc.model import holds_in
from calc.pictures import drawings, sliders
from calc.prediction import compared, predictions
from calc.question import Question, ask
from calc.registry import CALCULATORS
from calc.settle import settled
from calc.shown import exact, value_text
from calc.solve import Solution, Step, told
from calc.views import TITLES, Findings, View, enough, find
from calc.working import Line, is_copy, line, unit_lines, unworked_lines

_FIRST: tuple[str, ...] = ("IMA", "E", "AMA", "eta")
_LAST: tuple[str, ...] = ("dE", "dR", "Win", "Wout", "Wlost")

_IN_SENTENCE = ("n-over1", "n-back", "n-root2")


def answer(request: Mapping[str, Any]) -> dict[str, Any]:
    """Answer one request, or ``only`` that part of it which a page shows next.

    Never raises for a dict of JSON values; what is wrong comes back as messages.

    The keys of request and answer are listed in the contributor's guide.
    """
    key = request.get("calculator")
    if not isinstance(key, str) or key not in CALCULATORS:
        problem = message("e-key", x=shortened(str(key)), list=", ".join(CALCULATORS))
        return {
            "calculator": None,
            "fields": {},
            "values": {},
            "errors": [_error(None, problem)],
            "remarks": [problem.text],
            "cautions": [],
        }
    question = settled(ask(CALCULATORS[key], request))
    findings = find(question)
    made, unreadable = predictions(question, request)
    if set(question.hidden) - set(made):
        return _held_back(question, findings, unreadable)
    only = request.get("only")
    if only == "numbers":
        return _numbers(question, findings, made)
    if only == "working":
        return _after_the_numbers(question, findings, request)
    if only == "pictures":
        return {"calculator": key, "html": drawings(question, findings, request)}
    lines = _working(question, findings)
    result = {
        **_numbers(question, findings, made),
        "values": _values(question, findings),
        "notes": [{"symbol": at, "code": note.code, "text": note.text} for at, note in remarks_of(findings)],
        "cautions": list(question.calculator.cautions),
        "columns": [{"view": name, "title": TITLES[name]} for name in findings.views],
        "working": [{"words": item.words, "text": item.text, "mathml": list(item.mathml)} for item in lines],
        "sliders": sliders(question, findings, request),
    }
    result["html"]["working"] = _working_html(lines)
    result["html"].update(drawings(question, findings, request))
    return result


def solved(request: Mapping[str, Any]) -> dict[str, Any]:
    """The values that answer a request, by symbol, in SI: floats, or uncertain numbers where a doubt was typed.

    For other parts of ``calc`` that ask many questions and show the answers themselves. Raises KeyError for an unknown
    calculator; what is wrong in a box leaves out what would follow from it.
    """
    question = settled(ask(CALCULATORS[request["calculator"]], request))
    findings = find(question)
    found = {symbol: findings.best(symbol) for symbol in question.quantities if symbol not in findings.waiting}
    return {symbol: best[1] for symbol, best in found.items() if best is not None}


def _numbers(question: Question, findings: Findings, made: Mapping[str, Reading]) -> dict[str, Any]:
    """What a page shows first, at every key: the boxes and what is wrong with them, the sentence, the result block."""
    fields = {symbol: field(question, findings, symbol) for symbol in _boxes(question)}
    return {
        "calculator": question.calculator.key,
        "units": question.system,
        "choices": dict(question.choices),
        "fields": fields,
        "errors": [_error(symbol, problem) for symbol, problem in findings.errors.items()],
        "remarks": _remarks(findings, fields),
        "link": _link(question),
        "leads": leads(question, findings),
        "html": {
            "sentence": _sentence_html(question, findings),
            "results": results.table(question, findings),
            "prediction": compared(question, findings, made),
        },
    }


def _after_the_numbers(question: Question, findings: Findings, request: Mapping[str, Any]) -> dict[str, Any]:
    """What a page shows when the reader pauses: the working, and what can be slid."""
    return {
        "calculator": question.calculator.key,
        "sliders": sliders(question, findings, request),
        "html": {"working": _working_html(_working(question, findings))},
    }


def _held_back(question: Question, findings: Findings, unreadable: Mapping[str, Message]) -> dict[str, Any]:
    """The answer while a hidden result waits for the reader's own number: messages about boxes, and no result.

    ``unreadable`` is what is wrong with a number that the reader tried.
    """
    findings.views = {name: replace(view, solution=Solution(dict(view.given))) for name, view in findings.views.items()}
    findings.waiting = set()
    boxes = {symbol: field(question, findings, symbol) for symbol in _boxes(question)}
    for symbol in question.hidden:
        if symbol in boxes:
            boxes[symbol]["note"] = "Type your own number first."
            if symbol in unreadable:
                problem = unreadable[symbol]
                told = {"code": problem.code, "start": problem.start, "words": problem.words, "fill": None}
                boxes[symbol] |= {"state": "error", "error": told}
    names = " and ".join(question.quantities[symbol].label.lower() for symbol in question.hidden)
    return {
        "calculator": question.calculator.key,
        "units": question.system,
        "choices": dict(question.choices),
        "fields": boxes,
        "values": {},
        "errors": [_error(symbol, problem) for symbol, problem in findings.errors.items()],
        "notes": [],
        "remarks": _elsewhere(findings, boxes),
        "cautions": list(question.calculator.cautions),
        "columns": [],
        "working": [],
        "link": _link(question),
        "leads": [],
        "sliders": [],
        "html": {
            "sentence": f"Type your own {escape(names)} first, then press Enter. The answer appears after that.",
            "results": "",
            "prediction": "",
            "working": "",
        },
    }


def _link(question: Question) -> str:
    """The fragment that opens this sheet again: every given box with its unit, every choice."""
    given = {symbol: exact(question, symbol) for symbol in question.readings}
    request = {"calculator": question.calculator.key, "units": question.system, "given": given}
    return write_link({**request, "choices": question.choices})


def _remarks(findings: Findings, fields: Mapping[str, Mapping[str, Any]]) -> list[str]:
    """What is said beside the answer: messages and remarks that no box and not the sentence shows."""
    unsaid = [
        note.text
        for at, note in remarks_of(findings)
        if note.code not in _IN_SENTENCE and note.text not in fields.get(at, {"note": ""})["note"]
    ]
    return [*_elsewhere(findings, fields), *unsaid]


def _elsewhere(findings: Findings, fields: Mapping[str, Mapping[str, Any]]) -> list[str]:
    """The messages that belong to no box that is shown: of choices, of unknown names."""
    shown = {symbol for symbol, box in fields.items() if box["state"] != "unused"}
    return [problem.text for symbol, problem in findings.errors.items() if symbol not in shown]


def _error(symbol: str | None, problem: Message) -> dict[str, Any]:
    return {"symbol": symbol, "code": problem.code, "text": problem.text}


def _boxes(question: Question) -> list[str]:
    return [symbol for symbol, quantity in question.quantities.items() if quantity.level]


def _values(question: Question, findings: Findings) -> dict[str, Any]:
    values = {}
    for symbol, quantity in question.quantities.items():
        best = findings.best(symbol)
        if best is None or symbol in findings.waiting:
            continue
        value = best[1]
        entry: dict[str, Any] = {
            "si": uncertainties.nominal_value(value),
            "text": value_text(quantity, value, question.system, question.digits),
            "view": best[0],
        }
        if (u := uncertainties.std_dev(value)) > 0 and math.isfinite(u):
            entry["u"] = u
        values[symbol] = entry
    return values


def _working(question: Question, findings: Findings) -> list[Line]:
    lines = [*unit_lines(question), *unworked_lines(question)]
    done: set[tuple[str, str, float]] = set()
    for view in findings.views.values():
        for step in told(view.solution.steps, _wanted(question, findings, view)):
            lines.extend(_line(question, step, view, done))
    return lines


def _wanted(question: Question, findings: Findings, view: View) -> list[str]:
    """What the working leads to: the results, the boxes as deep as somebody typed, and the first row.

    Of like things side by side the first is told whole, the others as far as their first line.
    """
    calculator, last_view = question.calculator, list(findings.views.values())[-1]
    first_row = [column for rows in calculator.rows if rows.told for column in rows.columns]
    first_row = [f"{column}_1" if f"{column}_1" in question.quantities else column for column in first_row]
    if first_row and not calculator.six_lines and not calculator.listed:
        return first_row
    deepest = max((question.quantities[s].level for s in question.readings), default=1)
    listed = list(calculator.listed)
    last = _LAST
    if view is not last_view:  # beside another view this one is told briefly
        deepest, last = 1, last[:0]
        listed = [symbol for symbol in listed if symbol not in last_view.values]
        first_row = [symbol for symbol in first_row if symbol not in last_view.values]
    boxes = [s for s, q in question.quantities.items() if 0 < q.level <= deepest or (q.level == 0 and deepest == 3)]
    columns = calculator.beside.told(question.choices) if calculator.beside else []
    wanted = dict.fromkeys((*_FIRST, *boxes, *last, *listed, *columns, *first_row))
    here = [
        s for s in wanted if s not in question.quantities or holds_in(question.quantities[s].when, question.choices)
    ]
    found = [s for s in here if s not in view.given and s not in view.assumed]
    return [s for s in found if s not in _LAST or s in last or s in listed]


def _line(question: Question, step: Step, view: View, done: set[tuple[str, str, float]]) -> list[Line]:
    mark = (step.symbol, step.relation.text, uncertainties.nominal_value(view.values[step.symbol]))
    if mark in done or is_copy(question, step):
        return []
    done.add(mark)
    return [line(question, step, view.values)]


def _working_html(lines: list[Line]) -> str:
    if not lines:
        return '<p class="none">Fill in one more box, and the steps appear here.</p>'
    items = "".join(
        f'<li><p>{escape(item.words)}</p><p class="formula">{" ".join(item.mathml)}</p></li>' for item in lines
    )
    return f"<ol>{items}</ol>"


def _sentence_html(question: Question, findings: Findings) -> str:
    said = results.sentence(question, findings)
    if not said:
        said = _enough(question, findings)
    marks = [note for _, note in remarks_of(findings) if note.code in _IN_SENTENCE]
    return " ".join([said, *(f"<strong>{escape(note.start)}</strong> {escape(note.words)}" for note in marks)])


def _enough(question: Question, findings: Findings) -> str:
    """When nothing follows yet: which boxes would be enough."""
    if findings.errors:
        return "Mend the marked box, and the answer comes back."
    empty = [question.quantities[symbol].label.lower() for symbol in enough(question)]
    if not empty:
        return "Fill in one more box."
    listed = empty[0] if len(empty) == 1 else ", ".join(empty[:-1]) + " and " + empty[-1]
    return f"Fill in {escape(listed)}. That is enough for the rest."
