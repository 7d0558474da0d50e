"""A plank on its landing, and the dimensions that every ramp carries: rise, angle, paths."""

from math import cos, pi, sin, tan

from . import dimensions, parts
from .canvas import BODY, OVERLAY, Canvas, Words
from .labels import Label
from .plane import left_of, towards
from .ramp_layout import Ramp, rise_words
from .scales import Path
from .scene import Scene

FLAT = 3.0 * pi / 180
"""A flatter ramp has its slope written out in place of an arc, and no view of the forces."""


def plank(canvas: Canvas, ramp: Ramp) -> None:
    """Plank, landing and ground."""
    top = ramp.top
    parts.wall(canvas, top.real, top.real + ramp.wall, top.imag, 0)
    thick = 7.0 if canvas.width > 500 else 6.0
    under = top + 1j * min(thick / cos(ramp.angle), ramp.rise)
    cut = thick / sin(ramp.angle)
    corners = [ramp.foot, top, under]
    if cut < ramp.run / 2:
        corners.append(ramp.foot + cut)
    canvas.polygon(corners, "visible paper", BODY)
    parts.ground(canvas, ramp.foot.real - 12, top.real + ramp.wall + 8, 0)


def rise_dimension(canvas: Canvas, scene: Scene, ramp: Ramp) -> None:
    """The rise, dimensioned to the right of the landing."""
    words = rise_words(scene)
    x = ramp.top.real + ramp.wall + ramp.beyond + dimensions.upright_room(words, ramp.rise)[0]
    canvas.extension(ramp.top + ramp.wall + 3, complex(x + 4, ramp.top.imag))
    canvas.extension(complex(ramp.top.real + ramp.wall + 11, 0), complex(x + 4, 0))
    dimensions.upright(canvas, x, ramp.top.imag, 0, words)


def slope_angle(canvas: Canvas, ramp: Ramp, text: str) -> list[Label]:
    """The slope: an arc with its angle, or the ratio where the ramp is too flat for an arc."""
    if ramp.angle <= FLAT:
        ratio = f"1 : {ramp.run / ramp.rise:.0f}"
        words = Words((f"{ratio}, {text}" if text else ratio,))
        return [Label(ramp.foot + ramp.run * 0.16, words, "S SSE SE SSW", (12.0, 18.0, 26.0))]
    # Short of a crate half way up: its load's arrow would lie over the arc.
    radius = min(max(46.0, 31 / tan(ramp.angle)), ramp.run * 0.3)
    points = canvas.arc(ramp.foot, radius, 0, ramp.angle, "thin", OVERLAY)
    if radius * ramp.angle > 26:
        # A head lies along the chord of its own length, so it is turned back by half that angle.
        turn = 4 / radius
        canvas.arrowhead(points[0], -1j * -1 * towards(turn), 8, OVERLAY)
        canvas.arrowhead(points[-1], left_of(ramp.along) * towards(-turn), 8, OVERLAY)
    if not text:
        return []
    return [Label(points[len(points) // 2], Words((text,), symbol="θ"), "E ENE ESE", (5.0, 8.0, 12.0, 18.0))]


def paths(scene: Scene, scale: float) -> list[Path]:
    """The ways of effort and load, as long as they are drawn; none that is too long for the sheet."""
    return [
        Path(Words((f"{words} {scene.text(symbol)}".strip(),)), scene.values[symbol] * scale, symbol == "dE")
        for symbol, words in (("dE", "effort path"), ("dR", "load path"))
        if 0 < scene.values.get(symbol, 0) * scale < scene.width - 30
    ]
