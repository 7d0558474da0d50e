"""A load dragged along a floor: the picture of a force along a path, with this calculator's own quantities."""

from dataclasses import replace

from . import work_along_path
from .canvas import Canvas
from .scene import Drawing, Scene

_NAMES = {"E": "F", "E_d": "F_d", "d": "d", "delta": "gamma", "W": "W"}


def draw(scene: Scene) -> Drawing | None:
    """Draw the load on its path; None while path or angle is unknown, or where a push slants down.

    Values: E, E_d in newtons, d in metres, delta in radians, W in joules.
    """
    return work_along_path.draw(_along_path(scene))


def compose(scene: Scene) -> Canvas | None:
    """The drawing before it is written out; None where there is none."""
    return work_along_path.compose(_along_path(scene))


def _along_path(scene: Scene) -> Scene:
    values = {name: scene.values[symbol] for symbol, name in _NAMES.items() if symbol in scene.values}
    texts = {name: scene.texts[symbol] for symbol, name in _NAMES.items() if symbol in scene.texts}
    return replace(scene, values=values, texts=texts)
