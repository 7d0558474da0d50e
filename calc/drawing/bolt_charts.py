"""Two small charts beside a bolt: where the work of tightening goes, and the band of clamp force over the torque."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi

from .canvas import BACKGROUND, BODY, OVERLAY, Canvas, Words
from .letters import HEADING, NOTE
from .plane import rectangle
from .scene import Scene

_BAR = 22.0
_CHART = 104.0


@dataclass(frozen=True)
class Shares:
    """Parts of a whole: name, shown text and share from 0 to 1."""

    parts: tuple[tuple[str, str, float], ...]


def share_bar(canvas: Canvas, shares: Shares, left: float, top: float, width: float) -> float:
    """One bar for the whole work, split; returns the y below it."""
    title = Words(("WHERE THE WORK GOES",), HEADING)
    top = canvas.write(title, left, top).bottom + 6
    x = left
    # Names that do not fit in one row under their parts are set on rows of their own.
    below = top + _BAR + 5
    free = [left - 10.0, left - 10.0, left - 10.0]
    lowest = below
    for index, (name, text, share) in enumerate(shares.parts):
        long = width * share
        outline = rectangle(complex(x + long / 2, top + _BAR), 1, long, 0, _BAR)
        canvas.polygon(outline, "visible paper", BODY)
        if index != 1:
            canvas.hatch(outline, 4 if index == 0 else 9, pi / 4 if index == 0 else -pi / 4)
        words = Words((f"{text} {name}".strip(),))
        at = min(max(x, left), canvas.width - 6 - words.width)
        row = next((i for i, used in enumerate(free) if at >= used + 8), 2)
        y = below + row * (words.height + 2)
        canvas.write(words, at, y)
        free[row] = at + words.width
        lowest = max(lowest, y + words.height)
        x += long
    return lowest + 10


def clamp_band(canvas: Canvas, scene: Scene, left: float, top: float, width: float) -> float:
    """Clamp force over torque with its band; the heavy line stands at the share of the torque given by the travel."""
    values = scene.values
    title = Words(("CLAMP FORCE OVER TORQUE",), HEADING)
    top = canvas.write(title, left, top).bottom + 8
    names = [("F_hi", "up to"), ("F", "about"), ("F_lo", "down to")]
    room = max(Words((f"{word} {scene.text(symbol)}",)).width for symbol, word in names)
    width = min(width, canvas.width - left - room - 12)
    base = complex(left, top + _CHART)
    most = max(values[symbol] for symbol, _ in names)
    canvas.polygon((base - 1j * (_CHART + 4), base, base + width + 6), "lesser", BODY, closed=False)
    ends = [base + width - 1j * _CHART * values[symbol] / most for symbol, _ in names]
    canvas.polygon((base, ends[0], ends[2]), "thin", BACKGROUND)
    canvas.hatch((base, ends[0], ends[2]), 9, pi / 4, BACKGROUND)
    canvas.line(base, ends[1], "visible")
    share = min(max(scene.travel, 0.0), 1.0)
    if share > 0:
        low, high = base + (ends[2] - base) * share, base + (ends[0] - base) * share
        canvas.line(low, high, "visible", OVERLAY)
        for point in (low, high):
            canvas.line(point - 5, point + 5, "visible", OVERLAY)
        canvas.line(complex(low.real, base.imag), low, "hidden", BODY)
    _names(canvas, [(f"{word} {scene.text(symbol)}", end) for (symbol, word), end in zip(names, ends, strict=True)])
    words = Words((f"torque {scene.text('T')}".strip(),), NOTE)
    box = canvas.write(words, min(base.real + width + 6, canvas.width - 6), base.imag + 5, "end")
    return box.bottom + 4


def _names(canvas: Canvas, names: Sequence[tuple[str, complex]]) -> None:
    """The names of the lines at their ends, one below another without touching."""
    lowest = float("-inf")
    for text, end in names:
        words = Words((text,))
        top = max(end.imag - words.height / 2, lowest)
        lowest = canvas.write(words, end.real + 8, top).bottom + 1
