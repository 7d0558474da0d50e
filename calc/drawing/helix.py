"""A cylinder seen from the side and the helix that runs round it: what a screw is drawn with.

Angles are counted round the cylinder from the line that faces the reader, positive to the reader's right.
A right-hand thread rises to the right on the near side.
"""

from itertools import pairwise
from math import ceil, floor, pi, sin

from .canvas import BODY, Canvas, number, polyline
from .plane import Box

_STEPS = 8
"""Straight pieces for half a turn."""

Strand = tuple[bool, list[complex]]
"""Whether it lies on the near side, and the points of half a turn or less."""


def strands(foot: complex, radius: float, rise: float, start: float, end: float) -> list[Strand]:
    """The helix through `foot` on the near line, from one angle to another, cut where it passes behind.

    `rise` is the climb in pixels for each turn; `end` is greater than `start`.
    """
    found: list[Strand] = []
    first = floor(start / pi + 0.5)
    last = ceil(end / pi - 0.5)
    for half in range(first, max(last, first) + 1):
        low, high = max(start, (half - 0.5) * pi), min(end, (half + 0.5) * pi)
        if high - low < 1e-9:
            continue
        steps = max(1, ceil((high - low) / pi * _STEPS))
        angles = [low + (high - low) * step / steps for step in range(steps + 1)]
        points = [foot + complex(radius * sin(a), -rise * a / (2 * pi)) for a in angles]
        found.append((half % 2 == 0, points))
    return found


def between_levels(pieces: list[Strand], top: float, bottom: float) -> list[Strand]:
    """The pieces as far as they lie between two levels; every piece climbs from its first point to its last."""
    found: list[Strand] = []
    for near, points in pieces:
        first, last = points[0], points[-1]
        if first.imag <= top or last.imag >= bottom:
            continue
        kept = [point for point in points if top < point.imag < bottom]
        for level, outside in ((bottom, first.imag > bottom), (top, last.imag < top)):
            if outside:
                end = _at_level(points, level)
                kept = [end, *kept] if level == bottom else [*kept, end]
        if len(kept) > 1:
            found.append((near, kept))
    return found


def _at_level(points: list[complex], level: float) -> complex:
    """Where a climbing run of points passes a level that lies between its ends."""
    for start, end in pairwise(points):
        if start.imag >= level >= end.imag and start.imag > end.imag:
            return start + (end - start) * (start.imag - level) / (start.imag - end.imag)
    return points[-1]


def put_strands(canvas: Canvas, pieces: list[Strand], near: str, far: str = "", layer: int = BODY) -> None:
    """Draw the pieces of a helix, each side in one path; the far side only if it has a kind of line."""
    for side, kind in ((True, near), (False, far)):
        data = "".join([polyline(points) for on_near, points in pieces if on_near == side])
        if kind and data:
            canvas.put(layer, f'<path class="{kind}" d="{data}"/>')


def cylinder(canvas: Canvas, axis: float, radius: float, top: float, bottom: float, *, broken: bool = True) -> Box:
    """A round bar with its centre line; broken off below if it goes on. Returns its outline."""
    left, right = axis - radius, axis + radius
    outline = f"M{number(left)} {number(bottom)}V{number(top)}H{number(right)}V{number(bottom)}"
    end = f"q{number(radius / 2)} {number(min(8, radius / 4))} {number(radius)} 0t{number(radius)} 0"
    close = f"M{number(left)} {number(bottom)}{end if broken else f'H{number(right)}'}"
    canvas.put(BODY, f'<path class="paper" d="{outline}Z"/><path class="visible" d="{outline}"/>')
    canvas.put(BODY, f'<path class="{"thin" if broken else "visible"}" d="{close}"/>')
    canvas.line(complex(axis, top - 12), complex(axis, bottom + 14), "centre")
    corners = [complex(left, bottom), complex(left, top), complex(right, top), complex(right, bottom)]
    canvas.reserve(*corners)
    canvas.avoid(corners, 3)
    # No label may hide inside.
    canvas.avoid((corners[0], corners[2]), 3)
    canvas.avoid((corners[1], corners[3]), 3)
    return Box(left, top, right, bottom)
