"""Points, directions and boxes on the paper: pixels, x to the right, y down.

A point or a direction is a complex number, so that a turn is a product and a length is `abs`.
Angles are in radians, anticlockwise from the right as on a blackboard.
"""

from collections.abc import Sequence
from math import ceil, cos, sin
from typing import NamedTuple


class Box(NamedTuple):
    """An upright rectangle."""

    left: float
    top: float
    right: float
    bottom: float


class Segment(NamedTuple):
    """A straight piece of a drawn line, and how badly a label would lie on it."""

    x1: float
    y1: float
    x2: float
    y2: float
    weight: float


def towards(angle: float) -> complex:
    """The direction of length 1 at an angle."""
    return complex(cos(angle), -sin(angle))


def left_of(direction: complex) -> complex:
    """The direction square to another, to the left of somebody who walks along it."""
    return direction * -1j


def between(start: complex, end: complex, share: float) -> complex:
    """The point at a share of the way, 0 at the start and 1 at the end."""
    return start + (end - start) * share


def rectangle(foot: complex, along: complex, width: float, low: float, high: float) -> list[complex]:
    """Corners of a rectangle centred over a foot point, its sides along and square to a direction."""
    side, up = along * width / 2, left_of(along)
    return [
        foot - side + up * low,
        foot + side + up * low,
        foot + side + up * high,
        foot - side + up * high,
    ]


def length_inside(box: Box, segment: Segment) -> float:
    """Length of the piece of a segment that lies inside a box (clipping after Liang and Barsky)."""
    x1, y1, x2, y2, _ = segment
    left, top, right, bottom = box
    dx, dy = x2 - x1, y2 - y1
    enter, leave = 0.0, 1.0
    for step, room in ((-dx, x1 - left), (dx, right - x1), (-dy, y1 - top), (dy, bottom - y1)):
        if step == 0:
            if room < 0:
                return 0.0
        elif step < 0:
            enter = max(enter, room / step)
        else:
            leave = min(leave, room / step)
        if enter > leave:
            return 0.0
    return (leave - enter) * abs(complex(dx, dy))


def meet(one: Segment, other: Segment) -> bool:
    """Whether two segments cross."""
    ax, ay, bx, by, _ = one
    cx, cy, dx, dy, _ = other
    side_c = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
    side_d = (bx - ax) * (dy - ay) - (by - ay) * (dx - ax)
    side_a = (dx - cx) * (ay - cy) - (dy - cy) * (ax - cx)
    side_b = (dx - cx) * (by - cy) - (dy - cy) * (bx - cx)
    return (side_c > 0) != (side_d > 0) and (side_a > 0) != (side_b > 0)


def section_lines(corners: Sequence[complex], gap: float, angle: float) -> list[tuple[complex, complex]]:
    """Parallel lines that fill a polygon, `gap` apart, at an angle: the hatch of a cut or a load."""
    along = towards(angle)
    across = left_of(along)
    # In the frame of the hatch the lines are level: rotate once, cut at whole steps of the gap.
    turned = [corner * along.conjugate() for corner in corners]
    height = [(corner * across.conjugate()).real for corner in corners]
    edges = list(
        zip(
            height,
            height[1:] + height[:1],
            [point.real for point in turned],
            [point.real for point in turned[1:] + turned[:1]],
            strict=True,
        )
    )
    lines: list[tuple[complex, complex]] = []
    level, highest = ceil(min(height) / gap) * gap, max(height)
    while level < highest:
        cuts = sorted(
            x1 + (x2 - x1) * (level - h1) / (h2 - h1) for h1, h2, x1, x2 in edges if (h1 < level) != (h2 < level)
        )
        base = across * level
        lines += [(base + along * a, base + along * b) for a, b in zip(cuts[::2], cuts[1::2], strict=False)]
        level += gap
    return lines
