"""The working, line by line: the words, the formula, the numbers put in, the result.

A line is made from the same tree as the computation, so the two cannot drift apart. It uses one coherent set of
units and the fewest figures for which it recomputes to what it shows.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import uncertainties

from calc import symbols
from calc.figures import plain, shown, significant, to_places
from calc.formula import Call, Node, Symbol, evaluate, parse_equation, walk
from calc.line_breaks import broken
from calc.model import Quantity
from calc.notation import mathml, quantity, text
from calc.question import Question, box_unit
from calc.shown import counted_words, exact, typed_number, typed_text, value_text, with_unit
from calc.solve import ASSUMED, DIRECT, SEARCHED, Step
from calc.units import COHERENT, PER_INCH, factor


@dataclass(frozen=True)
class Line:
    """One line: the sentence, the whole line as plain text, and MathML in pieces, between which it may be broken."""

    words: str
    text: str
    mathml: tuple[str, ...]


def is_copy(question: Question, step: Step) -> bool:
    """A step that only gives a known value another name, in the same unit; it needs no line."""
    return isinstance(step.formula, Symbol) and not _changes_unit(question, step)


def _changes_unit(question: Question, step: Step) -> bool:
    """Whether a step shows a known value in another unit."""
    own, other = (question.quantities[name] for name in (step.symbol, *step.needs[:1]))
    return box_unit(own, question.system) != box_unit(other, question.system)


def unit_lines(question: Question) -> list[Line]:
    """Each typed value whose unit is not the box's, changed once, visibly."""
    lines = []
    for symbol, reading in question.readings.items():
        quantity_ = question.quantities[symbol]
        unit = box_unit(quantity_, question.system)
        typed = typed_text(quantity_, reading.value, question.system)
        if unit == PER_INCH:  # formulas need the pitch itself
            unit = COHERENT[question.system][0][quantity_.kind]
            typed = with_unit(typed_number(reading.value, unit), unit)
        if reading.unit != unit and quantity_.kind != "angle":
            first, then = exact(question, symbol), typed
            pieces = (
                _math(symbols.mathml(symbol), f"<mtext>{_escape(first)}</mtext>"),
                _math("", f"<mtext>{_escape(then)}</mtext>"),
            )
            words = f"{question.quantities[symbol].label} in the sheet's unit."
            lines.append(Line(words, f"{symbol} = {first} = {then}", pieces))
    return lines


def unworked_lines(question: Question) -> list[Line]:
    """Each number that a choice put in an empty box, and each whole number found by counting up."""
    filled = [_stated(question, symbol, filled.value, filled.note) for symbol, filled in question.filled.items()]
    counted = [
        _stated(question, symbol, counted.value, f"Found by counting up. {counted_words(question, symbol)}")
        for symbol, counted in question.counted.items()
    ]
    return filled + counted


def _stated(question: Question, symbol: str, value: Any, words: str) -> Line:
    """A line that says a value without working it out."""
    result = value_text(question.quantities[symbol], value, question.system)
    return Line(words, f"{symbol} = {result}", (_math(symbols.mathml(symbol), _number(result)),))


def line(question: Question, step: Step, values: Mapping[str, Any]) -> Line:
    """The line of working for one step of a view with these values (SI)."""
    target = question.quantities[step.symbol]
    if step.how == ASSUMED:
        note = target.default_note or f"{target.label} is assumed."
        return _stated(question, step.symbol, values[step.symbol], note)
    words = step.relation.words
    if isinstance(step.formula, Symbol):
        return _renamed(question, step, values, words)
    if step.how == SEARCHED or step.formula is None:
        return _searched(question, step, values, words)
    return _Writer(question, step, step.formula, values).line(words)


def _renamed(question: Question, step: Step, values: Mapping[str, Any], words: str) -> Line:
    """A known value in another unit: 'L_ft = L_in = 63.5 in = 5.29 ft'."""
    name, value = step.needs[0], values[step.symbol]
    typed = name in question.readings
    target = question.quantities[step.symbol]
    result = value_text(target, value, question.system, question.digits)
    if typed:
        known = typed_text(question.quantities[name], values[name], question.system)
    else:
        known = _fewest_figures(question, name, values[name], target, result)
    pieces = (
        _math(symbols.mathml(step.symbol), symbols.mathml(name)),
        _math("", _number(known)),
        _math("", _number(result)),
    )
    return Line(words, f"{step.symbol} = {name} = {known} = {result}", pieces)


def _fewest_figures(question: Question, name: str, value: Any, target: Quantity, result: str) -> str:
    """A known value with the fewest figures from which the shown result follows."""
    q = question.quantities[name]
    known = value_text(q, value, question.system)
    unit = box_unit(q, question.system)
    if uncertainties.std_dev(value) > 0 or unit == PER_INCH or q.parts:
        return known
    size = uncertainties.nominal_value(value) / factor(unit)
    short = known.removesuffix(unit).strip()
    for number in (short, *(significant(size, figures) for figures in range(4, _most_figures(question) + 1))):
        again = value_text(target, float(number) * factor(unit), question.system, question.digits)
        if again == result:
            return with_unit(number, unit)
    return known


def _most_figures(question: Question) -> int:
    """The most figures of a number put in; a result of six takes more than six."""
    return 6 if question.digits == 3 else 9


def _searched(question: Question, step: Step, values: Mapping[str, Any], words: str) -> Line:
    left, right = parse_equation(step.relation.text)
    result = value_text(question.quantities[step.symbol], values[step.symbol], question.system)
    pieces = (_so(_math(mathml(left), mathml(right))), _math(symbols.mathml(step.symbol), _number(result)))
    start = f"{step.relation.text}, so {step.symbol} = {result}"
    return Line(f"{words} No rearranging gives this one: it is found by trying values.", start, pieces)


class _Writer:
    """Chooses units and figures for one line."""

    def __init__(self, question: Question, step: Step, formula: Node, values: Mapping[str, Any]) -> None:
        self.question, self.step, self.formula = question, step, formula
        self.values = {name: uncertainties.nominal_value(values[name]) for name in (*step.needs, step.symbol)}
        self.result = values[step.symbol]
        self.target = question.quantities[step.symbol]
        self.units = self._coherent()

    def _coherent(self) -> Mapping[str, str]:
        """Of the sets of units in which the line is true without a factor, the one nearest to the boxes' own."""

        def distance(units: Mapping[str, str]) -> int:
            total = 0
            for name in self.values:
                q = self.question.quantities[name]
                own = box_unit(q, self.question.system)
                if units.get(q.kind, own) != own:
                    total += 1 if q.kind in ("length", "pitch") else 100
            return total

        nearest = sorted(COHERENT[self.question.system], key=distance)
        return next(filter(self._is_true_in, nearest), nearest[0])

    def _is_true_in(self, units: Mapping[str, str]) -> bool:
        """Whether the formula holds for the bare numbers in these units."""
        numbers = {}
        for name, value in self.values.items():
            kind = self.question.quantities[name].kind
            numbers[name] = value / factor(units[kind]) if kind in units else value
        try:
            found = evaluate(self.formula, numbers)
        except (ValueError, ZeroDivisionError, OverflowError):
            return False
        return math.isclose(found, numbers[self.step.symbol], rel_tol=1e-9)

    def unit(self, name: str) -> str:
        q = self.question.quantities[name]
        return self.units.get(q.kind, box_unit(q, self.question.system))

    def number(self, name: str, figures: int, turning: bool) -> tuple[str, str]:
        """A symbol's number and unit as put in: degrees inside sin and cos, radians bare, percent as a decimal."""
        q, value = self.question.quantities[name], self.values[name]
        if q.kind == "angle":
            if not turning:
                return significant(value, max(figures, 4)), ""
            degrees = value / factor("°")
            return self._angle(degrees, figures), "°"
        if q.kind == "efficiency":
            return plain(value, figures), ""
        if q.kind == "count":
            return plain(value), ""
        size = value / factor(self.unit(name))
        if name in self.question.readings and self.values[name] == self.question.readings[name].nominal:
            return plain(size, max(figures, 6)), self.unit(name)
        return shown(size) if figures == 3 else significant(size, figures), self.unit(name)

    def _angle(self, degrees: float, figures: int) -> str:
        text_ = to_places(degrees, 1) if figures == 3 else significant(degrees, figures)
        return plain(float(text_)) if float(text_) == round(degrees, 9) else text_

    def recomputed(self, figures: int) -> float:
        """The line worked out from its own shown numbers, in SI."""
        put_in = {}
        bare = _bare_angles(self.formula)
        for name in self.step.needs:
            number, unit = self.number(name, figures, name not in bare)
            put_in[name] = float(number) * factor(unit)
        try:
            return float(evaluate(self.formula, put_in))
        except (ValueError, ZeroDivisionError, OverflowError):
            return math.nan

    def line(self, words: str) -> Line:
        wanted = self._shows(uncertainties.nominal_value(self.result))
        most = _most_figures(self.question)
        for figures in range(3, most + 1):
            again = self.recomputed(figures)
            if math.isfinite(again) and self._shows(again) == wanted:
                return self._written(words, figures)
        return self._written(words, most, " (unrounded)")

    def _shows(self, value: float) -> tuple[str, str]:
        """A result as the line ends: in the line's own unit and in the box's."""
        unit, digits = self.units.get(self.target.kind, ""), self.question.digits
        own = shown(value / factor(unit), digits) if unit else ""
        return own, value_text(self.target, value, self.question.system, digits)

    def _written(self, words: str, figures: int, remark: str = "") -> Line:
        """The line with so many figures put in; the remark says that they are still too few."""

        def leaf(name: str, turning: bool) -> tuple[str, str]:
            return self.number(name, figures, turning)

        name = self.step.symbol
        pieces, texts = [], []
        if self.step.how != DIRECT:
            left, right = parse_equation(self.step.relation.text)
            pieces += _broken(mathml(left), [*broken(right)])
            pieces[-1] = _so(pieces[-1])
            texts.append(self.step.relation.text + ", so ")
        pieces += _broken(symbols.mathml(name), broken(self.formula))
        texts.append(f"{name} = {text(self.formula)}")
        if self.step.needs:  # a plain number has nothing to put in
            pieces += _broken("", broken(self.formula, leaf))
            texts.append(f" = {text(self.formula, leaf)}")
        for part in self._results():
            pieces.append(_math("", _number(part)))
            texts.append(f" = {part}")
        if remark:
            pieces[-1] = pieces[-1].replace("</math>", f"<mtext>{remark}</mtext></math>")
            texts.append(remark)
        return Line(words, "".join(texts), tuple(pieces))

    def _results(self) -> list[str]:
        """The result in the line's own unit, then in the box's unit where that is another."""
        digits = self.question.digits
        shown_result = value_text(self.target, self.result, self.question.system, digits)
        nominal = uncertainties.nominal_value(self.result)
        if self.target.kind == "efficiency":
            share = to_places(nominal, 3) if digits == 3 else significant(nominal, digits)  # as exact as the percent
            return [share, shown_result]
        own = box_unit(self.target, self.question.system)
        unit = self.units.get(self.target.kind, own)
        if unit == own or self.target.kind == "angle":
            return [shown_result]
        return [with_unit(shown(nominal / factor(unit), digits), unit), shown_result]


def _bare_angles(formula: Node) -> set[str]:
    """Symbols that stand somewhere outside sin, cos and tan."""
    inside = {
        id(part)
        for call in walk(formula)
        if isinstance(call, Call) and call.name in ("sin", "cos", "tan")
        for part in walk(call.arg)
    }
    return {part.name for part in walk(formula) if isinstance(part, Symbol) and id(part) not in inside}


def _math(left: str, right: str) -> str:
    return f"<math>{left}<mo>=</mo>{right}</math>"


def _so(piece: str) -> str:
    """The piece before what follows from it."""
    return piece.replace("</math>", "<mtext>, so</mtext></math>")


def _broken(left: str, parts: list[str]) -> list[str]:
    """One <math> for each part of a long right side, the first with what it is equal to."""
    return [_math(left, parts[0]), *(f"<math>{part}</math>" for part in parts[1:])]


def _number(text_: str) -> str:
    number, _, unit = text_.rpartition(" ") if " " in text_ else (text_, "", "")
    if not number or unit[:1].isdecimal():
        return f"<mn>{_escape(text_)}</mn>"
    return quantity(_escape(number), unit)


def _escape(text_: str) -> str:
    return text_.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
