"""The scale of forces alone, for drawings in which no length is to scale."""

from .canvas import Canvas, Words
from .letters import NOTE
from .scales import round_below


def force_bar(canvas: Canvas, left: float, top: float, scale: float, most: float, unit: tuple[str, float]) -> None:
    """A level bar for a round force: `scale` in pixels per newton, `most` the greatest force drawn, in newtons."""
    name, newtons = unit
    force = round_below(most / newtons * 0.7)
    length = force * newtons * scale
    words = Words((f"force {force:g} {name}",), NOTE)
    start = left + max(0.0, (words.width - length) / 2)
    y = top + 2.5
    canvas.line(complex(start, y), complex(start + length, y), "thin")
    for x in (start, start + length):
        canvas.line(complex(x, y - 4.5), complex(x, y + 4.5), "thin")
    canvas.write(words, start + length / 2, top + 8, "middle")
