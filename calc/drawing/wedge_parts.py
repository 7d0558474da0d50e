"""What a wedge is drawn with: the wedge itself, a planter, a block of wood, and the enlarged view of a thin butt."""

from __future__ import annotations

from collections.abc import Sequence
from math import pi

from .canvas import BODY, MOVING, OVERLAY, Canvas, Words, number, place, shape
from .dimensions import GAP, OVERSHOOT
from .labels import CLEAR, clear, wrapped
from .letters import NOTE
from .plane import Box, section_lines, towards

THIN = 7.0
"""A butt of fewer pixels is dimensioned in an enlarged view only."""

RADIUS = 46.0
"""Radius in pixels of the enlarged view."""

_WANTED = 44.0
_ENLARGEMENTS = (2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 200, 500, 1000)


def wedge(canvas: Canvas, corners: Sequence[complex], lean: float = -pi / 4) -> None:
    """The wedge, hatched the other way from its load."""
    canvas.polygon(corners, "visible paper", MOVING)
    canvas.hatch(corners, 7, lean, MOVING)


def planter(canvas: Canvas, left: float, right: float, bottom: float, height: float) -> None:
    """A planter box with four plants, its bottom on a line."""
    width, top = right - left, bottom - height
    rim = max(4.0, height * 0.1)
    body = (
        complex(left, bottom),
        complex(right, bottom),
        complex(right - width * 0.02, top + rim),
        complex(left + width * 0.02, top + rim),
    )
    canvas.polygon(body, "visible paper", BODY)
    canvas.avoid((body[0], body[2]), 0.6)
    for share in (0.36, 0.68):
        y = top + rim + (height - rim) * share
        canvas.put(BODY, f'<path class="thin" d="M{number(left + width * 0.015)} {number(y)}h{number(width * 0.97)}"/>')
    edge = (
        complex(left - 4, top),
        complex(right + 4, top),
        complex(right + 4, top + rim),
        complex(left - 4, top + rim),
    )
    canvas.polygon(edge, "lesser paper", BODY)
    tall = min(34.0, width * 0.16)
    for i in range(4):
        _plant(canvas, complex(left + width * (0.16 + 0.227 * i), top), tall)
    canvas.reserve(complex(left, top - tall - 4))
    for high in (0.25, 0.75):
        canvas.avoid((complex(left, top - tall * high), complex(right, top - tall * high)), 4)


def _plant(canvas: Canvas, foot: complex, tall: float) -> None:
    """A stem with two pairs of leaves and one on top."""
    x, y = foot.real, foot.imag
    leaf, low = tall * 0.36, tall * 0.3
    data = [f"M{place(foot)}V{number(y - tall * 0.72)}"]
    for height in (0.34, 0.62):
        for side in (-1, 1):
            start = f"M{number(x)} {number(y - tall * height)}"
            data.append(
                f"{start}q{number(side * leaf * 0.2)} {number(-low)} {number(side * leaf)} {number(-low * 0.8)}"
                f"q{number(-side * leaf * 0.2)} {number(low * 0.8)} {number(-side * leaf)} {number(low * 0.8)}"
            )
    tip = number(tall * 0.3)
    data.append(
        f"M{number(x)} {number(y - tall * 0.7)}q-5 -{number(tall * 0.18)} 0 -{tip}q5 {number(tall * 0.12)} 0 {tip}"
    )
    canvas.put(BODY, f'<path class="thin" d="{"".join(data)}"/>')


def block(canvas: Canvas, left: float, right: float, top: float, bottom: float) -> None:
    """A block of wood, its grain upright."""
    corners = (complex(left, top), complex(right, top), complex(right, bottom), complex(left, bottom))
    canvas.polygon(corners, "visible paper", BODY)
    width, height = right - left, bottom - top
    data = []
    for i, (share, start, long) in enumerate(
        ((0.16, 0.02, 0.9), (0.34, 0.1, 0.7), (0.55, 0.03, 0.85), (0.78, 0.2, 0.7))
    ):
        bend = 3 if i % 2 else -3
        x, y, down = left + width * share, top + height * start, height * long
        data.append(f"M{number(x)} {number(y)}q{bend} {number(down / 2)} 0 {number(down)}")
    canvas.put(BODY, f'<path class="grain" d="{"".join(data)}"/>')


def butt_detail(canvas: Canvas, scene_text: str, butt: complex, thick: float, slope: float, centre: complex) -> None:
    """The butt of a thin single wedge enlarged in a circle; `butt` is its lower corner, `thick` its pixels."""
    times = max((n for n in _ENLARGEMENTS if thick * n <= _WANTED), default=2)
    high = thick * times
    foot = complex(centre.real - RADIUS * 0.05, centre.imag + high / 2)
    reach = 2 * RADIUS
    corners = [foot, foot - 1j * high, foot - 1j * high + reach + 1j * slope * reach, foot + reach]
    lines = section_lines(corners, 8, -pi / 4)
    hatch = "".join([f"M{place(a)}L{place(b)}" for a, b in lines])
    clip = f"{canvas.name}-detail"
    x, y, r = number(centre.real), number(centre.imag), number(RADIUS)
    floor = shape((foot - reach, foot + reach), "lesser", closed=False)
    canvas.put(
        MOVING,
        f'<clipPath id="{clip}"><circle cx="{x}" cy="{y}" r="{r}"/></clipPath>'
        f'<circle class="paper" cx="{x}" cy="{y}" r="{r}"/>'
        f'<g clip-path="url(#{clip})">{shape(corners, "visible paper")}<path class="hatch" d="{hatch}"/>{floor}</g>',
    )
    canvas.circle(centre, RADIUS, "thin", OVERLAY)
    canvas.avoid([centre + RADIUS * towards(i * pi / 6) for i in range(13)], 6)
    canvas.avoid((centre - RADIUS, centre + RADIUS), 6)
    canvas.circle(butt - 1j * thick / 2, thick / 2 + 8, "thin", OVERLAY)
    line = foot.real - 14
    for at in (foot, foot - 1j * high):
        canvas.line(at - 3, complex(line - OVERSHOOT, at.imag), "thin", OVERLAY)
    canvas.line(complex(line, foot.imag), complex(line, foot.imag - high), "thin", OVERLAY)
    canvas.arrowhead(complex(line, foot.imag), 1j, 9, OVERLAY)
    canvas.arrowhead(complex(line, foot.imag - high), -1j, 9, OVERLAY)
    title = Words((f"detail, {times} times",), NOTE)
    half = title.width / 2
    middle = min(max(centre.real, canvas.frame[0] + half), canvas.frame[1] - half)
    canvas.write(title, middle, centre.imag - RADIUS - 4 - title.height, "middle")
    words = Words((f"thickness {scene_text}".strip(),))
    half = words.width / 2
    middle = min(max(centre.real, canvas.frame[0] + half), canvas.frame[1] - half)
    canvas.write(words, middle, centre.imag + RADIUS + 5, "middle")


def upright(
    canvas: Canvas, x: float, ends: tuple[complex, complex], words: Words, shares: Sequence[float] = ()
) -> None:
    """An upright dimension at x between two points, its text in a gap at the first clear share of the way down.

    Without a share, or where none is clear, the text stands to the left of the line, above the ground at y = 0.
    """
    for at in ends:
        start = at.real + (GAP if x > at.real else -GAP)
        canvas.line(complex(start, at.imag), complex(x + (OVERSHOOT if x > at.real else -OVERSHOOT), at.imag), "thin")
    top, bottom = sorted((ends[0].imag, ends[1].imag))
    half = words.height / 2 + 2
    for share in shares:
        middle = top + (bottom - top) * share
        box = Box(x - words.width / 2, middle - half, x + words.width / 2, middle + half)
        if min(middle - top, bottom - middle) >= half + 14 and clear(canvas, box) < CLEAR:
            _pieces(canvas, x, top, middle - half, -1j)
            _pieces(canvas, x, bottom, middle + half, 1j)
            canvas.write(words, x, middle - words.height / 2, "middle")
            return
    if bottom - top < 24:
        canvas.line(complex(x, top - 14), complex(x, bottom + 14), "thin")
        canvas.arrowhead(complex(x, top), 1j)
        canvas.arrowhead(complex(x, bottom), -1j)
    else:
        canvas.line(complex(x, top), complex(x, bottom), "thin")
        canvas.arrowhead(complex(x, top), -1j)
        canvas.arrowhead(complex(x, bottom), 1j)
    canvas.avoid((complex(x, top - 14), complex(x, bottom + 14)), 6)
    canvas.write(words, x - 7, min((top + bottom) / 2 - words.height / 2, -words.height - 5), "end")


def level_above(canvas: Canvas, left: float, right: float, row: float, words: Words) -> None:
    """A level dimension with its text above the line, for a row that has no room beside it."""
    out = right - left < 24
    start, end = complex(left - (20 if out else 0), row), complex(right + (20 if out else 0), row)
    canvas.line(start, end, "thin")
    canvas.arrowhead(complex(left, row), 1 if out else -1)
    canvas.arrowhead(complex(right, row), -1 if out else 1)
    words = wrapped(words, canvas.width - 12)
    half = words.width / 2
    middle = min(max((left + right) / 2, canvas.frame[0] + half), canvas.frame[1] - half)
    canvas.write(words, middle, row - 7 - words.height, "middle")


def _pieces(canvas: Canvas, x: float, end: float, inner: float, way: complex) -> None:
    """One half of a broken dimension line, with its head at the end."""
    canvas.line(complex(x, end), complex(x, inner), "thin")
    canvas.arrowhead(complex(x, end), way)
