"""Random ramps' shapes, carts, fans, tilted planks and wedges, drawn from a fixed seed."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan, cos, hypot, pi, radians, sin, sqrt, tan
from random import Random

from calc.drawing.scene import Scene
from tests.drawing.scenes import INCH, POUND_FORCE, UNITS, WIDTHS, scene, spread

Units = tuple[tuple[str, float], tuple[str, float]]


def shape(width: int, slope: float = 96 * INCH, angle: float = 0.2527, travel: float = 0.5, units: Units = UNITS[0],
          digits: int = 3) -> Scene:  # fmt: skip
    """The triangle of a ramp."""
    lengths = {"L": slope, "h": slope * sin(angle), "b": slope * cos(angle)}
    return scene("ramp-shape", width, lengths, {}, {"theta": angle}, {}, travel, units, digits)


def cart(
    width: int,
    slope: float = 96 * INCH,
    angle: float = 0.2527,
    load: float = 50 * POUND_FORCE,
    weight: float = 25 * POUND_FORCE,
    rolling: float = 0.03,
    rope: str = "direct",
    travel: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A loaded cart on a ramp, hauled at steady speed."""
    pull = (load + weight) * (sin(angle) + rolling * cos(angle)) / (0.92 if rope == "sheave" else 1)
    lengths = {"L": slope, "h": slope * sin(angle), "b": slope * cos(angle), "dE": slope, "dR": slope * sin(angle)}
    forces = {"R": load, "w": weight, "E": pull}
    made = scene("cart-ramp", width, lengths, forces, {"theta": angle}, {"rope": rope}, travel, units, digits)
    return Scene(made.key, width, {**made.values, "C": rolling}, made.texts, made.choices, travel, *units)


def fan(
    width: int,
    slope: float = 101.6 * INCH,
    angle: float = 0.2384,
    load: float = 60 * POUND_FORCE,
    friction: float = 0.1,
    travel: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """The shortest ramp for a pull limit, and three others to the same height."""
    rise = slope * sin(angle)
    lengths = {"L": slope, "h": rise, "b": slope * cos(angle)}
    forces = {"R": load, "E_max": load * (sin(angle) + friction * cos(angle))}
    for i, part in (("1", 0.75), ("2", 1.5), ("3", 2.0)):
        long = part * slope
        lengths[f"L_{i}"] = long
        if long > rise:
            forces[f"E_{i}"] = load * (rise / long + friction * sqrt(1 - (rise / long) ** 2))
    return scene("shortest-ramp", width, lengths, forces, {"theta": angle}, {"moves": "slides"}, travel, units, digits)


def tilt(
    width: int,
    plank: float = 67 * INCH,
    angle: float = 0.4636,
    steady: float | None = None,
    travel: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A plank that is tilted until its load slips."""
    lengths = {"L": plank, "h": plank * sin(angle), "b": plank * cos(angle)}
    angles = {"theta": angle} | ({"theta_k": steady} if steady else {})
    return scene("tilt-test", width, lengths, {}, angles, {}, travel, units, digits)


def wedge(
    width: int,
    kind: str = "single",
    length: float = 9 * INCH,
    thick: float = 1.5 * INCH,
    load: float = 20 * POUND_FORCE,
    friction: float | None = None,
    travel: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A wedge in balance, without friction or with the same on every face."""
    half = thick / 2 if kind == "double" else thick
    alpha, mu = atan(half / length), friction or 0.0
    phi = atan(mu)
    push = 2 * load * tan(alpha + phi) if kind == "double" else load * (tan(alpha + phi) + mu)
    out = 2 * load * tan(phi - alpha) if kind == "double" else load * (tan(phi - alpha) + mu)
    lengths = {"ell": length, "t": thick, "s": hypot(length, half), "dE": length, "dR": thick}
    forces = {"R": load, "E": push}
    if friction is not None:
        normal = load / (cos(alpha) - mu * sin(alpha))
        forces |= {"N": normal, "F_1": normal * sqrt(1 + mu * mu)}
        forces |= {"E_out": out} if out > 0 else {"E_hold": -out}
        if kind == "single":
            forces |= {"V": load, "F_2": load * sqrt(1 + mu * mu)}
    key = "wedge" if friction is None else "wedge-with-friction"
    return scene(key, width, lengths, forces, {"alpha": alpha}, {"kind": kind}, travel, units, digits)


def _somewhere(random: Random) -> float:
    return random.choice((0.0, 0.5, 1.0, random.random()))


def random_shapes(count: int) -> Iterator[Scene]:
    """Triangles from 0.5 to 80 degrees."""
    random = Random(21)
    for i in range(count):
        units, angle = random.choice(UNITS), radians(spread(random, 0.5, 80))
        yield shape(WIDTHS[i % 2], spread(random, 0.05, 20), angle, _somewhere(random), units, random.choice((3, 6)))


def random_carts(count: int) -> Iterator[Scene]:
    """Carts on ramps from 1.5 to 55 degrees, by both ropes."""
    random = Random(22)
    for i in range(count):
        units = random.choice(UNITS)
        yield cart(
            WIDTHS[i % 2],
            spread(random, 0.3, 8),
            radians(spread(random, 1.5, 55)),
            spread(random, 0.1, 400) * units[1][1],
            spread(random, 0.1, 100) * units[1][1],
            random.uniform(0.005, 0.2),
            ("direct", "sheave")[i // 2 % 2],
            _somewhere(random),
            units,
            random.choice((3, 3, 6)),
        )


def random_fans(count: int) -> Iterator[Scene]:
    """Shortest ramps from 1.5 to 60 degrees."""
    random = Random(23)
    for i in range(count):
        units = random.choice(UNITS)
        yield fan(
            WIDTHS[i % 2],
            spread(random, 0.3, 12),
            radians(spread(random, 1.5, 60)),
            spread(random, 0.1, 400) * units[1][1],
            random.uniform(0.0, 0.6),
            _somewhere(random),
            units,
            random.choice((3, 3, 6)),
        )


def random_tilts(count: int) -> Iterator[Scene]:
    """Slip angles from 2 to 60 degrees, steady sliding known or not."""
    random = Random(24)
    for i in range(count):
        units, angle = random.choice(UNITS), radians(spread(random, 2, 60))
        steady = random.choice((None, angle * random.uniform(0.3, 0.98)))
        yield tilt(
            WIDTHS[i % 2], spread(random, 0.2, 4), angle, steady, _somewhere(random), units, random.choice((3, 6))
        )


def random_wedges(count: int) -> Iterator[Scene]:
    """Wedges of both kinds from 60 times as long as thick to twice as thick as long, with and without friction."""
    random = Random(25)
    for i in range(count):
        units, kind = random.choice(UNITS), ("single", "double")[i // 2 % 2]
        length = spread(random, 0.02, 0.6)
        thick = length / spread(random, 0.5 if kind == "double" else 0.7, 60)
        alpha = atan(thick / length / (2 if kind == "double" else 1))
        friction = random.choice((None, random.uniform(0.01, min(0.7, 0.8 * tan(pi / 2 - alpha)))))
        yield wedge(
            WIDTHS[i % 2],
            kind,
            length,
            thick,
            spread(random, 0.1, 400) * units[1][1],
            friction,
            _somewhere(random),
            units,
            random.choice((3, 3, 6)),
        )
