"""One side of a bent lever: its arm, the line of its force, and the moment arm square to that line."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import cos, pi, sin

from . import dimensions, forces
from .canvas import BACKGROUND, OVERLAY, Canvas, Words
from .labels import LEADER, Label
from .letters import EFFORT
from .plane import rectangle, towards
from .scene import Scene

_SQUARE = 1.5 * pi / 180
"""A force within this of square to its arm has its arm for a moment arm."""

_BEYOND = 30.0
"""Pixels that the lines of arm and force run on beyond the end of the arm."""

_ARC = 24.0


@dataclass(frozen=True)
class Side:
    """An arm from the pivot: its length in pixels, where it points, and the force at its end.

    `symbol` is E or R. `turned` is the angle from the arm's outward direction to the force, anticlockwise.
    `force` is the length of its arrow in pixels before any stretch, 0 if the force is not known.
    """

    symbol: str
    arm: float
    angle: float
    turned: float
    force: float

    @property
    def by_effort(self) -> bool:
        """Whether the hand pulls here."""
        return self.symbol == "E"

    @property
    def outward(self) -> complex:
        """From the pivot along the arm."""
        return towards(self.angle)

    @property
    def pull(self) -> complex:
        """The direction of the force."""
        return towards(self.angle + self.turned)

    @property
    def square(self) -> bool:
        """Whether the force is square to the arm."""
        return abs(abs(self.turned) - pi / 2) < _SQUARE

    @property
    def end(self) -> complex:
        """The end of the arm, from the pivot."""
        return self.outward * self.arm

    @property
    def foot(self) -> complex:
        """The point of the line of force that is nearest to the pivot."""
        return self.end - self.pull * self.arm * cos(self.turned)

    @property
    def arrow(self) -> forces.Arrow:
        """The force at the end of the arm, with the pivot at the origin."""
        return forces.arrow(self.end, self.pull, self.force)

    def points(self) -> list[complex]:
        """What the side reaches to, from the pivot."""
        tip = self.arrow.tip if self.force else self.end + self.pull * _BEYOND
        return [0j, self.end + self.outward * _BEYOND, self.foot, tip]


def body(canvas: Canvas, pin: complex, side: Side, half: float = 5.0) -> None:
    """The arm itself, a straight piece of bar."""
    middle = pin + side.end / 2
    canvas.polygon(rectangle(middle, side.outward, side.arm + 2 * half, -half, half), "visible paper")


def lines(canvas: Canvas, pin: complex, side: Side, *, full: bool) -> None:
    """The force and, where there is room (`full`), its line and the moment arm."""
    end = pin + side.end
    if full:
        foot = -side.arm * cos(side.turned)  # how far along the force, from the end of the arm
        first, last = min(foot - 12, -_BEYOND if side.square else 0), max(foot + 12, _BEYOND)
        canvas.line(end + side.pull * first, end + side.pull * last, "centre", BACKGROUND)
        if not side.square:
            canvas.line(end, end + side.outward * _BEYOND, "centre", BACKGROUND)
            canvas.line(pin, pin + side.foot, "hidden", OVERLAY)
            _corner(canvas, pin + side.foot, side)
            start, stop = side.angle, side.angle + side.turned
            canvas.arc(end, _ARC, start, stop, "thin", OVERLAY)
        else:
            _corner(canvas, end, side)
    if side.force:
        arrow = side.arrow
        arrow = replace(arrow, tail=pin + arrow.tail)
        (forces.effort if side.by_effort else forces.load)(canvas, arrow)


def _corner(canvas: Canvas, at: complex, side: Side) -> None:
    """The mark of a right angle between the line of force and the moment arm."""
    size = min(9.0, side.arm * abs(sin(side.turned)) / 3)
    inward = -side.foot / abs(side.foot) * size if abs(side.foot) > 1 else 0j
    along = side.pull * size * (-1 if side.square else 1)
    canvas.polygon((at + inward, at + inward + along, at + along), "thin", OVERLAY, closed=False)


def dimension(canvas: Canvas, scene: Scene, pin: complex, side: Side) -> None:
    """The arm, dimensioned on the side away from its force."""
    name = "effort arm" if side.by_effort else "load arm"
    words = Words((name, scene.text(f"a{side.symbol}")))
    start, end = (pin, pin + side.end) if side.by_effort else (pin + side.end, pin)
    beside = side.arm * cos(side.turned) * abs(sin(side.turned))  # how far the moment arm comes over to this side
    dimensions.sloping(canvas, start, end, max(26.0, beside + 16.0), words)


def labels(scene: Scene, pin: complex, side: Side, *, full: bool) -> Iterable[Label]:
    """The force's label, always; angle and moment arm where there is room (`full`)."""
    if full and not side.square:
        middle = pin + side.end + towards(side.angle + side.turned / 2) * _ARC
        way = towards(side.angle + side.turned / 2)
        yield Label(middle, Words((scene.text(f"psi_{side.symbol}"),)), _sides(way), (3.0, 7.0, 12.0, 20.0, 30.0))
        words = Words(("moment arm", scene.text(f"m_{side.symbol}")))
        inner = pin + side.foot / 2
        yield Label(inner, words, _sides(side.pull), LEADER, leader=True)
    if side.force:
        arrow = side.arrow
        name = "effort" if side.by_effort else "load"
        lines = (f"{name} {scene.text(side.symbol)}".strip(),) if scene.wide else (name, scene.text(side.symbol))
        words = arrow.note(
            Words(tuple(line for line in lines if line), EFFORT if side.by_effort else Words(("",)).style)
        )
        yield Label(pin + arrow.tip, words, _sides(side.pull))


def _sides(way: complex) -> str:
    """The sides in order of preference for a label that stands on from a direction."""
    compass = ("E", "NE", "N", "NW", "W", "SW", "S", "SE")
    first = max(range(8), key=lambda i: (towards(i * pi / 4) * way.conjugate()).real)
    order = [first, first + 1, first - 1, first + 2, first - 2, first + 3, first - 3, first + 4]
    return " ".join(compass[i % 8] for i in order)


def extent(sides: Iterable[Side]) -> tuple[float, float, float, float]:
    """Least and greatest x, least and greatest y of some sides, from the pivot."""
    points = [point for side in sides for point in side.points()]
    across, down = [point.real for point in points], [point.imag for point in points]
    return min(across), max(across), min(down), max(down)
