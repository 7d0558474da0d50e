"""Random wheels, windlasses, journals and trains, as the calculators would hand them to the drawings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import atan, pi, sin
from random import Random

from calc.drawing.scene import Scene
from tests.drawing.scenes import INCH, POUND_FORCE, UNITS, WIDTHS, scene, shown, spread

Units = tuple[tuple[str, float], tuple[str, float]]


def wheel(
    width: int,
    wheel_radius: float = 9 * INCH,
    axle_radius: float = 1.5 * INCH,
    load: float = 24 * POUND_FORCE,
    hand: str = "wheel",
    travel: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A wheel and axle in balance."""
    pulled, lifted = (axle_radius, wheel_radius) if hand == "axle" else (wheel_radius, axle_radius)
    lengths = {"r_w": wheel_radius, "r_a": axle_radius, "dE": 2 * pi * pulled, "dR": 2 * pi * lifted}
    forces = {"R": load, "E": load * lifted / pulled}
    return scene("wheel-and-axle", width, lengths, forces, {}, {"hand": hand}, travel, units, digits)


def windlass(
    width: int,
    crank: float = 15 * INCH,
    drum: float = 6 * INCH,
    rope: float = 0.5 * INCH,
    load: float = 40 * POUND_FORCE,
    height: float = 12 * INCH,
    travel: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
    layers: int = 1,
) -> Scene:
    """A windlass in balance, its rope on one layer."""
    radius = drum / 2 + (layers - 0.5) * rope
    turns = height / (2 * pi * radius)
    lengths = {"r_c": crank, "D": drum, "t": rope, "r": radius, "h": height, "dR": height}
    lengths["dE"] = 2 * pi * crank * turns
    forces = {"R": load, "E": load * radius / crank}
    made = scene("windlass", width, lengths, forces, {}, {}, travel, units, digits)
    counts = {"turns": turns, "m": float(layers)}
    return replace(made, values={**made.values, **counts}, texts={**made.texts, "turns": shown(turns, "turns", digits)})


def journal(
    width: int,
    crank: float = 15 * INCH,
    drum: float = 6 * INCH,
    rope: float = 0.5 * INCH,
    load: float = 40 * POUND_FORCE,
    journal_radius: float = 0.5 * INCH,
    mu: float = 0.15,
    weight: float = 18 * POUND_FORCE,
    travel: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A windlass that rubs in its journals, pushed hardest."""
    radius, circle = (drum + rope) / 2, journal_radius * sin(atan(mu))
    effort = (load * (radius + circle) + weight * circle) / (crank - circle)
    lengths = {"r_c": crank, "D": drum, "t": rope, "r": radius, "r_j": journal_radius, "r_f": circle}
    lengths |= {"dE": 2 * pi * crank, "dR": 2 * pi * radius}
    forces = {"R": load, "w": weight, "E": effort, "N": load + weight + effort}
    return scene("journal-friction", width, lengths, forces, {}, {}, travel, units, digits)


def train(
    width: int,
    pairs: list[tuple[float, float]],
    drive: str = "gears",
    idlers: int = 0,
    travel: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A train of gears (teeth) or of belts (metres), 360 turns a minute and 2 N·m at its first shaft."""
    belted = drive in ("belt", "crossed")
    a, b = ("D_a", "D_b") if belted else ("N_a", "N_b")
    values: dict[str, float] = {"idlers": float(idlers)}
    texts = {"idlers": str(idlers)}
    (length, metres), _ = units
    speed, torque = 360.0, 2.0
    for i in range(len(pairs) + 1):
        if i:
            first, second = pairs[i - 1]
            values |= {f"{a}_{i}": first, f"{b}_{i}": second}
            for symbol, size in ((f"{a}_{i}", first), (f"{b}_{i}", second)):
                texts[symbol] = shown(size / metres, length, digits) if belted else f"{size:.0f}"
            speed, torque = speed * first / second, torque * second / first * 0.95
        values |= {f"rpm_{i}": speed * pi / 30, f"T_{i}": torque}
        texts |= {f"rpm_{i}": shown(speed, "rpm", digits), f"T_{i}": shown(torque, "N·m", digits)}
    texts["rpm_out"] = texts[f"rpm_{len(pairs)}"]
    return Scene("gears-and-belts", width, values, texts, {"drive": drive}, travel, *units)


def random_wheels(count: int) -> Iterator[Scene]:
    """Wheels up to 150 times their axle, a few smaller than it, the effort on either."""
    random = Random(31)
    for index in range(count):
        units = random.choice(UNITS)
        axle = spread(random, 0.002, 0.3)
        yield wheel(
            WIDTHS[index % 2],
            axle * spread(random, 0.5, 150),
            axle,
            spread(random, 0.1, 400) * units[1][1],
            random.choice(("wheel", "axle")),
            random.choice((0.0, 0.5, 1.0, random.random())),
            units,
            random.choice((3, 3, 6)),
        )


def random_windlasses(count: int) -> Iterator[Scene]:
    """Cranks from half a drum to 60 drums long, ropes from thread to hawser, lifts of up to 100 turns."""
    random = Random(32)
    for index in range(count):
        units = random.choice(UNITS)
        drum = spread(random, 0.01, 0.8)
        yield windlass(
            WIDTHS[index % 2],
            drum * spread(random, 0.3, 30),
            drum,
            drum * spread(random, 0.005, 1),
            spread(random, 0.1, 400) * units[1][1],
            drum * spread(random, 0.3, 300),
            random.choice((0.0, 0.5, 1.0, random.random())),
            units,
            random.choice((3, 3, 6)),
            random.choice((1, 1, 2, 4)),
        )


def random_journals(count: int) -> Iterator[Scene]:
    """Journals from a pin to as thick as the drum, greased to dry."""
    random = Random(33)
    for index in range(count):
        units = random.choice(UNITS)
        drum = spread(random, 0.03, 0.8)
        yield journal(
            WIDTHS[index % 2],
            drum * spread(random, 0.6, 10),
            drum,
            drum * spread(random, 0.01, 0.5),
            spread(random, 0.1, 400) * units[1][1],
            drum * spread(random, 0.01, 0.5),
            spread(random, 0.005, 1.2),
            spread(random, 0.1, 100) * units[1][1],
            random.choice((0.0, 0.5, 1.0, random.random())),
            units,
            random.choice((3, 3, 6)),
        )


def random_trains(count: int) -> Iterator[Scene]:
    """One to five pairs of 5 to 400 teeth or 2 cm to 1 m, in every drive."""
    random = Random(34)
    for index in range(count):
        units = random.choice(UNITS)
        drive = ("gears", "chain", "belt", "crossed")[index // 2 % 4]
        size = (
            (lambda: spread(random, 0.02, 1)) if index // 2 % 4 > 1 else (lambda: float(round(spread(random, 5, 400))))
        )
        yield train(
            WIDTHS[index % 2],
            [(size(), size()) for _ in range(random.randint(1, 5))],
            drive,
            random.choice((0, 0, 1, 2, 6)) if drive == "gears" else 0,
            random.choice((0.0, 0.5, 1.0, random.random())),
            units,
            random.choice((3, 3, 6)),
        )
