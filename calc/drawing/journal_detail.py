"""A journal in its bearing, enlarged: the friction circle, and the bearing's force that passes beside the centre."""

from __future__ import annotations

from . import forces
from .canvas import BODY, EDGE, OVERLAY, Canvas, Words
from .labels import Label, settle, wrapped
from .letters import NOTE
from .plane import towards
from .scene import Scene

_WANTED = 46.0
_ENLARGEMENTS = (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200, 300, 500, 1000)


def view(canvas: Canvas, scene: Scene, corner: complex, scale: float) -> float:
    """Draw it under a corner; returns the y below. ``scale`` is that of the machine."""
    journal, circle = scene.values.get("r_j", 0.0), scene.values.get("r_f", 0.0)
    if not journal > 0:
        return corner.imag
    times = max((n for n in _ENLARGEMENTS if journal * scale * n <= _WANTED), default=1)
    radius = min(journal * scale * times, _WANTED)
    room = canvas.width - EDGE - corner.real
    words = f"journal, {times} times" if times > 1 else "journal"
    title = canvas.write(wrapped(Words((words,), NOTE), room), corner.real, corner.imag)
    centre = complex(corner.real + room * 0.42, title.bottom + 12 + radius + 8)
    canvas.circle(centre, radius + 3, "thin paper", BODY)
    canvas.circle(centre, radius, "visible paper", BODY)
    canvas.line(centre - radius - 12, centre + radius + 12, "centre", OVERLAY)
    canvas.line(centre - 1j * (radius + 10), centre + 1j * (radius + 10), "centre", OVERLAY)
    labels = []
    if 0 < circle < journal:
        rubbing = circle / journal * radius
        canvas.circle(centre, max(rubbing, 0.8), "hidden", OVERLAY)
        # The crank is pushed down on the right, so the bearing pushes up to the right of the centre and resists.
        foot = centre + rubbing + 1j * (radius + 30)
        up = forces.Arrow(foot, -1j, radius + 30)
        forces.reaction(canvas, up)
        labels.append(
            Label(
                up.tail - 8j,
                Words(tuple(x for x in ("bearing load", scene.text("N")) if x)),
                "E W ESE WSW",
                (9.0, 15.0, 23.0, 35.0),
            )
        )
        labels.append(
            Label(
                centre + towards(2.4) * rubbing,
                Words(("friction circle", scene.text("r_f"))),
                "W WNW WSW NW SW",
                (radius + 12, radius + 20, radius + 32, radius + 48),
                True,
            )
        )
    labels.append(
        Label(
            centre + towards(0.6) * radius,
            Words(("journal radius", scene.text("r_j"))),
            "ENE E NE ESE",
            (16.0, 24.0, 36.0, 50.0),
            True,
        )
    )
    canvas.reserve(centre + 1j * (radius + 34))
    canvas.avoid((centre - radius, centre + radius), 3)
    settle(canvas, labels)
    return max(centre.imag + radius + 36, *(box.bottom for box in canvas.boxes[-len(labels) :]))
