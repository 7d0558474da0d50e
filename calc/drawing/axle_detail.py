"""The enlarged view of an axle too thin to be seen beside its wheel."""

from __future__ import annotations

from .canvas import BODY, EDGE, OVERLAY, Canvas, Words, number
from .labels import wrapped
from .letters import NOTE
from .plane import towards
from .scene import Scene

_RADIUS = 46.0
_ENLARGEMENTS = (2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200, 300, 500, 1000, 2000, 5000)
_WANTED = 24.0


def _small(scene: Scene) -> tuple[float, str, str]:
    """The smaller radius in metres, its name and its symbol."""
    if scene.values["r_w"] < scene.values["r_a"]:
        return scene.values["r_w"], "wheel radius", "r_w"
    return scene.values["r_a"], "axle radius", "r_a"


def beside(canvas: Canvas, scene: Scene, scale: float, corner: complex) -> float:
    """Set the detail with its top left at a corner (wide); returns the y below it."""
    return _view(canvas, scene, scale, corner + complex(_RADIUS + 2, _RADIUS + 2))


def above(canvas: Canvas, scene: Scene, scale: float) -> None:
    """Set the detail above the machine (narrow)."""
    _view(canvas, scene, scale, complex(EDGE + _RADIUS + 4, canvas.top - 10 - _RADIUS))


def _view(canvas: Canvas, scene: Scene, scale: float, centre: complex) -> float:
    radius, name, symbol = _small(scene)
    times = max((n for n in _ENLARGEMENTS if radius * scale * n <= _WANTED), default=2)
    drawn = radius * scale * times
    clip = f"{canvas.name}-detail"
    x, y, r = number(centre.real), number(centre.imag), number(_RADIUS)
    ring = [centre + towards(step * 0.2) * drawn for step in range(31)]
    canvas.put(BODY, f'<clipPath id="{clip}"><circle cx="{x}" cy="{y}" r="{r}"/></clipPath>')
    canvas.put(BODY, f'<circle class="paper" cx="{x}" cy="{y}" r="{r}"/>')
    canvas.circle(centre, _RADIUS, "thin", OVERLAY)
    canvas.circle(centre, drawn, "visible paper", BODY)
    canvas.hatch(ring, 4.5)
    edge = number((_RADIUS**2 - drawn**2) ** 0.5)
    for side in (-drawn, drawn):
        canvas.put(
            BODY,
            f'<g clip-path="url(#{clip})"><path class="thin" d="M{number(centre.real + side)} {y}v{edge}"/></g>',
        )
    canvas.avoid((centre - _RADIUS, centre + _RADIUS), 6)
    canvas.avoid((centre - _RADIUS * 1j, centre + _RADIUS * 1j), 6)
    room = canvas.width - 2 * EDGE - (centre.real + _RADIUS + 8)
    title = wrapped(Words((f"detail A, {times} times",), NOTE), room)
    words = wrapped(Words((f"{name} {scene.text(symbol)}".strip(),)), room)
    left = centre.real + _RADIUS + 10
    canvas.write(title, left, centre.imag - title.height - 3)
    canvas.write(words, left, centre.imag + 3)
    return centre.imag + _RADIUS + 14
