"""What a measure looks like: a length on a tape, a slope as a triangle; nothing for the others."""

from math import pi, tan

from . import dimensions, parts, tape
from .canvas import BACKGROUND, EDGE, Canvas, Words
from .labels import Label, settle
from .plane import towards
from .scene import Drawing, Scene


def draw(scene: Scene) -> Drawing | None:
    """Draw a length or a slope; None for anything else, and while it is unknown.

    Values: L_in in metres, or theta in radians.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    if scene.choices.get("of") == "slope":
        alt = f"A slope of 1 : {scene.text('n')}, {scene.text('theta')} from level."
        return Drawing(canvas.svg(alt), "Rise, run and slope to one scale.", alt)
    alt = f"A tape with a mark at {scene.text('L_in')}, which is {scene.text('L_mm')}."
    caption = "Inches in sixteenths above, millimetres below. The slider runs the tape along."
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None for a measure without a picture."""
    of = scene.choices.get("of", "length")
    return tape.compose(scene) if of == "length" else _slope(scene) if of == "slope" else None


def _slope(scene: Scene) -> Canvas | None:
    """A right triangle that rises 1 for n of run."""
    angle = scene.values.get("theta", 0.0)
    if not 0 < angle < pi / 2 - 1e-6:
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "A slope")
    tallest = 200.0 if scene.wide else 170.0
    run = min(scene.width - 2 * EDGE - 150.0, tallest / tan(angle))
    rise = run * tan(angle)
    left = (scene.width - run - 60) / 2
    foot, corner = complex(left, 0), complex(left + run, 0)
    top = corner - 1j * rise
    canvas.polygon((foot, corner, top), "visible paper")
    parts.ground(canvas, left - 20, left + run + 20, 0.0, BACKGROUND)
    radius = min(62.0, run * 0.6) if run > 30 else run * 0.8
    canvas.arc(foot, radius, 0.0, angle, "thin")
    half = towards(angle / 2) * radius
    settle(
        canvas,
        [
            Label(foot + half, Words((scene.text("theta"),)), "ENE E NE N NW W", (4.0, 8.0, 14.0, 24.0, 40.0)),
            Label(corner - 0.5j * rise, Words(("rise", "1")), "E ENE ESE", (10.0, 16.0, 24.0)),
        ],
    )
    dimensions.drop(canvas, foot.real, 10, 40)
    dimensions.drop(canvas, corner.real, 10, 40)
    row = dimensions.level(canvas, foot.real, corner.real, 40, Words((f"run {scene.text('n')}",)))
    words = Words((f"grade {scene.text('grade')} %",))
    canvas.write(words, scene.width / 2, row - 8, "middle")
    share = min(max(scene.travel, 0.0), 1.0)
    canvas.circle(foot + (top - foot) * share, 4.0, "ink")
    return canvas
