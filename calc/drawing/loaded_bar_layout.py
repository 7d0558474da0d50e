"""Where a loaded bar stands on the sheet: its scale, its ends, its loads, how far it rocks."""

from dataclasses import dataclass
from itertools import pairwise
from math import asin, cos, pi

from . import forces
from .plane import towards
from .scene import Scene

_ROCKING = pi / 30
_HIGHEST = 26.0
"""Greatest rise in pixels of an end of the bar."""


@dataclass(frozen=True)
class Load:
    """One load: its row, its place in metres, its force in newtons (0 while unknown)."""

    row: int
    x: float
    force: float


@dataclass(frozen=True)
class Bar:
    """The bar on the paper. Places are in metres along the bar, `scale` in pixels a metre, `force` in pixels a newton.

    `low` is the place at the left edge `left` of the ruler, `places` are all places that the ruler marks.
    """

    pivot: float
    start: float
    end: float
    low: float
    left: float
    right: float
    scale: float
    force: float
    most: float
    rocking: float
    tilt: float
    box: float
    thickness: float
    loads: tuple[Load, ...]
    places: tuple[float, ...]

    @property
    def pin(self) -> complex:
        """The pivot on the paper."""
        return complex(self.left + (self.pivot - self.low) * self.scale, 0)

    def point(self, x: float) -> complex:
        """A place on the bar's axis."""
        return self.pin + towards(self.tilt) * (x - self.pivot) * self.scale

    @property
    def face(self) -> complex:
        """Straight up from the axis to the upper face of the tilted bar."""
        return -1j * self.thickness / 2 / cos(self.tilt)


def lay_out(scene: Scene) -> Bar | None:
    """Choose the scale and the ends; None while the pivot's place is unknown, or nothing else has one."""
    values = scene.values
    loads = tuple(
        Load(row, values[f"x_{row}"], max(values.get(f"F_{row}", 0.0), 0.0))
        for row in range(1, 21)
        if f"x_{row}" in values
    )
    if "x_f" not in values or not (loads or "x_E" in values):
        return None
    places = [values[symbol] for symbol in ("x_f", "x_E", "x_c") if symbol in values]
    places += [load.x for load in loads]
    start, end = _ends(scene, places)
    if not end - start > 1e-6 or max(abs(start), abs(end)) > 1e7:
        return None
    margin = 46.0 if scene.wide else 34.0
    left, right = margin, scene.width - margin
    scale = (right - left) / (end - start)
    known = [load.force for load in loads] + [values.get("w", 0.0), values.get("E", 0.0)]
    most = max(known)
    longest = forces.LONGEST_WIDE if scene.wide else forces.LONGEST_NARROW
    reach = max(end - values["x_f"], values["x_f"] - start) * scale
    rocking = min(_ROCKING, asin(min(_HIGHEST / max(reach, 1.0), 1.0)))
    apart = sorted(load.x for load in loads)
    gap = min((b - a for a, b in pairwise(apart)), default=end - start) * scale
    travel = min(max(scene.travel, 0.0), 1.0)
    return Bar(
        pivot=values["x_f"],
        start=start,
        end=end,
        low=start,
        left=left,
        right=right,
        scale=scale,
        force=longest / most if most > 0 else 0.0,
        most=most,
        rocking=rocking,
        tilt=(1 - 2 * travel) * rocking,
        box=max(20.0, min(46.0 if scene.wide else 34.0, gap * 0.85)),
        thickness=12.0 if scene.wide else 10.0,
        loads=loads,
        places=tuple(sorted(set(places))),
    )


def _ends(scene: Scene, places: list[float]) -> tuple[float, float]:
    """The ends of the bar: from 0 to its length if all lies there, else round its centre; at least to every place."""
    length = scene.values.get("B", 0.0)
    start, end = min(places), max(places)
    if length > 0:
        centre = scene.values.get("x_c", length / 2)
        own = (0.0, length) if start >= 0 and end <= length * (1 + 1e-9) else (centre - length / 2, centre + length / 2)
        start, end = min(start, own[0]), max(end, own[1])
    return start, end
