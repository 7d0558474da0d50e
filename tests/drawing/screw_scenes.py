"""Random screws, bolts and paper triangles, drawn from a fixed seed, as the calculators would hand them over."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan, degrees, pi, radians, tan
from random import Random

from calc.drawing.scene import Scene
from tests.drawing.scenes import INCH, POUND_FORCE, UNITS, WIDTHS, shown, spread

Units = tuple[tuple[str, float], tuple[str, float]]


def made(
    key: str,
    width: int,
    lengths: dict[str, float],
    forces: dict[str, float],
    torques: dict[str, float],
    plain: dict[str, tuple[float, str]],
    choices: dict[str, str],
    travel: float,
    units: Units,
    digits: int,
) -> Scene:
    """A scene whose texts show its values; `plain` holds angles and counts with their texts."""
    (length, metres), (force, newtons) = units
    texts = {symbol: shown(value / metres, length, digits) for symbol, value in lengths.items()}
    texts |= {symbol: shown(value / newtons, force, digits) for symbol, value in forces.items()}
    texts |= {symbol: shown(value / metres / newtons, f"{force}·{length}", digits) for symbol, value in torques.items()}
    texts |= {symbol: text for symbol, (_, text) in plain.items()}
    values = {**lengths, **forces, **torques, **{symbol: value for symbol, (value, _) in plain.items()}}
    return Scene(key, width, values, texts, choices, travel, *units)


def angle(value: float) -> tuple[float, str]:
    return value, f"{degrees(value):.1f}°"


def screw(
    width: int,
    mean: float = 2 / 3 * INCH,
    pitch: float = INCH / 6,
    starts: int = 1,
    travel: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """One turn of a thread."""
    lead = starts * pitch
    lengths = {"d_m": mean, "p": pitch, "l": lead, "C": pi * mean}
    plain = {"lam": angle(atan(lead / (pi * mean))), "j": (float(starts), str(starts))}
    return made("screw", width, lengths, {}, {}, plain, {}, travel, units, digits)


def paper(
    width: int,
    base: float = 11 * INCH,
    height: float = 2 * INCH,
    dowel: float = INCH,
    travel: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A paper triangle and a dowel."""
    turns = base / (pi * dowel)
    lengths = {"B": base, "H": height, "d": dowel, "p": height / turns}
    plain = {"lam": angle(atan(height / base)), "turns": (turns, f"{turns:.3g} turns")}
    return made("wrap-test", width, lengths, {}, {}, plain, {}, travel, units, digits)


def stand(
    width: int,
    load: float = 100 * POUND_FORCE,
    outside: float = 0.75 * INCH,
    pitch: float = INCH / 6,
    starts: int = 1,
    handle: float = 3 * INCH,
    friction: float | None = 0.155,
    collar: float = 0.12,
    lift: float = INCH,
    travel: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A screw stand in balance; without friction the ideal one."""
    mean, lead = outside - pitch / 2, starts * pitch
    lam = atan(lead / (pi * mean))
    lengths = {"d": outside, "d_m": mean, "p": pitch, "l": lead, "r": handle, "d_c": 1.4 * outside}
    plain = {"lam": angle(lam), "turns": (lift / lead, f"{lift / lead:.3g} turns")}
    choices = {"collar": "rubs" if collar else "none"}
    if friction is None:
        forces = {"R": load, "E": load * lead / (2 * pi * handle)}
        return made("stand", width, lengths, forces, {}, plain, choices, travel, units, digits)
    phi = atan(friction)
    rub = load * collar * 0.7 * outside
    push = load * tan(lam + phi)
    down = load * tan(phi - lam) * mean / 2 + rub
    torque = push * mean / 2 + rub
    forces = {"R": load, "E": torque / handle, "Q": push}
    torques = {"T": torque, "T_down": max(down, 0.0), "T_hold": max(-down, 0.0)}
    plain["phi"] = angle(phi)
    return made("stand", width, lengths, forces, torques, plain, choices, travel, units, digits)


def bolt(
    width: int,
    torque: float = 150 * INCH * POUND_FORCE,
    size: float = 0.375 * INCH,
    pitch: float = INCH / 16,
    factor: float = 0.2,
    wrench: float = 8 * INCH,
    split: float | None = None,
    travel: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A tightened bolt; `split` is the thread's share of what rubs."""
    force = torque / factor / size
    forces = {"F": force, "F_lo": force / 1.3, "F_hi": force / 0.7, "E": torque / wrench}
    shares = {"s_c": pitch / (2 * pi * factor * size)}
    shares["s_l"] = 1 - shares["s_c"]
    if split is not None:
        shares |= {"s_t": shares["s_l"] * split, "s_f": shares["s_l"] * (1 - split)}
    plain = {symbol: (share, f"{100 * share:.1f} %") for symbol, share in shares.items()}
    lengths = {"d": size, "p": pitch, "r": wrench}
    return made("bolt-clamp", width, lengths, forces, {"T": torque}, plain, {}, travel, units, digits)


def travel_of(random: Random) -> float:
    return random.choice((0.0, 0.5, 1.0, random.random()))


def random_screws(count: int) -> Iterator[Scene]:
    """Threads from 0.3 to 55 degrees, one to eight starts."""
    random = Random(11)
    for index in range(count):
        mean, starts = spread(random, 0.002, 0.3), random.choice((1, 1, 1, 2, 3, 4, 8))
        lead = pi * mean * tan(radians(spread(random, 0.3, 55)))
        units, digits = random.choice(UNITS), random.choice((3, 3, 6))
        yield screw(WIDTHS[index % 2], mean, lead / starts, starts, travel_of(random), units, digits)


def random_papers(count: int) -> Iterator[Scene]:
    """Paper triangles of every slope on dowels thin and thick."""
    random = Random(12)
    for index in range(count):
        base = spread(random, 0.03, 1)
        height, dowel = base * tan(radians(spread(random, 1, 60))), base / spread(random, 0.5, 60)
        units, digits = random.choice(UNITS), random.choice((3, 3, 6))
        yield paper(WIDTHS[index % 2], base, height, dowel, travel_of(random), units, digits)


def random_stands(count: int) -> Iterator[Scene]:
    """Screw stands with handles from shorter than the screw is thick to 80 times as long, rubbing or not."""
    random = Random(13)
    for index in range(count):
        outside = spread(random, 0.004, 0.15)
        starts = random.choice((1, 1, 1, 2, 4))
        units, digits = random.choice(UNITS), random.choice((3, 3, 6))
        yield stand(
            WIDTHS[index % 2],
            spread(random, 0.5, 5000) * units[1][1],
            outside,
            outside * random.uniform(0.03, 0.4),
            starts,
            outside * spread(random, 0.4, 80),
            random.choice((None, spread(random, 0.01, 0.6))),
            random.choice((0.0, 0.12, 0.3)),
            outside * spread(random, 0.2, 20),
            travel_of(random),
            units,
            digits,
        )


def random_bolts(count: int) -> Iterator[Scene]:
    """Bolts from 4 to 40 mm with wrenches from short to long, both kinds of nut factor."""
    random = Random(14)
    for index in range(count):
        size = spread(random, 0.004, 0.04)
        units, digits = random.choice(UNITS), random.choice((3, 3, 6))
        yield bolt(
            WIDTHS[index % 2],
            spread(random, 0.5, 300),
            size,
            size * random.uniform(0.08, 0.2),
            random.uniform(0.1, 0.4),
            size * spread(random, 3, 80),
            random.choice((None, random.uniform(0.1, 0.9))),
            travel_of(random),
            units,
            digits,
        )
