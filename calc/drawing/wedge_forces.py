"""The triangle of forces on a wedge: the push, and what face and base, or both faces, give back, friction included."""

from __future__ import annotations

from dataclasses import dataclass

from . import forces
from .canvas import Canvas, Words
from .labels import Label, settle
from .letters import EFFORT, HEADING
from .scene import Scene

_TITLE = Words(("FORCES ON THE WEDGE",), HEADING)


@dataclass(frozen=True)
class Triangle:
    """The forces on the wedge as vectors in newtons (x right, y down), head to tail, and their labels."""

    effort: complex
    second: complex
    third: complex
    labels: tuple[Words, Words, Words]
    wide: bool

    @property
    def corners(self) -> tuple[complex, complex, complex]:
        """Where the three arrows begin, in newtons."""
        return 0j, self.effort, self.effort + self.second


def lean_of(scene: Scene) -> Triangle | None:
    """The triangle of a scene; None while friction is not known.

    It is drawn from the forces that the scene holds: E, R or V, F_1 and F_2 in newtons.
    """
    v = scene.values
    if not all(v.get(symbol, 0) > 0 for symbol in ("E", "F_1", "R")):
        return None
    named = [Words(("effort", scene.text("E")), EFFORT)]
    if scene.choices.get("kind") == "double":
        half = complex(v["R"], -v["E"] / 2)
        named += [Words(("one face", scene.text("F_1"))), Words(("other face", scene.text("F_1")))]
        return Triangle(
            complex(0, v["E"]), half, complex(-v["R"], -v["E"] / 2), (named[0], named[1], named[2]), scene.wide
        )
    if not (v.get("F_2", 0) > 0 and v.get("V", 0) > 0):
        return None
    side = max(v["F_2"] ** 2 - v["V"] ** 2, 0.0) ** 0.5  # friction under the wedge, against the push
    base = complex(-side, -v["V"])
    named += [Words(("base", scene.text("F_2"))), Words(("face", scene.text("F_1")))]
    return Triangle(complex(v["E"], 0), base, -(v["E"] + base), (named[0], named[1], named[2]), scene.wide)


def _span(triangle: Triangle, scale: float) -> tuple[float, float, float, float]:
    points = [corner * scale for corner in triangle.corners]
    across, down = [p.real for p in points], [p.imag for p in points]
    return min(across), max(across), min(down), max(down)


def triangle_room(triangle: Triangle, scale: float) -> float:
    """Pixels across that the view needs beside the machine."""
    low, high, _, _ = _span(triangle, scale)
    effort, second, third = (words.width for words in triangle.labels)
    if triangle.effort.real == 0:
        return max(effort + 14 + high - low + 14 + max(second, third) * 0.5, _TITLE.width) + 20
    return max(third + 14 + high - low + 14 + second, _TITLE.width) + 20


def draw(canvas: Canvas, triangle: Triangle, scale: float, row: float) -> float:
    """Set the view beside the machine (wide) or below it (narrow); returns the y below everything."""
    low, high, top, bottom = _span(triangle, scale)
    title_room = 22 + triangle.labels[0].height
    if triangle.wide:
        room = triangle_room(triangle, scale)
        left, right = canvas.width - room + 6, canvas.width - 4.0
        y = min(row - bottom - 60, (canvas.top + row) / 2 - (top + bottom) / 2)
    else:
        left, right = canvas.frame
        y = row + title_room + 22 - top
    middle = (left + right) / 2
    if triangle.effort.real == 0:
        origin = complex(left + triangle.labels[0].width + 18 - low, y)
    else:
        origin = complex(middle - (low + high) / 2, y)
    frame, canvas.frame = canvas.frame, (left, right)
    canvas.write(
        _TITLE,
        min(max(middle, left + _TITLE.width / 2), right - _TITLE.width / 2),
        origin.imag + top - title_room - 14,
        "middle",
    )
    starts = [origin + corner * scale for corner in triangle.corners]
    arrows = []
    for start, force in zip(starts, (triangle.effort, triangle.second, triangle.third), strict=True):
        length = abs(force)
        arrows.append(forces.Arrow(start, force / length, length * scale))
    forces.reaction(canvas, arrows[1])
    forces.reaction(canvas, arrows[2])
    forces.effort(canvas, arrows[0])
    sides = ("S SSE SSW SE SW", "E ENE ESE NE SE", "W WNW WSW NW SW")
    if triangle.effort.real == 0:
        sides = ("W WNW WSW", "SE SSE ESE S E", "NE NNE ENE N E")
    settle(
        canvas,
        [Label(arrow.middle, words, way) for arrow, words, way in zip(arrows, triangle.labels, sides, strict=True)],
    )
    canvas.frame = frame
    return row if triangle.wide else canvas.bottom + 22
