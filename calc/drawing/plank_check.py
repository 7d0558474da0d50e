"""A plank seen square to its slope: span and thickness to one scale, and, dashed, how it sags under its load."""

from __future__ import annotations

from . import dimensions, forces, parts
from .canvas import BODY, MOVING, Canvas, Words
from .labels import Label, settle
from .scales import Scales, scale_bars
from .scene import Drawing, Scene

_EDGE = 40.0
_POINTS = 24


def draw(scene: Scene) -> Drawing | None:
    """Draw the plank on its supports; None while its sizes are unknown. Values: L, s, t, y in metres, Q in newtons."""
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    caption = "Drawn to scale, square to the slope. The dashed line is the plank’s middle line under its load."
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while the plank's sizes are not known."""
    values = scene.values
    if not {"L", "s", "t"} <= values.keys() or not 0 < values["t"] < values["s"] <= values["L"]:
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Plank check")
    scale = (scene.width - 2 * _EDGE) / values["L"]
    left, right = complex(_EDGE, 0), complex(scene.width - _EDGE, 0)
    half = values["t"] * scale / 2
    corners = (left - 1j * half, right - 1j * half, right + 1j * half, left + 1j * half)
    canvas.polygon(corners, "visible paper", BODY)
    middle = (left + right) / 2
    propped = scene.choices.get("prop") == "middle"
    for foot in (left + 8, right - 8, *((middle,) if propped else ())):
        parts.pivot(canvas, foot + 1j * half, 22.0)
    at = (left + middle) / 2 if propped else middle
    _sagged(canvas, scene, left, values["s"] * scale, scale)
    labels = []
    if values.get("Q", 0) > 0:
        load = forces.arrow(at - 1j * (half + 58), 1j, 56)
        forces.load(canvas, load)
        labels.append(Label(load.middle, Words(("load", scene.text("Q"))), "E W", (8.0, 12.0)))
    settle(canvas, labels)
    row = canvas.bottom + 16
    end = left.real + values["s"] * scale
    for x in (left.real, end):
        dimensions.drop(canvas, x, half + 26, row)
    row = dimensions.level(canvas, left.real, end, row, Words(("span", scene.text("s"))).on_one_line())
    scale_bars(canvas, 10, row, Scales(scale, scene.length_unit))
    return canvas


def _sagged(canvas: Canvas, scene: Scene, start: complex, span: float, scale: float) -> None:
    """The middle line of the loaded span: the shape of a beam with a load in its middle, 3x - 4x³ to each side."""
    sag = scene.values.get("y", 0.0) * scale
    if not 0 < sag < span:
        return
    shape = []
    for i in range(_POINTS + 1):
        x = i / _POINTS
        near = min(x, 1 - x)
        shape.append(start + x * span + 1j * sag * (3 * near - 4 * near**3))
    canvas.polygon(shape, "path", MOVING, closed=False)


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    sags = f"; it sags {scene.text('y')}" if "y" in scene.values else ""
    load = f" under {scene.text('Q')}" if "Q" in scene.values else ""
    return f"Plank over a span of {scene.text('s')}{load}{sags}."
