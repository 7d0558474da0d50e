"""Pictures of shop objects: a hand-drawn body, over it arrows, marks and words at the points that the data names.

A body is a fragment of SVG in ``theme/partials/pictures/shop/``, on a sheet of 240 by 130 units.
"""

from __future__ import annotations

from html import escape
from pathlib import Path

from build_tools.shop_objects import Point, ShopObject

SHEET = "-4 -8 248 144"
FOLDER = Path(__file__).parent / "theme/partials/pictures/shop"
ARROWS = {
    "effort": '<path class="effort" d="M0 -3H20V-7.5L34 0L20 7.5V3H0Z"/>',
    "load": '<path class="lesser paper" d="M0 -4H22V-9L38 0L22 9V4H0Z"/>'
    '<path class="hatch" d="M0 0L4 -4M0 4L8 -4M4 4L12 -4M8 4L16 -4M12 4L20 -4M16 4L27 -6.5M20 4L31 -4M22 6L35 -2'
    'M23 9L37 -1"/>',
}
"""Each arrow from its tail at 0, 0 to the right, as the drawings have them: effort solid, load hatched."""

PIVOT = '<circle class="lesser paper" r="4.5"/><circle class="ink" r="1.7"/>'


def body(key: str) -> str:
    """The thing itself. Raises FileNotFoundError if it was never drawn."""
    return (FOLDER / f"{key}.html").read_text("utf-8").strip()


def picture(thing: ShopObject) -> str:
    """The whole picture, with a title and a sentence for those who cannot see it."""
    name = f"shop-{thing.key}"
    places = ", ".join(f"{point.printed} {point.where}" for point in thing.points)
    return (
        f'<svg class="drawing" viewBox="{SHEET}" role="img" aria-labelledby="{name}-t {name}-d">'
        f'<title id="{name}-t">{escape(thing.name)}</title>'
        f'<desc id="{name}-d">{escape(thing.picture)} {escape(places.capitalize())}.</desc>'
        f"{body(thing.key)}{''.join(map(_mark, thing.points))}{''.join(map(_word, thing.points))}</svg>"
    )


def thumbnail(key: str) -> str:
    """The thing alone, without arrows and words, beside its name in an index."""
    return f'<svg class="drawing" viewBox="{SHEET}" aria-hidden="true">{body(key)}</svg>'


def _mark(point: Point) -> str:
    if point.at is None:
        return ""
    x, y = point.at
    if point.role in ARROWS:
        turned = f" rotate({point.turn:g})" if point.turn else ""
        return f'<g transform="translate({x:g} {y:g}){turned}">{ARROWS[point.role]}</g>'
    return f'<g transform="translate({x:g} {y:g})">{PIVOT}</g>'


def _word(point: Point) -> str:
    x, y, anchor = point.text
    placed = "" if anchor == "start" else f' text-anchor="{anchor}"'
    kind = ' class="effort-name"' if point.role == "effort" else ""
    line = ""
    if point.leader:
        x0, y0, x1, y1 = point.leader
        line = f'<path class="thin" d="M{x0:g} {y0:g}L{x1:g} {y1:g}"/>'
    return f'{line}<text{kind} x="{x:g}" y="{y:g}"{placed}>{escape(point.printed)}</text>'
