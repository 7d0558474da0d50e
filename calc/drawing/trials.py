"""The trials of a record sheet as graphs: each effort with its doubt beside the ideal one; load against effort."""

from collections.abc import Sequence
from dataclasses import dataclass

from .axes import Axes, dot, draw_x, draw_y, ends, error_bar
from .canvas import BACKGROUND, EDGE, Canvas, Words, shape
from .letters import EFFORT, NOTE
from .scene import Drawing

_HIGH = 190.0


@dataclass(frozen=True)
class Point:
    """One trial: its number, effort and load (in the unit shown), the k = 2 doubt of the effort, its state."""

    number: int
    load: float
    effort: float
    doubt: float
    counted: bool = True


def efforts(
    name: str, width: int, points: Sequence[Point], ideal: float | None, mean: tuple[float, float] | None, unit: str
) -> Drawing:
    """Effort of each trial with its error bar; the ideal effort and the mean with its doubt as lines across.

    `ideal` and `mean` (value and k = 2 doubt) may be unknown. Forces in `unit`.
    """
    canvas = Canvas(name, width, "Effort of each trial")
    high = max(p.effort + p.doubt for p in points)
    high = max(high, ideal or 0.0, sum(mean) if mean else 0.0)
    low, top, step = ends(0.0, high * 1.05, 5)
    count = max(p.number for p in points)
    axes = Axes(EDGE + 44, width - EDGE - 96, 0.0, _HIGH, 0.4, count + 0.6, low, top)
    draw_y(canvas, axes, step, f"effort, {unit}")
    canvas.line(complex(axes.left, axes.base), complex(axes.right, axes.base), "lesser")
    every = max(1, round(count / 20))
    for number in range(1, count + 1, every):
        x = axes.at(number, low).real
        canvas.write(Words((str(number),), NOTE), x, axes.base + 4, "middle")
    canvas.write(Words(("trial",), NOTE), axes.right, axes.base + 20, "end")
    marks: list[tuple[float, Words]] = []
    if mean:
        value, doubt = mean
        corners = [axes.at(x, y) for x, y in ((0.4, value - doubt), (count + 0.6, value - doubt))]
        corners += [axes.at(x, y) for x, y in ((count + 0.6, value + doubt), (0.4, value + doubt))]
        if abs(corners[0].imag - corners[2].imag) > 2:
            canvas.hatch(corners, 6.0, layer=BACKGROUND)
        line = (axes.at(0.4, value), axes.at(count + 0.6, value))
        canvas.put(1, shape(line, "path by-effort", closed=False))
        marks.append((line[1].imag, Words((f"mean {value:.3g}",), EFFORT)))
    if ideal:
        line = (axes.at(0.4, ideal), axes.at(count + 0.6, ideal))
        canvas.line(*line, "centre")
        marks.append((line[1].imag, Words((f"ideal {ideal:.3g}",), NOTE)))
    _beside(canvas, axes.right + 6, marks)
    for point in points:
        error_bar(
            canvas, axes.at(point.number, point.effort - point.doubt), axes.at(point.number, point.effort + point.doubt)
        )
        dot(canvas, axes.at(point.number, point.effort), hollow=not point.counted)
    least, most = (pick(p.effort for p in points) for pick in (min, max))
    said = [f"{len(points)} trials, effort {least:.3g} to {most:.3g} {unit}"]
    if mean:
        said.append(f"mean {mean[0]:.3g}")
    if ideal:
        said.append(f"ideal {ideal:.3g} {unit}")
    caption = "Each dot is one trial; its bar is the doubt of one reading. Hatched: the mean with its doubt."
    if any(not p.counted for p in points):
        caption += " Open dots do not count."
    alt = "; ".join(said) + "."
    return Drawing(canvas.svg(alt), caption, alt)


def _beside(canvas: Canvas, x: float, marks: Sequence[tuple[float, Words]]) -> None:
    """Names at the right end of their lines, pushed apart where they would touch."""
    floor = float("-inf")
    for y, words in sorted(marks, key=lambda mark: mark[0]):
        top = max(y - words.height / 2, floor)
        floor = canvas.write(words, x, top).bottom + 1


def law(
    name: str,
    width: int,
    points: Sequence[Point],
    line: tuple[float, float],
    ideal: float | None,
    unit: str,
) -> Drawing:
    """Load against effort: the points, the fitted line E = a + b R, and the ideal line through nothing.

    `line` is (a, b), `ideal` the ideal advantage. Forces in `unit`.
    """
    canvas = Canvas(name, width, "Load against effort")
    most_load = max(p.load for p in points)
    a, b = line
    high = max(max(p.effort + p.doubt for p in points), a + b * most_load)
    _, right, x_step = ends(0.0, most_load * 1.05, 6 if width > 500 else 4)
    low, top, y_step = ends(min(0.0, a), high * 1.05, 5)
    axes = Axes(EDGE + 44, width - EDGE - 60, 0.0, _HIGH + 20, 0.0, right, low, top)
    draw_y(canvas, axes, y_step, f"effort, {unit}")
    draw_x(canvas, axes, x_step, f"load, {unit}")
    canvas.put(1, shape((axes.at(0.0, a), axes.at(right, a + b * right)), "lesser by-effort", closed=False))
    marks = [(axes.at(right, a + b * right).imag, Words(("fitted",), EFFORT))]
    if ideal:
        canvas.line(axes.at(0.0, 0.0), axes.at(right, right / ideal), "centre")
        marks.append((axes.at(right, right / ideal).imag, Words(("ideal",), NOTE)))
    _beside(canvas, axes.right + 6, marks)
    for point in points:
        error_bar(
            canvas, axes.at(point.load, point.effort - point.doubt), axes.at(point.load, point.effort + point.doubt)
        )
        dot(canvas, axes.at(point.load, point.effort), hollow=not point.counted)
    climb = f"the line starts at {a:.3g} {unit} and climbs {b:.3g} for each {unit} of load"
    alt = f"{len(points)} trials with loads up to {most_load:.3g} {unit}; {climb}."
    caption = "Where the fitted line starts is the effort with no load. Its slope tells the efficiency at large loads."
    return Drawing(canvas.svg(alt), caption, alt)
