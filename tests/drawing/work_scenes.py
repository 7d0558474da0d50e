"""Random machines for one lift, as the calculators would hand them to the drawings of work."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from random import Random

from calc.drawing.scene import Scene
from tests.drawing.scenes import UNITS, WIDTHS, scene, shown, spread

Units = tuple[tuple[str, float], tuple[str, float]]
NAMES = ("straight up, by hand", "ramp", "lever", "wheel and axle (windlass)", "tackle", "screw")


def _with_work(made: Scene, joules: dict[str, float], digits: int) -> Scene:
    unit = "J" if made.force_unit[0] == "N" else "ft·lbf"
    size = 1.0 if unit == "J" else 1.3558179483314004
    texts = {symbol: shown(value / size, unit, digits) for symbol, value in joules.items()}
    return replace(made, values={**made.values, **joules}, texts={**made.texts, **texts})


def equal_work(
    width: int,
    load: float,
    height: float,
    advantage: float | None,
    keeps: float = 1.0,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """One lift, and the reader's machine with its ideal advantage and efficiency, if there is one."""
    lengths, forces, joules = {"h": height, "dR": height}, {"R": load}, {"Wout": load * height}
    if advantage is not None:
        lengths["dE"], forces["E"] = height * advantage, load / advantage / keeps
        joules["Win"] = load * height / keeps
        if keeps < 1:
            joules["Wlost"] = joules["Win"] - joules["Wout"]
    return _with_work(scene("equal", width, lengths, forces, {}, {}, 0.5, units, digits), joules, digits)


def ways(
    width: int,
    load: float,
    height: float,
    machines: list[tuple[float, float]],
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """One lift by several machines, each with its ideal advantage and efficiency."""
    lengths, forces, joules = {}, {}, {}
    for i, (advantage, keeps) in enumerate(machines, 1):
        lengths[f"dE_{i}"], forces[f"E_{i}"] = height * advantage, load / advantage / keeps
        joules |= {f"Win_{i}": load * height / keeps, f"Wlost_{i}": load * height * (1 / keeps - 1)}
    made = _with_work(scene("ways", width, lengths, forces, {}, {}, 0.5, units, digits), joules, digits)
    names = {f"way_{i}": NAMES[(i + len(machines)) % len(NAMES)] for i in range(1, len(machines) + 1)}
    return replace(made, texts={**made.texts, **names})


def random_equal_work(count: int) -> Iterator[Scene]:
    """Advantages from 0.2 to 200, efficiencies from 1 % on, some lifts without a machine."""
    random = Random(31)
    for index in range(count):
        units = random.choice(UNITS)
        yield equal_work(
            WIDTHS[index % 2],
            spread(random, 0.1, 400) * units[1][1],
            spread(random, 0.05, 5),
            random.choice((None, *(spread(random, 0.2, 200) for _ in range(9)))),
            random.choice((1.0, random.uniform(0.4, 1), spread(random, 0.01, 1))),
            units,
            random.choice((3, 3, 6)),
        )


def random_ways(count: int) -> Iterator[Scene]:
    """One to three machines, advantages from 0.3 to 200, efficiencies from 2 % on."""
    random = Random(32)
    for index in range(count):
        units = random.choice(UNITS)
        machines = [
            (spread(random, 0.3, 200), random.choice((1.0, random.uniform(0.02, 1)))) for _ in range(index % 3 + 1)
        ]
        load, height = spread(random, 0.1, 400) * units[1][1], spread(random, 0.05, 2)
        yield ways(WIDTHS[index // 3 % 2], load, height, machines, units, random.choice((3, 6)))
