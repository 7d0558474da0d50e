"""Work as area: a rectangle as tall as the force and as wide as the distance.

All rectangles of a drawing share one scale of forces and one of distances, so equal work is equal area.
"""

from dataclasses import dataclass, replace

from .canvas import BODY, EDGE, Canvas, Words, shape
from .labels import wrapped
from .letters import EFFORT, NOTE, PLAIN
from .scales import Scales, scale_bars, upright_force_bar
from .scene import Drawing, Scene

TALLEST = 84.0
_GAP = 16.0
CAPTION = "Force is tall, distance is wide: area is work."


@dataclass(frozen=True)
class Area:
    """One rectangle: its force and distance (SI and shown), its title, how much of it was lost.

    Solid where it is the effort's, else hatched. The title may have several lines. `lost` is the share of the height
    that stands for lost work, 0 to 1.
    """

    by_effort: bool
    force: float
    distance: float
    force_text: str
    distance_text: str
    title: str = ""
    lost: float = 0.0
    lost_text: str = ""


def draw(scene: Scene) -> Drawing | None:
    """Draw work in and work out; None while neither is known.

    Values: E, R in newtons, dE, dR in metres, Win, Wout, Wlost in joules.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    caption = CAPTION + (" The dotted part was lost." if _lost_share(scene) else "")
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The two rectangles before they are written out; None while neither is known."""
    areas = _areas(scene)
    if not areas:
        return None
    canvas = Canvas(f"{scene.key}-work-{scene.width}", scene.width, "Work in and work out")
    columns = len(areas) if scene.wide else 1
    column = (scene.width - 2 * EDGE) / columns
    beside = max(Words((area.force_text,)).width for area in areas) + 10
    across = max(column - beside - 8, 20.0) / max(area.distance for area in areas)
    up = TALLEST / max(area.force for area in areas)
    base = 0.0
    for index, area in enumerate(areas):
        if not scene.wide:
            base = canvas.bottom + _GAP + 20 + area.force * up if index else base
        rectangle(canvas, area, EDGE + (column * index if scene.wide else 0), base, across, up, column)
    return canvas


def _lost_share(scene: Scene) -> float:
    """Share of the work in that was lost; 0 unless it was measured and is possible."""
    lost, put_in = scene.values.get("Wlost", 0.0), scene.values.get("Win", 0.0)
    return lost / put_in if 0 < lost < put_in and lost / put_in > 1e-9 else 0.0


def _areas(scene: Scene) -> list[Area]:
    values, areas = scene.values, []
    for mine, force, distance, work, name in (
        (True, "E", "dE", "Win", "work in"),
        (False, "R", "dR", "Wout", "work out"),
    ):
        if values.get(force, 0) > 0 and values.get(distance, 0) > 0:
            areas.append(
                Area(
                    mine,
                    values[force],
                    values[distance],
                    scene.text(force),
                    scene.text(distance),
                    f"{name} {scene.text(work)}".strip(),
                    _lost_share(scene) if mine else 0.0,
                    f"lost {scene.text('Wlost')}".strip(),
                )
            )
    return areas


def rectangle(canvas: Canvas, area: Area, left: float, base: float, across: float, up: float, room: float) -> None:
    """One rectangle with its title above, its force beside it and its distance below."""
    width, height = area.distance * across, area.force * up
    right, top = left + width, base - height
    _fill(canvas, area, left, right, base - height * (1 - area.lost), base)
    style = EFFORT if area.by_effort else PLAIN
    title = wrapped(Words(tuple(area.title.split("\n")), style), room - 8)
    above = canvas.write(title, left, top - title.height - 4)
    # Beside a low and narrow rectangle the force stands under the end of the title, over the distance.
    force = Words((area.force_text,))
    beside = (top + base - force.height) / 2
    if above.right > right + 4:
        beside = max(beside, above.bottom + 1)
    low = canvas.write(force, right + 6, beside)
    distance = wrapped(Words((area.distance_text,)), room - 8)
    half = distance.width / 2
    middle = max(min((left + right) / 2, left + room - 8 - half), left + half)
    under = max(base + 5, low.bottom + 1) if middle + half > low.left else base + 5
    box = canvas.write(distance, middle, under, "middle")
    if area.lost:
        edge = base - height * (1 - area.lost)
        corners = (complex(left, edge), complex(left, top), complex(right, top), complex(right, edge))
        canvas.polygon(corners, "dots by-effort", BODY, closed=False)
        lost = Words((area.lost_text,))
        if lost.height + 2 <= edge - top and lost.width + 6 <= width:
            canvas.write(lost, (left + right) / 2, (top + edge - lost.height) / 2, "middle")
        else:
            canvas.write(wrapped(replace(lost, lines=(f"{area.lost_text}, dotted",)), room), left, box.bottom + 3)


def _fill(canvas: Canvas, area: Area, left: float, right: float, top: float, base: float) -> None:
    corners = (complex(left, base), complex(right, base), complex(right, top), complex(left, top))
    if area.by_effort:
        canvas.put(BODY, shape(corners, "effort"))
        canvas.reserve(*corners)
        canvas.avoid((*corners, corners[0]), 3)
    else:
        canvas.polygon(corners, "lesser paper")
        canvas.hatch(corners, 5)


def _alt(scene: Scene) -> str:
    parts = [f"{area.title}: {area.force_text} through {area.distance_text}" for area in _areas(scene)]
    if _lost_share(scene):
        parts.append(f"lost {scene.text('Wlost')}")
    sentence = "; ".join(parts)
    return f"{sentence[:1].upper()}{sentence[1:]}."


def same_work(scene: Scene) -> Drawing | None:
    """Draw the same work done by several machines, one rectangle a row; None while there is none.

    Values: E_1, dE_1, IMA_1, E_2, ... in newtons, metres and plain numbers.
    """
    scene = scene.drawable()
    canvas = compose_same_work(scene)
    if canvas is None:
        return None
    alt = _alt_same_work(scene)
    return Drawing(canvas.svg(alt), "The machines of the table: every rectangle has the same area, the same work.", alt)


def _rows(scene: Scene) -> list[tuple[str, Area]]:
    """The complete rows, in order, with the IMA of each as shown."""
    values = scene.values
    return [
        (
            scene.text(f"IMA_{row}"),
            Area(True, values[f"E_{row}"], values[f"dE_{row}"], scene.text(f"E_{row}"), scene.text(f"dE_{row}")),
        )
        for row in range(1, 21)
        if values.get(f"E_{row}", 0) > 0 and values.get(f"dE_{row}", 0) > 0
    ]


def compose_same_work(scene: Scene) -> Canvas | None:
    """The rows of equal work before they are written out; None while there is none."""
    rows = _rows(scene)
    if not rows:
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "The same work, different machines")
    heading = Words(("IMA",), NOTE)
    left = EDGE + max(heading.width, *(Words((ima,)).width for ima, _ in rows)) + 10
    canvas.write(heading, left - 10, -heading.height, "end")
    canvas.write(wrapped(Words(("effort × effort distance",), NOTE), canvas.width - left), left - 2, -heading.height)
    labels = [Words((f"{area.force_text} × {area.distance_text}",)) for _, area in rows]
    # Wide: every label stands beside its rectangle. Narrow: a long rectangle has its label above.
    beside = max(label.width for label in labels) + 12 if scene.wide else 6
    across = (canvas.width - EDGE - left - beside) / max(area.distance for _, area in rows)
    most_force = max(area.force for _, area in rows)
    up = 62.0 / most_force
    top = 8.0
    for (ima, area), label in zip(rows, labels, strict=True):
        right = left + area.distance * across
        height = area.force * up
        label = wrapped(label, canvas.width - EDGE - left)
        fits = right + 8 + label.width <= canvas.width - EDGE
        if not fits:
            box = canvas.write(label, left - 2, top)
            top = box.bottom + 4
        tall = max(height, 16.0 if fits else height)
        middle = top + tall / 2
        _fill(canvas, area, left, right, middle - height / 2, middle + height / 2)
        if fits:
            canvas.write(label, right + 8, middle - label.height / 2)
        name = Words((ima,))
        canvas.write(name, left - 10, middle - name.height / 2, "end")
        top += tall + 12
    scales = Scales(across, scene.length_unit, up, scene.force_unit, most_force)
    scale_bars(canvas, 10, top + 30, replace(scales, force=0.0))
    upright_force_bar(canvas, canvas.width * 0.62, top + 48, scales)
    return canvas


def _alt_same_work(scene: Scene) -> str:
    rows = ", ".join(f"{area.force_text} through {area.distance_text} at IMA {ima}" for ima, area in _rows(scene))
    return f"The same work by different machines: {rows}."
