"""The wrap test's paper triangle at true size, on one page that fits US Letter as well as A4.

The page is 7.25 in by 9.9 in, which both papers hold inside margins of half an inch (Letter: ANSI/ASME Y14.1,
8.5 in by 11 in; A4: ISO 216, 210 mm by 297 mm). One pixel is 1/96 in, as in every style sheet (CSS Values and Units).
"""

from math import ceil, floor, pi

from .canvas import BACKGROUND, BODY, MOVING, PADDING, Canvas, Words
from .page_fit import Page, Place, largest_base, placed, takes_letter
from .plane import between
from .scene import Drawing, Scene

_INCH = 96.0
_METRE = _INCH / 0.0254
_WIDTH, _HEIGHT = 7.25 * _INCH, 9.9 * _INCH
_LINE = 17.0
_BARS = 62.0
"""Room of the two check bars."""

_LEAST_GAP, _LEAST_HEIGHT = 22.0, 20.0
"""Marks closer than this, or on lower paper, are not numbered."""

_MOST_MARKS = 200


def draw(scene: Scene) -> Drawing | None:
    """Draw the page; where the triangle fits on none, only the words say which one would. None while it is not fixed.

    Values: B, H, d in metres. Texts: B, H, d, turns, p, lam.
    """
    scene = scene.drawable()
    if not all(scene.values.get(symbol, 0) > 0 for symbol in ("B", "H", "d")):
        return None
    words = _words(scene)
    page = _page(words)
    base, height = scene.values["B"] * _METRE, scene.values["H"] * _METRE
    place = placed(page, base, height)
    if place is None:
        return Drawing("", _too_large(scene, page, base, height), "")
    canvas = _compose(scene, words, page, place)
    alt = f"Page to print at 100 %: {' '.join(words[:3])}, two check bars, and the triangle at true size."
    size = f'class="drawing" width="{_WIDTH / _INCH:g}in" height="{_HEIGHT / _INCH:g}in"'
    svg = canvas.svg(alt).replace('class="drawing"', size, 1)
    return Drawing(svg, "The triangle at true size, on one page of Letter or A4 paper. Print it at 100 %.", alt)


def _words(scene: Scene) -> tuple[str, ...]:
    """The lines of text; the check bars stand after the fourth."""
    lines = (
        f"Paper triangle for a dowel of {scene.text('d')}",
        f"Base {scene.text('B')}, height {scene.text('H')}, slope {scene.text('lam')}",
        f"Goes round {scene.text('turns')}, pitch {scene.text('p')}",
        "Print at 100 %. Then measure both bars:",
        "1  Cut along the thick lines.",
        "2  Lay edge A along the dowel, tape it.",
        "3  Wind up towards the tip, print outside.",
    )
    more_than_one = scene.values["B"] > pi * scene.values["d"]
    return (*lines, "Each dashed line ends one turn.") if more_than_one else lines


def _page(words: tuple[str, ...]) -> Page:
    width = max(Words((line,)).width for line in words)
    return Page(_WIDTH, _HEIGHT - 2 * PADDING, width, _LINE * len(words) + _BARS)


def _compose(scene: Scene, words: tuple[str, ...], page: Page, place: Place) -> Canvas:
    canvas = Canvas(f"{scene.key}-page", round(_WIDTH), "Paper triangle at true size")
    canvas.reserve(0j, complex(page.width, page.height))
    left = page.width - page.text_width if place.text_at_right else 0.0
    for row, line in enumerate(words):
        canvas.write(Words((line,)), left, row * _LINE + (_BARS if row > 3 else 0.0))
    _check_bar(canvas, left + 2, 4 * _LINE + 6, 2 * _INCH, 4, "2 in")
    _check_bar(canvas, left + 2, 4 * _LINE + 32, 0.05 * _METRE, 5, "5 cm")
    tip, foot, top = place.corners
    canvas.polygon((tip, foot, top), "visible paper", BODY)
    _marks(canvas, place, scene.values["d"] * pi * _METRE)
    _edge_letter(canvas, place)
    return canvas


def _check_bar(canvas: Canvas, left: float, top: float, length: float, fields: int, words: str) -> None:
    """A bar of this length in black and white fields, its size beside it."""
    high, step = 10.0, length / fields
    corners = [complex(left + x, top + y) for x, y in ((0, 0), (length, 0), (length, high), (0, high))]
    canvas.polygon(corners, "thin", BACKGROUND)
    for i in range(0, fields, 2):
        data = f"M{left + i * step:.1f} {top:.1f}h{step:.1f}v{high:g}h-{step:.1f}z"
        canvas.put(BODY, f'<path class="ink" d="{data}"/>')
    canvas.write(Words((words,)), left + length + 6, top - 3)


def _marks(canvas: Canvas, place: Place, turn: float) -> None:
    """A dashed line where each turn ends, numbered where there is room."""
    tip, foot, top = place.corners
    base = abs(foot - tip)
    # The last bit of a float must not add a mark at the very tip.
    count = floor(base / turn * (1 - 1e-9))
    every = ceil(count / _MOST_MARKS) or 1
    numbered = ceil(_LEAST_GAP / (turn * every)) * every
    for k in range(every, count + 1, every):
        low, high = between(foot, tip, k * turn / base), between(top, tip, k * turn / base)
        canvas.line(low, high, "path", MOVING)
        words = Words((str(k),))
        if k % numbered == 0 and abs(high - low) >= max(_LEAST_HEIGHT, words.width):
            _write_at(canvas, words, between(low, high, 0.5))


def _edge_letter(canvas: Canvas, place: Place) -> None:
    """The letter of the edge that lies along the dowel, on the paper, or beside it where the paper is too small."""
    tip, foot, top = place.corners
    words = Words(("A",))
    inside = takes_letter(abs(tip - foot), abs(top - foot))
    way = (foot - tip) / abs(foot - tip)
    _write_at(canvas, words, between(foot, top, 0.4) + way * (-12 if inside else 12))


def _write_at(canvas: Canvas, words: Words, at: complex) -> None:
    """Write a word with its middle at a point."""
    canvas.write(words, at.real, at.imag - words.height / 2, "middle")


def _too_large(scene: Scene, page: Page, base: float, height: float) -> str:
    """Which triangle of this slope fits: inches in eighths, or whole millimetres."""
    inches = scene.length_unit[0] in ("in", "ft")
    step = _INCH / 8 if inches else 0.001 * _METRE
    largest = largest_base(page, height / base, base, step)
    said = f"{largest / _INCH:g} in" if inches else f"{largest / _METRE * 1000:.0f} mm"
    if not largest:
        return "This triangle is too large for one page, and too steep for any smaller one of its slope."
    return f"This triangle is too large for one page. At its slope the largest base that fits is {said}."
