"""Units and kinds of quantity: factors from our own definitions file through pint, and what each kind accepts.

Inside, everything is newton, metre, second, radian; units exist only here, at the edges.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

import pint

from calc.library import text_of

REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry(None, cache_folder=None)
REGISTRY.load_definitions(text_of("units.txt").splitlines())


@dataclass(frozen=True)
class Kind:
    """A kind of quantity: finer than a dimension, since torque is not work and an angle is not a ratio.

    ``us`` and ``si`` are the units shown by default; ``units`` those offered to a reader in the words of an error;
    ``low`` and ``high`` what a box takes, in SI; ``zero`` whether zero is a sensible value.
    """

    name: str
    words: str
    dimension: str
    us: str
    si: str
    units: tuple[str, ...]
    low: float
    high: float
    zero: bool = False


_LBF, _IN = 4.4482216152605, 0.0254
KINDS: Mapping[str, Kind] = {
    kind.name: kind
    for kind in (
        Kind("force", "a force", "newton", "lbf", "N", ("lbf", "N", "kN", "ozf", "kgf"), 0.01 * _LBF, 20000 * _LBF),
        Kind("length", "a length", "metre", "in", "m", ("in", "ft", "yd", "mm", "cm", "m"), 0.001 * _IN, 12000 * _IN),
        Kind("angle", "an angle", "radian", "°", "°", ("°", "rad", "1:4"), 0.1 * 0.017453292519943295, 1.5),
        Kind("ratio", "a plain number", "", "", "", (), 1e-6, 1e6),
        Kind("efficiency", "an efficiency", "", "%", "%", ("%",), 0.001, 1.0),
        Kind("friction", "a coefficient", "", "", "", (), 0.0, 2.0, zero=True),
        Kind("work", "work", "joule", "ft·lbf", "J", ("ft·lbf", "in·lbf", "J", "N·m"), 1e-9, 1e12, zero=True),
        Kind("torque", "a torque", "joule", "lbf·in", "N·m", ("lbf·in", "lbf·ft", "N·m"), 1e-9, 1e9, zero=True),
        Kind("power", "power", "watt", "ft·lbf/s", "W", ("ft·lbf/s", "hp", "W", "kW"), 1e-9, 1e12),
        Kind("time", "a time", "second", "s", "s", ("s", "min", "h"), 0.01, 86400.0),
        Kind("mass", "a mass", "kilogram", "lb", "kg", ("kg", "g", "lb", "oz"), 1e-6, 1e6),
    )
}

# What readers type, in the spelling that the registry knows. Anything else is an unknown unit.
_SPELLINGS: Mapping[str, tuple[str, ...]] = {
    "lbf": ("lbf", "lbsf", "pound-force", "pounds-force"),
    "ozf": ("ozf",),
    "N": ("N", "newton", "newtons"),
    "kN": ("kN",),
    "daN": ("daN",),
    "kgf": ("kgf",),
    "in": ("in", "inch", "inches", "in.", '"'),
    "ft": ("ft", "foot", "feet", "ft.", "'"),
    "yd": ("yd", "yard", "yards"),
    "mm": ("mm", "millimetre", "millimetres", "millimeter", "millimeters"),
    "cm": ("cm", "centimetre", "centimetres", "centimeter", "centimeters"),
    "m": ("m", "metre", "metres", "meter", "meters"),
    "kg": ("kg", "kilogram", "kilograms"),
    "g": ("g", "gram", "grams"),
    "lb": ("lb", "lbs", "pound", "pounds", "lbm"),
    "oz": ("oz", "ounce", "ounces"),
    "slug": ("slug", "slugs"),
    "°": ("°", "deg", "degree", "degrees", "º"),
    "rad": ("rad", "radian", "radians"),
    "%": ("%", "percent", "per cent"),
    "s": ("s", "sec", "second", "seconds"),
    "min": ("min", "minute", "minutes"),
    "h": ("h", "hr", "hour", "hours"),
    "J": ("J", "joule", "joules"),
    "ft·lbf": ("ft·lbf", "ft lbf", "ft*lbf", "ft-lbf", "ft·lb", "ft lb", "ft-lb"),
    "in·lbf": ("in·lbf", "in lbf", "in*lbf", "in-lbf", "in·lb", "in lb", "in-lb"),
    "lbf·in": ("lbf·in", "lbf in", "lbf*in", "lbf-in", "lb·in", "lb in", "lb-in"),
    "lbf·ft": ("lbf·ft", "lbf ft", "lbf*ft", "lbf-ft", "lb·ft", "lb ft", "lb-ft"),
    "N·m": ("N·m", "N m", "N*m", "N-m", "Nm"),
    "W": ("W", "watt", "watts"),
    "kW": ("kW",),
    "hp": ("hp",),
    "ft·lbf/s": ("ft·lbf/s", "ft lbf/s", "ft*lbf/s", "ft-lbf/s"),
}
_EXACT = {word: unit for unit, words in _SPELLINGS.items() for word in words}
# "M" stays unknown on purpose: it could be m or mm badly typed. Otherwise case carries no meaning.
_ANY_CASE = {word.lower(): unit for word, unit in _EXACT.items() if word.lower() != "m"}
_PINT = {"lb": "pound", "°": "degree", "%": "percent"}
_MEASURES = {
    REGISTRY.Quantity(1.0, unit).dimensionality: words
    for unit, words in (
        ("metre", "length"),
        ("gram", "mass"),
        ("second", "time"),
        ("newton", "force"),
        ("joule", "work or torque"),
        ("watt", "power"),
    )
}


def unit_named(word: str) -> str | None:
    """The unit that a reader's word means, or None if we do not know it."""
    word = " ".join(word.replace("⋅", "·").replace("•", "·").split())
    return _EXACT.get(word) or _ANY_CASE.get(word.lower()) if word != "M" else None


@cache
def _quantity(unit: str) -> pint.Quantity[float]:
    return REGISTRY.Quantity(1.0, _PINT.get(unit, unit).replace("·", "*")).to_base_units()


@cache
def factor(unit: str) -> float:
    """How many SI units (newton, metre, kilogram, second, radian and their products) one ``unit`` is; '' is 1."""
    if not unit:
        return 1.0
    size = _quantity(unit)
    masses = int(str(size.dimensionality.get("[mass]", 0)))
    return size.magnitude / 1000.0**masses  # the registry's root unit of mass is the gram


@cache
def same_dimension(unit: str, kind: Kind) -> bool:
    """Whether a unit measures this kind. Percent and plain numbers are told apart from angles by their names."""
    if kind.name == "angle":
        return unit in ("°", "rad")
    if not kind.dimension:
        return unit == "%" and kind.name == "efficiency"
    return unit not in ("°", "rad", "%") and _quantity(unit).check(REGISTRY.Quantity(1, kind.dimension).dimensionality)


def measures(unit: str) -> str:
    """What a unit measures, in one word for a message: 'length', 'force', ..."""
    if unit in ("°", "rad"):
        return "angle"
    if unit == "%":
        return "a share of a hundred"
    return _MEASURES[_quantity(unit).dimensionality]


# Sets of units in which a line of working is true without a factor: (force, length, work, torque).
COHERENT: Mapping[str, tuple[Mapping[str, str], ...]] = {
    "us": (
        {"force": "lbf", "length": "in", "work": "in·lbf", "torque": "lbf·in"},
        {"force": "lbf", "length": "ft", "work": "ft·lbf", "torque": "lbf·ft", "power": "ft·lbf/s"},
    ),
    "si": (
        {"force": "N", "length": "mm", "work": "N·mm", "torque": "N·mm"},
        {"force": "N", "length": "m", "work": "J", "torque": "N·m", "power": "W"},
    ),
}
