"""The inclined plane: plank, landing and crate to scale, with the forces on the crate beside it."""

from math import pi

from . import dimensions, forces, parts
from .canvas import MOVING, Canvas, Words
from .crate_forces import CrateForces, draw_below, draw_beside
from .labels import Label, settle
from .letters import EFFORT
from .plane import left_of
from .plank import FLAT, paths, plank, rise_dimension, slope_angle
from .ramp_layout import Ramp, lay_out, pull_angle, triangle
from .scales import Scales, path_rows, scale_bars
from .scene import Drawing, Scene

_ROOMY = pi / 9
"""From this angle on the wedge between plank and ground has room for the angle's text."""


def draw(scene: Scene) -> Drawing | None:
    """Draw an inclined plane; None while its triangle is not fixed.

    Values: R, E, N, F_f in newtons, L, h, b, dE, dR in metres, theta, delta in radians, mu.
    Choices: pull = along, angled or level; motion = up, start, hold, down or push.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    caption = f"Drawn to scale, crate {_percent(scene)} % of the way up."
    if scene.values.get("R", 0) > 0 and scene.values.get("E", 0) > 0:
        caption += " All arrows are to one force scale."
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while the triangle is not fixed."""
    shape_of = triangle(scene.values)
    if shape_of is None:
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Inclined plane")
    crate_forces = _crate_forces(scene, shape_of.angle)
    ramp = lay_out(scene, shape_of, crate_forces)
    plank(canvas, ramp)
    if ramp.view_width:
        canvas.frame = (canvas.frame[0], canvas.frame[1] - ramp.view_width)
    labels, most_force = _crate(canvas, scene, ramp)
    _reserve_travel(canvas, scene, ramp)
    rise_dimension(canvas, scene, ramp)
    if scene.text("L"):
        words = Words(("slope length", scene.text("L")))
        busy = _travel(scene) + (-0.2 if ramp.behind else 0.2)  # where crate and effort need the room
        share = 0.25 if busy > 0.5 else 0.75
        dimensions.sloping(canvas, ramp.foot, ramp.top, ramp.offset, words, share)
    for x in (ramp.foot.real, ramp.top.real):
        canvas.avoid((complex(x, 9), complex(x, canvas.bottom + 40)), 0.8)
    angle = slope_angle(canvas, ramp, scene.text("theta"))
    settle(canvas, [*angle, *labels] if ramp.angle > _ROOMY else [*labels, *angle])

    low, row = 9.0, canvas.bottom + 18
    if scene.text("b"):
        for x in (ramp.foot.real, ramp.top.real):
            dimensions.drop(canvas, x, low, row)
        words = Words(("run", scene.text("b"))).on_one_line()
        row = dimensions.level(canvas, ramp.foot.real, ramp.top.real, row, words)
    if crate_forces:
        if ramp.view_width:
            draw_beside(canvas, crate_forces, ramp.force_scale, row - 10)
        else:
            row = draw_below(canvas, crate_forces, ramp.force_scale, row)
    row = path_rows(canvas, 10, row - 4, paths(scene, ramp.scale))
    scales = Scales(ramp.scale, scene.length_unit, ramp.force_scale, scene.force_unit, most_force)
    scale_bars(canvas, 10, row + 6, scales)
    return canvas


def _crate_forces(scene: Scene, angle: float) -> CrateForces | None:
    """The forces for the view beside the ramp; None where there is no friction to show."""
    values = scene.values
    if angle <= FLAT or not values.get("R", 0) > 0:
        return None
    if not (values.get("mu", 0) > 0 or values.get("F_f", 0) > 0) or not values.get("N", 0) > 0:
        return None
    return CrateForces(
        angle=angle,
        pull=pull_angle(scene, angle),
        motion=scene.choices.get("motion", "up"),
        along_ramp=scene.choices.get("pull", "along") == "along",
        load=values["R"],
        effort=max(values.get("E", 0.0), 0.0),
        normal=values["N"],
        friction=max(values.get("F_f", 0.0), 0.0),
        texts={symbol: scene.text(symbol) for symbol in ("R", "E", "N", "F_f", "R_along", "R_square")},
    )


def _crate(canvas: Canvas, scene: Scene, ramp: Ramp) -> tuple[list[Label], float]:
    """Crate and arrows; returns their labels and the greatest force of the drawing."""
    values = scene.values
    travel = _travel(scene)
    foot = ramp.stand(travel)
    weight = foot + left_of(ramp.along) * ramp.crate_height / 2
    parts.crate(canvas, foot, ramp.along, ramp.crate, ramp.crate_height, MOVING)
    labels: list[Label] = []
    if values.get("E", 0) > 0:
        effort = ramp.effort(travel, values["E"])
        forces.effort(canvas, effort)
        text = scene.text("E")
        one_line, two_lines = Words((f"effort {text}".strip(),), EFFORT), Words(("effort", text), EFFORT)
        first, second = (one_line, two_lines) if scene.wide else (two_lines, one_line)
        at_tip = not ramp.behind and ramp.pull < pi / 2 + ramp.angle
        end = effort.tip if at_tip else effort.tail
        if ramp.behind:
            sides = "NW W N NE SW"
        elif ramp.angle < pi / 6:
            sides = "ENE E NE SE N"
        else:
            sides = "SE E NE N NW"
        labels.append(Label(end, effort.note(first), sides, narrower=effort.note(second)))
    if values.get("R", 0) > 0:
        load = forces.arrow(weight, 1j, values["R"] * ramp.force_scale)
        forces.load(canvas, load)
        parts.centre_of_gravity(canvas, weight)
        text = scene.text("R")
        words, narrower = Words((f"load {text}".strip(),)), Words(("load", text))
        sides = "E SE W SW S" if ramp.angle < pi / 6 else "E SE S SW W"
        labels.append(
            Label(load.tip - 4j, load.note(words), sides, (10.0, 15.0, 23.0, 35.0, 52.0), narrower=load.note(narrower))
        )
    most = (74.0 if scene.wide else 60.0) / ramp.force_scale if ramp.force_scale else 0.0
    return labels, most


def _reserve_travel(canvas: Canvas, scene: Scene, ramp: Ramp) -> None:
    """Keep the height the same wherever the crate stands on its way."""
    up = left_of(ramp.along)
    lowest = ramp.stand(0) + up * ramp.crate_height / 2
    highest = ramp.stand(1) + up * ramp.crate_height
    load = max(scene.values.get("R", 0.0), 0.0) * ramp.force_scale
    canvas.reserve(complex(lowest.real, lowest.imag + load), highest)
    if scene.values.get("E", 0) > 0:
        for travel in (0.0, 1.0):
            effort = ramp.effort(travel, scene.values["E"])
            for point in (effort.tip, effort.tail):
                canvas.reserve(complex(ramp.top.real, point.imag))


def _travel(scene: Scene) -> float:
    return min(max(scene.travel, 0.0), 1.0)


def _percent(scene: Scene) -> str:
    return f"{100 * _travel(scene):.0f}"


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    sizes = [f"{scene.text(symbol)} {word}" for symbol, word in (("L", "long"), ("h", "high")) if scene.text(symbol)]
    sentence = f"Ramp {', '.join(sizes)}".strip() + f"; crate {_percent(scene)} % of the way up"
    effort, load = scene.text("E"), scene.text("R")
    if effort:
        way = {
            "along": "along the ramp",
            "angled": f"at {scene.text('delta')} to the ramp".replace("at  to", "at an angle to"),
            "level": "on the level",
        }.get(scene.choices.get("pull", "along"), "along the ramp")
        verb = "push" if scene.choices.get("pull") == "level" else "pull"
        if scene.choices.get("motion") == "push":
            verb, way = "push", "down the ramp"
        sentence += f"; {verb} {effort} {way}"
        if load:
            sentence += f" for a load of {load}"
    elif load:
        sentence += f"; load {load}"
    return f"{sentence}."
