"""A single wedge driven under a planter."""

from __future__ import annotations

from dataclasses import dataclass

from . import dimensions, forces, parts, travels, wedge_parts
from .canvas import BODY, Canvas, Words
from .labels import Label, settle
from .letters import EFFORT
from .scales import Path, Scales, scale_bars
from .scene import Scene
from .wedge_forces import Triangle, lean_of, triangle_room
from .wedge_forces import draw as draw_triangle

_LONGEST_WIDE, _LONGEST_NARROW = 74.0, 58.0
_TALLEST = 150.0
_PACKING = 26.0
_LEAST_ROOM = 40.0
"""For wedge and planter, however long the words beside them are."""


@dataclass(frozen=True)
class _Place:
    """The wedge and the planter on the paper: the planter's near corner stands over x = `edge`."""

    edge: float
    scale: float
    length: float
    thick: float
    planter: float
    tall: float
    force_scale: float

    def tip(self, travel: float) -> float:
        """How far right the tip has come."""
        return self.edge + self.length * travel

    def lift(self, travel: float) -> float:
        """How high the planter stands."""
        return self.thick * travel


def compose(canvas: Canvas, scene: Scene) -> None:
    """Draw the wedge on the ground, the planter on it, and the forces. Values: ell, t, R, E and the rest."""
    triangle = lean_of(scene)
    place = _lay_out(scene, triangle)
    travel = scene.travel
    parts.ground(canvas, canvas.frame[0] + 2, place.edge + place.planter + 16, 0)
    _stack(canvas, place, travel)
    tip, lift = place.tip(travel), place.lift(travel)
    butt = tip - place.length
    wedge_parts.planter(canvas, place.edge, place.edge + place.planter, -lift, place.tall)
    corners = (complex(tip, 0), complex(butt, 0), complex(butt, -place.thick))
    wedge_parts.wedge(canvas, corners)
    labels = [*_effort(canvas, scene, place, butt), *_load(canvas, scene, place, lift)]
    _thickness(canvas, scene, place, butt)
    canvas.reserve(complex(place.edge, -place.thick - place.tall - 40))
    if scene.text("alpha"):
        at = complex(tip - place.length * 0.3, -place.thick * 0.15)
        words = Words((scene.text("alpha"),), symbol="α")
        labels.append(Label(at, words, "S SSW SW SSE SE", (24.0, 32.0, 42.0, 56.0), leader=True))
    reserve_load(canvas, scene, place)
    settle(canvas, labels)
    row = max(canvas.bottom + 16, 36)
    if scene.text("ell"):
        for x in (butt, tip):
            dimensions.drop(canvas, x, 9.0, row)
        row = dimensions.level(canvas, butt, tip, row, Words(("length", scene.text("ell"))).on_one_line())
    canvas.reserve(complex(place.edge, row))
    if triangle:
        row = draw_triangle(canvas, triangle, place.force_scale, row)
    foot(canvas, scene, place.scale, place.force_scale, row)


def foot(canvas: Canvas, scene: Scene, scale: float, force_scale: float, row: float) -> None:
    """Both ways as bars and the scales."""
    ways = [
        Path(Words((f"{words} {scene.text(symbol)}".strip(),)), scene.values[symbol] * scale, symbol == "dE")
        for symbol, words in (("dE", "effort path"), ("dR", "load path"))
        if 0 < scene.values.get(symbol, 0) * scale < scene.width - 30
    ]
    row = travels.bars(canvas, 10, row - 4, ways, scene.travel)
    longest = _LONGEST_WIDE if scene.wide else _LONGEST_NARROW
    most = longest / force_scale if force_scale else 0.0
    scale_bars(canvas, 10, row + 6, Scales(scale, scene.length_unit, force_scale, scene.force_unit, most))


def force_scale_of(scene: Scene) -> float:
    """Pixels per newton, the longest of all forces at the longest arrow; 0 if none is known."""
    known = [scene.values[s] for s in ("R", "E", "F_1", "F_2") if scene.values.get(s, 0) > 0]
    return (_LONGEST_WIDE if scene.wide else _LONGEST_NARROW) / max(known) if known else 0.0


def let_go(scene: Scene) -> bool:
    """Whether the wedge is home and nobody pushes it: it stays in by itself."""
    return scene.travel >= 0.999 and scene.values.get("E_out", 0) > 0


def _lay_out(scene: Scene, triangle: Triangle | None) -> _Place:
    force_scale = force_scale_of(scene)
    arrow = forces.arrow(0, 1, scene.values.get("E", 0.0) * force_scale).length if scene.values.get("E", 0) > 0 else 0.0
    words = _thickness_words(scene)
    left = 10 + arrow + 24 + words.width
    right = 20.0 + _PACKING / 2
    if triangle and scene.wide:
        right += triangle_room(triangle, force_scale)
    room = max(scene.width - left - right, _LEAST_ROOM)
    length, thick = scene.values["ell"], scene.values["t"]
    scale = min(room / (2.3 * length), _TALLEST / thick)
    planter = max(1.3 * length * scale, min(room - length * scale, 130.0 if scene.wide else 90.0))
    spare = max(room - length * scale - planter, 0.0)
    tall = min(max(planter * 0.42, 40.0), 96.0 if scene.wide else 70.0)
    edge = left + spare / 2 + length * scale
    return _Place(edge, scale, length * scale, thick * scale, planter, tall, force_scale)


def _stack(canvas: Canvas, place: _Place, travel: float) -> None:
    """The packing under the far end, which keeps the planter level."""
    lift = place.lift(travel)
    if lift < 1.5:
        return
    right = place.edge + place.planter - 6
    corners = (
        complex(right - _PACKING, 0),
        complex(right, 0),
        complex(right, -lift),
        complex(right - _PACKING, -lift),
    )
    canvas.polygon(corners, "lesser paper", BODY)
    for i in range(1, int(lift / 8) + 1):
        y = -lift * i / (int(lift / 8) + 1)
        canvas.line(complex(right - _PACKING, y), complex(right, y), "thin", BODY)


def _effort(canvas: Canvas, scene: Scene, place: _Place, butt: float) -> list[Label]:
    """The push on the butt; none where friction holds the wedge that has been driven home."""
    at = complex(butt - 2, -place.thick / 2)
    if let_go(scene):
        return [Label(complex(butt, -place.thick), Words(("let go:", "it stays in")), "NNW NW N W WNW")]
    force = scene.values.get("E", 0.0)
    if force <= 0:
        return []
    arrow = forces.arrow(at, 1, force * place.force_scale).ending_at(at)
    forces.effort(canvas, arrow)
    text = scene.text("E")
    words, two = Words((f"effort {text}".strip(),), EFFORT), Words(("effort", text), EFFORT)
    first, second = (words, two) if scene.wide else (two, words)
    return [Label(arrow.middle - 6j, arrow.note(first), "N NNW NNE NW", narrower=arrow.note(second))]


def _load(canvas: Canvas, scene: Scene, place: _Place, lift: float) -> list[Label]:
    """The load's arrow from the middle of the planter."""
    force = scene.values.get("R", 0.0)
    if force <= 0:
        return []
    at = complex(place.edge + place.planter * 0.62, -lift - place.tall * 0.5)
    arrow = forces.arrow(at, 1j, force * place.force_scale)
    forces.load(canvas, arrow)
    parts.centre_of_gravity(canvas, at)
    text = scene.text("R")
    words, two = Words((f"load {text}".strip(),)), Words(("load", text))
    return [Label(arrow.tip - 4j, arrow.note(words), "E SE W SW S", narrower=arrow.note(two))]


def reserve_load(canvas: Canvas, scene: Scene, place: _Place) -> None:
    """Keep the height the same wherever the wedge stands."""
    force = max(scene.values.get("R", 0.0), 0.0) * place.force_scale
    canvas.reserve(complex(place.edge, -place.tall * 0.5 + force))


def _thickness_words(scene: Scene) -> Words:
    return Words(("thickness", scene.text("t")))


def _thickness(canvas: Canvas, scene: Scene, place: _Place, butt: float) -> None:
    """The thickness at the butt: left of the effort's arrow, or enlarged where it is too thin."""
    words = _thickness_words(scene)
    if place.thick < wedge_parts.THIN:
        centre = complex(canvas.frame[0] + wedge_parts.RADIUS + 22, -wedge_parts.RADIUS - 62)
        slope = place.thick / place.length
        wedge_parts.butt_detail(canvas, scene.text("t"), complex(butt, 0), place.thick, slope, centre)
        return
    force = scene.values.get("E", 0.0)
    arrow = forces.arrow(0, 1, force * place.force_scale).length if force > 0 else 0.0
    ends = (complex(butt, -place.thick), complex(butt, 0))
    wedge_parts.upright(canvas, butt - arrow - 16, ends, words)
