"""The windlass seen along its shaft: drum, rope, crank circle, stand and load."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, radians, sin

from . import cord, forces, parts
from .canvas import BACKGROUND, BODY, MOVING, OVERLAY, Canvas, Words, place, shape
from .dimensions import OVERSHOOT
from .labels import Label
from .letters import EFFORT
from .plane import left_of, towards
from .scene import Scene

_FREE = 96.0
"""Greatest rise of the load in pixels, wide; a higher lift has its rope cut short."""

_UNKNOWN_RISE = 60.0


@dataclass(frozen=True)
class Windlass:
    """The machine on the paper, in pixels: radii, the angle of the crank, how far the load has risen.

    ``right`` is the x that the end view may reach, ``rise`` the whole travel of the load as drawn, ``push`` how far
    the effort's arrow reaches from the hand.
    """

    scale: float
    centre: complex
    right: float
    crank: float
    radius: float
    drum: float
    rope: float
    angle: float
    done: float
    rise: float
    cut_short: bool
    crate: float
    level: bool
    push: float

    @property
    def outer(self) -> float:
        """The radius of the outermost layer of rope."""
        return self.radius + self.rope / 2

    @property
    def top(self) -> float:
        """The y over everything that turns, and over the dimension that stands above it."""
        return -max(abs(complex(self.crank + 8, self.push)), self.outer + 6) - 26

    @property
    def highest(self) -> float:
        """The y of the crate's ring when the load is up."""
        return self.outer + 16

    @property
    def ring(self) -> complex:
        """The ring on the crate now."""
        return complex(self.centre.real - self.radius, self.highest + self.rise * (1 - self.done))

    @property
    def floor(self) -> float:
        """The y of the ground."""
        return max(self.highest + self.rise + 8 + self.crate * 0.75 + 6, self.crank + 14)


def lay_out(scene: Scene, force_scale: float, *, level: bool) -> Windlass:
    """Choose the scale and the place of the shaft. ``level``: the crank stays level, as where it is pushed hardest."""
    values = scene.values
    radius, rope = values["r"], max(values.get("t", 0.0), 0.0)
    rope = min(rope, 2 * radius)
    drum = min(values.get("D", 0.0) / 2, radius) if values.get("D", 0) > 0 else max(radius - rope / 2, radius * 0.1)
    largest = max(values["r_c"], radius + rope / 2)
    push = 0.0 if level else max(values.get("E", 0.0) * force_scale, 8.0) + 7
    scale = ((92.0 if scene.wide else 72.0) - 0.3 * push) / largest
    free = _FREE if scene.wide else _FREE * 0.7
    rise = values.get("h", 0.0) * scale if values.get("h", 0) > 0 else _UNKNOWN_RISE
    if level:
        rise = 2 * pi * radius * scale
    done = min(max(scene.travel, 0.0), 1.0)
    turns = 1.0 if level else max(values.get("turns", 1.0), 0.0)
    turned = -2 * pi * (done * min(turns, 1e6) % 1.0)
    crate = 46.0 if scene.wide else 38.0
    x, right = (180.0, 388.0) if scene.wide else (scene.width * 0.47, scene.width - 4.0)
    return Windlass(
        scale=scale,
        centre=complex(x, 0),
        right=right,
        crank=values["r_c"] * scale,
        radius=radius * scale,
        drum=drum * scale,
        rope=rope * scale,
        angle=turned,
        done=done,
        rise=min(rise, free),
        cut_short=rise > free,
        crate=crate,
        level=level,
        push=push,
    )


def end_view(canvas: Canvas, scene: Scene, machine: Windlass, force_scale: float) -> list[Label]:
    """Draw it; returns the labels that still look for their place."""
    _stand(canvas, machine)
    canvas.circle(machine.centre, machine.crank, "centre", BACKGROUND)
    _drum(canvas, machine)
    labels = _load(canvas, scene, machine, force_scale)
    labels = [*_crank(canvas, scene, machine, force_scale), *labels]
    _radius_dimension(canvas, scene, machine)
    c = machine.centre
    for symbol, name, at, sides in (
        ("D", "drum", c + towards(radians(150)) * machine.drum, "WNW W NW WSW"),
        ("t", "rope", complex(c.real - machine.radius - machine.rope / 2, machine.outer + 9), "W WSW SW WNW"),
        ("r_c", "crank radius", c + towards(radians(48)) * machine.crank, "NE ENE E NNE"),
    ):
        if scene.text(symbol):
            words = Words((f"{name} {scene.text(symbol)}",))
            two = Words((name, scene.text(symbol)))
            reach = (22.0, 30.0, 42.0, 56.0, 72.0, 90.0, 110.0)
            labels.append(Label(at, words if symbol == "r_c" and scene.wide else two, sides, reach, True, two))
    return labels


def reserve_travel(canvas: Canvas, scene: Scene, machine: Windlass, force_scale: float) -> None:
    """Keep the size the same wherever the machine stands."""
    lowest = machine.highest + machine.rise + 8 + machine.crate * 0.375
    down = lowest + max(scene.values.get("R", 0.0) * force_scale, 8.0)
    canvas.reserve(
        complex(machine.centre.real, max(down, machine.floor + 8, machine.crank + 8) + 4),
        complex(machine.centre.real, machine.top),
    )


def _stand(canvas: Canvas, machine: Windlass) -> None:
    """Two legs to the ground, behind everything."""
    c, spread = machine.centre, min(70.0, machine.floor * 0.38)
    for side in (-1, 1):
        foot = complex(c.real + side * spread, machine.floor)
        canvas.polygon(
            (c + side * 4 - 8j, c + side * 12 - 8j, foot + side * 5, foot - side * 5),
            "thin paper",
            BACKGROUND,
            weight=1.0,
        )
    reach = spread + 26
    left = min(c.real - reach, c.real - machine.radius - machine.crate / 2 - 8)
    parts.ground(canvas, left, c.real + reach, machine.floor, BACKGROUND)


def _drum(canvas: Canvas, machine: Windlass) -> None:
    """The drum cut through, and the rope on it as a ring of its own thickness."""
    c = machine.centre
    if machine.outer - machine.drum > 1.2:
        canvas.circle(c, machine.outer, "lesser paper", BODY)
        canvas.circle(c, machine.drum, "visible paper", BODY)
        if machine.rope > 2.5:
            count = max(6, min(90, int(2 * pi * machine.radius / machine.rope / 0.8)))
            step = 2 * pi / count
            lay = "".join(
                [
                    f"M{place(c + towards(i * step + machine.angle) * machine.drum)}"
                    f"L{place(c + towards((i + 0.7) * step + machine.angle) * machine.outer)}"
                    for i in range(count)
                ]
            )
            canvas.put(BODY, f'<path class="hatch" d="{lay}"/>')
    else:
        canvas.circle(c, machine.outer, "visible paper", BODY)
    if machine.drum > 9:
        ring = [c + towards(i * pi / 20) * machine.drum for i in range(40)]
        canvas.hatch(ring, 6, pi / 4 + machine.angle)
    canvas.line(c - (machine.outer + 12), c + machine.outer + 12, "centre", OVERLAY)
    canvas.line(c - 1j * (machine.outer + 12), c + 1j * (machine.outer + 12), "centre", OVERLAY)


def _load(canvas: Canvas, scene: Scene, machine: Windlass, force_scale: float) -> list[Label]:
    ring, wide, height = machine.ring, machine.crate, machine.crate * 0.75
    width = max(machine.rope, 1.6)
    cord.strip(canvas, complex(ring.real, 0), ring, width)
    if machine.cut_short:
        cord.break_mark(canvas, complex(ring.real, machine.outer + 7), width)
    lid = ring + 8j
    canvas.polygon((ring, lid - wide * 0.4, lid + wide * 0.4), "thin paper", MOVING)
    foot = lid + 1j * height
    parts.crate(canvas, foot, 1, wide, height, MOVING)
    weight = foot - 0.5j * height
    if not scene.values.get("R", 0) > 0:
        return []
    load = forces.arrow(weight, 1j, scene.values["R"] * force_scale)
    forces.load(canvas, load)
    parts.centre_of_gravity(canvas, weight)
    words = load.note(Words(("load", scene.text("R"))))
    return [Label(foot + complex(-wide / 2, -height / 2), words, "W WSW SW WNW NW", (5.0, 9.0, 15.0, 23.0))]


def _crank(canvas: Canvas, scene: Scene, machine: Windlass, force_scale: float) -> list[Label]:
    """The crank at its angle; level, it shows where it has turned to in phantom lines."""
    c = machine.centre
    angle = 0.0 if machine.level else machine.angle
    if machine.level:
        for point in _arm(machine, machine.angle):
            canvas.reserve(point)
        canvas.put(BACKGROUND, shape(_arm(machine, machine.angle), "phantom"))
    canvas.polygon(_arm(machine, angle), "visible paper", MOVING)
    hand = c + towards(angle) * machine.crank
    canvas.circle(c, min(7.0, max(3.5, machine.drum * 0.4)), "lesser paper", OVERLAY)
    canvas.circle(hand, 5.5, "lesser paper", OVERLAY)
    if not scene.values.get("E", 0) > 0:
        return []
    push = towards(angle - pi / 2)
    effort = forces.arrow(hand + push * 6.5, push, scene.values["E"] * force_scale)
    forces.effort(canvas, effort)
    words = effort.note(Words(("effort", scene.text("E")), EFFORT))
    outward = {0: "E NE SE", 1: "N NE NW", 2: "W NW SW", 3: "S SE SW"}[round((angle / (pi / 2)) % 4) % 4]
    return [Label(effort.middle, words, f"{outward} E W N S NE NW SE SW", (9.0, 15.0, 23.0, 35.0))]


def _arm(machine: Windlass, angle: float) -> list[complex]:
    along = towards(angle)
    side = left_of(along)
    end = machine.centre + along * machine.crank
    near, far = min(6.0, max(3.0, machine.crank * 0.07)), min(4.0, max(2.0, machine.crank * 0.05))
    return [
        machine.centre + side * near,
        end + side * far,
        end - side * far,
        machine.centre - side * near,
    ]


def _radius_dimension(canvas: Canvas, scene: Scene, machine: Windlass) -> None:
    """The effective radius, from the rope's middle to the shaft's, over the hand's circle."""
    c, row = machine.centre, machine.top + 12
    rope = c.real - machine.radius
    canvas.extension(complex(rope, 0), complex(rope, row - OVERSHOOT))
    canvas.extension(complex(c.real, -machine.outer - 14), complex(c.real, row - OVERSHOOT))
    words = Words((scene.text("r"),), symbol="r")
    start, end = complex(rope, row), complex(c.real, row)
    tail = 20.0 if machine.radius < 24 else 0.0
    canvas.line(start - tail, end + tail, "thin")
    canvas.arrowhead(start, 1 if tail else -1)
    canvas.arrowhead(end, -1 if tail else 1)
    canvas.write(words, end.real + tail + 6, row - words.height / 2)


def hand_height(machine: Windlass) -> float:
    """How far the hand is above the shaft now, for the side view."""
    return machine.crank * sin(0.0 if machine.level else machine.angle)
