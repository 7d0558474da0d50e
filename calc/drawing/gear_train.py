"""Where the wheels of a train stand: shafts in a row, pitch radii, and how far each has turned."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, pi

from .scene import Scene

_BELT_GAP = 1.5
"""Distance of two shafts with a belt or a chain, in sums of their radii."""

MOST_PAIRS = 12


@dataclass(frozen=True)
class Wheel:
    """One wheel on the paper: its shaft, radius in pixels, teeth (0: none), the angle it has turned, its symbol.

    ``phase`` is the angle of a tooth before anything turns.
    """

    centre: complex
    radius: float
    teeth: int
    turned: float
    phase: float
    symbol: str = ""


@dataclass(frozen=True)
class Pair:
    """A driver, the wheels that only pass the turning on, and the driven wheel, all in one plane."""

    driver: Wheel
    idlers: tuple[Wheel, ...]
    driven: Wheel

    @property
    def wheels(self) -> tuple[Wheel, ...]:
        """All wheels, in the order of the turning."""
        return (self.driver, *self.idlers, self.driven)


@dataclass(frozen=True)
class Train:
    """All pairs; pixels per metre (0 for teeth, whose size nobody knows)."""

    pairs: tuple[Pair, ...]
    scale: float

    @property
    def shafts(self) -> tuple[complex, ...]:
        """The middle of each shaft, from the driver's on."""
        return (self.pairs[0].driver.centre, *(pair.driven.centre for pair in self.pairs))

    @property
    def turned(self) -> tuple[float, ...]:
        """How far each shaft has turned, in radians, anticlockwise."""
        return (self.pairs[0].driver.turned, *(pair.driven.turned for pair in self.pairs))


def sizes(scene: Scene) -> list[tuple[str, str, float, float]]:
    """Symbols and sizes of each complete pair, up to the first that is not: teeth, or diameters in metres."""
    a, b = ("D_a", "D_b") if belted(scene) else ("N_a", "N_b")
    found = []
    for i in range(1, MOST_PAIRS + 1):
        first, second = scene.values.get(f"{a}_{i}", 0.0), scene.values.get(f"{b}_{i}", 0.0)
        if not (first > 0 and second > 0):
            break
        found.append((f"{a}_{i}", f"{b}_{i}", first, second))
    return found


def belted(scene: Scene) -> bool:
    """Whether belts drive it."""
    return drive(scene) in ("belt", "crossed")


def drive(scene: Scene) -> str:
    """How the pairs are joined: gears, chain, belt or crossed."""
    return scene.choices.get("drive", "gears")


def turning(scene: Scene) -> Sequence[int]:
    """For each shaft 1 if it turns the way of the first, else -1."""
    about = {"gears": -1, "crossed": -1}.get(drive(scene), 1)
    ways = [1]
    for i in range(len(sizes(scene))):
        flips = about if i or drive(scene) != "gears" else about * (-1) ** idlers(scene)
        ways.append(ways[-1] * flips)
    return ways


def idlers(scene: Scene) -> int:
    """How many gears only pass the turning on; all are drawn in the first pair."""
    return min(max(round(scene.values.get("idlers", 0.0)), 0), 6) if drive(scene) == "gears" else 0


def lay_out(scene: Scene, found: Sequence[tuple[str, str, float, float]], tallest: float) -> Train:
    """Fit the train into the width, its largest wheel no higher than ``tallest``."""
    toothed = not belted(scene)
    radii = [(a / 2, b / 2) for _, _, a, b in found]
    idler_teeth = 2 * ceil(max(min(found[0][2], found[0][3]) * 0.35, 4)) if toothed else 0
    between = idlers(scene)
    places = [0.0]
    for i, (a, b) in enumerate(radii):
        reach = (a + b) * (1.0 if drive(scene) == "gears" else _BELT_GAP)
        places.append(places[-1] + reach + (between * idler_teeth if i == 0 else 0))
    left = min(x - r for i, (a, b) in enumerate(radii) for x, r in ((places[i], a), (places[i + 1], b)))
    right = max(x + r for i, (a, b) in enumerate(radii) for x, r in ((places[i], a), (places[i + 1], b)))
    largest = max(max(pair) for pair in radii)
    scale = min((scene.width - 40) / (right - left), tallest / (2 * largest))
    shift = (scene.width - (right + left) * scale) / 2

    done = min(max(scene.travel, 0.0), 1.0)
    rim = -2 * pi * done  # the driver's angle; every pair hands its rim on
    way = turning(scene)
    pairs = []
    turned = rim
    for i, ((name_a, name_b, a, b), (ra, rb)) in enumerate(zip(found, radii, strict=True)):
        here, there = complex(shift + places[i] * scale, 0), complex(shift + places[i + 1] * scale, 0)
        driver = Wheel(here, ra * scale, round(a) if toothed else 0, turned, 0.0, name_a)
        middle = _idlers(driver, between if i == 0 else 0, idler_teeth, scale)
        last = middle[-1] if middle else driver
        turned = turned * (a / b) * way[i] * way[i + 1]
        phase = _meshing(last, round(b)) if toothed else 0.0
        driven = Wheel(there, rb * scale, round(b) if toothed else 0, turned, phase, name_b)
        pairs.append(Pair(driver, middle, driven))
    return Train(tuple(pairs), scale if belted(scene) else 0.0)


def _idlers(driver: Wheel, count: int, teeth: int, scale: float) -> tuple[Wheel, ...]:
    found: list[Wheel] = []
    last = driver
    for _ in range(count):
        centre = last.centre + last.radius + teeth / 2 * scale
        turned = -last.turned * last.teeth / teeth
        last = Wheel(centre, teeth / 2 * scale, teeth, turned, _meshing(last, teeth))
        found.append(last)
    return tuple(found)


def _meshing(last: Wheel, teeth: int) -> float:
    """The phase that puts a wheel's teeth into the gaps of the one to its left."""
    pitch = 2 * pi / max(last.teeth, 1)
    above = last.phase % pitch / pitch
    return pi - (above + 0.5) * 2 * pi / max(teeth, 1)
