"""A double wedge driven between two blocks."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from . import dimensions, forces, parts, wedge_parts
from .canvas import Canvas, Words
from .labels import Label, settle
from .letters import EFFORT
from .scene import Scene
from .wedge_forces import Triangle, lean_of, triangle_room
from .wedge_forces import draw as draw_triangle
from .wedge_lift import foot, force_scale_of, let_go

_LONGEST = 150.0
"""The wedge's length on the paper, if its thickness lets it."""

_LEAST_BLOCK, _WIDEST_BLOCK = 26.0, 96.0
_FLOOR = 14.0


@dataclass(frozen=True)
class _Place:
    """The wedge and the blocks on the paper, the axis at x = `axis`, the ground at y = 0."""

    axis: float
    scale: float
    length: float
    thick: float
    block: float
    force_scale: float

    @property
    def high(self) -> float:
        """Height of the blocks: deep enough for the whole wedge."""
        return self.length + _FLOOR


def compose(canvas: Canvas, scene: Scene) -> None:
    """Draw blocks and wedge, and the forces. Values: ell, t, R, E and the rest."""
    triangle = lean_of(scene)
    place = _lay_out(scene, triangle)
    travel, axis = scene.travel, place.axis
    top = -place.high
    gap = place.thick * travel / 2
    outer = axis + gap + place.block
    parts.ground(canvas, axis - place.thick / 2 - place.block - 16, axis + place.thick / 2 + place.block + 16, 0)
    for side in (-1, 1):
        edges = sorted((axis + side * gap, axis + side * (gap + place.block)))
        wedge_parts.block(canvas, edges[0], edges[1], top, 0)
    tip = complex(axis, top + place.length * travel)
    corners = (tip, tip + complex(-place.thick / 2, -place.length), tip + complex(place.thick / 2, -place.length))
    wedge_parts.wedge(canvas, corners, pi / 2)
    labels = _effort(canvas, scene, place, tip - 1j * place.length)
    labels += _loads(canvas, scene, place, outer - axis)
    _reserve(canvas, scene, place)
    labels += _length(canvas, scene, place, tip)
    if scene.text("alpha"):
        at = corners[1] + (corners[0] - corners[1]) * (0.16 if travel < 0.8 else 0.04)
        words = Words((scene.text("alpha"), "each face"), symbol="α")
        labels.append(Label(at, words, "W WNW WSW NW", (22.0, 34.0, 50.0), leader=True))
    settle(canvas, labels)
    row = max(canvas.bottom, 8) + 14
    if triangle:
        row = draw_triangle(canvas, triangle, place.force_scale, row)
    foot(canvas, scene, place.scale, place.force_scale, row)


def _lay_out(scene: Scene, triangle: Triangle | None) -> _Place:
    force_scale = force_scale_of(scene)
    room = scene.width - 16.0
    if triangle and scene.wide:
        room -= triangle_room(triangle, force_scale)
    arrow = forces.arrow(0, 1, max(scene.values.get("R", 0.0), 0.0) * force_scale).length
    length, thick = scene.values["ell"], scene.values["t"]
    beside = 2 * (max(arrow, min(_load_words(scene).width + 6, 74.0)) + 10)
    scale = min(_LONGEST / length, max(room - beside - 2 * _LEAST_BLOCK, 30.0) / thick, 230.0 / thick)
    block = min(max((room - beside - thick * scale) / 2, _LEAST_BLOCK), _WIDEST_BLOCK)
    return _Place(8 + room / 2, scale, length * scale, thick * scale, block, force_scale)


def _effort(canvas: Canvas, scene: Scene, place: _Place, butt: complex) -> list[Label]:
    """The push on the butt with its thickness above; no hand where friction holds the wedge driven home."""
    force = scene.values.get("E", 0.0)
    arrow = forces.arrow(0, 1j, max(force, 0.0) * place.force_scale)
    reach = (arrow.length if force > 0 else 0.0) + 16
    row = butt.imag - reach
    for side in (-0.5, 0.5):
        x = butt.real + side * place.thick
        canvas.extension(complex(x, butt.imag - 3), complex(x, row - 4))
    half = place.thick / 2
    words = Words(("thickness", scene.text("t"))).on_one_line()
    beside = butt.real + half + (25 if place.thick < 24 else 5) + words.width + 4 <= canvas.frame[1]
    level = dimensions.level if beside or place.thick > words.width + 44 else wedge_parts.level_above
    level(canvas, butt.real - half, butt.real + half, row, words)
    if let_go(scene):
        return [
            Label(
                butt + half, Words(("let go: it stays in",)), "ENE NE E NNE", narrower=Words(("let go:", "it stays in"))
            )
        ]
    if force <= 0:
        return []
    arrow = arrow.ending_at(butt - 2j)
    forces.effort(canvas, arrow)
    text = scene.text("E")
    words, two = Words((f"effort {text}".strip(),), EFFORT), Words(("effort", text), EFFORT)
    return [
        Label(
            arrow.middle + 6, arrow.note(words), "W E WNW ENE", (max(8.0, half - 2), half + 8), narrower=arrow.note(two)
        )
    ]


def _loads(canvas: Canvas, scene: Scene, place: _Place, reach: float) -> list[Label]:
    """What each block pushes back with, from both sides."""
    force = scene.values.get("R", 0.0)
    if force <= 0:
        return []
    labels = []
    y = -place.high * 0.6
    words = _load_words(scene)
    for side in (-1, 1):
        at = complex(place.axis + side * (reach + 2), y)
        arrow = forces.arrow(at, -side, force * place.force_scale).ending_at(at)
        forces.load(canvas, arrow)
        middle = at.real + side * max(arrow.length / 2, words.width / 2 + 2)
        labels.append(Label(complex(middle, y - 8), arrow.note(words), "N NNE NNW S", narrower=words.on_one_line()))
    return labels


def _load_words(scene: Scene) -> Words:
    return Words(("load", scene.text("R")))


def _length(canvas: Canvas, scene: Scene, place: _Place, tip: complex) -> list[Label]:
    """The wedge's length over the right block, or on a leader where the block is too narrow for it."""
    words = Words(("length", scene.text("ell")))
    left, right = dimensions.upright_room(words, place.length)
    if left + right + 16 > place.block:
        at = tip + complex(place.thick * 0.44, -place.length * 0.88)
        return [Label(at, words, "E ENE NE ESE SE", (22.0, 34.0, 50.0), leader=True, narrower=words.on_one_line())]
    x = place.axis + place.thick / 2 + left + 8
    ends = (tip + complex(place.thick / 2, -place.length), tip)
    wedge_parts.upright(canvas, x, ends, words, (0.5, 0.72, 0.28))
    return []


def _reserve(canvas: Canvas, scene: Scene, place: _Place) -> None:
    """Keep the height the same wherever the wedge stands."""
    arrow = forces.arrow(0, 1j, max(scene.values.get("E", 0.0), 0.0) * place.force_scale).length
    canvas.reserve(complex(place.axis, -place.high - place.length - arrow - 34))
