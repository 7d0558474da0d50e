"""Problem families as data: words, ranges, the relation that answers, and the mistakes that people make.

They stand in ``shared/practice/``, one file a machine; its ``README.md`` says what each entry means. A family has a US
and an SI twin, whose id ends in ``s``.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import Any

from calc.formula import FLOAT_MATHS, Node, evaluate, parse, parse_comparison
from calc.library import table_of
from calc.units import KINDS, Kind

MACHINES: Mapping[str, str] = {
    "lever": "Lever",
    "wheel-and-axle": "Wheel and axle",
    "pulley": "Pulley",
    "inclined-plane": "Inclined plane",
    "wedge": "Wedge",
    "screw": "Screw",
    "compound": "Compound machine",
    "any-machine": "Any machine",
    "scale": "Spring scale",
}
"""The file of each machine's families, and the machine's name."""

LETTERS = dict(zip("LWPIGSXMU", MACHINES, strict=True))
"""The letter after the q in an id tells the machine."""

_KIND_OF = {
    "": "ratio",
    "%": "efficiency",
    "turns": "turns",
    "rpm": "speed",
    "°": "angle",
    **dict.fromkeys(("lbf", "N"), "force"),
    **dict.fromkeys(("in", "ft", "mm", "cm", "m"), "length"),
    **dict.fromkeys(("ft·lbf", "J"), "work"),
    **dict.fromkeys(("lbf·in", "N·m"), "torque"),
    **dict.fromkeys(("ft·lbf/s", "hp", "W", "kW"), "power"),
}


@dataclass(frozen=True)
class Slip:
    """A mistake that people make: the formula that gives its number, what to say, and the step to look at again."""

    formula: str
    words: str
    step: str


@dataclass(frozen=True)
class Family:
    """One kind of problem in one system of units. Its numbers are as the text shows them, angles in degrees.

    ``draws`` holds what each number can be, in the order in which the grid is gone through. ``where`` limits the grid,
    ``shop`` says what is sensible in a shop. ``symbol`` stands for the answer in a formula. ``calculator``, ``choices``
    and ``given`` are the sheet that holds the physics: each box to a formula, its unit after a space where it isn't the
    unit of the first number in it. ``result`` is what that sheet then says, which is ``equals``, or the answer.
    """

    id: str
    system: str
    machine: str
    level: int
    text: str
    draws: Mapping[str, tuple[float, ...]]
    units: Mapping[str, str]
    names: Mapping[str, str]
    symbol: str
    wanted: str
    answer: str
    slips: tuple[Slip, ...]
    words: str
    check: str
    unit: str = ""
    clean: bool = False
    where: str = ""
    shop: str = ""
    calculator: str = ""
    choices: Mapping[str, str] | None = None
    given: Mapping[str, str] | None = None
    result: str = ""
    equals: str = "ans"
    picture: bool = False

    @property
    def kind(self) -> Kind:
        """What kind of quantity the answer is."""
        return KINDS[_KIND_OF[self.unit]]

    @property
    def name(self) -> str:
        """What is asked, without its article: 'effort'."""
        return self.wanted.removeprefix("the ")


def family(id_: str) -> Family:
    """The family of an id such as qL1 or qL1s. Raises KeyError for an unknown one."""
    return _families("si" if id_.endswith("s") else "us")[id_]


def of_machine(machine: str, system: str, level: int = 0) -> list[Family]:
    """The families of a machine, of one level or (0) of all."""
    return [f for f in _families(system).values() if f.machine == machine and level in (0, f.level)]


@cache
def _families(system: str) -> dict[str, Family]:
    found = {}
    for machine in MACHINES:
        for id_, entry in table_of(f"practice/{machine}.toml").items():
            both = {name: value for name, value in entry.items() if name != "si"}
            if system == "si":
                both |= entry["si"]
            made = _family(id_ + ("s" if system == "si" else ""), system, machine, both)
            found[made.id] = made
    return found


def _family(id_: str, system: str, machine: str, entry: Mapping[str, Any]) -> Family:
    plain = {name: value for name, value in entry.items() if name not in ("draws", "slips")}
    draws = {name: _numbers(range_) for name, range_ in entry["draws"].items()}
    slips = tuple(Slip(*slip) for slip in entry["slips"])
    return Family(id=id_, system=system, machine=machine, draws=draws, slips=slips, **plain)


def _numbers(written: str | list[float]) -> tuple[float, ...]:
    """'60 to 300 by 10', or a list. Counted in decimals, so that every machine has the same doubles."""
    if not isinstance(written, str):
        return tuple(map(float, written))
    match = re.fullmatch(r"(\S+) to (\S+) by (\S+)", written)
    if match is None:
        raise ValueError(f"not a range of numbers: {written}")
    first, last, step = map(Decimal, match.groups())
    return tuple(float(first + step * i) for i in range(int((last - first) / step) + 1))


@cache
def tree(text: str) -> Node:
    """The tree of one of the families' formulas."""
    return parse(text)


def value(text: str, numbers: Mapping[str, float]) -> float:
    """A formula worked out for these numbers. Raises KeyError, ValueError or ZeroDivisionError as arithmetic does."""
    return float(evaluate(tree(text), numbers))


@cache
def _conditions(text: str) -> tuple[tuple[Node, str, Node], ...]:
    return tuple(parse_comparison(part) for part in text.split(" and ")) if text else ()


def holds(text: str, numbers: Mapping[str, float]) -> bool:
    """Whether comparisons joined by 'and' are all true; an empty text is. The last bits of a double decide nothing."""
    for left, sign, right in _conditions(text):
        a, b = evaluate(left, numbers, FLOAT_MATHS), evaluate(right, numbers, FLOAT_MATHS)
        level = abs(a - b) <= 1e-9 * max(abs(a), abs(b))
        if level:
            if "=" not in sign:
                return False
        elif (a < b) != sign.startswith("<"):
            return False
    return True
