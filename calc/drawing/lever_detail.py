"""The enlarged view of a lever's pivot, for an arm too short to be dimensioned in place."""

from .canvas import BODY, EDGE, OVERLAY, Canvas, Words, number, shape
from .dimensions import OVERSHOOT
from .labels import wrapped
from .letters import NOTE
from .plane import rectangle
from .scene import Scene

SMALL_ARM = 12.0
"""An arm of fewer pixels is dimensioned in the detail only."""

_RADIUS = 62.0

DETAIL_ROOM = 2 * _RADIUS + 60
"""Pixels that the detail needs to the left of the pivot."""

_ENLARGEMENTS = (2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 200, 500, 1000)
_WANTED = 62.0


def _short_arm(scene: Scene) -> tuple[float, str, str]:
    """The short arm in metres, its name and its symbol."""
    if scene.values["aE"] < scene.values["aR"]:
        return scene.values["aE"], "effort arm", "aE"
    return scene.values["aR"], "load arm", "aR"


def _words(scene: Scene, scale: float) -> tuple[int, Words, Words]:
    arm, name, symbol = _short_arm(scene)
    times = max((n for n in _ENLARGEMENTS if arm * scale * n <= _WANTED), default=2)
    return (
        times,
        Words((f"detail A, {times} times",), NOTE),
        Words((f"{name} {scene.text(symbol)}".strip(),)),
    )


def beside(canvas: Canvas, scene: Scene, scale: float, kind: str) -> None:
    """Set the detail to the left of the machine (wide)."""
    times, title, arm = _words(scene, scale)
    room = 2 * _RADIUS + 16
    title, arm = wrapped(title, room), wrapped(arm, room)
    centre = complex(EDGE + room / 2, -30)
    _view(canvas, scene, scale * times, kind, centre)
    canvas.write(title, centre.real, centre.imag - _RADIUS - 6 - title.height, "middle")
    canvas.write(arm, centre.real, centre.imag + _RADIUS + 6, "middle")


def over(canvas: Canvas, scene: Scene, scale: float, kind: str) -> None:
    """Set the detail above the machine (narrow)."""
    times, title, arm = _words(scene, scale)
    room = canvas.width - 3 * EDGE - 2 * _RADIUS - 16
    title, arm = wrapped(title, room), wrapped(arm, room)
    centre = complex(EDGE + _RADIUS + 4, canvas.top - 10 - _RADIUS)
    left = centre.real + _RADIUS + 12
    _view(canvas, scene, scale * times, kind, centre)
    canvas.write(title, left, centre.imag - title.height - 4)
    canvas.write(arm, left, centre.imag + 4)


def _view(canvas: Canvas, scene: Scene, scale: float, kind: str, centre: complex) -> None:
    """The bar on its pin, level, inside a circle."""
    arm, _, symbol = _short_arm(scene)
    long = arm * scale * (-1 if kind == "1" and symbol == "aR" else 1)
    pin = complex(centre.real - long / 2, centre.imag + 8)
    point = pin + long
    reach, half = _RADIUS + 6, 13.0
    bar = rectangle(complex(centre.real, pin.imag), 1, 2 * reach, -half, half)
    if kind != "1":
        bar[0] = bar[3] = pin - 34
        bar[0], bar[3] = pin - 34 + half * 1j, pin - 34 - half * 1j
    clip = f"{canvas.name}-detail"
    x, y = number(centre.real), number(centre.imag)
    contents = "".join(
        [
            shape((pin, pin + complex(-44, 80), pin + complex(44, 80)), "visible paper"),
            shape(bar, "visible paper"),
            f'<circle class="lesser paper" cx="{number(pin.real)}" cy="{number(pin.imag)}" r="7"/>',
            _mark(point - half * 1j, symbol),
        ]
    )
    canvas.put(
        BODY,
        f'<clipPath id="{clip}"><circle cx="{x}" cy="{y}" r="{number(_RADIUS)}"/></clipPath>'
        f'<circle class="paper" cx="{x}" cy="{y}" r="{number(_RADIUS)}"/>'
        f'<g clip-path="url(#{clip})">{contents}</g>',
    )
    canvas.circle(centre, _RADIUS, "thin", OVERLAY)
    canvas.avoid((centre - _RADIUS, centre + _RADIUS), 6)
    canvas.avoid((centre - _RADIUS * 1j, centre + _RADIUS * 1j), 6)
    row = pin.imag - half - 22
    for at in (pin, point):
        canvas.line(complex(at.real, pin.imag + half + 10), complex(at.real, row - OVERSHOOT), "centre", OVERLAY)
    left, right = sorted((pin.real, point.real))
    start, end = complex(left, row), complex(right, row)
    canvas.line(start, end, "thin", OVERLAY)
    canvas.arrowhead(start, -1, 10, OVERLAY)
    canvas.arrowhead(end, 1, 10, OVERLAY)


def _mark(top: complex, symbol: str) -> str:
    """Where the force acts: the edge under a load, the foot of the effort arrow."""
    kind = "effort" if symbol == "aE" else "lesser paper"
    return shape((top, top + complex(-7, -13), top + complex(7, -13)), kind)
