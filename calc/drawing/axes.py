"""The frame of a graph: two axes with round numbers, a faint grid, and where a pair of values lies in it."""

from dataclasses import dataclass
from math import ceil, floor, log10

from .canvas import BACKGROUND, Canvas, Words
from .letters import NOTE

_TICK = 5.0


def round_step(span: float, most: int) -> float:
    """The least of 1, 2, 5, 10, ... (and their tenths) that cuts a span into at most so many parts."""
    least = span / most
    decade = 10.0 ** floor(log10(least))
    return next(step * decade for step in (1.0, 2.0, 5.0, 10.0) if step * decade >= least * (1 - 1e-9))


@dataclass(frozen=True)
class Axes:
    """A graph's frame in pixels (`left` to `right`, `top` to `base`) and in values, the axes' low and high ends."""

    left: float
    right: float
    top: float
    base: float
    x_low: float
    x_high: float
    y_low: float
    y_high: float

    def at(self, x: float, y: float) -> complex:
        """Where a pair of values lies."""
        across = (x - self.x_low) / (self.x_high - self.x_low)
        up = (y - self.y_low) / (self.y_high - self.y_low)
        return complex(self.left + across * (self.right - self.left), self.base - up * (self.base - self.top))


def ends(low: float, high: float, most: int) -> tuple[float, float, float]:
    """Round ends of an axis that holds `low` to `high`, and its step."""
    step = round_step(max(high - low, abs(high) * 1e-6, 1e-12), most)
    return floor(low / step + 1e-9) * step, ceil(high / step - 1e-9) * step, step


def draw_y(canvas: Canvas, axes: Axes, step: float, title: str) -> None:
    """The upright axis: its line, a faint line and a number at each step, its title above."""
    canvas.line(complex(axes.left, axes.base), complex(axes.left, axes.top), "lesser")
    for i in range(round((axes.y_high - axes.y_low) / step) + 1):
        value = axes.y_low + i * step
        y = axes.at(axes.x_low, value).imag
        if i:
            canvas.line(complex(axes.left, y), complex(axes.right, y), "grain", BACKGROUND)
        canvas.line(complex(axes.left - _TICK, y), complex(axes.left, y), "thin")
        canvas.write(Words((number(value),), NOTE), axes.left - _TICK - 2, y - NOTE.size * 0.53, "end")
    canvas.write(Words((title,), NOTE), axes.left - _TICK - 2, axes.top - 24)


def draw_x(canvas: Canvas, axes: Axes, step: float, title: str, *, grid: bool = True) -> None:
    """The level axis, in the same way; its title below, at the right."""
    canvas.line(complex(axes.left, axes.base), complex(axes.right, axes.base), "lesser")
    low = 0.0
    for i in range(round((axes.x_high - axes.x_low) / step) + 1):
        value = axes.x_low + i * step
        x = axes.at(value, axes.y_low).real
        if i and grid:
            canvas.line(complex(x, axes.base), complex(x, axes.top), "grain", BACKGROUND)
        canvas.line(complex(x, axes.base), complex(x, axes.base + _TICK), "thin")
        low = canvas.write(Words((number(value),), NOTE), x, axes.base + _TICK + 2, "middle").bottom
    canvas.write(Words((title,), NOTE), axes.right, low + 1, "end")


def number(value: float) -> str:
    """A round number beside an axis."""
    return f"{value:.6g}".replace("-", "−")


def dot(canvas: Canvas, at: complex, *, hollow: bool = False) -> None:
    """One measured point."""
    if hollow:
        canvas.circle(at, 3.2, "lesser paper")
    else:
        canvas.put(3, f'<circle class="ink" cx="{at.real:.1f}" cy="{at.imag:.1f}" r="3.2"/>')


def error_bar(canvas: Canvas, low: complex, high: complex) -> None:
    """An upright bar for the doubt of a point; one that the dot would hide is left out."""
    if abs(high.imag - low.imag) < 8:
        return
    canvas.line(low, high, "thin")
    for end in (low, high):
        canvas.line(end - 4, end + 4, "thin")
