"""How a right triangle lies on one sheet of paper beside a block of text, upright, on its side or on the diagonal."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import radians

from .plane import towards

Triangle = tuple[complex, complex, complex]
"""Tip, foot (the right angle) and top: seen flat, the tip is to the left of the foot and the top above it."""

_AIR = 10.0
"""Pixels kept free between triangle and text."""

_EDGE, _WIDE_EDGE = 2.0, 24.0
"""Pixels kept free at the edge of the page, for half the width of a line, or for a letter beside the triangle."""

_TURNS = (
    *((0, False), (90, True)),
    *((degree, True) for degree in range(45, 116)),
    *((degree % 360, False) for degree in range(300, 391)),
)
"""The turns tried, in degrees, and whether the text stands at the right: upright and on its side first. Any other turn
fits no larger triangle, as a search over all of them showed; a mirrored one would make a left-hand thread."""

_ROUNDS = 14


@dataclass(frozen=True)
class Page:
    """The part of a sheet that can be printed on, and the room of the text in one of its upper corners, in pixels."""

    width: float
    height: float
    text_width: float
    text_height: float


@dataclass(frozen=True)
class Place:
    """Where a triangle lies, and whether the text stands in the upper right corner, not in the left one."""

    corners: Triangle
    text_at_right: bool


def placed(page: Page, base: float, height: float) -> Place | None:
    """The first turn in which a triangle of this base and height (pixels) fits; None if it fits in none."""
    if base + height > 4 * (page.width + page.height):
        return None
    for degree, text_at_right in _TURNS:
        corners = _turned(page, base, height, degree, text_at_right)
        if _on_page(page, corners) and _clear_of_text(page, corners, text_at_right):
            return Place(corners, text_at_right)
    return None


def takes_letter(base: float, height: float) -> bool:
    """Whether a letter finds room inside the triangle, at its upright edge."""
    return base >= 60 and height >= 26


def largest_base(page: Page, slope: float, base: float, step: float) -> float:
    """The largest base of this slope (height over base) that fits, below one that does not, in whole steps."""
    fits, too_long = 0.0, min(base, 2 * page.height)
    for _ in range(_ROUNDS):
        middle = (fits + too_long) / 2
        if placed(page, middle, middle * slope):
            fits = middle
        else:
            too_long = middle
    count = int(fits / step)
    while count and not placed(page, count * step, count * step * slope):
        count -= 1
    return count * step


def _turned(page: Page, base: float, height: float, degree: int, text_at_right: bool) -> Triangle:
    """The triangle, turned clockwise and pushed into the lower corner that is farthest from the text."""
    way = towards(radians(-degree))
    tip, foot, top = -base * way, 0j, -1j * height * way
    across = [corner.real for corner in (tip, foot, top)]
    edge = _EDGE if takes_letter(base, height) else _WIDE_EDGE
    shift = complex(
        edge - min(across) if text_at_right else page.width - edge - max(across),
        page.height - edge - max(corner.imag for corner in (tip, foot, top)),
    )
    return tip + shift, foot + shift, top + shift


def _on_page(page: Page, corners: Triangle) -> bool:
    slack = _EDGE - 1e-6
    return all(
        slack <= corner.real <= page.width - slack and slack <= corner.imag <= page.height - slack for corner in corners
    )


def _clear_of_text(page: Page, corners: Triangle, text_at_right: bool) -> bool:
    """Whether one of the sides of text or triangle keeps the two apart."""
    near, far = (page.width - page.text_width, page.width) if text_at_right else (0.0, page.text_width)
    if min(c.imag for c in corners) >= page.text_height + _AIR:
        return True
    if (min(c.real for c in corners) >= far + _AIR) or (max(c.real for c in corners) <= near - _AIR):
        return True
    text = [complex(x, y) for x in (near, far) for y in (0.0, page.text_height)]
    for start, end in pairwise((*corners, corners[0])):
        outward = (end - start) * 1j / abs(end - start)
        if _least(text, start, outward) >= _AIR and _most(corners, start, outward) < 1e-6:
            return True
        if _least(text, start, -outward) >= _AIR and _most(corners, start, -outward) < 1e-6:
            return True
    return False


def _least(points: list[complex], start: complex, way: complex) -> float:
    return min(((point - start) * way.conjugate()).real for point in points)


def _most(points: Triangle, start: complex, way: complex) -> float:
    return max(((point - start) * way.conjugate()).real for point in points)
