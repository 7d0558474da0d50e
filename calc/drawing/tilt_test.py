"""The tilt test: a plank raised at one end until its load slips, the slip position dashed and dimensioned."""

from __future__ import annotations

from math import cos, sin, tan

from . import dimensions, parts
from .canvas import BACKGROUND, BODY, MOVING, OVERLAY, Canvas, Words
from .labels import Label, settle
from .plane import left_of, towards
from .ramp_layout import Triangle, rise_words, triangle
from .scales import Scales, scale_bars
from .scene import Drawing, Scene

_SLIPS_AT = 0.8
"""The share of the slider at which the plank reaches the slip angle."""

_FURTHER = 1.08
"""How far beyond it the slider tilts, in slip angles."""

_THICK = 6.0
_CRATE = 44.0
_START = 0.72
"""Where the load stands, in plank lengths from the hinge."""


def draw(scene: Scene) -> Drawing | None:
    """Draw the tilted plank; None while the slip position is not fixed.

    Values: h, b, L in metres, theta and theta_k in radians.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    state = "The load has slipped." if _slipped(scene) else "The load still holds."
    return Drawing(canvas.svg(alt), f"Drawn to scale. Dashed: where it slips. {state}", alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while the slip position is not fixed."""
    shape_of = triangle(scene.values)
    if shape_of is None:
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Tilt test")
    hinge, scale = _place(scene, shape_of)
    long = shape_of.slope * scale
    slip = towards(shape_of.angle)
    top = hinge + slip * long
    corner = complex(top.real, 0)
    parts.ground(canvas, hinge.real - 24, hinge.real + long + 12, 0)
    canvas.line(hinge, top, "hidden", BODY)
    steady = scene.values.get("theta_k", 0.0)
    labels: list[Label] = []
    if 0 < steady < shape_of.angle:
        end = hinge + towards(steady) * long
        canvas.line(hinge, end, "phantom", BODY)
        words = Words(("slides on at", scene.text("theta_k")))
        labels.append(Label(hinge + (end - hinge) * 0.5, words.on_one_line(), "SSE SE S ESE", narrower=words))
    _tilted(canvas, scene, hinge, long, shape_of.angle)
    canvas.reserve(hinge + towards(shape_of.angle * _FURTHER) * long + 1j * -_CRATE, complex(hinge.real + long, 0))
    words = rise_words(scene)
    x = hinge.real + long + 14 + dimensions.upright_room(words, -top.imag)[0]
    canvas.extension(top + 3, complex(x + 4, top.imag))
    canvas.extension(complex(hinge.real + long + 15, 0), complex(x + 4, 0))
    dimensions.upright(canvas, x, top.imag, 0, words)
    settle(canvas, [*_angle(canvas, scene, hinge, long, shape_of.angle), *labels])
    row = canvas.bottom + 18
    for end_x in (hinge.real, corner.real):
        dimensions.drop(canvas, end_x, 9.0, row)
    canvas.line(top, corner, "centre", BACKGROUND)
    row = dimensions.level(canvas, hinge.real, corner.real, row, Words(("run", scene.text("b"))).on_one_line())
    scale_bars(canvas, 10, row, Scales(scale, scene.length_unit))
    return canvas


def _place(scene: Scene, shape_of: Triangle) -> tuple[complex, float]:
    """The hinge on the paper, and pixels per metre."""
    right = 18 + max(sum(dimensions.upright_room(rise_words(scene), span)) for span in (1.0, 200.0))
    left = 32.0 + _CRATE * 0.72 * sin(shape_of.angle)
    room = scene.width - left - right
    scale = min(room / shape_of.slope, (220.0 if scene.wide else 230.0) / shape_of.rise)
    return complex(left + (room - shape_of.slope * scale) / 2, 0), scale


def _travel(scene: Scene) -> float:
    return min(max(scene.travel, 0.0), 1.0)


def _slipped(scene: Scene) -> bool:
    return _travel(scene) > _SLIPS_AT


def _tilted(canvas: Canvas, scene: Scene, hinge: complex, long: float, slip: float) -> None:
    """The plank as the slider has tilted it, its prop, and the load before or after its slide."""
    travel = _travel(scene)
    angle = slip * travel / _SLIPS_AT if travel <= _SLIPS_AT else slip
    down = max(travel - _SLIPS_AT, 0.0) / (1 - _SLIPS_AT)
    angle += slip * (_FURTHER - 1) * down
    along, up = towards(angle), left_of(towards(angle))
    end = hinge + along * long
    under = [hinge, end, end - up * _THICK, hinge - up * _THICK + along * _THICK * tan(min(angle, 1.2))]
    prop = complex(end.real - 10 * cos(angle), end.imag + 10 * sin(angle)) - up * _THICK
    if prop.imag < -12:
        canvas.line(prop, complex(prop.real, 0), "lesser", BODY)
        foot = complex(prop.real, 0)
        canvas.line(foot - 7, foot + 7, "visible", BODY)
    canvas.polygon(under, "visible paper", MOVING)
    stop = hinge + along * (_CRATE * 0.28)
    canvas.line(stop, stop + up * 9, "visible", MOVING)
    size = min(_CRATE, long * 0.3)
    upper = long * _START
    lower = _CRATE * 0.28 + 2 + size / 2
    at = hinge + along * (upper + (lower - upper) * down)
    parts.crate(canvas, at, along, size, size * 0.72, MOVING)
    parts.pin(canvas, hinge, 3.5)


def _angle(canvas: Canvas, scene: Scene, hinge: complex, long: float, slip: float) -> list[Label]:
    """The slip angle: an arc from the ground to the dashed line."""
    text = scene.text("theta")
    radius = min(max(56.0, 31 / tan(slip)), long * 0.5)
    points = canvas.arc(hinge, radius, 0, slip, "thin", OVERLAY)
    if radius * slip > 26:
        turn = 4 / radius
        canvas.arrowhead(points[0], 1j * towards(turn), 8, OVERLAY)
        canvas.arrowhead(points[-1], left_of(towards(slip - turn)), 8, OVERLAY)
    at = hinge + towards(slip) * min(long * 0.98, radius + 60)
    return [Label(at, Words((f"slips at {text}",)), "NW NNW N WNW W NE", (8.0, 14.0, 22.0, 34.0))] if text else []


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    sentence = (
        f"Plank raised at one end: the load slips at a rise of {scene.text('h')} over a run of {scene.text('b')},"
        f" at {scene.text('theta')}"
    )
    if scene.text("mu_s"):
        sentence += f", so friction to start is {scene.text('mu_s')}"
    return f"{sentence}; {'it has slipped' if _slipped(scene) else 'it still holds'}."
