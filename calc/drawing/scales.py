"""The foot of a drawing: what can be compared by eye, and the scales it is drawn to."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor, log10

from .canvas import EDGE, Canvas, Words
from .labels import wrapped
from .letters import NOTE

_WANTED = 115.0
"""Greatest length in pixels of a scale bar."""

_INCHES = (0.05, 0.1, 0.25, 0.5, 1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 48.0, 96.0, 120.0)
_FIELDS = {0.05: 5, 0.1: 5, 3.0: 3, 6.0: 3}
_BAR = 5.0
_ROW = 19.0


def round_below(value: float) -> float:
    """The greatest of 1, 2, 5, 10, 20, ... (and their tenths) that is not above a value."""
    decade = 10.0 ** floor(log10(value))
    return max(step * decade for step in (1, 2, 5) if step * decade <= value * (1 + 1e-9))


@dataclass(frozen=True)
class Scales:
    """Pixels per metre and per newton, and the units that the scale bars count in.

    `force` is 0 where no force is drawn; `most_force` is the greatest one, in newtons.
    """

    length: float
    length_unit: tuple[str, float]
    force: float = 0.0
    force_unit: tuple[str, float] = ("N", 1.0)
    most_force: float = 0.0


def _bar_steps(pixels: float, unit: str) -> tuple[float, int]:
    """Length of the scale bar in its unit and the number of its fields, at so many pixels a unit."""
    longest = _WANTED / pixels
    if unit == "in" and _INCHES[0] <= longest < 240:
        length = max(step for step in _INCHES if step <= longest)
        return length, _FIELDS.get(length, 4)
    length = round_below(longest)
    return length, 5 if f"{length:e}"[0] in "15" else 4


def scale_bars(canvas: Canvas, left: float, top: float, scales: Scales) -> None:
    """The scale bar of lengths and, beside or below it, the one of forces."""
    unit, metres = scales.length_unit
    length, fields = _bar_steps(scales.length * metres, unit)
    pixels = length * metres * scales.length
    middle = top + _BAR
    end_words = Words((f"{length:g} {unit}",), NOTE)
    step = pixels / fields
    canvas.polygon(
        (
            complex(left, top),
            complex(left + pixels, top),
            complex(left + pixels, top + _BAR),
            complex(left, top + _BAR),
        ),
        "thin",
    )
    fields_data = "".join(
        [f"M{left + step * i:.1f} {top:.1f}h{step:.1f}v{_BAR:g}h-{step:.1f}z" for i in range(0, fields, 2)]
    )
    canvas.put(1, f'<path class="ink" d="{fields_data}"/>')
    canvas.write(Words(("0",), NOTE), left, middle + 3, "middle")
    canvas.write(end_words, left + pixels, middle + 3, "middle")
    if not scales.force:
        return
    unit, newtons = scales.force_unit
    force = round_below(scales.most_force / newtons * 0.7)
    long = force * newtons * scales.force
    words = Words((f"force {force:g} {unit}",), NOTE)
    room = max(long, words.width)
    start = left + pixels + end_words.width / 2 + 16
    if start + room > canvas.width - EDGE:
        start, top = EDGE, top + 32
    line = start + (room - long) / 2
    y = top + 2.5
    canvas.line(complex(line, y), complex(line + long, y), "thin")
    for x in (line, line + long):
        canvas.line(complex(x, y - 4.5), complex(x, y + 4.5), "thin")
    canvas.write(words, start + room / 2, top + _BAR + 3, "middle")


def upright_force_bar(canvas: Canvas, x: float, base: float, scales: Scales) -> None:
    """A scale of forces that stands upright, for drawings where force is height."""
    unit, newtons = scales.force_unit
    force = round_below(scales.most_force / newtons * 0.7)
    top = base - force * newtons * scales.force
    canvas.line(complex(x, base), complex(x, top), "thin")
    for y in (base, top):
        canvas.line(complex(x - 4.5, y), complex(x + 4.5, y), "thin")
    words = Words((f"force {force:g} {unit}",), NOTE)
    canvas.write(words, x + 9, (base + top - words.height) / 2)


@dataclass(frozen=True)
class Path:
    """A travelled distance: its words, its length in pixels, and whether it is the effort's."""

    words: Words
    length: float
    by_effort: bool = False


def path_rows(canvas: Canvas, left: float, top: float, paths: Sequence[Path]) -> float:
    """Paths as level dashed lines under one another; returns the y below them."""
    for path in paths:
        words = wrapped(path.words, canvas.width - 2 * EDGE)
        beside = left + path.length + 8 + words.width <= canvas.width - EDGE
        if not beside:
            box = canvas.write(words, left, top)
            top = box.bottom + 5
        y = top + words.height / 2 if beside else top
        path_line(canvas, complex(left, y), complex(left + path.length, y), path.by_effort)
        if beside:
            canvas.write(words, left + path.length + 8, top)
        top = y + (_ROW / 2 + 2 if beside else _ROW / 2)
    return top


def path_line(canvas: Canvas, start: complex, end: complex, by_effort: bool) -> None:
    """A straight dashed line between two end ticks."""
    kind = "path by-effort" if by_effort else "path"
    canvas.line(start, end, kind)
    tick = 5j if start.imag == end.imag else 5
    for point in (start, end):
        canvas.line(point - tick, point + tick, "thin")
