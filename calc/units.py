"""Units and kinds of quantity: factors from our own definitions file through pint, and what each kind accepts.

Inside, everything is newton, metre, second, radian; units exist only here, at the edges.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

import pint

from calc.library import text_of

REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry(None, cache_folder=None)
REGISTRY.load_definitions(text_of("units.txt").splitlines())


@dataclass(frozen=True)
class Kind:
    """A kind of quantity: finer than a dimension, since torque is not work and an angle is not a ratio.

    ``us`` and ``si`` are the units shown by default; ``units`` those offered to a reader in the words of an error;
    ``low`` and ``high`` what a box takes, in SI; ``zero`` whether zero is a sensible value; ``whole`` whether only
    whole numbers are.
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
    whole: bool = False


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
        Kind("speed", "a speed of turning", "1/second", "rpm", "rpm", ("rpm", "rad/s"), 1e-6, 1e5),
        Kind("pitch", "a pitch", "metre", "in", "mm", ("in", "mm", "TPI"), _IN / 80, _IN / 0.5),
        Kind("turns", "a number of turns", "", "turns", "turns", ("turns",), 1e-6, 1e6),
        Kind("count", "a whole number", "", "", "", (), 1, 10000, whole=True),
        Kind("stress", "a stress", "pascal", "psi", "MPa", ("psi", "MPa", "GPa"), 1.0, 1e12),
        Kind("heft", "weight per volume", "newton/metre**3", "lbf/ft³", "kN/m³", ("lbf/ft³", "kN/m³"), 100.0, 1e6),
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
    "ft·lbf": (
        "ft·lbf",
        "ft lbf",
        "ft*lbf",
        "ft-lbf",
        "ft·lb",
        "ft lb",
        "ft-lb",
        "ft lbs",
        "ft-lbs",
        "foot-pounds",
        "foot pounds",
    ),
    "in·lbf": ("in·lbf", "in lbf", "in*lbf", "in-lbf", "in·lb", "in lb", "in-lb", "in lbs", "in-lbs", "inch-pounds"),
    "lbf·in": ("lbf·in", "lbf in", "lbf*in", "lbf-in", "lb·in", "lb in", "lb-in"),
    "lbf·ft": ("lbf·ft", "lbf ft", "lbf*ft", "lbf-ft", "lb·ft", "lb ft", "lb-ft"),
    "N·m": ("N·m", "N m", "N*m", "N-m", "Nm"),
    "W": ("W", "watt", "watts"),
    "kW": ("kW",),
    "hp": ("hp", "horsepower"),
    "ft·lbf/s": ("ft·lbf/s", "ft lbf/s", "ft*lbf/s", "ft-lbf/s"),
    "rpm": ("rpm", "r/min", "rev/min", "turns/min", "turns per minute"),
    "rad/s": ("rad/s",),
    "psi": ("psi", "lbf/in²", "lbf/in2"),
    "Pa": ("Pa",),
    "MPa": ("MPa", "N/mm²", "N/mm2"),
    "GPa": ("GPa",),
    "lbf/ft³": ("lbf/ft³", "lbf/ft3", "lb/ft³", "lb/ft3"),
    "kN/m³": ("kN/m³", "kN/m3"),
    "N/m³": ("N/m³", "N/m3"),
    "turns": ("turns", "turn", "rev", "revs", "revolutions"),
    "TPI": ("TPI", "threads/in", "threads per inch", "per inch"),
}
_EXACT = {word: unit for unit, words in _SPELLINGS.items() for word in words}
# "M" stays unknown on purpose: it could be m or mm badly typed. Otherwise case carries no meaning.
_ANY_CASE = {word.lower(): unit for word, unit in _EXACT.items() if word.lower() != "m"}
_PINT = {"lb": "pound", "°": "degree", "%": "percent", "rpm": "turn/minute", "rad/s": "radian/second"} | {
    "lbf/ft³": "lbf/foot**3",
    "kN/m³": "kilonewton/metre**3",
    "N/m³": "newton/metre**3",
}
_COUNTED = ("", "turns")
PER_INCH = "TPI"  # the one unit that counts the other way round: more threads to an inch, a smaller pitch
_MEASURES = {
    REGISTRY.Quantity(1.0, unit).dimensionality: words
    for unit, words in (
        ("metre", "length"),
        ("gram", "mass"),
        ("second", "time"),
        ("newton", "force"),
        ("joule", "work or torque"),
        ("watt", "power"),
        ("radian/second", "a speed of turning"),
        ("pascal", "a stress"),
        ("newton/metre**3", "weight per volume"),
    )
}


def unit_named(word: str) -> str | None:
    """The unit that a reader's word means, or None if we do not know it."""
    word = " ".join(word.replace("⋅", "·").replace("•", "·").split())
    return _EXACT.get(word) or _ANY_CASE.get(word.lower())


@cache
def _quantity(unit: str) -> pint.Quantity[float]:
    return REGISTRY.Quantity(1.0, _PINT.get(unit, unit).replace("·", "*")).to_base_units()


@cache
def factor(unit: str) -> float:
    """How many SI units (newton, metre, kilogram, second, radian and their products) one ``unit`` is.

    1 for a plain number and for turns, which are counted. Threads per inch have no factor: see ``from_unit``.
    """
    if unit in _COUNTED:
        return 1.0
    size = _quantity(unit)
    masses = int(str(size.dimensionality.get("[mass]", 0)))
    return size.magnitude / 1000.0**masses  # the registry's root unit of mass is the gram


def from_unit(number: Any, unit: str) -> Any:
    """A number of a unit (a float, or an uncertain number) in SI. Raises ZeroDivisionError for 0 threads per inch."""
    return factor("in") / number if unit == PER_INCH else number * factor(unit)


def in_unit(value: Any, unit: str) -> Any:
    """A value in SI (a float, or an uncertain number) as a number of a unit."""
    return factor("in") / value if unit == PER_INCH else value / factor(unit)


def size_of_one(unit: str, at: float) -> float:
    """By how much a value near ``at`` (SI) changes when its number in this unit changes by 1."""
    return at * at / factor("in") if unit == PER_INCH else factor(unit)


@cache
def same_dimension(unit: str, kind: Kind) -> bool:
    """Whether a unit measures this kind. Percent and plain numbers are told apart from angles by their names."""
    if kind.name == "angle":
        return unit in ("°", "rad")
    if PER_INCH in (unit, *kind.units) and (unit == PER_INCH or kind.name != "pitch"):
        return kind.name == "pitch"
    if not kind.dimension or unit in ("turns", "°", "rad", "%"):
        return (unit, kind.name) in (("%", "efficiency"), ("turns", "turns"))
    return _quantity(unit).check(REGISTRY.Quantity(1, kind.dimension).dimensionality)


_NAMED = {"%": "a share of a hundred", "turns": "turns", PER_INCH: "threads"}


def measures(unit: str) -> str:
    """What a unit measures, in one word for a message: 'length', 'force', ..."""
    if unit in ("°", "rad"):
        return "angle"
    if unit in _NAMED:
        return _NAMED[unit]
    return _MEASURES[_quantity(unit).dimensionality]


# Sets of units in which a line of working is true without a factor. A speed of turning is true in rpm where only speeds
# are compared, else in radians per second.
_SETS: Mapping[str, tuple[Mapping[str, str], ...]] = {
    "us": (
        {"force": "lbf", "length": "in", "work": "in·lbf", "torque": "lbf·in", "power": "in·lbf/s"},
        {"force": "lbf", "length": "ft", "work": "ft·lbf", "torque": "lbf·ft", "power": "ft·lbf/s"},
    ),
    "si": (
        {"force": "N", "length": "mm", "work": "N·mm", "torque": "N·mm", "power": "N·mm/s"},
        {"force": "N", "length": "m", "work": "J", "torque": "N·m", "power": "W"},
    ),
}
COHERENT: Mapping[str, tuple[Mapping[str, str], ...]] = {
    system: tuple(
        {**units, "pitch": units["length"], "time": "s", "speed": speed} for units in sets for speed in ("rpm", "rad/s")
    )
    for system, sets in _SETS.items()
}
