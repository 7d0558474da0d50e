"""The wheel and axle from the side: two circles in their true ratio, a cord on each, turned by up to one turn.

Wide, the effort's cord runs level off the top; narrow, it hangs. Both travels are drawn to the scale of the wheel.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, radians

from . import axle_detail, cord, forces, parts
from .canvas import BACKGROUND, BODY, EDGE, MOVING, OVERLAY, Canvas, Words, number
from .labels import Label, settle
from .letters import EFFORT
from .plane import towards
from .scales import Path, Scales, scale_bars
from .scene import Drawing, Scene
from .travels import bars

_GAP = 16.0
_SPOKES = 6
_SMALL = 2.5
"""A circle of a smaller radius in pixels has a detail."""


@dataclass(frozen=True)
class _Wheel:
    """The machine on the paper, in pixels: the circle of each cord, the place of the shaft, the share of a turn."""

    scale: float
    centre: complex
    effort: float
    load: float
    turn: float
    crate: float
    effort_on: str

    @property
    def large(self) -> float:
        """The radius of the larger circle."""
        return max(self.effort, self.load)

    @property
    def small(self) -> float:
        """The radius of the smaller circle."""
        return min(self.effort, self.load)

    @property
    def crate_top(self) -> complex:
        """The ring on the crate that the load's cord is tied to."""
        risen = 2 * pi * self.load * (1 - self.turn)
        return complex(self.centre.real - self.load, self.large + _GAP + risen)

    def hand(self, wide: bool) -> tuple[complex, complex, complex]:
        """Where the effort's cord leaves its circle, where it ends, and the direction of the pull."""
        out = 2 * pi * self.effort * self.turn
        if wide:
            leaves = self.centre - 1j * self.effort
            return leaves, complex(self.centre.real + self.large + _GAP + out, leaves.imag), 1 + 0j
        leaves = self.centre + self.effort
        return leaves, complex(leaves.real, self.large + _GAP + out), 1j


def draw(scene: Scene) -> Drawing | None:
    """Draw a wheel and axle; None while a radius is unknown.

    Values: R, E in newtons, r_w, r_a, dE, dR in metres.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    return Drawing(canvas.svg(alt), _caption(scene), alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while a radius is unknown."""
    values = scene.values
    if not all(values.get(symbol, 0) > 0 for symbol in ("r_w", "r_a")):
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Wheel and axle")
    known = {s: values[s] for s in ("R", "E") if values.get(s, 0) > 0}
    most = max(known.values(), default=0.0)
    longest = forces.LONGEST_WIDE if scene.wide else forces.LONGEST_NARROW
    force_scale = longest / most if most else 0.0
    wheel = _lay_out(scene, known.get("E", 0.0) * force_scale)

    labels = _radius_labels(scene, wheel)
    _circles(canvas, wheel)
    labels = [*_forces(canvas, scene, wheel, known, force_scale), *labels]
    _reserve_travel(canvas, scene, wheel, known, force_scale)
    paths = _paths(scene, wheel)
    scales = Scales(wheel.scale, scene.length_unit, force_scale, scene.force_unit, most)
    if scene.wide:
        _foot_beside(canvas, scene, wheel, paths, scales, labels)
    else:
        settle(canvas, labels)
        if wheel.small < _SMALL:
            axle_detail.above(canvas, scene, wheel.scale)
        row = bars(canvas, 10, canvas.bottom + 14, paths, wheel.turn)
        scale_bars(canvas, 10, row + 6, scales)
    return canvas


def _lay_out(scene: Scene, arrow: float) -> _Wheel:
    """Choose the scale and the place of the shaft so that a whole turn fits."""
    wheel, axle = scene.values["r_w"], scene.values["r_a"]
    effort_on = "axle" if scene.choices.get("hand") == "axle" else "wheel"
    effort, load = (axle, wheel) if effort_on == "axle" else (wheel, axle)
    large = max(effort, load)
    if scene.wide:
        left, crate = 150.0, 46.0
        across = (scene.width - left - _GAP - max(arrow, 8.0) - 16) / (2 * large + 2 * pi * effort)
        down = 250.0 / (2 * large + 2 * pi * load)
        scale = min(across, down, 84.0 / large)
    else:
        left, crate = 118.0, 38.0
        down = 300.0 / (2 * large + 2 * pi * max(effort, load))
        scale = min(down, 52.0 / large, (scene.width - 2 * EDGE - 12) / (2 * pi * max(effort, load)))
    x = left + large * scale
    if not scene.wide:
        x = min(max(x, 60 + load * scale), scene.width - 24 - large * scale)
    turn = min(max(scene.travel, 0.0), 1.0)
    return _Wheel(scale, complex(x, 0), effort * scale, load * scale, turn, crate, effort_on)


def _circles(canvas: Canvas, wheel: _Wheel) -> None:
    """Rim, spokes and hub of the larger circle; the smaller one hatched, as solid wood."""
    centre, large, small = wheel.centre, wheel.large, wheel.small
    canvas.circle(centre, large, "visible paper", BODY)
    rim = min(max(4.0, large * 0.1), large * 0.4)
    hub = min(small * 1.5 + 2, large - rim)
    turned = -2 * pi * wheel.turn
    if hub < (large - rim) * 0.9:
        canvas.circle(centre, large - rim, "thin", BODY)
        for i in range(_SPOKES):
            along = towards(radians(15) + turned + 2 * pi * i / _SPOKES)
            half = max(1.2, large * 0.025) * along * 1j
            for side in (-half, half):
                canvas.line(centre + along * hub + side, centre + along * (large - rim) + side, "thin", BODY)
    if wheel.small >= _SMALL:
        if hub < large - rim - 1:
            canvas.circle(centre, hub, "thin paper", BODY)
        canvas.circle(centre, small, "visible paper", BODY)
        ring = [centre + towards(step * pi / 20) * small for step in range(40)]
        canvas.hatch(ring, 4.5, pi / 4 + turned)
    else:
        canvas.circle(centre, max(small, 1.0), "visible paper", BODY)
        canvas.circle(centre, 10, "thin", OVERLAY)
    # A peg on the rim, so that the turning is seen.
    peg = centre + towards(radians(105) + turned) * (large - rim / 2)
    canvas.put(OVERLAY, f'<circle class="ink" cx="{number(peg.real)}" cy="{number(peg.imag)}" r="3"/>')
    reach = large + 10
    canvas.line(centre - reach, centre + reach, "centre", BACKGROUND)
    canvas.line(centre - reach * 1j, centre + reach * 1j, "centre", BACKGROUND)


def _forces(canvas: Canvas, scene: Scene, wheel: _Wheel, known: dict[str, float], force_scale: float) -> list[Label]:
    """Cords, crate and arrows; returns the labels of the forces."""
    labels: list[Label] = []
    leaves, hand, pull = wheel.hand(scene.wide)
    cord.strip(canvas, leaves, hand)
    start = complex(wheel.centre.real - wheel.load, 0)
    ring = wheel.crate_top
    height, wide = wheel.crate * 0.75, wheel.crate
    lid = ring + 8j
    cord.strip(canvas, start, ring)
    canvas.polygon((ring, lid - wide * 0.4, lid + wide * 0.4), "thin paper", MOVING)
    foot = lid + 1j * height
    parts.crate(canvas, foot, 1, wide, height, MOVING)
    weight = foot - 0.5j * height
    if "R" in known:
        load = forces.arrow(weight, 1j, known["R"] * force_scale)
        forces.load(canvas, load)
        parts.centre_of_gravity(canvas, weight)
        lines = (f"load {scene.text('R')}".strip(),) if scene.wide else ("load", scene.text("R"))
        at = foot + complex(-wide / 2, -height / 2)
        labels.append(Label(at, load.note(Words(lines)), "W WSW SW WNW NW SSW", (5.0, 9.0, 15.0, 23.0)))
    if "E" in known:
        effort = forces.arrow(hand, pull, known["E"] * force_scale)
        forces.effort(canvas, effort)
        lines = (f"effort {scene.text('E')}".strip(),) if scene.wide else ("effort", scene.text("E"))
        sides = "N NNE NNW S SSE SSW" if scene.wide else "W E NW SW NE SE"
        labels.append(Label(effort.middle, effort.note(Words(lines, EFFORT)), sides, (9.0, 15.0, 23.0, 35.0)))
    return labels


def _radius_labels(scene: Scene, wheel: _Wheel) -> list[Label]:
    """Both radii on leaders to the left: the wheel's at its rim, the axle's at its own."""
    found = []
    on_axle = wheel.effort_on == "axle"
    radius = {"r_w": wheel.load if on_axle else wheel.effort, "r_a": wheel.effort if on_axle else wheel.load}
    for symbol, name, angle in (("r_w", "wheel radius", 142), ("r_a", "axle radius", 165)):
        if radius[symbol] < _SMALL:
            found.append(Label(wheel.centre, Words(("A",)), "SE ESE E", (12.0, 18.0, 24.0)))
            continue
        at = wheel.centre + towards(radians(angle)) * radius[symbol]
        one = Words((f"{name} {scene.text(symbol)}".strip(),))
        two = Words((name, scene.text(symbol)))
        reach = wheel.large - radius[symbol] * 0.97
        distances = tuple(reach + extra for extra in (14.0, 20.0, 28.0, 38.0, 52.0))
        found.append(Label(at, one if scene.wide else two, "WNW NW W WSW", distances, leader=True, narrower=two))
    return found


def _reserve_travel(canvas: Canvas, scene: Scene, wheel: _Wheel, known: dict[str, float], force_scale: float) -> None:
    """Keep the size the same wherever the machine stands in its turn."""
    lowest = wheel.large + _GAP + 2 * pi * wheel.load + 8 + wheel.crate * 0.75
    down = max(lowest, lowest - wheel.crate * 0.375 + max(known.get("R", 0) * force_scale, 8.0))
    canvas.reserve(complex(wheel.centre.real, down + 4))
    if not scene.wide:
        hand = wheel.large + _GAP + 2 * pi * wheel.effort + max(known.get("E", 0) * force_scale, 8.0)
        canvas.reserve(complex(wheel.centre.real, hand + 4))


def _paths(scene: Scene, wheel: _Wheel) -> list[Path]:
    return [
        Path(Words((f"{name} in one turn {scene.text(symbol)}".strip(),)), 2 * pi * radius, symbol == "dE")
        for symbol, name, radius in (("dE", "effort path", wheel.effort), ("dR", "load path", wheel.load))
    ]


def _foot_beside(
    canvas: Canvas, scene: Scene, wheel: _Wheel, paths: list[Path], scales: Scales, labels: list[Label]
) -> None:
    """Wide: travels and scale bars to the right of the hanging load, under the effort's cord."""
    left = wheel.centre.real + max(wheel.large, wheel.crate) + 34
    top = wheel.large + 6
    settle(canvas, labels)
    room = canvas.width - EDGE - left
    if max(path.length for path in paths) > room:  # long travels get rows of their own
        left, top = 10.0, canvas.bottom + 14
    if wheel.small < _SMALL:
        top = axle_detail.beside(canvas, scene, wheel.scale, complex(left, top))
    row = bars(canvas, left, top, paths, wheel.turn)
    scale_bars(canvas, left, row + 8, scales)


def _caption(scene: Scene) -> str:
    words = "Drawn to scale through one turn of the shaft."
    if scene.values.get("R", 0) > 0 and scene.values.get("E", 0) > 0:
        words += " Both arrows are to one force scale."
    return words


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    on = "axle" if scene.choices.get("hand") == "axle" else "wheel"
    turned = round(100 * min(max(scene.travel, 0.0), 1.0))
    load = f" and load {scene.text('R')}" if scene.text("R") else ""
    return (
        f"Wheel of radius {scene.text('r_w')} on an axle of radius {scene.text('r_a')}:"
        f" effort {scene.text('E') or 'not known'} on the {on}{load}; {turned} % of one turn made."
    )
