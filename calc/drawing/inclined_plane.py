"""The inclined plane to scale."""

from calc.drawing.scene import Drawing, Scene


def draw(scene: Scene) -> Drawing | None:
    """Nothing yet: the draughtsman's module replaces this file."""
    return None
