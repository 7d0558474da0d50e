"""The worked solution of a problem in five lines: known, in words, in letters, numbers put in, answer; a check."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape

from calc import symbols
from calc.figures import plain, shown
from calc.formula import IN_DEGREES, Binary, Call, Negative, Node
from calc.line_breaks import broken
from calc.notation import quantity
from calc.practice.draw import Draw
from calc.practice.families import Family, tree
from calc.shown import with_unit

STEPS = {"formula": "the formula", "units": "the step where numbers and units go in"}
"""Where a slip sends the reader."""


@dataclass(frozen=True)
class Step:
    """One line: what it is, and what stands in it as HTML."""

    title: str
    html: str


def answer_text(asked: Family, number: float) -> str:
    """A result of this family as it is shown: three figures and the unit."""
    return with_unit(shown(number), asked.unit)


def steps(asked: Family, draw: Draw) -> list[Step]:
    """The five lines and the check, with the numbers of one draw."""
    formula = _readable(tree(asked.answer))
    symbol = symbols.mathml(asked.symbol)

    def leaf(name: str, turning: bool) -> tuple[str, str]:
        return plain(draw.numbers[name]), "" if asked.units[name] == "turns" else asked.units[name]

    known = ", ".join(_known(asked, draw, name) for name in draw.numbers)
    end = answer_text(asked, draw.answer)
    result = quantity(shown(draw.answer), asked.unit)
    return [
        Step("Known", f"<p>{known}. Wanted: {escape(asked.wanted)}.</p>"),
        Step("In words", f"<p>{escape(asked.words)}.</p>"),
        Step("In letters", _formula(symbol, broken(formula))),
        Step("Numbers put in", _formula(symbol, broken(formula, leaf))),
        Step("Answer", f'{_formula(symbol, [result])}<p class="vh">{escape(end)}</p>'),
        Step("Check", f"<p>{escape(asked.check)}</p>"),
    ]


def as_list(lines: list[Step]) -> str:
    """Lines of working as HTML."""
    items = "".join(f"<li><strong>{line.title}.</strong> {line.html}</li>" for line in lines)
    return f'<ol class="p-steps">{items}</ol>'


def _known(asked: Family, draw: Draw, name: str) -> str:
    number = with_unit(plain(draw.numbers[name]), asked.units[name])
    return f"{escape(asked.names[name])} <math>{symbols.mathml(name)}</math> = {escape(number)}"


def _formula(symbol: str, parts: list[str]) -> str:
    first = f"<math>{symbol}<mo>=</mo>{parts[0]}</math>"
    return f'<p class="formula">{" ".join([first, *(f"<math>{part}</math>" for part in parts[1:])])}</p>'


def _readable(node: Node) -> Node:
    """The tree with sin for sind, since the page writes angles in degrees anyway."""
    match node:
        case Call(name, arg):
            return Call(IN_DEGREES.get(name, name), _readable(arg))
        case Negative(arg):
            return Negative(_readable(arg))
        case Binary(op, left, right):
            return Binary(op, _readable(left), _readable(right))
    return node


def letters(formula: str, symbol: str = "") -> str:
    """A formula of the families as MathML, with what it is equal to if that is named."""
    parts = broken(_readable(tree(formula)))
    first = f"{symbols.mathml(symbol)}<mo>=</mo>{parts[0]}" if symbol else parts[0]
    return " ".join([f"<math>{first}</math>", *(f"<math>{part}</math>" for part in parts[1:])])
