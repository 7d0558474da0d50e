"""A strip of tape: inches in sixteenths along the upper edge, millimetres along the lower, and a mark at a length."""

from math import ceil, floor

from .canvas import BODY, EDGE, OVERLAY, Canvas, Words, number
from .labels import wrapped
from .letters import EFFORT, NOTE, PLAIN
from .scene import Scene

_INCH = 0.0254
_TALL = 92.0
_FINE = {1: 30.0, 2: 24.0, 4: 18.0, 8: 13.0, 16: 9.0}
"""Length in pixels of the tick at each part of an inch."""


def compose(scene: Scene) -> Canvas | None:
    """The tape round the length L_in (metres); None while it is unknown or out of a tape's reach."""
    length = scene.values.get("L_in", 0.0)
    if not 0 < length < 1e4:
        return None
    canvas = Canvas(f"{scene.key}-{scene.width}", scene.width, "A length on a tape")
    left, right = EDGE + 6, scene.width - EDGE - 6
    pixels = 108.0 if scene.wide else 92.0
    travel = min(max(scene.travel, 0.0), 1.0)
    mark = length / _INCH
    first = max(mark - (right - left) / pixels * (0.15 + 0.7 * travel), 0.0)
    last = first + (right - left) / pixels
    corners = (complex(left, 0), complex(right, 0), complex(right, _TALL), complex(left, _TALL))
    canvas.polygon(corners, "lesser paper", BODY)
    at = left + (mark - first) * pixels
    _mark(canvas, scene, at)
    _inches(canvas, left, first, last, pixels, at)
    _millimetres(canvas, left, first, last, pixels, at)
    return canvas


def _inches(canvas: Canvas, left: float, first: float, last: float, pixels: float, mark: float) -> None:
    ticks = []
    for count in range(ceil(first * 16 - 1e-9), floor(last * 16 + 1e-9) + 1):
        part = next(n for n in _FINE if count * n % 16 == 0)
        x = left + (count / 16 - first) * pixels
        ticks.append(f"M{number(x)} 0v{number(_FINE[part])}")
        if part == 1:
            _figure(canvas, f"{count // 16}", x, 31, mark)
    canvas.put(BODY, f'<path class="thin" d="{"".join(ticks)}"/>')


def _millimetres(canvas: Canvas, left: float, first: float, last: float, pixels: float, mark: float) -> None:
    ticks = []
    each = pixels / 25.4
    for count in range(ceil(first * 25.4 - 1e-9), floor(last * 25.4 + 1e-9) + 1):
        x = left + (count / 25.4 - first) * pixels
        tall = 22.0 if count % 10 == 0 else 15.0 if count % 5 == 0 else 9.0
        ticks.append(f"M{number(x)} {number(_TALL)}v-{number(tall)}")
        if count % 10 == 0 and each > 3:
            _figure(canvas, f"{count}", x, _TALL - 38, mark)
    canvas.put(BODY, f'<path class="thin" d="{"".join(ticks)}"/>')


def _figure(canvas: Canvas, text: str, x: float, top: float, mark: float) -> None:
    """A number at its tick, where the mark, the edge and its neighbour leave room for it."""
    words = Words((text,), NOTE)
    half = words.width / 2
    if abs(x - mark) < half + 5:
        return
    if EDGE + 6 + half < x < canvas.width - EDGE - 6 - half and not any(
        box.left < x + half + 2 and box.right > x - half - 2 and box.top < top + words.height and box.bottom > top
        for box in canvas.boxes
    ):
        canvas.write(words, x, top, "middle")


def _mark(canvas: Canvas, scene: Scene, x: float) -> None:
    """The mark across the tape, with the length in both systems above and below."""
    canvas.line(complex(x, -16), complex(x, _TALL + 16), "visible by-effort", OVERLAY)
    canvas.arrowhead(complex(x, 0), 1j, 10, OVERLAY)
    canvas.arrowhead(complex(x, _TALL), -1j, 10, OVERLAY)
    above = f"{scene.text('L_in')}, nearest 1/16: {scene.text('L_16')}"
    for text, style, top in ((above, EFFORT, None), (scene.text("L_mm"), PLAIN, _TALL + 20)):
        words = wrapped(Words((text,), style), canvas.width - 2 * EDGE)
        half = words.width / 2
        middle = min(max(x, EDGE + half), canvas.width - EDGE - half)
        canvas.write(words, middle, -20 - words.height if top is None else top, "middle")
