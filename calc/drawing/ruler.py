"""A ruler along the foot of a drawing: places counted from a zero mark."""

from math import ceil, floor, log10

from .canvas import EDGE, Canvas, Words
from .letters import NOTE

_INCHES = (0.25, 0.5, 1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 48.0, 96.0, 120.0)
_APART = 10.0
"""Pixels kept between two numbers."""


def ruler(
    canvas: Canvas, left: float, right: float, row: float, low: float, scale: float, unit: tuple[str, float]
) -> float:
    """Draw a ruler from `left` to `right`; returns the y below it.

    `low` is the place in metres at its left end, `scale` the pixels a metre, `unit` a unit's name and its metres.
    """
    name, metres = unit
    first, last = low / metres, low / metres + (right - left) / scale / metres
    step = _step(first, last, scale * metres, name)
    canvas.line(complex(left, row), complex(right, row), "lesser")
    numbers = range(ceil(first / step - 1e-9), floor(last / step + 1e-9) + 1)
    bottom = row
    for count in numbers:
        x = left + (count * step - first) * scale * metres
        canvas.line(complex(x, row), complex(x, row + 7), "thin")
        text = f"{count * step:g}".replace("-", "−")
        words = Words((f"{text} {name}" if count == numbers[-1] else text,), NOTE)
        half = words.width / 2
        box = canvas.write(words, min(max(x, EDGE + half), canvas.width - EDGE - half), row + 10, "middle")
        bottom = box.bottom
    return bottom


def _step(first: float, last: float, pixels: float, name: str) -> float:
    """The least round step at which the numbers do not touch, at so many pixels a unit."""
    widest = max(Words((f"{end:.4g} {name}",), NOTE).width for end in (first, last, -max(abs(first), abs(last))))
    least = (widest + _APART) / pixels
    if name == "in" and least <= _INCHES[-1]:
        return min(step for step in _INCHES if step >= least)
    decade = 10.0 ** floor(log10(least))
    return next(step * decade for step in (1, 2, 5, 10) if step * decade >= least * (1 - 1e-9))
