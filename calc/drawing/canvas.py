"""The sheet a machine is drawn on: it collects lines and text in layers and writes the SVG.

Every line reports where it runs, so that labels can keep clear of it. The frame is as wide as
the drawing from the start; its height follows from what was drawn.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from html import escape
from itertools import pairwise
from math import ceil, pi

from .letters import PLAIN, Style, width_of, width_of_symbol
from .plane import Box, Segment, left_of, section_lines, towards

BACKGROUND, BODY, MOVING, OVERLAY, LETTERING = range(5)
"""Layers from the back to the front."""

EDGE = 4.0
"""Pixels kept free at the left and right edge of the frame."""

PADDING = 8.0
"""Pixels kept free above and below the drawing."""

HARD = 2.5
"""From this weight on, a line may never run through a label."""

LINE_GAP = 1.15
"""Distance of two lines of one label, in type sizes."""

_WEIGHT = {
    "visible": 3.0,
    "lesser": HARD,
    "hidden": 1.0,
    "path": 1.0,
    "thin": 1.0,
    "extension": 0.8,
    "centre": 0.4,
    "phantom": 0.6,
    "hatch": 0.25,
    "grain": 0.0,
}


@dataclass(frozen=True)
class Words:
    """A label: its lines, how they are set, and the symbol that may stand before the first."""

    lines: tuple[str, ...]
    style: Style = PLAIN
    symbol: str = ""

    @cached_property
    def width(self) -> float:
        """Width in pixels, with 2 px of air on either side."""
        first = width_of_symbol(self.symbol, self.style) + width_of(self.lines[0], self.style)
        return max([first, *(width_of(line, self.style) for line in self.lines[1:])]) + 4

    @cached_property
    def height(self) -> float:
        """Height in pixels."""
        return self.style.size * (LINE_GAP * (len(self.lines) - 1) + 1.06)

    def on_one_line(self) -> "Words":
        """The same label without its line breaks."""
        return Words((" ".join(self.lines),), self.style, self.symbol)


def number(value: float) -> str:
    """A coordinate as short as a tenth of a pixel allows."""
    text = f"{value:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text


def place(point: complex) -> str:
    """A point as it stands in path data."""
    return f"{number(point.real)} {number(point.imag)}"


def polyline(points: Sequence[complex]) -> str:
    """Path data of a run of straight lines."""
    return "M" + "L".join([place(point) for point in points])


def shape(points: Sequence[complex], kind: str, *, closed: bool = True) -> str:
    """A run of straight lines as an element of the drawing."""
    return f'<path class="{kind}" d="{polyline(points)}{"Z" if closed else ""}"/>'


class Canvas:
    """One drawing in the making.

    `segments` are the lines that labels keep clear of, `boxes` the texts already set, `frame`
    the least and greatest x that a label may take, `floor` the greatest y.
    `left`, `top`, `right` and `bottom` bound what has been drawn so far.
    """

    def __init__(self, name: str, width: int, title: str) -> None:
        """Begin an empty drawing; `name` prefixes the ids of its elements."""
        self.name = name
        self.width = width
        self.title = title
        self.frame = (EDGE, width - EDGE)
        self.floor = float("inf")
        self.segments: list[Segment] = []
        self.boxes: list[Box] = []
        self.left = self.top = float("inf")
        self.right = self.bottom = float("-inf")
        self._layers: list[list[str]] = [[], [], [], [], []]

    # -- what has been drawn ----------------------------------------------------------------

    def reserve(self, *points: complex) -> None:
        """Let the drawing reach to these points."""
        across, down = [point.real for point in points], [point.imag for point in points]
        self.left, self.right = min(self.left, *across), max(self.right, *across)
        self.top, self.bottom = min(self.top, *down), max(self.bottom, *down)

    def avoid(self, points: Sequence[complex], weight: float) -> None:
        """Keep labels off the run of lines through these points."""
        for start, end in pairwise(points):
            self.segments.append(Segment(start.real, start.imag, end.real, end.imag, weight))

    def put(self, layer: int, markup: str) -> None:
        """Add markup that needs no room of its own."""
        self._layers[layer].append(markup)

    # -- lines ------------------------------------------------------------------------------

    def line(self, start: complex, end: complex, kind: str, layer: int = BODY) -> None:
        """A straight line of one of the kinds in the style sheet."""
        self.polygon((start, end), kind, layer, closed=False)

    def extension(self, start: complex, end: complex, layer: int = BACKGROUND) -> None:
        """The thin line that carries a dimension away from the part."""
        self.put(layer, shape((start, end), "thin", closed=False))
        self.reserve(start, end)
        self.avoid((start, end), _WEIGHT["extension"])

    def polygon(
        self,
        points: Sequence[complex],
        kind: str,
        layer: int = BODY,
        *,
        closed: bool = True,
        weight: float | None = None,
    ) -> None:
        """A run of straight lines; `kind` may add a fill, as in "visible paper"."""
        self.put(layer, shape(points, kind, closed=closed))
        self.reserve(*points)
        if weight is None:
            weight = _WEIGHT.get(kind.partition(" ")[0], 1.0)
        if weight:
            self.avoid([*points, points[0]] if closed else points, weight)

    def arrowhead(self, tip: complex, direction: complex, size: float = 10, layer: int = BODY) -> None:
        """A filled head three times as long as wide, its tip on a point."""
        back, half = tip - direction * size, left_of(direction) * size / 6
        corners = (tip, back + half, back - half)
        self.put(layer, shape(corners, "ink"))
        self.reserve(*corners)

    def circle(self, centre: complex, radius: float, kind: str, layer: int = BODY) -> None:
        """A circle."""
        self.put(
            layer,
            f'<circle class="{kind}" cx="{number(centre.real)}" cy="{number(centre.imag)}" r="{number(radius)}"/>',
        )
        ring = [centre + towards(step * pi / 8) * radius for step in range(17)]
        self.reserve(*ring)
        self.avoid(ring, _WEIGHT.get(kind.partition(" ")[0], 1.0))

    def arc(
        self,
        centre: complex,
        radius: float,
        start: float,
        end: float,
        kind: str,
        layer: int = BODY,
    ) -> list[complex]:
        """An arc from one angle to another; returns points along it, both ends included."""
        steps = max(2, ceil(abs(end - start) * 8))
        points = [centre + towards(start + (end - start) * step / steps) * radius for step in range(steps + 1)]
        size = number(radius)
        flags = f"{int(abs(end - start) > pi)} {int(end < start)}"
        data = f"M{place(points[0])}A{size} {size} 0 {flags} {place(points[-1])}"
        self.put(layer, f'<path class="{kind}" d="{data}"/>')
        self.reserve(*points)
        self.avoid(points, _WEIGHT.get(kind.partition(" ")[0], 1.0))
        return points

    def hatch(self, corners: Sequence[complex], gap: float, angle: float = pi / 4, layer: int = BODY) -> None:
        """Section lines inside a polygon."""
        lines = section_lines(corners, gap, angle)
        if lines:
            data = "".join([f"M{place(start)}L{place(end)}" for start, end in lines])
            self.put(layer, f'<path class="hatch" d="{data}"/>')

    # -- text -------------------------------------------------------------------------------

    def write(self, words: Words, x: float, top: float, anchor: str = "start") -> Box:
        """Set a label whose box begins at `top`; `x` is its edge or its middle, as `anchor` says."""
        width, height, style = words.width, words.height, words.style
        left = {"start": x, "middle": x - width / 2, "end": x - width}[anchor]
        at = {"start": left + 2, "middle": left + width / 2, "end": left + width - 2}[anchor]
        attributes = f' class="{style.name}"' if style.name else ""
        if anchor != "start":
            attributes += f' text-anchor="{anchor}"'
        for row, line in enumerate(words.lines):
            baseline = top + style.size * (0.78 + LINE_GAP * row)
            symbol = f'<tspan class="symbol">{words.symbol}</tspan> ' if words.symbol and not row else ""
            self.put(
                LETTERING,
                f'<text x="{number(at)}" y="{number(baseline)}"{attributes}>{symbol}{escape(line, quote=False)}</text>',
            )
        box = Box(left, top, left + width, top + height)
        self.boxes.append(box)
        self.reserve(complex(box.left, box.top), complex(box.right, box.bottom))
        return box

    # -- the finished drawing ---------------------------------------------------------------

    def svg(self, alt: str) -> str:
        """The SVG element, with a sentence that says what it shows."""
        height = self.bottom - self.top + 2 * PADDING
        frame = f"0 {number(self.top - PADDING)} {self.width} {number(height)}"
        body = "".join(["".join(layer) for layer in self._layers])
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing" viewBox="{frame}" role="img"'
            f' aria-labelledby="{self.name}-title {self.name}-desc">'
            f'<title id="{self.name}-title">{escape(self.title, quote=False)}</title>'
            f'<desc id="{self.name}-desc">{escape(alt, quote=False)}</desc>{body}</svg>'
        )
