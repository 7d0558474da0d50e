"""Force arrows, all of a drawing to one scale.

Four kinds are told apart without colour: the effort is solid, the load outlined and hatched,
a reaction thin with an open head, a part of a force dashed.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .canvas import OVERLAY, Canvas, Words, shape
from .plane import left_of

LONGEST_WIDE = 90.0
LONGEST_NARROW = 66.0
"""Length in pixels of the longest arrow."""

_VISIBLE = 7.0
"""A shorter arrow is lengthened by a round number, and says so."""

_STRETCHES = (2, 5, 10, 20, 50, 100, 200, 500, 1000)


@dataclass(frozen=True)
class Arrow:
    """An arrow on the paper: where its tail is, which way it points, how long it is drawn.

    `stretch` is how many times longer it is than the force scale says.
    """

    tail: complex
    direction: complex
    length: float
    stretch: int = 1

    @property
    def tip(self) -> complex:
        """The point of the arrow."""
        return self.tail + self.direction * self.length

    @property
    def middle(self) -> complex:
        """The point half way along."""
        return self.tail + self.direction * self.length / 2

    def ending_at(self, tip: complex) -> "Arrow":
        """The same arrow moved so that its tip is at a point."""
        return replace(self, tail=tip - self.direction * self.length)

    def note(self, words: Words) -> Words:
        """The label, with the stretch added when there is one."""
        if self.stretch == 1:
            return words
        return replace(words, lines=(*words.lines, f"(arrow × {self.stretch})"))


def arrow(tail: complex, direction: complex, length: float) -> Arrow:
    """An arrow of a length in pixels, lengthened by a stated factor if it would be too short to see."""
    if length >= _VISIBLE:
        return Arrow(tail, direction, length)
    stretch = next((factor for factor in _STRETCHES if length * factor >= 8), _STRETCHES[-1])
    return Arrow(tail, direction, max(length * stretch, 8.0), stretch)


def _outline(force: Arrow, half_shaft: float, head: float, half_head: float) -> Sequence[complex]:
    """Corners of a block arrow."""
    along, side = force.direction, left_of(force.direction)
    neck = force.tip - along * head
    return (
        force.tail + side * half_shaft,
        neck + side * half_shaft,
        neck + side * half_head,
        force.tip,
        neck - side * half_head,
        neck - side * half_shaft,
        force.tail - side * half_shaft,
    )


def _keep_clear(canvas: Canvas, force: Arrow, half: float) -> None:
    side = left_of(force.direction) * half
    canvas.reserve(force.tail, force.tip, force.tail + side, force.tail - side)
    canvas.reserve(force.tip + side, force.tip - side)
    for shift in (-side, 0, side) if half > 3 else (0,):
        canvas.avoid((force.tail + shift, force.tip + shift), 6)


def effort(canvas: Canvas, force: Arrow) -> None:
    """The effort: a solid arrow in the accent colour."""
    length = force.length
    if length > 12:
        head, half_shaft = min(18.0, length * 0.7), 2.6
        half_head = min(6.5, head * 0.42)
    else:
        head, half_shaft, half_head = length, 0.0, 3.5
    outline = _outline(force, half_shaft, head, half_head)
    canvas.put(OVERLAY, shape(outline, "effort"))
    _keep_clear(canvas, force, half_head)


def load(canvas: Canvas, force: Arrow) -> None:
    """A load: an outlined arrow with hatching."""
    head = min(18.0, force.length * 0.6)
    half_head = min(10.0, head * 0.62)
    outline = _outline(force, min(4.6, half_head * 0.5), head, half_head)
    canvas.polygon(outline, "lesser paper", OVERLAY, weight=0)
    canvas.hatch(outline, 3.6, layer=OVERLAY)
    _keep_clear(canvas, force, half_head)


def reaction(canvas: Canvas, force: Arrow) -> None:
    """A normal force or friction: a thin line with an open head."""
    head = min(12.0, force.length * 0.7)
    neck, side = force.tip - force.direction * head, left_of(force.direction) * head * 0.36
    canvas.polygon((force.tail, neck), "lesser", OVERLAY, closed=False, weight=0)
    canvas.polygon((neck + side, force.tip, neck - side), "lesser paper", OVERLAY, weight=0)
    _keep_clear(canvas, force, 3)


def part(canvas: Canvas, force: Arrow) -> None:
    """A part of a force: a dashed line with a small filled head."""
    head = min(10.0, force.length * 0.7)
    neck = force.tip - force.direction * head * 0.8
    canvas.polygon((force.tail, neck), "hidden", OVERLAY, closed=False, weight=0)
    canvas.arrowhead(force.tip, force.direction, head, OVERLAY)
    _keep_clear(canvas, force, 3)
