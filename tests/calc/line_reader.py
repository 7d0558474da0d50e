"""A second reader of working lines, with a parser of its own and pint's own units: it shares no code with ``calc``.

``read`` works out an expression as it is printed, numbers with units put in, and gives a quantity. Adding unlike
things, or a sine of a length, is an error here as it is on paper.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from typing import Any

import pint

UREG = pint.UnitRegistry()  # pint's own unit file: independent of ours

_UNITS = {
    "lbf": "force_pound",
    "ozf": "force_ounce",
    "kgf": "force_kilogram",
    "N": "newton",
    "kN": "kilonewton",
    "in": "inch",
    "ft": "foot",
    "yd": "yard",
    "mm": "millimeter",
    "cm": "centimeter",
    "m": "meter",
    "°": "degree",
    "rad": "radian",
    "%": "percent",
    "s": "second",
    "min": "minute",
    "h": "hour",
    "J": "joule",
    "W": "watt",
    "kW": "kilowatt",
    "hp": "horsepower",
    "psi": "psi",
    "MPa": "megapascal",
    "rpm": "revolutions_per_minute",
    "turns": "dimensionless",  # counted, as a book does
}
_PER = {"s": "second", "ft³": "foot**3", "m³": "meter**3"}
_WORD = r"(?:lbf|ozf|kgf|kN|kW|N|in|ft|yd|mm|cm|min|rad|rpm|turns|hp|TPI|psi|MPa|J|W|m|s|h)"
_UNIT = rf"{_WORD}(?:·{_WORD})?(?:/(?:s|ft³|m³))?(?![\w·(])"
_NUMBER = rf"(?P<number>\d+(?:\.\d+)?(?:e[+-]?\d+)?)(?:\s?(?P<unit>°|%|{_UNIT}))?"
_TOKEN = re.compile(rf"\s*(?:{_NUMBER}|(?P<name>[a-z]+)|(?P<sign>\*\*|[-+−×*/()]))")

_NAMED: dict[str, Callable[[Any], Any]] = {
    "sin": lambda x: math.sin(_radians(x)),
    "cos": lambda x: math.cos(_radians(x)),
    "tan": lambda x: math.tan(_radians(x)),
    "asin": lambda x: math.asin(_plain(x)),
    "acos": lambda x: math.acos(_plain(x)),
    "atan": lambda x: math.atan(_plain(x)),
    "exp": lambda x: math.exp(_plain(x)),
    "log": lambda x: math.log(_plain(x)),
    "sqrt": lambda x: x**0.5,
    "pos": lambda x: x if x.magnitude > 0 else 0 * x,
    "floor": lambda x: math.floor(_plain(x) + 1e-9),
}


def unit(text: str) -> Any:
    """A printed unit, such as 'in·lbf' or 'ft·lbf/s', as one of pint's."""
    top, _, per = text.partition("/")
    found = UREG.Unit("dimensionless")
    for word in filter(None, top.split("·")):
        found = found * UREG.Unit(_UNITS[word])
    return found / UREG.Unit(_PER[per]) if per else found


def read(text: str) -> Any:
    """The value of a printed expression as a pint quantity."""
    return _Reader(text).all()


def split(text: str) -> tuple[str, str]:
    """A printed result as its number and its unit: ('14.5', '°')."""
    match = re.fullmatch(rf"(-?[\d.]+)\s?(°|%|{_UNIT})?", text)
    assert match, text
    return match[1], match[2] or ""


def half_of_the_last_place(number: str, unit_: str, figures: int = 3) -> float:
    """Half a unit of the last figure that a printed number means.

    Angles and percents are printed to tenths, whole numbers to ``figures`` figures, one more if the first is a 1.
    """
    digits = number.lstrip("-")
    if "." in digits:
        return 0.5 * 10.0 ** -len(digits.partition(".")[2])
    meant = figures + (digits[0] == "1" and figures == 3)
    return 0.5 * 10.0 ** max(0, len(digits) - meant)


def gives(expression: str, result: str, figures: int = 3, halves: float = 1) -> bool:
    """Whether an expression, worked out as printed, gives a printed result within its rounding, or so many of it."""
    number, unit_ = split(result)
    got = read(expression)
    if unit_ == "TPI":
        value = (1 / got).to("1/inch").magnitude
    else:
        value = got.to(UREG.Unit(_UNITS[unit_]) if unit_ in ("°", "%") else unit(unit_)).magnitude
    allowed = halves * half_of_the_last_place(number, unit_, figures)
    return bool(abs(value - float(number)) <= allowed * (1 + 1e-9) + 1e-12 * abs(value))


def _plain(x: Any) -> float:
    return float(x.to("dimensionless").magnitude)


def _radians(x: Any) -> float:
    return float(x.to("radian").magnitude)


class _Reader:
    """Descends a printed expression: sums of products of powers of atoms."""

    def __init__(self, text: str) -> None:
        self.tokens, at = [], 0
        while at < len(text.rstrip()):
            match = _TOKEN.match(text, at)
            assert match, f"cannot read {text[at:]!r} in {text!r}"
            self.tokens.append(match.groupdict())
            at = match.end()
        self.at = 0

    def all(self) -> Any:
        value = self.sum()
        assert self.at == len(self.tokens), "something is left over"
        return value

    def sign(self, *signs: str) -> str:
        if self.at < len(self.tokens) and (found := self.tokens[self.at]["sign"]) in signs:
            self.at += 1
            return found
        return ""

    def sum(self) -> Any:
        value = self.product()
        while found := self.sign("+", "-", "−"):
            other = self.product()
            value = value + other if found == "+" else value - other
        return value

    def product(self) -> Any:
        value = self.power()
        while found := self.sign("×", "*", "/"):
            other = self.power()
            value = value / other if found == "/" else value * other
        return value

    def power(self) -> Any:
        if self.sign("-", "−"):
            return -self.power()
        base = self.atom()
        return base ** _plain(self.power()) if self.sign("**") else base

    def atom(self) -> Any:
        token = self.tokens[self.at]
        self.at += 1
        if token["number"]:
            kind = token["unit"]
            measured = unit(kind) if kind not in (None, "°", "%") else UREG.Unit(_UNITS[kind] if kind else "")
            return float(token["number"]) * measured
        if token["name"] == "pi":
            return math.pi * UREG.dimensionless
        if token["name"]:
            return _NAMED[token["name"]](self.atom()) * UREG.dimensionless
        assert token["sign"] == "(", token
        value = self.sum()
        assert self.sign(")"), "a bracket stays open"
        return value
