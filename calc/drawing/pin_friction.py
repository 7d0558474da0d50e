"""The pin of a lever, much enlarged: its friction circle, and the pivot force that touches it.

The lever itself stands above, to scale. Below, the pin is shown twice, for the load going up and coming down: the
pivot force touches the friction circle on the one side and on the other.
"""

from dataclasses import dataclass, replace
from math import pi, sqrt

from . import forces, lever
from .canvas import BACKGROUND, BODY, EDGE, OVERLAY, Canvas, Words
from .labels import Label, settle
from .letters import HEADING
from .plane import rectangle, towards
from .scales import Scales, scale_bars
from .scene import Drawing, Scene

_AT_REST = 0.02
"""How far the lever tips here, in radians: the pin is the subject, not the swing."""

_RADIUS = 37.0
"""Radius of the drawn pin in pixels."""

_HALF_BAR = 48.0
_HALF_LENGTH = 78.0
_ARROW = 44.0
_TURN = 62.0
"""Radius of the arrow that shows which way the bar turns."""


@dataclass(frozen=True)
class _Pin:
    """One view of the pin: its centre, its friction circle in pixels, where the force touches it, how the bar turns.

    `beside` is +1 where the force passes to the right of the centre, `push` the direction of the pin's push on the
    bar, `turning` +1 for anticlockwise.
    """

    centre: complex
    circle: float
    beside: int
    push: complex
    turning: int

    @property
    def touch(self) -> complex:
        """Where bar and pin touch: on the line of the force, at the pin's edge."""
        across = self.beside * self.circle
        return self.centre + across + self.push * sqrt(max(_RADIUS**2 - across**2, 0.0))


def draw(scene: Scene) -> Drawing | None:
    """Draw a lever and its pin; the lever alone while the pin is unknown, None while an arm is.

    Values: as for the lever, and r_p, r_f in metres.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = (
        f"Lever with a pin of {scene.text('r_p') or 'unknown'} radius: load {scene.text('R') or 'not known'},"
        f" effort {scene.text('E') or 'not known'}; the pivot force passes {scene.text('r_f') or 'an unknown distance'}"
        " beside the pin's centre, on the one side going up and on the other coming down."
    )
    return Drawing(canvas.svg(alt), "The lever is to scale. The pin below it is enlarged, with its own scale bar.", alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while an arm is unknown."""
    values = scene.values
    resting = {symbol: value for symbol, value in values.items() if symbol not in ("dE", "dR")}
    canvas = lever.compose(replace(scene, values={**resting, "psi": _AT_REST}))
    if canvas is None or not values.get("r_p", 0) > 0 or not 0 <= values.get("r_f", -1) <= values["r_p"]:
        return canvas
    scale = _RADIUS / values["r_p"]
    kind = scene.choices.get("class", "1")
    push = 1j if kind == "3" else -1j
    up = -1 if kind == "2" else 1  # going up, the force passes on this side: it lengthens the load's share
    turning = -1 if kind == "1" else 1
    title_row = canvas.bottom + 20
    middle = title_row + 40 + (16 if kind == "3" else _ARROW) + _HALF_BAR
    for share, sign, title in ((0.26, 1, "LOAD GOES UP"), (0.74, -1, "LOAD COMES DOWN")):
        centre = complex(scene.width * share, middle)
        pin = _Pin(centre, values["r_f"] * scale, up * sign, push, turning * sign)
        canvas.write(Words((title,), HEADING), centre.real, title_row, "middle")
        half = scene.width / 4 - EDGE
        canvas.frame = (max(centre.real - half, EDGE), min(centre.real + half, scene.width - EDGE))
        _view(canvas, scene, pin, first=sign > 0)
    canvas.frame = (EDGE, scene.width - EDGE)
    scale_bars(canvas, 10, canvas.bottom + 16, Scales(scale, scene.length_unit))
    return canvas


def _view(canvas: Canvas, scene: Scene, pin: _Pin, *, first: bool) -> None:
    """The pin in the bar's hole, its friction circle and the pivot force; each view names one size."""
    bar = rectangle(pin.centre, 1, 2 * (_HALF_LENGTH if scene.wide else _HALF_LENGTH - 12), -_HALF_BAR, _HALF_BAR)
    canvas.polygon(bar[:2], "visible", BODY, closed=False)
    canvas.polygon(bar[2:], "visible", BODY, closed=False)
    canvas.circle(pin.centre, _RADIUS, "visible paper", BODY)
    canvas.hatch([pin.centre + towards(step * pi / 16) * _RADIUS for step in range(32)], 7)
    canvas.circle(pin.centre, max(pin.circle, 0.8), "hidden", OVERLAY)
    reach = _RADIUS + 10
    for way in (1, 1j):
        canvas.line(pin.centre - way * reach, pin.centre + way * reach, "centre", BACKGROUND)
    across = pin.centre + pin.beside * pin.circle
    canvas.line(across - pin.push * reach, across + pin.push * (reach + _ARROW - 10), "centre", BACKGROUND)
    force = forces.Arrow(pin.touch, pin.push, _ARROW)
    forces.reaction(canvas, force)
    _turning(canvas, pin)
    out = complex(pin.beside, 0)
    name = ("pivot force", scene.text("N")) if first and scene.text("N") else ("pivot force",)
    right, left = ("NE E ENE N", "NW W WNW N")
    settle(
        canvas, [Label(force.tip, Words(name), (right if out.real > 0 else left) + " S SE SW", (4.0, 8.0, 14.0, 24.0))]
    )
    away = -pin.push  # the sizes stand where the arrow does not
    if first:
        at, words = away * (1 - 0.4j) * _RADIUS / abs(1 - 0.4j), Words(("pin radius", scene.text("r_p")))
    else:
        at, words = away * (1 - 0.6j) * pin.circle / abs(1 - 0.6j), Words(("friction circle", scene.text("r_f")))
    out = _HALF_BAR + 10 - abs(at.imag)
    sides = "S SSW SSE SW SE" if away.imag > 0 else "N NNW NNE NW NE"
    settle(canvas, [Label(pin.centre + at, words, sides, (out, out + 16, out + 30), leader=True)])


def _turning(canvas: Canvas, pin: _Pin) -> None:
    """An arc with a head: which way the bar turns on the pin."""
    middle = 0.0 if pin.beside < 0 else pi
    start, end = middle - 0.42 * pin.turning, middle + 0.42 * pin.turning
    points = canvas.arc(pin.centre, _TURN, start, end, "lesser", OVERLAY)
    canvas.arrowhead(points[-1] + (points[-1] - points[-2]) * 0.02, towards(end + pin.turning * pi / 2), 11, OVERLAY)
