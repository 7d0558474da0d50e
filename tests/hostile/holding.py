"""What must hold of every answer, whatever was asked."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator, Mapping
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
LAST_BITS = 1e-14
"""The share of a value beside it in which the sides may cross, where no float puts them nearer."""
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
            near = abs(a - b) <= PUT_BACK * size or crosses(step.relation.text, step.symbol, values)
            assert near, (step.relation.text, step.symbol, values)
    for symbol, entry in answer["values"].items():
        best = findings.best(symbol)
        assert best is not None
        assert math.isclose(entry["si"], uncertainties.nominal_value(best[1]), rel_tol=1e-12)
    for symbol, box in answer["fields"].items():
        if box["state"] == "computed" and symbol in answer["values"]:
            shows(box["shown"], box["unit"], answer["values"][symbol]["si"], question.quantities[symbol])


def crosses(equation: str, symbol: str, values: Mapping[str, float]) -> bool:
    """Whether the difference of the sides goes through zero within the last bits of a value: no float comes nearer.

    The angle to the path of a force whose part along it is 1e-29 of the force differs from 90 degrees by less than
    floats beside it do from each other; no float puts that part back. ``calc.formula`` takes a cosine below 1e-15, and
    a difference below 1e-14 of its terms, as nothing, so that the next float need not cross, but one so near must.
    """
    left, right = parse_equation(equation)

    def difference(x: float) -> float:
        beside = {**values, symbol: x}
        return float(evaluate(left, beside) - evaluate(right, beside))

    value = values[symbol]
    try:
        below, above = (difference(value * (1 + sign * LAST_BITS)) for sign in (-1, 1))
    except (ValueError, ZeroDivisionError, OverflowError):
        return False
    opposite = min(below, above) < 0 < max(below, above)
    return opposite and abs(difference(value)) <= max(abs(below), abs(above))  # at a pole the middle is higher


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
