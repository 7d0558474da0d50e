"""Random bars, bent levers, pins, chains, paths and measures from a fixed seed, as calculators would hand them over."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import asin, atan, cos, degrees, pi, radians, sin, tan
from random import Random

from calc.drawing.scene import Scene
from calc.figures import sixteenths
from tests.drawing.scenes import INCH, POUND_FORCE, UNITS, WIDTHS, lever, scene, shown, spread

Units = tuple[tuple[str, float], tuple[str, float]]


def travel(random: Random) -> float:
    return random.choice((0.0, 0.5, 1.0, random.random()))


def loaded_bar(
    width: int,
    loads: list[tuple[float, float]],
    pivot: float,
    hand: float,
    length: float = 96 * INCH,
    weight: float = 20 * POUND_FORCE,
    moved: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A bar of (force, place) loads; without an effort where the hand cannot balance it."""
    turning = sum(force * (pivot - x) for force, x in loads) + weight * (pivot - length / 2)
    effort = abs(turning / (hand - pivot))
    pushed = turning / (hand - pivot) > 0
    lengths = {"x_f": pivot, "x_E": hand, "B": length, "x_c": length / 2}
    lengths |= {f"x_{i}": x for i, (_, x) in enumerate(loads, 1)}
    forces = {"w": weight, **{f"F_{i}": force for i, (force, _) in enumerate(loads, 1)}}
    down = sum(force for force, _ in loads) + weight + (effort if pushed else -effort)
    forces |= {"E": effort, ("N" if down > 0 else "N_down"): abs(down)}
    choices = {"direction": "down" if pushed else "up"}
    made = scene("loaded-bar", width, lengths, forces, {}, choices, moved, units, digits)
    return replace(made, values={**made.values, "M": turning})


def random_bars(count: int) -> Iterator[Scene]:
    """One to six loads anywhere on the bar, some with the hand on the wrong side."""
    random = Random(11)
    for index in range(count):
        units = random.choice(UNITS)
        length = spread(random, 0.3, 8)
        loads = [
            (spread(random, 0.5, 400) * units[1][1], random.uniform(0, length)) for _ in range(random.randint(1, 6))
        ]
        made = loaded_bar(
            WIDTHS[index % 2],
            loads,
            random.uniform(0.05, 0.6) * length,
            random.choice((length, random.uniform(0.65, 1) * length)),
            length,
            spread(random, 0.5, 60) * units[1][1],
            travel(random),
            units,
            random.choice((3, 3, 6)),
        )
        if index % 5 == 4:
            made = replace(made, values={s: v for s, v in made.values.items() if s not in ("E", "N", "N_down")})
            made = replace(made, texts={s: t for s, t in made.texts.items() if s not in ("E", "N", "N_down")})
        yield made


def bent_lever(
    width: int,
    load_arm: float = 1.5 * INCH,
    load_angle: float = radians(70),
    effort_arm: float = 12 * INCH,
    effort_angle: float = pi / 2,
    load: float = 60 * POUND_FORCE,
    turn: float = pi / 9,
    moved: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A bent lever in balance."""
    by_load, by_effort = load_arm * sin(load_angle), effort_arm * sin(effort_angle)
    lengths = {"aR": load_arm, "aE": effort_arm, "m_R": by_load, "m_E": by_effort}
    lengths |= {"dR": by_load * turn, "dE": by_effort * turn}
    forces = {"R": load, "E": load * by_load / by_effort}
    angles = {"psi_R": load_angle, "psi_E": effort_angle, "psi": turn}
    return scene("bent-lever", width, lengths, forces, angles, {}, moved, units, digits)


def random_bent_levers(count: int) -> Iterator[Scene]:
    """Arms up to 60 : 1 either way, forces at 15 to 165 degrees."""
    random = Random(12)
    for index in range(count):
        units = random.choice(UNITS)
        short = spread(random, 0.02, 0.3)
        arms = [short, short * spread(random, 1.02, 60)]
        if random.random() < 0.3:
            arms.reverse()
        yield bent_lever(
            WIDTHS[index % 2],
            arms[0],
            random.choice((pi / 2, radians(random.uniform(15, 165)))),
            arms[1],
            random.choice((pi / 2, radians(random.uniform(15, 165)))),
            spread(random, 0.1, 400) * units[1][1],
            random.choice((pi / 9, radians(random.uniform(2, 90)))),
            travel(random),
            units,
            random.choice((3, 3, 6)),
        )


def pin_friction(base: Scene, radius: float, mu: float, digits: int = 3) -> Scene:
    """A lever's scene with its pin."""
    (unit, metres), _ = base.length_unit, base.force_unit
    lengths = {"r_p": radius, "r_f": radius * sin(atan(mu))}
    texts = {symbol: shown(value / metres, unit, digits) for symbol, value in lengths.items()}
    return replace(base, key="pin-friction", values={**base.values, **lengths}, texts={**base.texts, **texts})


def random_pins(count: int) -> Iterator[Scene]:
    """Pins of every class of lever, from nearly smooth to nearly stuck."""
    random = Random(13)
    for index in range(count):
        units = random.choice(UNITS)
        kind = "123"[index % 3]
        short = spread(random, 0.05, 0.5)
        arms = [short, short * spread(random, 1.02, 40)]
        if kind == "3":
            arms.reverse()
        base = lever(
            WIDTHS[index // 3 % 2],
            kind,
            spread(random, 0.1, 400) * units[1][1],
            *arms,
            travel=travel(random),
            units=units,
            digits=random.choice((3, 6)),
        )
        yield pin_friction(base, short * spread(random, 0.01, 0.4), random.choice((0.0, spread(random, 0.01, 1.9))))


def chain(
    width: int,
    stages: list[tuple[float, float]],
    load: float = 80 * POUND_FORCE,
    distance: float = 12 * INCH,
    preset: str = "own",
    moved: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A chain of (advantage, efficiency) stages from the hand to the load."""
    force, way = load, distance
    for advantage, efficiency in stages:
        force, way = force / advantage / efficiency, way * advantage
    forces, lengths = {"E": force, "F_0": force, "R": load}, {"dE": way, "d_0": way, "h": distance}
    for i, (advantage, efficiency) in enumerate(stages, 1):
        force, way = force * advantage * efficiency, way / advantage
        forces[f"F_{i}"], lengths[f"d_{i}"] = force, way
    made = scene("chain", width, lengths, forces, {}, {"preset": preset}, moved, units, digits)
    plain = {f"IMA_{i}": advantage for i, (advantage, _) in enumerate(stages, 1)}
    plain |= {f"eta_{i}": efficiency for i, (_, efficiency) in enumerate(stages, 1)}
    texts = {f"IMA_{i}": f"{advantage:.4g}" for i, (advantage, _) in enumerate(stages, 1)}
    texts |= {f"eta_{i}": f"{efficiency * 100:.1f} %" for i, (_, efficiency) in enumerate(stages, 1)}
    return replace(made, values={**made.values, **plain}, texts={**made.texts, **texts})


def random_chains(count: int) -> Iterator[Scene]:
    """One to five stages, with and without names."""
    random = Random(14)
    presets = ("own", "windlass-tackle", "crank-gears-drum", "vise", "tackle-ramp", "lopper")
    for index in range(count):
        units = random.choice(UNITS)
        stages = [(spread(random, 0.2, 16), random.uniform(0.1, 1)) for _ in range(random.randint(1, 5))]
        yield chain(
            WIDTHS[index % 2],
            stages,
            spread(random, 0.1, 400) * units[1][1],
            spread(random, 0.01, 2),
            random.choice(presets),
            travel(random),
            units,
            random.choice((3, 3, 6)),
        )


def along_path(
    width: int,
    angle: float,
    force: float = 30 * POUND_FORCE,
    distance: float = 48 * INCH,
    moved: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A force along a path."""
    part = force * cos(angle)
    made = scene(
        "work-and-power", width, {"d": distance}, {"F": force, "F_d": part}, {"gamma": angle}, {}, moved, units, digits
    )
    texts = {**made.texts, "W": shown(part * distance, "N·m", digits)}
    return replace(made, values={**made.values, "W": part * distance}, texts=texts)


def random_paths(count: int) -> Iterator[Scene]:
    """Forces at any angle to their path, 0 and 90 degrees among them."""
    random = Random(15)
    for index in range(count):
        units = random.choice(UNITS)
        yield along_path(
            WIDTHS[index % 2],
            random.choice((0.0, pi / 2, pi, random.uniform(0, pi))),
            spread(random, 0.1, 400) * units[1][1],
            spread(random, 0.01, 30),
            travel(random),
            units,
            random.choice((3, 3, 6)),
        )


def random_drags(count: int) -> Iterator[Scene]:
    """The same with the load dragged: pulls from level to steep."""
    for made in random_paths(2 * count):
        if made.values["gamma"] < 1.4:
            names = {"F": "E", "F_d": "E_d", "gamma": "delta", "d": "d", "W": "W"}
            values = {names[symbol]: value for symbol, value in made.values.items()}
            texts = {names[symbol]: text for symbol, text in made.texts.items()}
            yield replace(made, key="level-drag", values=values, texts=texts)


def measure(width: int, length: float = 0.0, angle: float = 0.0, moved: float = 0.5) -> Scene:
    """A length on a tape, or a slope."""
    if length:
        texts = {"L_in": shown(length / INCH, "in", 6), "L_mm": shown(length * 1000, "mm", 4)}
        texts["L_16"] = f"{sixteenths(length / INCH)} in"
        return Scene("measures", width, {"L_in": length}, texts, {"of": "length"}, moved)
    run = 1 / tan(angle)
    texts = {"theta": f"{degrees(angle):.1f}°", "n": f"{run:.4g}", "grade": f"{100 / run:.4g}"}
    values = {"theta": angle, "n": run, "grade": 100 / run}
    return Scene("measures", width, values, texts, {"of": "slope"}, moved)


def random_measures(count: int) -> Iterator[Scene]:
    """Lengths from a hair to a street, slopes from nearly level to nearly upright."""
    random = Random(16)
    for index in range(count):
        width = WIDTHS[index // 2 % 2]
        if index % 2:
            yield measure(width, angle=asin(spread(random, 0.001, 0.999)), moved=travel(random))
        else:
            yield measure(width, spread(random, 0.0005, 2000), moved=travel(random))
