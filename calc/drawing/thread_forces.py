"""One thread contact as a block on a ramp, pushed level, and the triangle of the three forces on it."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import cos, sin, tan

from . import forces
from .canvas import BODY, MOVING, OVERLAY, Canvas, Words
from .labels import Label, settle
from .plane import left_of, rectangle, towards

_BASE, _TALLEST = 118.0, 74.0
_BLOCK = 36.0
_GAPS = 62.0
"""Pixels between ramp, triangle and its label together."""

_STEEPEST = 1.45
"""Beyond this the closing side of the triangle would leave the sheet; it is not drawn then."""


@dataclass(frozen=True)
class ThreadForces:
    """What acts on the thread: lead angle and friction angle in radians, load and push in newtons, shown texts."""

    angle: float
    friction: float
    load: float
    push: float
    texts: Mapping[str, str]


def _load_words(on: ThreadForces) -> Words:
    return Words(("load", on.texts["R"]))


def _ramp(on: ThreadForces, room: float = 1000.0) -> tuple[float, float]:
    """Base and height of the ramp in pixels, for the room across that it may take."""
    base = max(min(_BASE, _TALLEST / tan(on.angle), room), 1.0)
    return base, base * tan(on.angle)


def thread_room(on: ThreadForces, scale: float) -> float:
    """Pixels that the view needs above its ground line."""
    return _ramp(on)[1] + _BLOCK + on.load * scale + 6


def draw_thread(canvas: Canvas, on: ThreadForces, scale: float, origin: complex, right: float) -> None:
    """Set the view with the foot of the ramp right of `origin` and its base line through it."""
    pushed = on.push * scale
    beside = 2 * pushed + _GAPS + _load_words(on).width if on.load and on.push else pushed + 12
    base, height = _ramp(on, right - origin.real - beside)
    push = forces.arrow(0, 1, on.push * scale) if on.push else None
    start = origin.real + (push.length if push else 0) + 12
    foot = complex(start, origin.imag)
    along = towards(on.angle)
    top = foot + base - 1j * height
    canvas.polygon((foot, foot + base, top), "visible paper", BODY)
    canvas.hatch((foot, foot + base, top), 9)
    slope = abs(top - foot)
    size = min(_BLOCK, slope * 0.45)
    middle = foot + along * slope / 2
    block = rectangle(middle, along, size, 0, size * 0.8)
    canvas.polygon(block, "visible paper", MOVING)
    centre = middle + left_of(along) * size * 0.4
    canvas.avoid((block[0], block[2]), 3)
    canvas.avoid((block[1], block[3]), 3)

    frame = canvas.frame
    labels = []
    if on.load:
        load = forces.arrow(0, 1j, on.load * scale).ending_at(centre - 1j * size * 0.35)
        forces.load(canvas, load)
        canvas.reserve(load.tail - 4j)
    if push:
        forces.part(canvas, push.ending_at(centre - size * 0.4))
    canvas.frame = (origin.real - 6, right)
    if on.load and on.push and on.angle + on.friction < _STEEPEST:
        labels = _triangle(canvas, on, scale, foot + base + 22, right)
    set_labels = settle(canvas, labels)
    lines = []
    if on.texts.get("lam"):
        lines.append(f"lead angle {on.texts['lam']}")
    if on.texts.get("phi"):
        lines.append(f"friction angle {on.texts['phi']}")
    row = foot.imag + 10
    widest = origin.real + max((Words((line,)).width for line in lines), default=0.0) + 4
    row = max([row, *(box.bottom + 2 for box in set_labels if box.left < widest and box.bottom > row)])
    for line in lines:
        row = canvas.write(Words((line,)), origin.real, row).bottom + 2
    canvas.frame = frame


def _triangle(canvas: Canvas, on: ThreadForces, scale: float, left: complex, right: float) -> list[Label]:
    """Load and push head to tail, closed by the push of the other thread; the line square to the ramp between."""
    load = forces.arrow(complex(left.real, left.imag), 1j, on.load * scale)
    push = on.push * scale
    start = complex(left.real + push + 6, left.imag - load.length)
    load = forces.arrow(start, 1j, on.load * scale)
    forces.load(canvas, load)
    labels = [Label(load.middle, _load_words(on), "E ENE ESE", (12.0, 18.0, 26.0))]
    end = load.tip
    side = forces.arrow(end - push, 1, push)
    forces.part(canvas, side)
    labels.append(Label(side.middle, side.note(Words(("push", on.texts["Q"]))), "S SSW SSE SW", (8.0, 14.0, 22.0)))
    close = side.tail
    if side.stretch == 1 and load.stretch == 1:
        # From the tail of the push up to the tail of the load: the other thread's push, and its square part.
        forces.reaction(canvas, forces.Arrow(close, (start - close) / abs(start - close), abs(start - close)))
        reach = load.length * 0.8 / cos(on.angle)
        foot = start + complex(-sin(on.angle), cos(on.angle)) * reach
        canvas.line(start, foot, "centre", OVERLAY)
    return labels
