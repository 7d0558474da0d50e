"""A crate drawn along a floor: the force at its angle, the part of it along the path, and the path."""

from math import cos, pi, sin

from . import dimensions, forces, parts
from .canvas import BACKGROUND, EDGE, OVERLAY, Canvas, Words
from .labels import Label, settle, wrapped
from .letters import EFFORT, PLAIN
from .plane import towards
from .scales import Scales, scale_bars
from .scene import Drawing, Scene

_CRATE = 64.0
_ARC = 40.0


def draw(scene: Scene) -> Drawing | None:
    """Draw a force along a path; None while the path or the angle is unknown.

    Values: F, F_d in newtons, d in metres, gamma in radians, W in joules.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    share = round(min(max(scene.travel, 0.0), 1.0) * 100)
    alt = (
        f"A crate on a floor, drawn {scene.text('d')} by a force of {scene.text('F') or 'unknown size'} at"
        f" {scene.text('gamma')} to the path; work {scene.text('W') or 'not known'}; {share} % of the way."
    )
    return Drawing(
        canvas.svg(alt), "The path is to scale. The dashed arrow is the part of the force that does work.", alt
    )


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while the path or the angle is unknown."""
    values = scene.values
    if not values.get("d", 0) > 0 or not 0 <= values.get("gamma", -1) <= pi:
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "A force along a path")
    longest = forces.LONGEST_WIDE if scene.wide else forces.LONGEST_NARROW
    force = values.get("F", 0.0)
    angle = values["gamma"]
    scale = longest / force if force > 0 else 0.0
    reach = longest * abs(cos(angle)) if force > 0 else 0.0
    before = _CRATE / 2 + 14 + (reach if cos(angle) < 0 else 0.0)
    after = _CRATE / 2 + 14 + (reach if cos(angle) > 0 else 0.0) + (60.0 if scene.wide else 20.0)
    start, end = EDGE + before, scene.width - EDGE - after
    step = (end - start) * min(max(scene.travel, 0.0), 1.0)

    parts.ground(canvas, EDGE + 4, scene.width - EDGE - 4, 0.0)
    foot = complex(start + step, 0)
    for ghost in (start, end):
        if abs(ghost - foot.real) > _CRATE / 2:
            _outline(canvas, complex(ghost, 0))
    parts.crate(canvas, foot, 1, _CRATE, _CRATE * 0.74)
    at = foot - 0.37j * _CRATE
    canvas.reserve(complex(foot.real, at.imag - longest * sin(angle) - 44))
    if force > 0:
        settle(canvas, _pull(canvas, scene, at, angle, force * scale))
    parts.centre_of_gravity(canvas, at)
    row = 34.0
    for x in (start, end):
        dimensions.drop(canvas, x, 10, row)
    following = dimensions.level(canvas, start, end, row, Words(("distance", scene.text("d"))))
    for name, symbol, style in (("part of the force along the path", "F_d", PLAIN), ("work", "W", EFFORT)):
        if scene.text(symbol):
            words = wrapped(Words((f"{name} {scene.text(symbol)}",), style), scene.width - 2 * EDGE)
            following = canvas.write(words, EDGE + 4, following - 6).bottom + 10
    bars = Scales((end - start) / values["d"], scene.length_unit, scale, scene.force_unit, force)
    scale_bars(canvas, 10, following + 6, bars)
    return canvas


def _outline(canvas: Canvas, foot: complex) -> None:
    """Where the crate stood, or will stand."""
    half, height = _CRATE / 2, _CRATE * 0.74
    corners = (foot - half, foot - half - 1j * height, foot + half - 1j * height, foot + half)
    canvas.polygon(corners, "phantom", BACKGROUND, closed=False)


def _pull(canvas: Canvas, scene: Scene, at: complex, angle: float, length: float) -> list[Label]:
    """The force, its part along the path and the angle between; returns their labels."""
    arrow = forces.arrow(at, towards(angle), length)
    part = abs(length * cos(angle))
    backwards = cos(angle) < 0
    labels = []
    if 0.03 < angle < pi - 0.03:
        canvas.line(at, at + (_ARC + 16), "centre", BACKGROUND)
        canvas.arc(at, _ARC, 0.0, angle, "thin", OVERLAY)
        middle = at + towards(angle / 2) * _ARC
        sides = "E ENE NE N" if angle < pi / 3 else "NE ENE N E"
        labels.append(Label(middle, Words((scene.text("gamma"),)), sides, (3.0, 6.0, 10.0, 16.0, 24.0)))
        if part > 1:
            along = forces.Arrow(at, -1 if backwards else 1, part)
            forces.part(canvas, along)
            canvas.line(along.tip, arrow.tip, "hatch", BACKGROUND)
    forces.effort(canvas, arrow)
    words = arrow.note(Words((f"force {scene.text('F')}",), EFFORT))
    sides = "NW N W NE E" if backwards else "NE N E NW W"
    labels.insert(0, Label(arrow.tip, words, sides))
    return labels
