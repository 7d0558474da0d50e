"""The wedge: a single taper driven under a planter, or a double taper driven between two blocks."""

from __future__ import annotations

from dataclasses import replace

from . import wedge_lift, wedge_split
from .canvas import Canvas
from .scene import Drawing, Scene
from .wedge_lift import let_go


def draw(scene: Scene) -> Drawing | None:
    """Draw a wedge; None while its length and thickness are not known.

    Values: ell, t, dE, dR in metres, alpha in radians, R, E, V, F_1, F_2, E_out in newtons.
    Choice: kind = single or double.
    """
    scene = scene.drawable()
    canvas = compose(scene)
    if canvas is None:
        return None
    alt = _alt(scene)
    caption = f"Drawn to scale, wedge {_percent(scene)} % of the way in."
    if scene.values.get("R", 0) > 0 and scene.values.get("E", 0) > 0:
        caption += " All arrows are to one force scale."
    return Drawing(canvas.svg(alt), caption, alt)


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None while length and thickness are not known."""
    if not (scene.values.get("ell", 0) > 0 and scene.values.get("t", 0) > 0):
        return None
    scene = replace(scene, travel=min(max(scene.travel, 0.0), 1.0))
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "Wedge")
    (wedge_split if _double(scene) else wedge_lift).compose(canvas, scene)
    return canvas


def _double(scene: Scene) -> bool:
    return scene.choices.get("kind") == "double"


def _percent(scene: Scene) -> str:
    return f"{100 * min(max(scene.travel, 0.0), 1.0):.0f}"


def _alt(scene: Scene) -> str:
    """One sentence from the strings of the labels."""
    kind, where = ("Double", "between two blocks") if _double(scene) else ("Single", "under a planter")
    sentence = (
        f"{kind} wedge {scene.text('ell')} long and {scene.text('t')} thick, {_percent(scene)} % of the way {where}"
    )
    effort, load = scene.text("E"), scene.text("R")
    if let_go(scene):
        sentence += "; nobody pushes it, it stays in"
    elif effort:
        sentence += f"; push {effort}"
    if load:
        each = " on each side" if _double(scene) else ""
        sentence += f"{' for' if effort and not let_go(scene) else ';'} a load of {load}{each}"
    return f"{sentence}."
