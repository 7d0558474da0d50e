"""The shape of a ramp: a right triangle to scale with its four measures, and a point that climbs it."""

from __future__ import annotations

from math import tan

from . import dimensions, parts
from .canvas import BODY, MOVING, OVERLAY, Canvas, Words, number
from .labels import Label, settle
from .plane import between, left_of, towards
from .ramp_layout import Triangle, rise_words, triangle
from .scales import Scales, scale_bars
from .scene import Drawing, Scene

_OFFSET = 26.0
_FLAT = 0.05


def draw(scene: Scene) -> Drawing | None:
    """Draw the triangle of a ramp; None while it is not fixed. Values: L, h, b in metres, theta in radians."""
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    caption = "Drawn to scale. Wherever the point stands, its rise and its run are in one ratio: the slope."
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while the triangle is not fixed."""
    shape_of = triangle(scene.values)
    if shape_of is None:
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Shape of a ramp")
    foot, top, scale = _place(scene, shape_of)
    corner = complex(top.real, foot.imag)
    parts.ground(canvas, foot.real - 14, top.real + 14, 0)
    canvas.polygon((foot, top, corner), "visible paper", BODY)
    _right_angle(canvas, corner, min(10.0, abs(top - corner) / 3))
    _point(canvas, scene, foot, top)
    words = rise_words(scene)
    x = top.real + 14 + dimensions.upright_room(words, -top.imag)[0]
    canvas.extension(top + 3, complex(x + 4, top.imag))
    canvas.extension(corner + 17, complex(x + 4, 0))
    dimensions.upright(canvas, x, top.imag, 0, words)
    dimensions.sloping(canvas, foot, top, _OFFSET, Words(("slope length", scene.text("L"))))
    settle(canvas, _angle(canvas, scene, shape_of, foot))
    row = canvas.bottom + 18
    for end in (foot, corner):
        dimensions.drop(canvas, end.real, 9.0, row)
    row = dimensions.level(canvas, foot.real, corner.real, row, Words(("run", scene.text("b"))).on_one_line())
    scale_bars(canvas, 10, row, Scales(scale, scene.length_unit))
    return canvas


def _place(scene: Scene, shape_of: Triangle) -> tuple[complex, complex, float]:
    """Foot and top of the slope on the paper, and pixels per metre."""
    right = 18 + max(sum(dimensions.upright_room(rise_words(scene), span)) for span in (1.0, 200.0))
    lean = shape_of.rise / shape_of.slope
    left = 22 + (_OFFSET + 8) * lean
    scale = min((scene.width - left - right) / shape_of.run, (220.0 if scene.wide else 230.0) / shape_of.rise)
    spare = scene.width - left - right - shape_of.run * scale
    foot = complex(left + spare / 2, 0)
    return foot, foot + complex(shape_of.run, -shape_of.rise) * scale, scale


def _right_angle(canvas: Canvas, corner: complex, size: float) -> None:
    square = (corner - size, corner - size - 1j * size, corner - 1j * size)
    canvas.polygon(square, "thin", OVERLAY, closed=False, weight=0)


def _point(canvas: Canvas, scene: Scene, foot: complex, top: complex) -> None:
    """The point on the slope, with its own rise and run dashed."""
    travel = min(max(scene.travel, 0.0), 1.0)
    at = between(foot, top, travel)
    below = complex(at.real, 0)
    if 0.02 < travel < 0.98:
        canvas.polygon((at, below), "path", MOVING, closed=False)
    canvas.put(OVERLAY, f'<circle class="ink" cx="{number(at.real)}" cy="{number(at.imag)}" r="4"/>')


def _angle(canvas: Canvas, scene: Scene, shape_of: Triangle, foot: complex) -> list[Label]:
    """The slope angle: an arc, or on a flat ramp its text on a leader."""
    text = scene.text("theta")
    words = Words((text,), symbol="θ")
    if shape_of.angle <= _FLAT:
        return [Label(foot + 60, words, "S SSE SE SSW", (12.0, 18.0, 26.0))] if text else []
    radius = min(max(46.0, 31 / tan(shape_of.angle)), abs(shape_of.run / shape_of.slope) * 120 + 24)
    points = canvas.arc(foot, radius, 0, shape_of.angle, "thin", OVERLAY)
    if radius * shape_of.angle > 26:
        turn = 4 / radius
        canvas.arrowhead(points[0], 1j * towards(turn), 8, OVERLAY)
        canvas.arrowhead(points[-1], left_of(towards(shape_of.angle - turn)), 8, OVERLAY)
    return [Label(points[len(points) // 2], words, "E ENE ESE", (5.0, 8.0, 12.0, 18.0))] if text else []


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    return (
        f"Ramp {scene.text('L')} long and {scene.text('h')} high over a run of {scene.text('b')},"
        f" at {scene.text('theta')} from the level."
    )
