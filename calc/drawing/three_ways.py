"""Up to three ways to raise one load, each a rectangle: effort tall, effort distance wide, work its area."""

from __future__ import annotations

from dataclasses import replace

from . import work
from .canvas import BODY, EDGE, Canvas, Words, shape
from .labels import wrapped
from .scales import Scales, scale_bars, upright_force_bar
from .scene import Drawing, Scene

_WAYS = (1, 2, 3)
_GAP = 18.0
_ACCENT = 4.0


def draw(scene: Scene) -> Drawing | None:
    """Draw each way whose effort and effort distance are known; None while there is none.

    Values: E_1, dE_1, Win_1, Wlost_1, E_2, ... in newtons, metres and joules. Texts: way_1 to way_3, their names.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    areas = _areas(scene)
    caption = work.CAPTION + " Hatched: the work on the load, the same on every way."
    if any(area.lost for area in areas):
        caption += " Dotted: lost."
    said = []
    for area in areas:
        parts = (*_lines(area), f"{area.force_text} through {area.distance_text}", area.lost_text if area.lost else "")
        said.append(", ".join(filter(None, parts)))
    alt = f"Ways to raise one load: {'; '.join(said)}."
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The rectangles before they are written out; None while there is none."""
    areas = _areas(scene)
    if not areas:
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Ways to raise one load")
    columns = len(areas) if scene.wide else 1
    column = (scene.width - 2 * EDGE) / columns
    beside = max(Words((area.force_text,)).width for area in areas) + 10
    across = max(column - beside - 8, 20.0) / max(area.distance for area in areas)
    most = max(area.force for area in areas)
    up = work.TALLEST / most
    base = 0.0
    for index, area in enumerate(areas):
        left = EDGE + column * (index if scene.wide else 0)
        if index and not scene.wide:
            base = (
                canvas.bottom
                + _GAP
                + wrapped(Words(tuple(area.title.split("\n"))), column - 8).height
                + area.force * up
            )
        work.rectangle(canvas, area, left, base, across, up, column)
        top = base - area.force * up
        edge = (left, left + min(_ACCENT, area.distance * across))
        corners = (*(complex(x, base) for x in edge), *(complex(x, top) for x in reversed(edge)))
        canvas.put(BODY, shape(corners, "effort"))
    scales = Scales(across, scene.length_unit, up, scene.force_unit, most)
    foot = canvas.bottom
    scale_bars(canvas, 10, foot + 44, replace(scales, force=0.0))
    upright_force_bar(canvas, canvas.width * 0.62, foot + 62, scales)
    return canvas


def _lines(area: work.Area) -> tuple[str, ...]:
    return tuple(area.title.split("\n"))


def _areas(scene: Scene) -> list[work.Area]:
    values, areas = scene.values, []
    for i in _WAYS:
        if not (values.get(f"E_{i}", 0) > 0 and values.get(f"dE_{i}", 0) > 0):
            continue
        lost, put_in = values.get(f"Wlost_{i}", 0.0), values.get(f"Win_{i}", 0.0)
        name = f"{i}. {scene.text(f'way_{i}')}".strip()
        areas.append(
            work.Area(
                False,
                values[f"E_{i}"],
                values[f"dE_{i}"],
                scene.text(f"E_{i}"),
                scene.text(f"dE_{i}"),
                f"{name}\nwork in {scene.text(f'Win_{i}')}",
                lost / put_in if 0 < lost < put_in and lost / put_in > 1e-9 else 0.0,
                f"lost {scene.text(f'Wlost_{i}')}",
            )
        )
    return areas
