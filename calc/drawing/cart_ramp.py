"""A loaded cart on a ramp: its rope straight to the hand or over a sheave at the top, a chock where it runs back."""

from __future__ import annotations

from dataclasses import replace
from math import tan

from . import cord, dimensions, forces, parts, travels
from .canvas import BODY, MOVING, OVERLAY, Canvas, Words, number
from .labels import Label, settle
from .letters import EFFORT
from .plane import left_of, rectangle
from .plank import paths, plank, rise_dimension, slope_angle
from .ramp_layout import Ramp, lay_out, triangle
from .scales import Scales, scale_bars
from .scene import Drawing, Scene

_SHEAVE = 10.0
"""Radius in pixels of the sheave at the top."""

_BED, _HITCH, _WHEEL = 0.24, 0.26, 0.11
"""Height of the bed, height of the hitch and radius of the wheels, in lengths of the cart."""


def draw(scene: Scene) -> Drawing | None:
    """Draw a cart on a ramp; None while the triangle is not fixed.

    Values: R, w, E in newtons, L, h, b, dE, dR in metres, theta in radians, C. Choice: rope = direct or sheave.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    caption = f"Drawn to scale, cart {_percent(scene)} % of the way up."
    if _runs_back(scene):
        caption += " It would run back: a chock follows behind the wheels."
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while the triangle is not fixed."""
    shape_of = triangle(scene.values)
    if shape_of is None:
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Cart on a ramp")
    over = _over_sheave(scene)
    down = _loaded(scene)
    ramp = lay_out(down, shape_of, None, _room_for_rope(scene) if over else 0.0)
    plank(canvas, ramp)
    labels = [*_cart(canvas, scene, ramp), *_rope(canvas, scene, ramp), *_load(canvas, down, ramp)]
    _reserve_travel(canvas, down, ramp)
    rise_dimension(canvas, scene, ramp)
    if scene.text("L"):
        busy = _travel(scene) + 0.2
        words = Words(("slope length", scene.text("L")))
        dimensions.sloping(canvas, ramp.foot, ramp.top, ramp.offset, words, 0.25 if busy > 0.5 else 0.75)
    for x in (ramp.foot.real, ramp.top.real):
        canvas.avoid((complex(x, 9), complex(x, canvas.bottom + 40)), 0.8)
    settle(canvas, [*labels, *slope_angle(canvas, ramp, scene.text("theta"))])
    row = canvas.bottom + 18
    if scene.text("b"):
        for x in (ramp.foot.real, ramp.top.real):
            dimensions.drop(canvas, x, 9.0, row)
        words = Words(("run", scene.text("b"))).on_one_line()
        row = dimensions.level(canvas, ramp.foot.real, ramp.top.real, row, words)
    row = travels.bars(canvas, 10, row - 4, paths(scene, ramp.scale), _travel(scene))
    most = (74.0 if scene.wide else 60.0) / ramp.force_scale if ramp.force_scale else 0.0
    scale_bars(canvas, 10, row + 6, Scales(ramp.scale, scene.length_unit, ramp.force_scale, scene.force_unit, most))
    return canvas


def _loaded(scene: Scene) -> Scene:
    """The same scene with load and cart as one weight, for the layout and the arrow that both share."""
    together = sum(scene.values.get(symbol, 0.0) for symbol in ("R", "w"))
    return replace(scene, values={**scene.values, "R": together})


def _over_sheave(scene: Scene) -> bool:
    return scene.choices.get("rope") == "sheave"


def _room_for_rope(scene: Scene) -> float:
    """Pixels to the right of the landing for the rope that hangs there, and on a wide sheet for its label."""
    return 2 * _SHEAVE + 14 + (Words(("effort", scene.text("E")), EFFORT).width if scene.wide else 0.0)


def _runs_back(scene: Scene) -> bool:
    return scene.values.get("C", 1e9) < tan(scene.values.get("theta", 0.0))


def _travel(scene: Scene) -> float:
    return min(max(scene.travel, 0.0), 1.0)


def _percent(scene: Scene) -> str:
    return f"{100 * _travel(scene):.0f}"


def _cart(canvas: Canvas, scene: Scene, ramp: Ramp) -> list[Label]:
    """The cart with its box, and the chock behind its lower wheel."""
    foot, along, long = ramp.stand(_travel(scene)), ramp.along, ramp.crate
    up, radius = left_of(along), _WHEEL * ramp.crate
    bed = rectangle(foot, along, long, _BED * long - 2, _BED * long + 2.5)
    canvas.polygon(bed, "visible paper", MOVING)
    middle = foot + up * (_BED * long + 2.5)
    parts.crate(canvas, middle, along, long * 0.64, ramp.crate_height - _BED * long - 2.5, MOVING)
    wheels = [foot + along * long * side + up * radius for side in (-0.32, 0.32)]
    for centre in wheels:
        canvas.circle(centre, radius, "visible paper", MOVING)
        x, y = number(centre.real), number(centre.imag)
        canvas.put(OVERLAY, f'<circle class="ink" cx="{x}" cy="{y}" r="{number(max(1.4, radius * 0.22))}"/>')
    if not _runs_back(scene):
        return []
    touch = wheels[0] - up * radius - along * radius * 1.05
    chock = (touch, touch - along * radius * 1.5, touch + up * radius * 0.95)
    canvas.polygon(chock, "lesser ink", MOVING, weight=0)
    return []


def _rope(canvas: Canvas, scene: Scene, ramp: Ramp) -> list[Label]:
    """The rope and the effort at its end."""
    travel, force = _travel(scene), scene.values.get("E", 0.0)
    hitch = ramp.stand(travel) + ramp.along * ramp.crate / 2 + left_of(ramp.along) * ramp.crate * _HITCH
    if not _over_sheave(scene):
        if force <= 0:
            return []
        arrow = forces.arrow(hitch, ramp.along, force * ramp.force_scale)
        sides = "NE ENE NNE N E SE" if ramp.angle < 0.52 else "SE E NE N NW"
        return _effort(canvas, scene, arrow, sides)
    centre = _sheave(ramp)
    leave = centre + left_of(ramp.along) * _SHEAVE
    right = centre + _SHEAVE
    end = complex(right.real, right.imag + 16)
    cord.strip(canvas, hitch, leave, 3.2, BODY)
    post = complex(ramp.top.real + ramp.wall - 6, ramp.top.imag)
    canvas.line(centre, post, "visible", BODY)
    canvas.circle(centre, _SHEAVE + 1, "lesser paper", MOVING)
    canvas.circle(centre, 2.0, "ink", MOVING)
    cord.strip(canvas, right, end, 3.2, MOVING)
    if force <= 0:
        return []
    return _effort(canvas, scene, forces.arrow(end, 1j, force * ramp.force_scale), "E ENE ESE SE NE W")


def _effort(canvas: Canvas, scene: Scene, arrow: forces.Arrow, sides: str) -> list[Label]:
    forces.effort(canvas, arrow)
    text = scene.text("E")
    one_line, two_lines = Words((f"effort {text}".strip(),), EFFORT), Words(("effort", text), EFFORT)
    first, second = (one_line, two_lines) if scene.wide and arrow.direction != 1j else (two_lines, one_line)
    return [Label(arrow.tip, arrow.note(first), sides, narrower=arrow.note(second))]


def _sheave(ramp: Ramp) -> complex:
    """The centre of the sheave: over the far edge of the landing, the rope in line with the cart's hitch."""
    rope = ramp.top + left_of(ramp.along) * ramp.crate * _HITCH
    across = ramp.wall - rope.real + ramp.top.real + 2
    return rope + ramp.along * across / ramp.along.real - left_of(ramp.along) * _SHEAVE


def _load(canvas: Canvas, scene: Scene, ramp: Ramp) -> list[Label]:
    """The weight of load and cart, one arrow from the middle of the box."""
    if scene.values["R"] <= 0:
        return []
    at = ramp.stand(_travel(scene)) + left_of(ramp.along) * (0.5 * ramp.crate_height + 0.12 * ramp.crate)
    arrow = forces.arrow(at, 1j, scene.values["R"] * ramp.force_scale)
    forces.load(canvas, arrow)
    parts.centre_of_gravity(canvas, at)
    named = [f"{word} {scene.text(s)}" for s, word in (("R", "load"), ("w", "cart")) if scene.text(s)]
    words, narrower = Words((" + ".join(named),)), Words(tuple(named))
    sides = "E SE W SW S" if ramp.angle < 0.52 else "E SE S SW W"
    first, second = (words, narrower) if scene.wide else (narrower, words)
    return [
        Label(arrow.tip - 4j, arrow.note(first), sides, (10.0, 15.0, 23.0, 35.0, 52.0), narrower=arrow.note(second))
    ]


def _reserve_travel(canvas: Canvas, scene: Scene, ramp: Ramp) -> None:
    """Keep the height the same wherever the cart stands on its way."""
    up = left_of(ramp.along)
    lowest = ramp.stand(0) + up * (0.5 * ramp.crate_height + 0.12 * ramp.crate)
    highest = ramp.stand(1) + up * ramp.crate_height
    canvas.reserve(complex(lowest.real, lowest.imag + scene.values["R"] * ramp.force_scale), highest)
    if scene.values.get("E", 0) > 0 and not _over_sheave(scene):
        tip = ramp.effort(1.0, scene.values["E"]).tip
        canvas.reserve(complex(ramp.top.real, tip.imag))


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    sizes = [f"{scene.text(symbol)} {word}" for symbol, word in (("L", "long"), ("h", "high")) if scene.text(symbol)]
    sentence = f"Ramp {', '.join(sizes)}".strip() + f"; cart {_percent(scene)} % of the way up"
    weights = [f"{word} of {scene.text(s)}" for s, word in (("R", "load"), ("w", "cart")) if scene.text(s)]
    if scene.text("E"):
        way = "over a sheave at the top" if _over_sheave(scene) else "along the ramp"
        sentence += f"; pull {scene.text('E')} {way}"
    if weights:
        sentence += f" for a {' on a '.join(weights)}" if scene.text("E") else f"; {' on a '.join(weights)}"
    return f"{sentence}."
