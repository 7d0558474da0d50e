"""Random pulley machines, drawn from a fixed seed, as the calculators would hand them to the drawings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import cos, exp, pi, radians
from random import Random

from calc.drawing.scene import NARROW, WIDE, Scene
from tests.drawing.scenes import INCH, POUND_FORCE, UNITS, scene, shown, spread

WIDTHS = (WIDE, NARROW)
Units = tuple[tuple[str, float], tuple[str, float]]


def with_numbers(made: Scene, numbers: dict[str, tuple[float, str]]) -> Scene:
    """The scene with plain numbers added: value and text by symbol."""
    values = {symbol: value for symbol, (value, _) in numbers.items()}
    texts = {symbol: text for symbol, (_, text) in numbers.items()}
    return replace(made, values={**made.values, **values}, texts={**made.texts, **texts})


def tackle(
    width: int,
    parts: int = 4,
    to_advantage: bool = False,
    load: float = 36 * POUND_FORCE,
    block: float = 4 * POUND_FORCE,
    lift: float = 12 * INCH,
    k: float | None = None,
    travel: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A tackle being hauled, in balance: each sheave passes on a share k of the tension."""
    share, first = 1.0 if k is None else k, 0 if to_advantage else 1
    with_block = load + block
    pull = with_block / sum(share**i for i in range(first, first + parts))
    lower = with_block / sum(share**-i for i in range(first, first + parts))
    forces = {"R": load, "w": block, "E": pull, "G": with_block}
    forces["A"] = max(with_block - pull, 0.0) if to_advantage else with_block + pull
    if k is not None:
        forces["E_down"] = lower
    rove = "advantage" if to_advantage else "disadvantage"
    lengths = {"dR": lift, "dE": parts * lift}
    made = scene("tackle", width, lengths, forces, {}, {"rove": rove}, travel, units, digits)
    numbers = {"n": (float(parts), str(parts))}
    if k is not None:
        numbers["k"] = (k, f"{100 * k:.1f} %")
    return with_numbers(made, numbers)


def single_pulley(width: int, kind: str, lean: float = 0.0, **more: object) -> Scene:
    """A fixed or moving pulley as the shortest tackle of its kind; a leaning one in the balance of its pulls."""
    made = tackle(width, 1 if kind == "fixed" else 2, kind != "fixed", **more)  # type: ignore[arg-type]
    made = replace(made, key="single-pulley", choices={"kind": kind})
    if kind != "leaning":
        return made
    force, newtons = made.force_unit
    pull = made.values["G"] / (2 * cos(lean))
    return with_numbers(made, {"beta": (lean, f"{lean * 180 / pi:.1f}°"), "E": (pull, shown(pull / newtons, force, 3))})


def tackle_rope(
    width: int,
    parts: int = 4,
    to_advantage: bool = False,
    lift: float = 12 * INCH,
    gap: float = 12 * INCH,
    sheave: float = 2.5 * INCH,
    tail: float = 60 * INCH,
    travel: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """The rope of a tackle, its lengths added up."""
    sheaves = parts - 1 if to_advantage else parts
    lengths = {"h": lift, "gap": gap, "D_s": sheave, "tail": tail, "dE": parts * lift}
    lengths |= {"L_n": parts * (lift + gap), "L_S": sheaves * pi * sheave / 2}
    lengths["L"] = lengths["L_n"] + lengths["L_S"] + tail
    rove = "advantage" if to_advantage else "disadvantage"
    made = scene("tackle-rope", width, lengths, {}, {}, {"rove": rove}, travel, units, digits)
    return with_numbers(made, {"n": (float(parts), str(parts)), "S": (float(sheaves), str(sheaves))})


def chain_hoist(
    width: int,
    large: float = 10 * INCH,
    small: float = 9 * INCH,
    load: float = 100 * POUND_FORCE,
    efficiency: float = 0.4,
    travel: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A differential chain hoist and the chain of one turn."""
    lengths = {"D": large, "d": small, "dE": pi * large, "dO": pi * small, "dR": pi * (large - small) / 2}
    forces = {"R": load, "E": load * (large - small) / (2 * large) / efficiency}
    return scene("chain-hoist", width, lengths, forces, {}, {"by": "diameter"}, travel, units, digits)


def rope_on_post(
    width: int,
    turns: float = 1.5,
    mu: float = 0.25,
    load: float = 40 * POUND_FORCE,
    way: str = "ease",
    travel: float = 0.5,
    units: Units = UNITS[0],
    digits: int = 3,
) -> Scene:
    """A rope round a post at the point of slipping."""
    pull = load * exp((1 if way == "up" else -1) * mu * 2 * pi * turns)
    made = scene("rope-on-post", width, {}, {"R": load, "E": pull}, {}, {"way": way}, travel, units, digits)
    return with_numbers(made, {"n": (turns, f"{turns:.3g} turns"), "mu": (mu, f"{mu:.3g}")})


def _moment(random: Random) -> float:
    return random.choice((0.0, 0.5, 1.0, random.random()))


def random_tackles(count: int) -> Iterator[Scene]:
    """Tackles of 1 to 12 parts, both ways, with and without friction."""
    random = Random(5)
    for index in range(count):
        units = random.choice(UNITS)
        load = spread(random, 0.1, 400) * units[1][1]
        yield tackle(
            WIDTHS[index % 2],
            random.randint(1, 8) if random.random() < 0.8 else random.randint(9, 12),
            random.random() < 0.5,
            load,
            random.choice((0.0, load * random.uniform(0.01, 0.5))),
            spread(random, 0.05, 5),
            random.choice((None, random.uniform(0.5, 1))),
            _moment(random),
            units,
            random.choice((3, 3, 6)),
        )


def random_single_pulleys(count: int) -> Iterator[Scene]:
    """Fixed, moving and leaning pulleys, leaning up to 85 degrees."""
    random = Random(6)
    for index in range(count):
        units = random.choice(UNITS)
        load = spread(random, 0.1, 400) * units[1][1]
        yield single_pulley(
            WIDTHS[index % 2],
            ("fixed", "movable", "leaning")[index // 2 % 3],
            radians(random.uniform(0, 85)),
            load=load,
            block=random.choice((0.0, load * random.uniform(0.01, 0.5))),
            lift=spread(random, 0.05, 5),
            k=random.choice((None, random.uniform(0.5, 1))),
            travel=_moment(random),
            units=units,
            digits=random.choice((3, 6)),
        )


def random_tackle_ropes(count: int) -> Iterator[Scene]:
    """Ropes for 1 to 12 parts, of any proportions."""
    random = Random(7)
    for index in range(count):
        yield tackle_rope(
            WIDTHS[index % 2],
            random.randint(1, 12),
            random.random() < 0.5,
            spread(random, 0.05, 5),
            spread(random, 0.05, 2),
            spread(random, 0.01, 0.3),
            spread(random, 0.1, 10),
            _moment(random),
            random.choice(UNITS),
            random.choice((3, 6)),
        )


def random_chain_hoists(count: int) -> Iterator[Scene]:
    """Hoists with a small wheel of a tenth to all but the large one."""
    random = Random(8)
    for index in range(count):
        units = random.choice(UNITS)
        large = spread(random, 0.05, 1)
        yield chain_hoist(
            WIDTHS[index % 2],
            large,
            large * random.uniform(0.1, 0.99),
            spread(random, 0.1, 2000) * units[1][1],
            random.uniform(0.2, 1),
            _moment(random),
            units,
            random.choice((3, 6)),
        )


def random_ropes_on_posts(count: int) -> Iterator[Scene]:
    """Ropes with a twentieth of a turn up to twelve turns."""
    random = Random(9)
    for index in range(count):
        units = random.choice(UNITS)
        yield rope_on_post(
            WIDTHS[index % 2],
            random.choice((random.uniform(0.05, 3), random.uniform(3, 12), 0.5, 1.5, 2.5)),
            random.uniform(0.0, 0.6),
            spread(random, 0.1, 400) * units[1][1],
            random.choice(("ease", "up")),
            _moment(random),
            units,
            random.choice((3, 6)),
        )
