"""The enlarged view of a flat paper triangle's upright end, where the lead is too small to be seen in place."""

from math import pi

from .canvas import BODY, OVERLAY, Canvas, Words, number, shape
from .letters import NOTE
from .plane import section_lines

THIN = 40.0
"""A triangle longer than this many heights gets the enlarged view."""

_RADIUS = 52.0
_WANTED = 40.0
_ENLARGEMENTS = (2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 200, 500, 1000)

DETAIL_ROOM = 2 * _RADIUS + 20
"""Pixels across that the view needs."""


def enlarged_end(canvas: Canvas, corner: complex, lead: float, turn: float) -> None:
    """Set the view above the end of the triangle; `corner` is its lower right corner."""
    times = max((n for n in _ENLARGEMENTS if lead * n <= _WANTED), default=2)
    centre = complex(corner.real - _RADIUS - 24, corner.imag - lead - _RADIUS - 52)
    high = lead * times
    end = complex(centre.real + _RADIUS * 0.3, centre.imag + high / 2)
    slope = lead / turn
    reach = 2 * _RADIUS
    corners = [end, end - 1j * high, end - 1j * high - reach + 1j * slope * reach, end - reach]
    lines = section_lines(corners, 8, -pi / 4)
    hatch = "".join([f"M{number(a.real)} {number(a.imag)}L{number(b.real)} {number(b.imag)}" for a, b in lines])
    clip = f"{canvas.name}-detail"
    x, y = number(centre.real), number(centre.imag)
    canvas.put(
        BODY,
        f'<clipPath id="{clip}"><circle cx="{x}" cy="{y}" r="{number(_RADIUS)}"/></clipPath>'
        f'<circle class="paper" cx="{x}" cy="{y}" r="{number(_RADIUS)}"/>'
        f'<g clip-path="url(#{clip})">{shape(corners, "visible paper")}<path class="hatch" d="{hatch}"/></g>',
    )
    canvas.circle(centre, _RADIUS, "thin", OVERLAY)
    canvas.circle(corner - 1j * lead / 2, lead / 2 + 7, "thin", OVERLAY)
    canvas.avoid((centre - _RADIUS, centre + _RADIUS), 6)
    words = Words((f"detail, {times} times",), NOTE)
    canvas.write(words, centre.real, centre.imag - _RADIUS - 4 - words.height, "middle")
