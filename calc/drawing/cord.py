"""Rope as it lies on a drum or hangs from it: a strip as wide as the rope, its lay in thin slanted lines."""

from __future__ import annotations

from math import ceil

from .canvas import MOVING, Canvas, number, place
from .plane import left_of

THIN = 4.0
"""Width in pixels of a cord whose thickness is not the matter."""


def strip(canvas: Canvas, start: complex, end: complex, width: float = THIN, layer: int = MOVING) -> None:
    """A straight piece of rope between two points of its centre line."""
    length = abs(end - start)
    if length < 0.5:
        return
    along = (end - start) / length
    side = left_of(along) * width / 2
    canvas.polygon((start + side, end + side, end - side, start - side), "thin paper", layer, weight=0)
    canvas.avoid((start, end), 3)
    if width < 2.5:
        return
    count = max(1, min(ceil(length / (width * 1.1)), 120))
    step = length / count
    # The lay: one slanted line a strand, each leaning forward by less than a step.
    lines = "".join(
        [
            f"M{place(start + along * step * (i + 0.15) - side)}L{place(start + along * step * (i + 0.85) + side)}"
            for i in range(count)
        ]
    )
    canvas.put(layer, f'<path class="hatch" d="{lines}"/>')


def break_mark(canvas: Canvas, at: complex, width: float, layer: int = MOVING) -> None:
    """The sign for a rope that is drawn shorter than it is: a gap between two waved lines across it."""
    half = width / 2 + 5
    x, y = at.real, at.imag
    corners = (
        complex(x - half, y - 3.5),
        complex(x + half, y - 3.5),
        complex(x + half, y + 3.5),
        complex(x - half, y + 3.5),
    )
    data = "M" + "L".join(place(corner) for corner in corners) + "Z"
    canvas.put(layer, f'<path class="paper" d="{data}"/>')
    quarter, wave = number(half / 2), number(half)
    for dy in (-3.5, 3.5):
        start = place(complex(x - half, y + dy))
        canvas.put(layer, f'<path class="thin" d="M{start}q{quarter} -4 {wave} 0t{wave} 0"/>')
    canvas.avoid((complex(x - half, y), complex(x + half, y)), 3)
