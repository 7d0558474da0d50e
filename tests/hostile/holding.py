"""What must hold of every answer, whatever was asked."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator
from typing import Any

import uncertainties

import calc
from calc.formula import Binary, Call, Negative, Node, evaluate, parse_equation
from calc.measure import read
from calc.model import Quantity
from calc.question import ask
from calc.registry import CALCULATORS
from calc.settle import settled
from calc.units import KINDS, factor, in_unit
from calc.views import find
from tests.hostile.clean import known
from tests.hostile.fragments import fragments, marks

LARGEST = 4_000_000
"""Characters of an answer, however it was asked: more would make a school's tablet stop."""
PUT_BACK = 1e-6
_PLAIN = re.compile(r"-?\d+(?:\.\d+)?")
_NO_NUMBER = re.compile(r"(?<![A-Za-z])(?:nan|inf|None)(?![A-Za-z])")


def answered(request: dict[str, Any]) -> dict[str, Any]:
    """The answer, as the page gets it: through JSON both ways. Raises AssertionError if anything does not hold."""
    text = calc.answer_json(json.dumps(request))
    assert len(text) <= LARGEST
    answer: dict[str, Any] = json.loads(text, parse_constant=_no_constant)
    for fragment in fragments(answer):
        strange = marks(fragment) - known()
        assert not strange, f"elements or attributes that no template makes: {strange}"
    for shown in _numbers(answer):
        assert not _NO_NUMBER.search(shown), shown
    key = request.get("calculator")
    if "record" not in request and isinstance(key, str) and key in CALCULATORS and answer.get("values"):
        put_back(json.loads(json.dumps(request)), answer)
    return answer


def _no_constant(name: str) -> None:
    raise AssertionError(f"{name} is not JSON")


def _numbers(answer: dict[str, Any]) -> Iterator[str]:
    """The texts of results; they quote nothing that was typed."""
    for box in answer.get("fields", {}).values() if isinstance(answer.get("fields"), dict) else ():
        yield box["shown"]
    for entry in answer.get("values", {}).values() if isinstance(answer.get("values"), dict) else ():
        if isinstance(entry, dict):
            yield entry.get("text", "")
    if isinstance(html := answer.get("html"), dict):
        yield html.get("results", "") if isinstance(html.get("results"), str) else ""
    for option in answer.get("options", []):
        yield from (option["text"][name] for name in ("start", "moving", "lowering", "path", "share"))


def put_back(request: dict[str, Any], answer: dict[str, Any]) -> None:
    """Each worked-out value, put back into the relation it came from, makes both sides equal.

    And what is shown is that value. A second way: the solver turned the relation round, or searched; here both sides
    are only worked out.
    """
    question = settled(ask(CALCULATORS[request["calculator"]], request))
    findings = find(question)
    for view in findings.views.values():
        values = {symbol: float(uncertainties.nominal_value(value)) for symbol, value in view.values.items()}
        for step in view.solution.steps:
            left, right = parse_equation(step.relation.text)
            a, b = evaluate(left, values), evaluate(right, values)
            size = max(_size(left, values), _size(right, values))
            assert abs(a - b) <= PUT_BACK * size, (step.relation.text, step.symbol, values)
    for symbol, entry in answer["values"].items():
        best = findings.best(symbol)
        assert best is not None
        assert math.isclose(entry["si"], uncertainties.nominal_value(best[1]), rel_tol=1e-12)
    for symbol, box in answer["fields"].items():
        if box["state"] == "computed" and symbol in answer["values"]:
            shows(box["shown"], box["unit"], answer["values"][symbol]["si"], question.quantities[symbol])


def shows(shown: str, unit: str, value: float, quantity: Quantity) -> None:
    """A box's text is its value, to half of the last digit that it shows, or of the part of an inch on a tape."""
    number, _, doubt = shown.partition(" ± ")
    if not _PLAIN.fullmatch(number):
        assert quantity.parts, shown
        read_back = read(number, KINDS["length"], "", "in").nominal
        assert abs(read_back - value) <= factor("in") * (0.5 / quantity.parts + 1e-9), (shown, value)
        return
    exact = in_unit(value, unit)
    figures = 0.00501 * abs(exact)  # the coarsest of three figures: 1.00 against 1.005
    digit = 0.501 * 10.0 ** -len(number.partition(".")[2])
    room = max(digit, 0.051 * float(doubt)) if doubt else digit if "." in number else max(digit, figures)
    assert abs(float(number) - exact) <= room, (shown, exact)


def _size(node: Node, values: dict[str, float]) -> float:
    """The largest part of a side: differences of large numbers are as exact as those are."""
    own = abs(evaluate(node, values))
    match node:
        case Binary("+" | "-", left, right):
            return max(own, _size(left, values), _size(right, values))
        case Binary("*", left, right):
            return max(own, _size(left, values) * _size(right, values))
        case Binary("/", left, right):
            return max(own, _size(left, values) / abs(evaluate(right, values)))
        case Negative(arg) | Call("pos" | "sqrt", arg):
            return max(own, _size(arg, values)) if not isinstance(node, Call) else own
    return own
