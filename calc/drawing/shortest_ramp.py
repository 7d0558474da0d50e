"""A fan of ramps to one height: the shortest that the pull limit allows is bold, shorter ones are too steep."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import sqrt

from . import dimensions, parts
from .canvas import BODY, MOVING, OVERLAY, Canvas, Words
from .labels import wrapped
from .letters import EFFORT, PLAIN
from .ramp_layout import rise_words, triangle
from .scales import Scales, scale_bars
from .scene import Drawing, Scene

_FAN = (("L_3", "E_3", ""), ("L_2", "E_2", ""), ("L", "E_max", "the limit"), ("L_1", "E_1", "too much"))
"""Length and pull of each ramp, the longest first, and what is to be said of it."""

_RING = 9.0
_CRATE, _THICK = 30.0, 6.0
_TALL, _TALL_NARROW = 170.0, 150.0
_SHORTEST = 0.75
"""The ramp at the slider's left end, in shortest lengths; the middle is the shortest itself, the right end twice it."""


@dataclass(frozen=True)
class _Fan:
    """Where the ramps meet, pixels per metre, and their rise."""

    top: complex
    scale: float
    rise: float

    def foot(self, length: float) -> complex:
        """Where a ramp of so many metres touches the ground."""
        run = sqrt(max((length * self.scale) ** 2 - self.rise**2, 0.0))
        return complex(self.top.real - run, 0)


def draw(scene: Scene) -> Drawing | None:
    """Draw the fan; None while the shortest ramp is not known.

    Values: L, h, b in metres, theta in radians, L_1 to L_3 in metres, E_1 to E_3, E_max in newtons.
    """
    scene = _with_its_triangle(scene.drawable())
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    caption = "Drawn to scale: ramps to one height. The bold one is the shortest for this pull limit."
    if _length(scene) < scene.values["L"] * 0.999:
        caption += " The load stands on one that is too steep."
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while the shortest ramp is not known."""
    shape_of = triangle(scene.values)
    if shape_of is None:
        return None
    scene = _with_its_triangle(scene)
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Shortest ramp")
    ramps = [(length, pull, note) for length, pull, note in _FAN if scene.values.get(length, 0) > shape_of.rise]
    fan = _place(scene, shape_of.rise, max(scene.values[length] for length, _, _ in ramps))
    wall = 30.0 if scene.wide else 18.0
    parts.wall(canvas, fan.top.real, fan.top.real + wall, fan.top.imag, 0)
    parts.ground(
        canvas, fan.foot(max(scene.values[name] for name, _, _ in ramps)).real - 14, fan.top.real + wall + 8, 0
    )
    for length, _, note in ramps:
        kind = "hidden" if note == "too much" else "lesser"
        if length != "L":
            canvas.line(fan.foot(scene.values[length]), fan.top, kind, BODY)
    _bold(canvas, fan, scene.values["L"])
    _crate(canvas, fan, _length(scene))
    canvas.reserve(complex(fan.top.real, fan.top.imag - _CRATE))
    words = rise_words(scene)
    x = fan.top.real + wall + dimensions.upright_room(words, fan.rise)[0]
    canvas.extension(fan.top + wall + 3, complex(x + 4, fan.top.imag))
    canvas.extension(complex(fan.top.real + wall + 11, 0), complex(x + 4, 0))
    dimensions.upright(canvas, x, fan.top.imag, 0, words)
    row = _list(canvas, scene, fan, ramps)
    scale_bars(canvas, 10, row + 6, Scales(fan.scale, scene.length_unit))
    return canvas


def _with_its_triangle(scene: Scene) -> Scene:
    """The same scene with slope length and rise from whichever measures fix them."""
    shape_of = triangle(scene.values)
    if shape_of is None:
        return scene
    return replace(scene, values={**scene.values, "L": shape_of.slope, "h": shape_of.rise})


def _length(scene: Scene) -> float:
    """The ramp that the slider stands at, in metres."""
    travel = min(max(scene.travel, 0.0), 1.0)
    part = _SHORTEST + (1 - _SHORTEST) * travel * 2 if travel < 0.5 else 2 * travel
    return max(part * scene.values["L"], scene.values["h"] * 1.0001)


def _place(scene: Scene, rise: float, longest: float) -> _Fan:
    wall = 30.0 if scene.wide else 18.0
    right = wall + 4 + max(sum(dimensions.upright_room(rise_words(scene), span)) for span in (1.0, 200.0))
    room = scene.width - right - 22
    run = sqrt(longest**2 - rise**2)
    scale = min(room / run, (_TALL if scene.wide else _TALL_NARROW) / rise)
    left = scene.width - right - (room - run * scale) / 2
    return _Fan(complex(left, -rise * scale), scale, rise * scale)


def _bold(canvas: Canvas, fan: _Fan, length: float) -> None:
    """The shortest ramp, as a plank."""
    foot = fan.foot(length)
    along = (fan.top - foot) / abs(fan.top - foot)
    under, cut = min(_THICK / along.real, fan.rise), _THICK / -along.imag
    corners = [foot, fan.top, fan.top + 1j * under]
    if cut < (fan.top - foot).real / 2:
        corners.append(foot + cut)
    canvas.polygon(corners, "visible paper", BODY)


def _crate(canvas: Canvas, fan: _Fan, length: float) -> None:
    """The load half way up the ramp of the slider."""
    foot = fan.foot(length)
    along = (fan.top - foot) / abs(fan.top - foot)
    canvas.line(foot, fan.top, "lesser", MOVING)
    size = min(_CRATE, abs(fan.top - foot) * 0.35)
    parts.crate(canvas, (foot + fan.top) / 2, along, size, size * 0.72, MOVING)


def _list(canvas: Canvas, scene: Scene, fan: _Fan, ramps: list[tuple[str, str, str]]) -> float:
    """A ringed letter at the foot of each ramp, and what each asks for below; returns the y below the list."""
    low = 8 + 2 * _RING
    letters = "ABCD"
    feet: list[float] = []
    for length, _, _ in ramps:
        at = fan.foot(scene.values[length]).real
        feet.append(max(at, feet[-1] + 2 * _RING + 3) if feet else at)
    over = max(0.0, feet[-1] + _RING - canvas.width + 8) if feet else 0.0
    for i, x in enumerate(feet):
        _ring(canvas, complex(x - over, low), letters[i])
    top = low + _RING + 12
    for i, (length, pull, note) in enumerate(ramps):
        said = ", ".join(part for part in (f"pull {scene.text(pull)}" if scene.text(pull) else "", note) if part)
        style = EFFORT if length == "L" else PLAIN
        words = wrapped(Words((f"{scene.text(length)} long: {said}",), style), canvas.width - 40 - 8)
        _ring(canvas, complex(10 + _RING, top + 8), letters[i])
        top = canvas.write(words, 34, top, "start").bottom + 7
    return top


def _ring(canvas: Canvas, centre: complex, letter: str) -> None:
    canvas.circle(centre, _RING, "thin", OVERLAY)
    words = Words((letter,))
    canvas.write(words, centre.real, centre.imag - words.height / 2, "middle")


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    sentence = f"Ramps of several lengths to one rise of {scene.text('h')}; the shortest is {scene.text('L')} long"
    if scene.text("E_max"):
        sentence += f" for a pull limit of {scene.text('E_max')}"
    others = [
        f"{scene.text(length)} long needs {scene.text(pull)}"
        for length, pull, _ in _FAN
        if length != "L" and scene.text(length) and scene.text(pull)
    ]
    return f"{'; '.join([sentence, *others])}."
