"""A reader of printed MathML: what the eye sees, worked out; it shares no code with ``calc``.

Groups that cannot be seen (``mrow``) count for nothing, so a bracket left out is read as a person reads it: by the
rules of precedence. Raised and lowered parts, fraction lines and roots can be seen, and group. Numbers may carry units.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

from tests.calc.line_reader import read

Glyph = tuple[str, str]
"""A printed symbol: letter and index, as ('a', 'R') for an a with a low R."""

PI: Glyph = ("π", "")
_FUNCTIONS: dict[str, Callable[[Any], Any]] = {
    name: getattr(math, name) for name in ("sin", "cos", "tan", "exp", "asin", "acos", "atan")
} | {"ln": math.log}
_TURNED = {"sin": "asin", "cos": "acos", "tan": "atan"}


def parts(pieces: Sequence[str]) -> list[list[Element]]:
    """The printed line's elements, cut at each equals sign; what only remarks (", so") is left out."""
    found: list[list[Element]] = [[]]
    for element in _seen(child for piece in pieces for child in ElementTree.fromstring(piece)):
        if (element.tag, element.text) in (("mo", "="), ("mtext", ", so")):
            found.append([])
        elif not (element.tag == "mtext" and "(unrounded)" in (element.text or "")):
            found[-1].append(element)
    return found


def value(elements: Sequence[Element], symbols: Mapping[Glyph, Any], rows: int = 0) -> Any:
    """The value of one side. ``symbols`` gives each glyph's; ``rows`` is how many rows a sum over rows has.

    Raises KeyError for a glyph that has no value, AssertionError for what cannot be read.
    """
    reader = _Reader(list(_seen(elements)), symbols, rows)
    found = reader.sum()
    assert not reader.left, f"something is left over: {[e.text for e in reader.left]}"
    return found


def glyphs(elements: Sequence[Element]) -> list[Glyph]:
    """Every symbol that is printed and stands for a quantity, in order."""
    found = []
    for element in elements:
        glyph = _glyph(element)
        if glyph == PI:
            continue
        if glyph:
            found.append(glyph)
        else:
            found += glyphs(list(element))
    return found


def in_row(symbols: Mapping[Glyph, Any], index: str, i: int) -> dict[Glyph, Any]:
    """What the index stands for in row i: F with a low i is F with a low 2, and W with a low in,i the one of in,2."""
    found = {}
    for (letter, low), its_value in symbols.items():
        *before, last = low.split(",")
        if last == str(i):
            found[letter, ",".join((*before, index))] = its_value
    return found


def _seen(elements: Any) -> Iterator[Element]:
    for element in elements:
        if element.tag == "mrow":
            yield from _seen(element)
        elif element.tag != "mspace":
            yield element


def _glyph(element: Element) -> Glyph | None:
    if element.tag == "mi" and element.text not in (*_FUNCTIONS, "max"):
        return element.text or "", ""
    if element.tag == "msub":
        letter, index = element
        return letter.text or "", index.text or ""
    return None


class _Reader:
    """Descends a line of elements: sums of products of atoms."""

    def __init__(self, elements: list[Element], symbols: Mapping[Glyph, Any], rows: int) -> None:
        self.left, self.symbols, self.rows = elements, symbols, rows

    def inner(self, element: Element) -> Any:
        return value([element], self.symbols, self.rows)

    def sign(self, *signs: str) -> str:
        if self.left and self.left[0].tag == "mo" and self.left[0].text in signs:
            return self.left.pop(0).text or ""
        return ""

    def sum(self) -> Any:
        found = -self.product() if self.sign("−") else self.product()
        while sign := self.sign("+", "−"):
            other = self.product()
            found = found + other if sign == "+" else found - other
        return found

    def product(self) -> Any:
        found = self.atom()
        while self.sign("·", "×") or (self.left and not self._ends()):
            found = found * self.atom()
        return found

    def _ends(self) -> bool:
        return self.left[0].tag == "mo" and self.left[0].text in ("+", "−", ")", ",", "⌋")

    def atom(self) -> Any:
        element = self.left.pop(0)
        if element.tag in ("munder", "munderover"):
            return self.many(element)
        if element.text == "max" or (element.text in _FUNCTIONS and element.tag == "mi"):
            return self.function(element.text)
        if glyph := _glyph(element):
            return math.pi if glyph == PI else self.symbols[glyph]
        match element.tag:
            case "mn":
                return self.number(element.text or "")
            case "mfrac":
                return self.inner(element[0]) / self.inner(element[1])
            case "msqrt":
                return value(list(element), self.symbols, self.rows) ** 0.5
            case "msup" if element[0].text in _TURNED:
                assert self.inner(element[1]) == -1
                return self.function(_TURNED[element[0].text or ""])
            case "msup":
                return self.inner(element[0]) ** self.inner(element[1])
            case "mo" if element.text in "(⌊":
                found = self.sum()
                assert self.sign(")" if element.text == "(" else "⌋"), "a bracket stays open"
                return found if element.text == "(" else float(math.floor(found + 1e-9))
        raise AssertionError(ElementTree.tostring(element, "unicode"))

    def number(self, text: str) -> Any:
        if self.left and self.left[0].tag == "mtext":
            return read(f"{text} {self.left.pop(0).text}")
        return read(text) if text.endswith("°") else float(text)

    def function(self, name: str) -> Any:
        if name == "max":
            assert self.sign("(")
            assert self.number(self.left.pop(0).text or "") == 0
            assert self.sign(",")
            found = self.sum()
            assert self.sign(")")
            return max(found, 0 * found)
        argument = self.atom()
        if hasattr(argument, "to"):
            argument = argument.to("radian").magnitude
        return _FUNCTIONS[name](argument)

    def many(self, element: Element) -> Any:
        """A sum or product: over the rows, or from the number below to the one above."""
        index = glyphs([element[1]])[0]
        first, last = 1, self.rows
        if element.tag == "munderover":
            first, last = int(self.inner(list(_seen([element[1]]))[2])), round(self.inner(element[2]))
        body = self.term()
        terms = [value(body, self._at(index, i), self.rows) for i in range(first, last + 1)]
        return math.fsum(terms) if element[0].text == "∑" else math.prod(terms)

    def term(self) -> list[Element]:
        """What the sign stands before: all factors up to the next plus, minus or closing bracket."""
        body: list[Element] = []
        depth = 0
        while self.left and (depth or not self._ends()):
            element = self.left.pop(0)
            depth += (element.text == "(") - (element.text == ")") if element.tag == "mo" else 0
            body.append(element)
        return body

    def _at(self, index: Glyph, i: int) -> dict[Glyph, Any]:
        letter = index[0]
        return {**self.symbols, **in_row(self.symbols, letter, i), index: i}
