"""The forces on a crate that rubs on its plank, in a small view of their own beside the ramp.

The weight is split into its two parts. Friction is drawn on from the tip of the part along the
plank, so that both together are seen to equal a pull along it.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import cos, pi, sin

from . import forces, parts
from .canvas import Canvas, Words
from .labels import LEADER, Label, settle
from .letters import EFFORT, HEADING
from .plane import left_of, towards

_TITLE = Words(("FORCES ON THE CRATE",), HEADING)
_RESISTED = ("up", "start")
"""Motions in which friction points down the plank."""


@dataclass(frozen=True)
class CrateForces:
    """What acts on the crate: newtons, angles in radians from the level, shown texts by symbol."""

    angle: float
    pull: float
    motion: str
    along_ramp: bool
    load: float
    effort: float
    normal: float
    friction: float
    texts: Mapping[str, str]

    def words(self, name: str, symbol: str) -> Words:
        """A label of two lines: a name and a quantity as shown."""
        text = self.texts.get(symbol, "")
        return Words((name, text) if text else (name,), EFFORT if symbol == "E" else Words((name,)).style)

    def part(self, name: str, symbol: str) -> Words:
        """The label of a part of the weight, with its number where the scene has one."""
        text = self.texts.get(symbol, "")
        return Words((name, text or "part"))


@dataclass(frozen=True)
class _View:
    """The arrows about the centre of gravity at the origin."""

    load: forces.Arrow
    normal: forces.Arrow
    along: forces.Arrow
    square: forces.Arrow
    effort: forces.Arrow | None
    friction: forces.Arrow | None

    @property
    def arrows(self) -> list[forces.Arrow]:
        return [a for a in (self.load, self.normal, self.along, self.square, self.effort, self.friction) if a]


def _view(on: CrateForces, scale: float, origin: complex = 0j) -> _View:
    up_plank = towards(on.angle)
    off_plank = left_of(up_plank)
    along = forces.arrow(origin, -up_plank, on.load * sin(on.angle) * scale)
    effort = None
    if on.effort:
        tail = along.tip if on.motion == "push" else origin
        effort = forces.arrow(tail, towards(on.pull), on.effort * scale)
    friction = None
    if on.friction:
        if on.motion in _RESISTED:
            tail, way = along.tip, -up_plank
        else:
            held = effort is not None and on.along_ramp and on.motion != "push"
            tail, way = (effort.tip if held and effort else origin), up_plank
        friction = forces.arrow(tail, way, on.friction * scale)
    return _View(
        load=forces.arrow(origin, 1j, on.load * scale),
        normal=forces.arrow(origin, off_plank, on.normal * scale),
        along=along,
        square=forces.arrow(origin, -off_plank, on.load * cos(on.angle) * scale),
        effort=effort,
        friction=friction,
    )


def view_room(on: CrateForces, scale: float) -> tuple[float, float]:
    """Pixels that arrows and labels need to the left and right of the centre of gravity."""
    left = right = max(_TITLE.width / 2, 8)
    for label in _labels(on, _view(on, scale)):
        x = label.at.real
        air = LEADER[1] if label.leader else 12.0
        width = min(words.width for words in (label.words, label.narrower) if words)
        if abs(x) < 3:
            left, right = max(left, width / 2), max(right, width / 2)
        elif x < 0:
            left = max(left, air - x + width)
        else:
            right = max(right, air + x + width)
    return left + 8, right + 8


def draw_beside(canvas: Canvas, on: CrateForces, scale: float, floor: float) -> None:
    """Set the view to the right of the ramp, half way up the drawing but not below the floor."""
    left, right = view_room(on, scale)
    _, _, low, high = _extent(on, scale)
    x = canvas.width - right
    y = min((canvas.top + canvas.bottom - low - high) / 2 - 10, floor - high - 46)
    frame, canvas.frame, canvas.floor = canvas.frame, (x - left, canvas.width - 4.0), floor
    _draw(canvas, on, scale, complex(x, y))
    canvas.frame, canvas.floor = frame, float("inf")


def draw_below(canvas: Canvas, on: CrateForces, scale: float, top: float) -> float:
    """Set the view below the ramp (narrow); returns the y below it."""
    low_x, high_x, low_y, high_y = _extent(on, scale)
    origin = complex(canvas.width / 2 - (low_x + high_x) / 2, top + 66 - low_y)
    canvas.reserve(origin + 1j * high_y)
    _draw(canvas, on, scale, origin)
    return canvas.bottom + 22


def _extent(on: CrateForces, scale: float) -> tuple[float, float, float, float]:
    """Least and greatest x and y of the arrows about the centre of gravity."""
    points = [point for arrow in _view(on, scale).arrows for point in (arrow.tail, arrow.tip)]
    across, down = [point.real for point in points], [point.imag for point in points]
    return min(across), max(across), min(down), max(down)


def _draw(canvas: Canvas, on: CrateForces, scale: float, origin: complex) -> None:
    view = _view(on, scale, origin)
    highest = min(min(arrow.tip.imag, arrow.tail.imag) for arrow in view.arrows)
    half = _TITLE.width / 2
    middle = min(max(origin.real, canvas.frame[0] + half), canvas.frame[1] - half)
    canvas.write(_TITLE, middle, highest - 62, "middle")

    up_plank = towards(on.angle)
    reach = max(view.along.length + (view.friction.length if view.friction else 0), 40) + 12
    canvas.line(origin - up_plank * reach, origin + up_plank * reach, "centre")
    if view.along.stretch == view.square.stretch == 1:
        canvas.line(view.along.tip, view.load.tip, "hatch")
        canvas.line(view.square.tip, view.load.tip, "hatch")
    forces.part(canvas, view.square)
    forces.part(canvas, view.along)
    forces.load(canvas, view.load)
    forces.reaction(canvas, view.normal)
    if view.friction:
        forces.reaction(canvas, view.friction)
    if view.effort:
        forces.effort(canvas, view.effort)
    parts.centre_of_gravity(canvas, origin)
    canvas.avoid((origin - 6, origin + 6), 6)
    settle(canvas, _labels(on, view))


def _labels(on: CrateForces, view: _View) -> list[Label]:
    """The labels, those first that need a leader and have the least choice."""
    steep = on.angle > pi / 6
    words = view.along.note(on.part("along", "R_along"))
    sides = "WNW W NW SW SSW" if steep else "SW WSW SSW W NW"
    labels = [Label(view.along.middle, words, sides, LEADER, leader=True)]
    if view.friction:
        words = view.friction.note(on.words("friction", "F_f"))
        if view.friction.direction.imag < 0:
            sides = "ESE SE E SSE N" if steep else "SE ESE SSE NE NNE"
        else:
            sides = "SW WSW W S NW" if steep else "NW NNW WNW W SW S"
        labels.append(Label(view.friction.middle, words, sides, LEADER, leader=True))
    words = view.square.note(on.part("square", "R_square"))
    labels.append(Label(view.square.tip, words, "E ENE SE ESE S"))
    if view.effort:
        words = view.effort.note(on.words("effort", "E"))
        leftward = view.effort.direction.real < 0
        sides = "W WSW WNW SW NW N E" if leftward else "E ENE ESE SE NE N W SW"
        labels.append(Label(view.effort.tip, words, sides))
    labels += [
        Label(view.load.tip, view.load.note(on.words("load", "R")), "S SW SE E W"),
        Label(view.normal.tip, view.normal.note(on.words("normal", "N")), "N NW W WNW NE E SW"),
    ]
    return labels
