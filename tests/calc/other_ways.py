"""Ways to work a machine out without its formula: free bodies in balance, a hair of motion, a search, a sum of steps.

Linear systems, roots and integrals are left to mpmath, a general library of numerical methods.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

import mpmath

from calc.registry import CALCULATORS
from tests.calc.asking import values

Vector = tuple[float, float]
DOWN, UP, RIGHT, LEFT = (0.0, -1.0), (0.0, 1.0), (1.0, 0.0), (-1.0, 0.0)
_UNITS = {
    "force": "N",
    "length": "m",
    "angle": "rad",
    "torque": "N·m",
    "pitch": "m",
    "turns": "turns",
    "time": "s",
    "stress": "MPa",
    "heft": "kN/m³",
}


def metric(key: str, choices: Mapping[str, str] | None = None, **sizes: float) -> dict[str, float]:
    """What a calculator says for sizes in SI, efficiencies as shares, stress in MPa, heft in kN/m³; without errors."""
    calculator = CALCULATORS[key]
    quantities = calculator.written_out({rows.name: rows.high for rows in calculator.rows})
    typed = {}
    for symbol, size in sizes.items():
        kind = quantities[symbol].kind
        number = f"{size * 100!r} %" if kind == "efficiency" else f"{size!r} {_UNITS.get(kind, '')}".strip()
        typed[symbol] = str(int(size)) if kind == "count" else number
    return values(key, "si", dict(choices or {}), **typed)


@dataclass(frozen=True)
class Force:
    """A force along a direction, not always of length 1, at a point of one body; ``against`` is pushed the other way.

    Its size is what ``balanced`` finds, unless ``size`` (N) says it.
    """

    name: str
    on: str
    along: Vector
    at: Vector = (0.0, 0.0)
    against: str = ""
    size: float | None = None


def balanced(*forces: Force, turning: Sequence[str] = ()) -> dict[str, float]:
    """The sizes of all forces for which no body starts to move; of those ``turning`` the moments count too.

    A system of linear equations, solved by mpmath. Raises AssertionError unless there is one for each unknown.
    """
    unknown = [force for force in forces if force.size is None]
    rows, right = [], []
    for body in dict.fromkeys(name for force in forces for name in (force.on, force.against) if name):
        for part in (_level, _upright, _moment)[: 3 if body in turning else 2]:
            share = {force.name: ((force.on == body) - (force.against == body)) * part(force) for force in forces}
            rows.append([share[force.name] for force in unknown])
            right.append(-math.fsum(share[f.name] * f.size for f in forces if f.size is not None))
    assert len(rows) == len(unknown), f"{len(rows)} equations for {len(unknown)} unknown forces"
    return {force.name: float(size) for force, size in zip(unknown, solved(rows, right), strict=True)}


def _level(force: Force) -> float:
    return force.along[0]


def _upright(force: Force) -> float:
    return force.along[1]


def _moment(force: Force) -> float:
    return force.at[0] * force.along[1] - force.at[1] * force.along[0]


def solved(rows: Sequence[Sequence[float]], right: Sequence[float]) -> list[float]:
    """The unknowns of linear equations."""
    return [float(x) for x in mpmath.lu_solve(mpmath.matrix(rows), mpmath.matrix(right))]


def rubbing(push: Vector, slides: Vector, mu: float) -> Vector:
    """The direction of a face's push with its friction, which is against the way the body slides."""
    size = math.hypot(*slides)
    return push[0] - mu * slides[0] / size, push[1] - mu * slides[1] / size


def turned(vector: Vector, angle: float) -> Vector:
    """The vector turned counter-clockwise."""
    c, s = math.cos(angle), math.sin(angle)
    return c * vector[0] - s * vector[1], s * vector[0] + c * vector[1]


def root(gap: Callable[[float], float], low: float, high: float) -> float:
    """Where ``gap`` changes its sign, by halving."""
    sign = gap(low) > 0
    assert sign != (gap(high) > 0), "no change of sign"
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if (gap(middle) > 0) == sign else (low, middle)
    return (low + high) / 2


def rate(position: Callable[[float], float], x: float, hair: float = 1e-5) -> float:
    """How fast a position changes with x, from two places a hair apart."""
    return (position(x + hair) - position(x - hair)) / (2 * hair)


def walked(path: Sequence[Sequence[float]]) -> float:
    """The length of a line from point to point."""
    return math.fsum(math.dist(a, b) for a, b in pairwise(path))


def arc(radius: float, start: float, end: float, centre: Vector = (0.0, 0.0), pieces: int = 720) -> list[Vector]:
    """Points along an arc, angles in radians."""
    angles = (start + (end - start) * i / pieces for i in range(pieces + 1))
    return [(centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in angles]
