"""Where labels go: beside the thing they name, clear of everything else.

Each label brings its preferred sides. Every side at every distance is a candidate with a price;
the cheapest wins. A label that finds no clear place near by stands outside the drawing, at the
end of a leader. The same scene always gives the same places.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from math import inf, pi

from .canvas import HARD, OVERLAY, Canvas, Words
from .plane import Box, Segment, length_inside, meet, towards

NEAR = (9.0, 15.0, 23.0, 35.0, 52.0)
"""Distances in pixels at which a label may stand from its point."""

LEADER = (18.0, 28.0, 40.0, 54.0, 70.0, 90.0)
"""Lengths in pixels that a leader may have."""

_FARTHEST_BARE = 30.0
"""A label farther from its point than this has a leader."""

CLEAR = 100.0
"""A candidate this dear touches something: it is never taken while there is another way."""

_TOUCHES_TEXT = 3000.0
_LEADER_CROSSES_TEXT = 1500.0
_LEADER_CROSSES_LINE = 20.0
_GROWTH = 0.7
"""Price of each pixel by which a label would make the drawing taller."""

_SIDE_STEP = 4.0
_DISTANCE_STEP = 5.0

_SIDES = {
    name: towards(angle * pi / 180)
    for name, angle in {
        "E": 0, "ENE": 22, "NE": 45, "NNE": 68, "N": 90, "NNW": 112, "NW": 135, "WNW": 158,
        "W": 180, "WSW": 202, "SW": 225, "SSW": 248, "S": 270, "SSE": 292, "SE": 315, "ESE": 338,
    }.items()
}  # fmt: skip


_EVERYWHERE = "E NE N NW W SW S SE"
_FAR = (22.0, 34.0, 50.0, 70.0, 95.0, 130.0, 175.0)


@dataclass(frozen=True)
class Label:
    """A label that looks for its place: the point it names, its sides in order of preference.

    `narrower` is another way to break its lines, taken where the first finds no place.
    """

    at: complex
    words: Words
    sides: str = "E NE SE N S W NW SW"
    distances: tuple[float, ...] = NEAR
    leader: bool = False
    narrower: Words | None = None


@lru_cache(maxsize=256)
def _candidates(sides: str, distances: tuple[float, ...]) -> tuple[tuple[float, complex, float], ...]:
    """Price, side and distance of every candidate, the cheapest first."""
    priced = [
        (_SIDE_STEP * i + _DISTANCE_STEP * j, _SIDES[side], distance)
        for i, side in enumerate(sides.split())
        for j, distance in enumerate(distances)
    ]
    return tuple(sorted(priced, key=lambda candidate: candidate[0]))


def _box_at(canvas: Canvas, foot: complex, side: complex, width: float, height: float) -> Box:
    """The box of a label that leans against a point from one side."""
    if abs(side.real) > 0.3:
        left = foot.real - (0.0 if side.real > 0 else width)
    else:  # above or below: it may slide to stay in the frame
        left = min(max(foot.real - width / 2, canvas.frame[0]), canvas.frame[1] - width)
    top = foot.imag - (0.0 if side.imag > 0.3 else height if side.imag < -0.3 else height / 2)
    return Box(left, top, left + width, top + height)


class _Neighbours:
    """What has been drawn round one label, to price its candidates quickly."""

    def __init__(self, canvas: Canvas, point: complex, reach: Box) -> None:
        left, top, right, bottom = reach
        self.boxes = [
            box for box in canvas.boxes if box[0] < right and box[2] > left and box[1] < bottom and box[3] > top
        ]
        self.segments = [
            segment
            for segment in canvas.segments
            if (segment[0] < right or segment[2] < right)
            and (segment[0] > left or segment[2] > left)
            and (segment[1] < bottom or segment[3] < bottom)
            and (segment[1] > top or segment[3] > top)
        ]
        # A leader may leave the thing it names for nothing.
        own = Box(point.real - 3, point.imag - 3, point.real + 3, point.imag + 3)
        self.hard = [segment for segment in self.segments if segment[4] >= HARD and not length_inside(own, segment)]
        self._frame, self._floor = canvas.frame, canvas.floor
        empty = canvas.top > canvas.bottom
        self._top, self._bottom = (-inf, inf) if empty else (canvas.top, canvas.bottom)

    def price(self, box: Box, limit: float) -> float:
        """What a box would cover and add to the height; stops counting at the limit."""
        left, top, right, bottom = box
        if left < self._frame[0] or right > self._frame[1] or bottom > self._floor:
            return inf
        for other in self.boxes:
            if left < other[2] + 3 and right > other[0] - 3 and top < other[3] + 1 and bottom > other[1] - 1:
                return _TOUCHES_TEXT
        left, top, right, bottom = left - 1, top - 1, right + 1, bottom + 1
        aired = Box(left, top, right, bottom)
        total = _GROWTH * (max(self._top - box[1], 0.0) + max(box[3] - self._bottom, 0.0))
        for segment in self.segments:
            x1, y1, x2, y2, weight = segment
            if (
                (x1 < left and x2 < left)
                or (x1 > right and x2 > right)
                or (y1 < top and y2 < top)
                or (y1 > bottom and y2 > bottom)
            ):
                continue
            length = length_inside(aired, segment)
            if length:
                total += weight * (12 + length) + (CLEAR if weight >= HARD else 0.0)
                if total >= limit:
                    return total
        return total

    def crossings(self, start: complex, end: complex, limit: float) -> float:
        """What a leader between two points would cross; stops counting at the limit."""
        x1, y1, x2, y2 = start.real, start.imag, end.real, end.imag
        line = Segment(x1, y1, x2, y2, 0)
        left, right = (x1, x2) if x1 < x2 else (x2, x1)
        top, bottom = (y1, y2) if y1 < y2 else (y2, y1)
        total = 0.0
        for box in self.boxes:
            if box[0] < right and box[2] > left and box[1] < bottom and box[3] > top and length_inside(box, line):
                return _LEADER_CROSSES_TEXT
        for other in self.hard:
            ax, ay, bx, by, _ = other
            if (
                (ax < left and bx < left)
                or (ax > right and bx > right)
                or (ay < top and by < top)
                or (ay > bottom and by > bottom)
            ):
                continue
            if meet(line, other):
                total += _LEADER_CROSSES_LINE
                if total >= limit:
                    break
        return total


def _best(
    canvas: Canvas, label: Label, words: Words, sides: str, distances: tuple[float, ...], leader: bool
) -> tuple[float, Box, complex]:
    """Price, box and foot of the cheapest candidate."""
    width, height = words.width, words.height
    reach = max(distances) + 4
    x, y = label.at.real, label.at.imag
    around = _Neighbours(
        canvas,
        label.at,
        Box(x - width - reach, y - height - reach, x + width + reach, y + height + reach),
    )
    best = (inf, _box_at(canvas, label.at, 1, width, height), label.at)
    for price, side, distance in _candidates(sides, distances):
        if price >= best[0]:
            break
        foot = label.at + side * distance
        box = _box_at(canvas, foot, side, width, height)
        price += around.price(box, best[0] - price)
        if (leader or distance > _FARTHEST_BARE) and price < best[0]:
            price += around.crossings(label.at, foot, best[0] - price)
        if price < best[0]:
            best = (price, box, foot)
    return best


def _outside(canvas: Canvas, label: Label) -> tuple[Box, complex, bool]:
    """A place above or below everything drawn, and whether a leader reaches it past all other text."""
    width, height = label.words.width, label.words.height
    lowest, highest = canvas.frame[0], canvas.frame[1] - width
    everything = _Neighbours(canvas, label.at, Box(-inf, -inf, inf, inf))
    tops = [canvas.top - 8 - height]
    if canvas.bottom + 8 + height < canvas.floor:
        tops.append(canvas.bottom + 8)
    best = (inf, Box(lowest, tops[0], lowest + width, tops[0] + height), label.at)
    for top in tops:
        for step in (0, -40, 40, -80, 80, -120, 120, -180, 180, -240, 240):
            left = min(max(label.at.real - width / 2 + step, lowest), highest)
            box = Box(left, top, left + width, top + height)
            foot = complex(
                min(max(label.at.real, left + 6), left + width - 6),
                top if top > label.at.imag else top + height,
            )
            price = everything.crossings(label.at, foot, inf) + abs(foot - label.at) + abs(step) / 10
            if price < best[0]:
                best = (price, box, foot)
    return best[1], best[2], best[0] < _LEADER_CROSSES_TEXT


def leader(canvas: Canvas, point: complex, foot: complex) -> None:
    """A thin line from a label to the thing it names, one head on the thing."""
    canvas.polygon((foot, point), "thin", OVERLAY, closed=False, weight=8)
    canvas.arrowhead(point, (point - foot) / abs(point - foot), 8, OVERLAY)


def settle(canvas: Canvas, labels: Iterable[Label]) -> list[Box]:
    """Set every label, the first ones with the widest choice; returns their boxes."""
    return [_settle(canvas, label) for label in labels]


def _settle(canvas: Canvas, label: Label) -> Box:
    words, with_leader = label.words, label.leader
    price, box, foot = _best(canvas, label, words, label.sides, label.distances, with_leader)
    if price >= CLEAR and label.narrower:
        other = _best(canvas, label, label.narrower, label.sides, label.distances, with_leader)
        if other[0] < price:
            words, (price, box, foot) = label.narrower, other
    if price >= CLEAR:
        with_leader = True
        words = label.words
        price, box, foot = _best(canvas, label, words, _EVERYWHERE, _FAR, with_leader)
        if price >= CLEAR:
            box, foot, with_leader = _outside(canvas, label)
            if not with_leader:
                return _write_at(canvas, words, box, foot)
    if with_leader or abs(foot - label.at) > _FARTHEST_BARE:
        leader(canvas, label.at, foot)
    return _write_at(canvas, words, box, foot)


def _write_at(canvas: Canvas, words: Words, box: Box, foot: complex) -> Box:
    """Set words in their box, flush with the side that is nearer to what they name."""
    if foot.real <= box.left + 1:
        return canvas.write(words, box.left, box.top, "start")
    if foot.real >= box.right - 1:
        return canvas.write(words, box.right, box.top, "end")
    return canvas.write(words, (box.left + box.right) / 2, box.top, "middle")


def clear(canvas: Canvas, box: Box) -> float:
    """What a box at this place would cover: 0 for nothing at all."""
    reach = Box(box.left - 5, box.top - 5, box.right + 5, box.bottom + 5)
    return _Neighbours(canvas, complex(box.left, box.top), reach).price(box, inf)


def wrapped(words: Words, room: float) -> Words:
    """The label broken at spaces so that no line is wider than the room allows, if it can be."""
    if words.width <= room:
        return words
    lines: list[str] = []
    for line in words.lines:
        current = ""
        for word in line.split(" "):
            longer = f"{current} {word}".strip()
            symbol = words.symbol if not lines else ""
            if current and Words((longer,), words.style, symbol).width > room:
                lines.append(current)
                current = word
            else:
                current = longer
        lines.append(current)
    return Words(tuple(lines), words.style, words.symbol)


def widest(*labels: Words | None) -> float:
    """Width of the widest of several labels."""
    return max((label.width for label in labels if label), default=0.0)
