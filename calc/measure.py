"""Reading what a person types: numbers, fractions, feet and inches, units, slopes, and the doubt after ±.

A text either becomes a Reading or raises Refused with the message for its box.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any

import uncertainties

from calc.figures import plain, sixteenths
from calc.messages import Refused
from calc.units import PER_INCH, Kind, factor, from_unit, measures, same_dimension, size_of_one, unit_named

LONGEST = 60
MOST_DOUBT = 1e12
"""Of a doubt beside its value, or beside one SI unit: the square of a much larger one is no number any more."""
LEAST = 1e-30
"""The smallest number in a box but zero: nothing is measured so finely, and products of much smaller ones lose their
figures at the end of a computer's numbers."""
_SIGNS = str.maketrans(
    {"’": "'", "‘": "'", "′": "'", "´": "'", "“": '"', "”": '"', "″": '"', "−": "-", "–": "-", "‐": "-", "‑": "-"}
    | dict.fromkeys("\xa0\u2009\u202f\u2007\t\r\n", " ")
)
_VULGAR = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3"}
_NUMBER = re.compile(
    r"(?P<sign>-?)\s*(?:"
    r"(?P<whole>\d+)(?:\s+|\s*-\s*)(?P<top>\d+)\s*/\s*(?P<bottom>\d+)"
    r"|(?P<ntop>\d+)\s*/\s*(?P<nbottom>\d+)"
    r"|(?P<decimal>\d{1,3}(?:,\d{3})+(?:\.\d*)?|\d+\.?\d*(?:[eE][+-]?\d{1,4})?|\.\d+(?:[eE][+-]?\d{1,4})?)"
    r")"
)
_FEET = re.compile(
    r"^\s*(?P<feet>-?[^'a-z]*?)\s*(?:'|feet|foot|ft\.?)\s*(?P<inches>[^'a-z]*?)\s*(?:\"|inches|inch|in\.?)?\s*$", re.I
)
_SLOPE = re.compile(r"^\s*(?P<rise>[\d./ -]+?)\s*(?::|\bin\b)\s*(?P<run>[\d./ -]+?)\s*$")


@dataclass(frozen=True)
class Reading:
    """A typed value: SI value (a float, or an uncertain number if a doubt was typed), and what to echo."""

    value: Any
    text: str
    unit: str
    resolution: float
    echo: str = ""
    warning: str = ""

    @property
    def nominal(self) -> float:
        """The value without its doubt."""
        return float(uncertainties.nominal_value(self.value))


@lru_cache(maxsize=256)  # at a key only one box has another text
def read(text: str, kind: Kind, name: str, box_unit: str, system: str = "us") -> Reading:
    """Read one box. ``name`` is the quantity's label for messages, ``box_unit`` the unit shown beside the box.

    Raises Refused with one of the e-codes of ``shared/messages.toml``.
    """
    tidy = _tidy(text)
    value_text, doubt_text = _split_doubt(tidy)
    if doubt_text is None:
        return _read_plain(value_text, tidy, kind, name, box_unit, system)
    return _read_doubt(value_text, doubt_text, tidy, kind, name, box_unit, system)


def _tidy(text: str) -> str:
    if len(text) > LONGEST:
        raise Refused("e-notnum", x=text[:20].strip() + "…")
    tidy = text.translate(_SIGNS)
    for character, fraction in () if tidy.isascii() else _VULGAR.items():
        tidy = re.sub(rf"(\d)\s*{character}", rf"\1 {fraction}", tidy).replace(character, fraction)
    return tidy.replace("''", '"').strip()


def _split_doubt(text: str) -> tuple[str, str | None]:
    parts = re.split(r"\s*(?:±|\+/-|\+-)\s*", text)
    if len(parts) == 1:
        return text, None
    if len(parts) != 2 or not parts[0] or not parts[1]:
        raise Refused("e-pm")
    return parts[0], parts[1]


def _read_doubt(
    value_text: str, doubt_text: str, text: str, kind: Kind, name: str, box_unit: str, system: str
) -> Reading:
    doubt_match = _NUMBER.match(doubt_text)
    if not doubt_match or doubt_match["sign"]:
        raise Refused("e-pm")
    doubt_word = doubt_text[doubt_match.end() :].strip()
    if doubt_word and re.search(r"[\d.]$", value_text):
        value_text = f"{value_text} {doubt_word}"
    reading = _read_plain(value_text, text, kind, name, box_unit, system)
    unit = _in_its_box(unit_named(doubt_word), kind) if doubt_word else reading.unit
    if unit is None or (unit != reading.unit and not same_dimension(unit, kind)):
        raise Refused("e-pm")
    size = size_of_one(unit, reading.nominal)
    if kind.name == "angle" and unit == "%":
        size *= math.cos(reading.nominal) ** 2  # d(atan p) = dp / (1 + p**2)
    try:
        doubt = _number(doubt_match) * size
    except Refused as problem:
        raise Refused("e-pm") from problem
    if not doubt <= MOST_DOUBT * max(1.0, abs(reading.nominal)):
        raise Refused("e-big")
    if doubt == 0:
        return reading
    echo = f"{reading.echo} ± is taken as about 95 % sure (k = 2).".strip()
    return Reading(
        uncertainties.ufloat(reading.nominal, doubt / 2), text, reading.unit, reading.resolution, echo, reading.warning
    )


def _read_plain(text: str, whole: str, kind: Kind, name: str, box_unit: str, system: str) -> Reading:
    if not text:
        raise Refused("e-empty", name=name)
    if kind.name in ("length", "pitch") and (feet := _FEET.match(text)) and re.search(r"\d", feet["feet"]):
        return _feet(feet, text, whole, kind, box_unit, system)
    if kind.name == "angle" and (slope := _SLOPE.match(text)):
        return _slope(slope, text, whole)
    match = _NUMBER.match(text)
    if not match:
        raise Refused("e-notnum", x=shortened(text))
    rest = text[match.end() :].strip()
    if re.match(r"^,\d", rest):
        raise Refused("e-comma", better=text[: match.end()] + "." + rest[1:])
    if rest and re.match(r"^[\d.,/:;()+*×=<>-]", rest):
        raise Refused("e-notnum", x=shortened(text))
    number = _number(match)
    return _with_unit(number, match, rest, text, whole, kind, name, box_unit, system)


def _with_unit(
    number: float,
    match: re.Match[str],
    word: str,
    text: str,
    whole: str,
    kind: Kind,
    name: str,
    box_unit: str,
    system: str,
) -> Reading:
    if word == "M":
        raise Refused("e-M")
    unit = _in_its_box(unit_named(word), kind) if word else box_unit
    if unit is None:
        if not kind.units:
            raise Refused("e-nounit", name=name, u=shortened(word))
        raise Refused("e-unit", u=shortened(word), name=name, list=_listed(kind.units))
    warning = ""
    if kind.name == "force" and unit_named(word) in ("lb", "oz"):
        warning = f"In a force box {word} means pound-force." if unit == "lbf" else "oz means ounce-force here."
    if kind.name == "force" and unit in ("kg", "g"):
        _refuse_mass(number, unit, text, system)
    if word and kind.name == "angle" and unit == "%":
        return _checked(math.atan(number / 100), whole, "%", 0.0, _angle_echo(math.atan(number / 100)))
    if word and not same_dimension(unit, kind):
        if not kind.dimension:
            raise Refused("e-nounit", name=name, u=shortened(word))
        raise Refused(
            "e-dim", u=shortened(word), got=measures(unit), name=name, wanted=kind.words, list=_listed(kind.units)
        )
    if kind.name == "efficiency":
        if not word and 0 < number < 1.5:
            raise Refused("e-pct", a=plain(number * 100), b=plain(number))
        unit = "%"
    if number == 0 and unit == PER_INCH:
        raise Refused("e-zero", name=name)
    value = from_unit(number, unit)
    echo = "" if unit == box_unit and match["decimal"] and not warning else read_as(value, kind, system)
    return _checked(value, whole, unit, _last_digit(match) * size_of_one(unit, value), echo, warning)


def _in_its_box(unit: str | None, kind: Kind) -> str | None:
    """Pounds and ounces are forces in a force box."""
    return f"{unit}f" if kind.name == "force" and unit in ("lb", "oz") else unit


def _checked(value: float, text: str, unit: str, resolution: float, echo: str, warning: str = "") -> Reading:
    if not math.isfinite(value) or not math.isfinite(resolution):  # a zero may stand before a huge exponent
        raise Refused("e-big")
    return Reading(value, text, unit, resolution, echo, warning)


def _number(match: re.Match[str]) -> float:
    """The value of a matched number. Raises Refused for a bad fraction, an overflow, or next to nothing."""
    size = _fraction(match) if not match["decimal"] else float(match["decimal"].replace(",", ""))
    if not math.isfinite(size):
        raise Refused("e-big")
    if size < LEAST and re.search("[1-9]", re.split("[eE/]", match[0])[0]):
        raise Refused("e-small")
    return -size if match["sign"] else size


def _fraction(match: re.Match[str]) -> float:
    """The size of a matched fraction or mixed number."""
    whole, top, bottom = (
        (match["whole"], match["top"], match["bottom"]) if match["whole"] else ("0", match["ntop"], match["nbottom"])
    )
    if int(bottom) == 0:
        raise Refused("e-frac0")
    part = Fraction(int(top), int(bottom))
    if match["whole"] and part >= 1:
        better = Fraction(int(whole)) + part
        mixed = f"{better.numerator // better.denominator}"
        rest = better % 1
        raise Refused("e-frac1", x=match[0].strip(), better=match["sign"] + (f"{mixed}-{rest}" if rest else mixed))
    return float(int(whole) + part)


def _last_digit(match: re.Match[str]) -> float:
    """Half a unit of the last typed digit, in typed units (a fraction is taken as exact to 1/32)."""
    if not match["decimal"]:
        return 1 / 32
    mantissa, _, exponent = match["decimal"].lower().partition("e")
    decimals = len(mantissa.partition(".")[2])
    return float(f"5e{int(exponent or 0) - decimals - 1}")


def _feet(match: re.Match[str], text: str, whole: str, kind: Kind, box_unit: str, system: str) -> Reading:
    feet_text, inch_text = match["feet"].strip(), match["inches"].strip()
    feet_match = _NUMBER.fullmatch(feet_text)
    inch_match = _NUMBER.fullmatch(inch_text)
    if not feet_match or (inch_text and not inch_match):
        if re.search(r"\d,\d", text):
            raise Refused("e-comma", better=text.replace(",", "."))
        raise Refused("e-notnum", x=shortened(text))
    if inch_match and inch_match["sign"]:
        raise Refused("e-notnum", x=shortened(text))
    inches = _number(inch_match) if inch_match else 0.0
    size = abs(_number(feet_match)) * 12 + inches
    foot, rest = divmod(math.floor(size * 16 + 0.5) / 16, 12)
    better = f"{int(foot)} ft {sixteenths(rest)} in"
    if inches >= 12:
        raise Refused("e-inch12", x=text, better=feet_match["sign"] + better)
    total = -size if feet_match["sign"] else size
    echo = read_as(total * factor("in"), kind, system)
    if not inch_text and feet_match["decimal"] and "." in feet_text:
        wrong = f"{int(size / 12)} ft {int(feet_text.split('.')[1] or 0)} in"
        echo += f" That is {better}, not {wrong}." if wrong != better else ""
    unit = "in" if inch_match else "ft"
    if unit == box_unit and feet_match["decimal"] and "." not in feet_text:
        echo = ""
    return _checked(total * factor("in"), whole, unit, _last_digit(inch_match or feet_match) * factor(unit), echo)


def _slope(match: re.Match[str], text: str, whole: str) -> Reading:
    rise, run = (_NUMBER.fullmatch(match[part].strip()) for part in ("rise", "run"))
    if not rise or not run:
        raise Refused("e-notnum", x=shortened(text))
    if _number(run) == 0:
        raise Refused("e-frac0")
    angle = math.atan(_number(rise) / _number(run))
    return _checked(angle, whole, "°", 0.0, _angle_echo(angle))


def _angle_echo(angle: float) -> str:
    return f"Read as a slope, rise over run: {plain(round(math.degrees(angle), 4))}°."


def read_as(value: float, kind: Kind, system: str) -> str:
    """The echo under a box: the value in both systems, 'Read as 96 in = 2.438 m.'"""
    if kind.us == kind.si:
        unit = kind.us
        space = "" if unit == "°" else " "
        return f"Read as {plain(_four(value / factor(unit)))}{space}{unit}".rstrip() + "."
    here, there = (kind.us, kind.si) if system == "us" else (kind.si, kind.us)
    return f"Read as {plain(_four(value / factor(here)))} {here} = {plain(_four(value / factor(there)))} {there}."


def _four(value: float) -> float:
    return float(f"{value:.4g}")


def _refuse_mass(number: float, unit: str, text: str, system: str) -> None:
    newtons = number * (1 if unit == "kg" else 1e-3) * 9.80665
    in_newtons, in_pounds = f"{plain(newtons)} N", f"{plain(newtons / factor('lbf'))} lbf"
    fill, other = (in_pounds, in_newtons) if system == "us" else (in_newtons, in_pounds)
    raise Refused("e-massforce", fill=fill, x=shortened(text), weight=fill, other=other)


def _listed(words: tuple[str, ...]) -> str:
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " or " + words[-1]


def shortened(text: str) -> str:
    """A reader's text as it is quoted in a message: not longer than a line."""
    return text if len(text) <= 24 else text[:20].rstrip() + "…"
