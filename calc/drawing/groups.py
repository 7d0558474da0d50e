"""A class's results as dots: one group each, with its doubt, the mean of all and their spread."""

from collections.abc import Sequence
from dataclasses import dataclass

from .axes import Axes, dot, draw_y, ends, error_bar
from .canvas import BACKGROUND, EDGE, Canvas, Words, shape
from .letters import EFFORT, NOTE
from .scene import Drawing

_HIGH = 200.0


@dataclass(frozen=True)
class Dot:
    """One group: its name, its value and k = 2 doubt in percent, whether it counts, whether it is far off."""

    name: str
    value: float
    doubt: float
    counted: bool = True
    odd: bool = False


def draw(name: str, width: int, dots: Sequence[Dot], mean: float, s: float) -> Drawing:
    """Efficiency by group, in percent; the band is the mean with one standard deviation either way."""
    canvas = Canvas(name, width, "Efficiency by group")
    high = max(100.0, *(d.value + d.doubt for d in dots))
    low, top, step = ends(0.0, min(high, 250.0), 5)
    axes = Axes(EDGE + 40, width - EDGE - 104, 0.0, _HIGH, 0.4, len(dots) + 0.6, low, top)
    draw_y(canvas, axes, step, "efficiency, %")
    canvas.line(complex(axes.left, axes.base), complex(axes.right, axes.base), "lesser")
    if mean and s:
        edges = (min(mean + s, top), max(mean - s, low))
        corners = [axes.at(x, y) for x, y in ((0.4, edges[0]), (len(dots) + 0.6, edges[0]))]
        corners += [axes.at(x, y) for x, y in ((len(dots) + 0.6, edges[1]), (0.4, edges[1]))]
        canvas.hatch(corners, 7.0, layer=BACKGROUND)
    if mean:
        line = (axes.at(0.4, mean), axes.at(len(dots) + 0.6, mean))
        canvas.put(1, shape(line, "path by-effort", closed=False))
        words = Words((f"mean {mean:.1f} %",), EFFORT)
        canvas.write(words, axes.right + 5, line[1].imag - words.height / 2)
    room = (axes.right - axes.left) / len(dots)
    free = axes.left
    for place, it in enumerate(dots, 1):
        at = axes.at(place, min(it.value, top))
        error_bar(canvas, axes.at(place, max(it.value - it.doubt, low)), axes.at(place, min(it.value + it.doubt, top)))
        dot(canvas, at, hollow=not it.counted)
        if it.odd:
            canvas.circle(at, 8.0, "lesser")
        label = Words((it.name if len(it.name) <= max(2, room / 8) else it.name[:2],), NOTE)
        if at.real - label.width / 2 >= free:
            free = canvas.write(label, at.real, axes.base + 5, "middle").right + 2
    canvas.write(Words(("group",), NOTE), axes.right, axes.base + 22, "end")
    said = "; ".join(f"group {it.name} {it.value:.1f} %" for it in dots[:40])
    caption = "Each dot is a group; its bar is the group’s own doubt. Hatched: the mean and one standard deviation."
    if any(not it.counted for it in dots):
        caption += " Open dots are not possible and not in the mean."
    if any(it.odd for it in dots):
        caption += " A ring marks what is far from the others."
    return Drawing(canvas.svg(said + "."), caption, said + ".")
