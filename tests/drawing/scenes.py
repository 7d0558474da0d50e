"""Random machines, drawn from a fixed seed, as the calculators would hand them to the drawings."""

from __future__ import annotations

from collections.abc import Iterator
from math import asin, cos, degrees, exp, log, pi, radians, sin
from random import Random

from calc.drawing.scene import NARROW, WIDE, Scene

INCH, POUND_FORCE = 0.0254, 4.4482216152605
UNITS = (
    (("in", INCH), ("lbf", POUND_FORCE)),
    (("ft", 12 * INCH), ("lbf", POUND_FORCE)),
    (("mm", 0.001), ("N", 1.0)),
    (("cm", 0.01), ("N", 1.0)),
    (("m", 1.0), ("N", 1.0)),
)
WIDTHS = (WIDE, NARROW)


def spread(random: Random, low: float, high: float) -> float:
    """A number between two others, as likely in one decade as in the next."""
    return exp(random.uniform(log(low), log(high)))


def shown(value: float, unit: str, digits: int) -> str:
    """A value as a calculator might show it; long strings are wanted here."""
    text = f"{value:#.{digits}g}".rstrip(".")
    return f"{float(text):.{digits}f} {unit}" if "e" in text else f"{text} {unit}"


def scene(
    key: str,
    width: int,
    lengths: dict[str, float],
    forces: dict[str, float],
    angles: dict[str, float],
    choices: dict[str, str],
    travel: float,
    units: tuple[tuple[str, float], tuple[str, float]] = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A scene whose texts show its values in the given units."""
    (length, metres), (force, newtons) = units
    texts = {symbol: shown(value / metres, length, digits) for symbol, value in lengths.items()}
    texts |= {symbol: shown(value / newtons, force, digits) for symbol, value in forces.items()}
    texts |= {symbol: f"{degrees(value):.1f}°" for symbol, value in angles.items()}
    return Scene(key, width, {**lengths, **forces, **angles}, texts, choices, travel, *units)


def lever(
    width: int,
    kind: str = "1",
    load: float = 40 * POUND_FORCE,
    load_arm: float = 6 * INCH,
    effort_arm: float = 24 * INCH,
    travel: float = 0.5,
    swing: float = pi / 12,
    units: tuple[tuple[str, float], tuple[str, float]] = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A lever in balance."""
    effort = load * load_arm / effort_arm
    pivot = {"1": load + effort, "2": load - effort, "3": effort - load}[kind]
    lengths = {
        "aR": load_arm,
        "aE": effort_arm,
        "dR": 2 * load_arm * sin(swing),
        "dE": 2 * effort_arm * sin(swing),
    }
    forces = {"R": load, "E": effort, "N": pivot}
    return scene("lever", width, lengths, forces, {"psi": swing}, {"class": kind}, travel, units, digits)


def ramp(
    width: int,
    slope: float = 96 * INCH,
    angle: float = asin(0.25),
    load: float = 30 * POUND_FORCE,
    friction: float | None = None,
    pull: str = "along",
    motion: str = "up",
    rope: float = 0.0,
    travel: float = 0.5,
    units: tuple[tuple[str, float], tuple[str, float]] = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A crate in balance on a ramp."""
    mu = friction or 0.0
    delta = {"along": 0.0, "level": -angle, "angled": rope}[pull]
    sign = 1 if motion in ("up", "start") else -1
    effort = load * (sin(angle) + sign * mu * cos(angle)) / (cos(delta) + sign * mu * sin(delta))
    if motion == "push":
        effort = load * (mu * cos(angle) - sin(angle))
    effort = max(effort, 0.0)
    lengths = {"L": slope, "h": slope * sin(angle), "b": slope * cos(angle), "dR": slope * sin(angle)}
    lengths["dE"] = {"along": slope, "level": lengths["b"], "angled": slope * cos(delta)}[pull]
    forces = {"R": load, "E": effort}
    if friction is not None:
        normal = max(load * cos(angle) - effort * sin(delta), 0.0)
        forces |= {"N": normal, "F_f": mu * normal}
    angles = {"theta": angle, "delta": delta}
    made = scene("ramp", width, lengths, forces, angles, {"pull": pull, "motion": motion}, travel, units, digits)
    if friction is None:
        return made
    return Scene(made.key, width, {**made.values, "mu": mu}, made.texts, made.choices, travel, *units)


def work(
    width: int,
    effort: float,
    effort_distance: float,
    load: float,
    load_distance: float,
    units: tuple[tuple[str, float], tuple[str, float]] = UNITS[0],
    digits: int = 3,
) -> Scene:
    """Work in and work out."""
    put_in, got_out = effort * effort_distance, load * load_distance
    made = scene(
        "any", width, {"dE": effort_distance, "dR": load_distance}, {"E": effort, "R": load}, {}, {}, 0.5, units, digits
    )
    joules = {"Win": put_in, "Wout": got_out, "Wlost": put_in - got_out}
    texts = {symbol: shown(value, "N·m", digits) for symbol, value in joules.items()}
    return Scene("any", width, {**made.values, **joules}, {**made.texts, **texts}, {}, 0.5, *units)


def same_work(
    width: int,
    load: float,
    height: float,
    advantages: list[float],
    units: tuple[tuple[str, float], tuple[str, float]] = UNITS[0],
    digits: int = 3,
) -> Scene:
    """The same lift by several machines."""
    rows = list(enumerate(advantages, 1))
    made = scene(
        "same",
        width,
        {f"dE_{i}": height * ima for i, ima in rows},
        {f"E_{i}": load / ima for i, ima in rows},
        {},
        {},
        0.5,
        units,
        digits,
    )
    texts = {f"IMA_{i}": f"{ima:.3g}" for i, ima in rows}
    return Scene("same", width, made.values, {**made.texts, **texts}, {}, 0.5, *units)


def random_levers(count: int) -> Iterator[Scene]:
    """Levers of every class, arms up to 60 : 1, loads from 0.1 to 400."""
    random = Random(1)
    for index in range(count):
        units = random.choice(UNITS)
        kind = "123"[index % 3]
        short = spread(random, 0.02, 0.5)
        ratio = spread(random, 1.02, 60)
        arms = [short, short * ratio]
        if kind == "3" or (kind == "1" and random.random() < 0.3):
            arms.reverse()
        yield lever(
            WIDTHS[index // 3 % 2],
            kind,
            spread(random, 0.1, 400) * units[1][1],
            *arms,
            travel=random.choice((0.0, 0.5, 1.0, random.random())),
            swing=random.choice((pi / 12, radians(random.uniform(2, 60)))),
            units=units,
            digits=random.choice((3, 3, 6)),
        )


def random_ramps(count: int) -> Iterator[Scene]:
    """Ramps from 1.5 to 60 degrees, every direction of pull and every motion."""
    random = Random(2)
    for index in range(count):
        units = random.choice(UNITS)
        angle = radians(spread(random, 1.5, 60))
        friction = random.choice((None, random.uniform(0.01, 0.6)))
        motion = random.choice(("up", "up", "start", "hold", "down", "push"))
        pull = "along" if motion == "push" else random.choice(("along", "along", "angled", "level"))
        if pull == "level" and (friction or 0) * angle > 0.35:
            pull = "along"
        yield ramp(
            WIDTHS[index % 2],
            spread(random, 0.3, 8),
            angle,
            spread(random, 0.1, 400) * units[1][1],
            friction,
            pull,
            motion,
            rope=radians(random.uniform(-20, 50)),
            travel=random.choice((0.0, 0.5, 1.0, random.random())),
            units=units,
            digits=random.choice((3, 3, 6)),
        )


def random_work(count: int) -> Iterator[Scene]:
    """Work in and out at advantages from 1 : 60 to 60 : 1, some of it lost."""
    random = Random(3)
    for index in range(count):
        units = random.choice(UNITS)
        load, distance = spread(random, 0.1, 400) * units[1][1], spread(random, 0.01, 3)
        advantage, efficiency = spread(random, 1 / 60, 60), random.choice((1.0, random.uniform(0.1, 1)))
        yield work(
            WIDTHS[index % 2],
            load / advantage / efficiency,
            distance * advantage,
            load,
            distance,
            units,
            random.choice((3, 6)),
        )


def random_same_work(count: int) -> Iterator[Scene]:
    """Up to eight machines for one lift."""
    random = Random(4)
    for index in range(count):
        units = random.choice(UNITS)
        advantages = [spread(random, 0.5, 60) for _ in range(random.randint(1, 8))]
        yield same_work(
            WIDTHS[index % 2],
            spread(random, 0.1, 400) * units[1][1],
            spread(random, 0.1, 2),
            advantages,
            units,
            random.choice((3, 6)),
        )
