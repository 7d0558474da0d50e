"""What hangs on a rope and what the rope runs over: beam, sheave, block, hook, handle.

All but the rope's own runs are signs: sized to be seen, not to scale.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi

from .canvas import BACKGROUND, BODY, MOVING, OVERLAY, Canvas, Words, number, place
from .letters import NOTE
from .parts import crate
from .plane import left_of, rectangle, towards

RING = 9.5
"""Radius in pixels of the ring round a part's number."""

_STRAP = 7.0
"""Half the height of the strap that holds a block's sheaves."""


@dataclass(frozen=True)
class Turn:
    """A run of rope round a sheave: to a point, about a centre, the way the clock goes or against it."""

    end: complex
    centre: complex
    clockwise: bool


def rope(canvas: Canvas, start: complex, runs: Sequence[complex | Turn], layer: int = MOVING) -> None:
    """One rope from end to end, in a single line with the lay of its strands.

    It takes its room, but labels do not see it: say with ``Canvas.avoid`` where they must keep off.
    """
    data, here, through = f"M{place(start)}", start, [start]
    for run in runs:
        if isinstance(run, Turn):
            size = number(abs(here - run.centre))
            data += f"A{size} {size} 0 0 {int(run.clockwise)} {place(run.end)}"
            side = (run.end - here) / abs(run.end - here) * abs(here - run.centre)
            through += [run.centre + side * (-1j if run.clockwise else 1j), run.end]
            here = run.end
        else:
            data += f"L{place(run)}"
            here = run
            through.append(here)
    canvas.put(layer, f'<path class="rope" d="{data}"/><path class="lay" d="{data}"/>')
    canvas.reserve(*through)


def beam(canvas: Canvas, left: float, right: float, y: float) -> None:
    """The beam overhead: its lower edge, with slanting ticks above it."""
    canvas.line(complex(left, y), complex(right, y), "visible", BACKGROUND)
    count = max(1, int((right - left) / 9))
    step = (right - left) / count
    ticks = "".join([f"M{number(left + step * (i + 0.3))} {number(y)}l6 -7" for i in range(count)])
    canvas.put(BACKGROUND, f'<path class="hatch" d="{ticks}"/>')
    canvas.reserve(complex(left, y - 8), complex(right + 2, y - 8))
    canvas.avoid((complex(left, y - 4), complex(right, y - 4)), 3)


def shackle(canvas: Canvas, x: float, top: float, bottom: float) -> None:
    """The loop that a block hangs by."""
    canvas.put(
        BODY,
        f'<path class="lesser paper" d="M{number(x - 5)} {number(bottom)}V{number(top + 8)}'
        f'a5 5 0 0 1 10 0V{number(bottom)}"/>',
    )
    canvas.avoid((complex(x, top), complex(x, bottom)), 3)


def sheave(canvas: Canvas, centre: complex, radius: float) -> None:
    """A grooved wheel whose rope runs at a radius, on its pin."""
    canvas.circle(centre, radius - 1.6, "lesser paper", BODY)
    if radius > 11:
        canvas.put(BODY, _ring("hatch", centre, radius * 0.72))
    pin = min(6.0, radius * 0.4)
    canvas.put(OVERLAY, _ring("lesser paper", centre, pin) + _ring("ink", centre, min(2.0, pin / 2.5)))
    canvas.avoid((centre - radius, centre + radius), 3)


def _ring(kind: str, centre: complex, radius: float) -> str:
    return f'<circle class="{kind}" cx="{number(centre.real)}" cy="{number(centre.imag)}" r="{number(radius)}"/>'


def strap(canvas: Canvas, left: float, right: float, y: float) -> None:
    """The frame of a block, behind its sheaves."""
    at = f'x="{number(left)}" y="{number(y - _STRAP)}"'
    size = f'width="{number(right - left)}" height="{number(2 * _STRAP)}"'
    canvas.put(BODY, f'<rect class="lesser paper" {at} {size} rx="3"/>')
    corners = [complex(x, y + side * _STRAP) for x, side in ((left, -1), (right, -1), (right, 1), (left, 1))]
    canvas.reserve(*corners)
    canvas.avoid([*corners, corners[0]], 2.6)


def dead_end(canvas: Canvas, at: complex) -> None:
    """Where the rope is made fast."""
    canvas.circle(at, 3.4, "ink", OVERLAY)


def hook(canvas: Canvas, top: complex, length: float) -> complex:
    """A hook under a block; returns the point where a sling lies in it."""
    bottom = top + 1j * length
    canvas.put(
        BODY,
        f'<path class="lesser" d="M{place(top)}V{number(bottom.imag - 10)}a5 5 0 1 0 5 5"/>',
    )
    canvas.avoid((top, bottom), 3)
    return bottom


def slung_crate(canvas: Canvas, sling: complex, width: float, height: float, drop: float = 12.0) -> complex:
    """A crate in a sling under a hook; returns its centre."""
    top = sling + 1j * drop
    for side in (-0.42, 0.42):
        canvas.line(sling, top + side * width, "thin")
    crate(canvas, top + 1j * height, 1, width, height)
    return top + 0.5j * height


def handle(canvas: Canvas, at: complex, along: complex = 1j, width: float = 16.0) -> None:
    """A short stick across the rope's end, to pull by; the rope runs in the direction ``along``."""
    corners = rectangle(at, left_of(along), width, -2.5, 2.5)
    canvas.polygon(corners, "lesser paper", OVERLAY)


def ringed(canvas: Canvas, at: complex, text: str) -> None:
    """A number in a ring."""
    canvas.put(OVERLAY, _ring("thin paper", at, RING))
    words = Words((text,), NOTE)
    canvas.write(words, at.real, at.imag - words.height / 2, "middle")
    around = [at + towards(step * pi / 4) * RING for step in range(9)]
    canvas.reserve(*around)
    canvas.avoid(around, 3)
