"""Dimensions as a drafter sets them: filled heads, level text in a gap of the line."""

from collections.abc import Sequence

from .canvas import BACKGROUND, EDGE, Canvas, Words
from .labels import CLEAR, Label, clear, settle, wrapped
from .plane import Box, between, left_of

GAP = 3.0
"""Pixels between the part and its extension line."""

OVERSHOOT = 4.0
"""Pixels that an extension line passes beyond the dimension line."""

ROW = 24.0
"""Distance of two rows of dimensions."""

_HEADS = 34.0
"""Room that two heads and a little line need beside the text."""

_SMALL = 24.0
"""Shorter lines have their heads outside, pointing in."""

_TAIL = 20.0

_AWAY = 120.0
"""What a sloping line's text pays for standing a whole length from where it is wanted."""

_NEARLY_CLEAR = 15.0
"""A place in a sloping line as good as this is taken without trying the text on two lines."""


def _line(canvas: Canvas, start: complex, end: complex, gap: tuple[complex, complex] | None) -> None:
    """The dimension line with its heads, broken where the text stands."""
    length = abs(end - start)
    along = (end - start) / length if length else 1 + 0j
    if length < _SMALL:
        canvas.line(start - along * _TAIL, end + along * _TAIL, "thin")
        canvas.arrowhead(start, along)
        canvas.arrowhead(end, -along)
        return
    if gap is None:
        canvas.line(start, end, "thin")
    else:
        canvas.line(start, gap[0], "thin")
        canvas.line(gap[1], end, "thin")
    canvas.arrowhead(start, -along)
    canvas.arrowhead(end, along)


def level(canvas: Canvas, left: float, right: float, row: float, words: Words, uprights: Sequence[float] = ()) -> float:
    """A level dimension that has its row to itself; returns the y of the next row.

    `row` is the y of the line, `uprights` are the x of extension lines that cross the row.
    The text stands in the line, on one line if it can, else beside it, else below it.
    """
    middle, span = (left + right) / 2, right - left
    start, end = complex(left, row), complex(right, row)
    for form in (words.on_one_line(), words):
        width = form.width + 4
        places = [middle, *(left + span * share for share in (0.6, 0.4, 0.7, 0.3))]
        for x in places:
            if min(x - left, right - x) >= (width + _HEADS) / 2 and not any(
                abs(upright - x) < width / 2 + 3 for upright in uprights
            ):
                _line(canvas, start, end, (complex(x - width / 2, row), complex(x + width / 2, row)))
                box = canvas.write(form, x, row - form.height / 2, "middle")
                return max(row + ROW, box.bottom + ROW / 2 + 4)
    words = words.on_one_line()
    width, height = words.width + 4, words.height
    _line(canvas, start, end, None)
    reach = _TAIL if span < _SMALL else 0.0
    for x, anchor in ((right + reach + 5, "start"), (left - reach - 5, "end")):
        box_left, box_right = (x, x + width) if anchor == "start" else (x - width, x)
        if (
            box_left >= EDGE
            and box_right <= canvas.width - EDGE
            and not any(box_left - 3 < cross < box_right + 3 for cross in uprights)
        ):
            canvas.write(words, x, row - height / 2, anchor)
            return row + ROW
    room = canvas.width - 2 * EDGE
    words = wrapped(words, room)
    x = min(max(middle, EDGE + words.width / 2), canvas.width - EDGE - words.width / 2)
    box = canvas.write(words, x, row + 6, "middle")
    return box.bottom + ROW / 2 + 4


def upright_room(words: Words, span: float) -> tuple[float, float]:
    """Pixels that an upright dimension needs to the left and to the right of its line."""
    if _in_gap(words, span):
        return words.width / 2 + 3, words.width / 2 + 2
    return 14.0, words.width + 8


def _in_gap(words: Words, span: float) -> bool:
    return span >= words.height + _HEADS + 6


def upright(canvas: Canvas, x: float, top: float, bottom: float, words: Words) -> None:
    """An upright dimension at x: the text in a gap of the line, or to the right of a short one."""
    height = words.height
    middle = (top + bottom) / 2
    start, end = complex(x, top), complex(x, bottom)
    if _in_gap(words, bottom - top):
        half = height / 2 + 2
        _line(canvas, start, end, (complex(x, middle - half), complex(x, middle + half)))
        canvas.write(words, x, middle - height / 2, "middle")
    else:
        _line(canvas, start, end, None)
        canvas.write(words, x + 7, middle - height / 2, "start")


def sloping(canvas: Canvas, start: complex, end: complex, offset: float, words: Words, share: float = 0.5) -> None:
    """A dimension along a slope, `offset` pixels to the left of the way from start to end.

    The text stands level in a gap at the clearest place, near `share` of the length if it can.
    """
    along = (end - start) / abs(end - start)
    up = left_of(along)
    for point in (start, end):
        canvas.extension(point + up * GAP, point + up * (offset + OVERSHOOT))
    start, end = start + up * offset, end + up * offset
    length = abs(end - start)
    best: tuple[float, complex, float, Words] | None = None
    for form in (words.on_one_line(), words):
        width, height = form.width + 4, form.height
        hidden = min(
            width / abs(along.real) if along.real else length,
            height / abs(along.imag) if along.imag else length,
        )
        for at in (share, 0.22, 0.3, 0.36, 0.43, 0.5, 0.57, 0.64, 0.7, 0.78):
            if length * min(at, 1 - at) < hidden / 2 + 14:
                continue
            point = between(start, end, at)
            left, top = point.real - width / 2, point.imag - height / 2
            price = clear(canvas, Box(left, top, left + width, top + height)) + _AWAY * abs(at - share)
            if best is None or price < best[0]:
                best = (price, point, hidden / 2 + 1, form)
        if best and best[0] < _NEARLY_CLEAR:
            break
    if best and best[0] < CLEAR:
        _, point, half_gap, form = best
        _line(canvas, start, end, (point - along * half_gap, point + along * half_gap))
        canvas.write(form, point.real, point.imag - form.height / 2, "middle")
    else:
        _line(canvas, start, end, None)
        middle = between(start, end, share)
        settle(canvas, [Label(middle, words, "NW WNW NNW N W", (7.0, 12.0, 20.0, 29.0))])


def drop(canvas: Canvas, x: float, top: float, row: float) -> None:
    """An extension line straight down from a point to a dimension in a row."""
    canvas.extension(complex(x, top), complex(x, row + OVERSHOOT), BACKGROUND)
