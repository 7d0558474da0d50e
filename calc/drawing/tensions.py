"""The tension in each part of a rope, as a list with a bar for each, so that they can be compared by eye."""

from collections.abc import Sequence
from dataclasses import dataclass

from calc.figures import shown

from .canvas import BODY, Canvas, Words, shape
from .labels import wrapped
from .letters import EFFORT, HEADING, NOTE, PLAIN
from .rigging import RING, ringed
from .scene import Scene

_ROW = 24.0
_LOW_ROW = 2 * RING + 2
_LONGEST = 58.0
_SHORTEST = 20.0
"""What the longest bar may come down to, so that two columns have room."""

_NAME = 36.0
"""Pixels for a part's ring, or the word for the hauling part."""


@dataclass(frozen=True)
class Tension:
    """One part: its number (or "hand"), its tension in newtons and as shown, whether it is the one pulled by."""

    name: str
    force: float
    text: str
    by_effort: bool = False


def tensions(scene: Scene, parts: int, to_advantage: bool) -> list[Tension]:
    """The parts from the hand to the dead end, the hauling part first; empty while they are not known.

    Each sheave passes on a share k of the tension, so a part that has so many sheaves between itself and the hand
    has the effort times k to that power. To advantage the hauling part is itself the last part at the moving block.
    """
    effort, k = scene.values.get("E", 0.0), scene.values.get("k", 1.0)
    if not (effort > 0 and 0 < k <= 1):
        return []
    unit, newtons = scene.force_unit
    found = [Tension(str(parts) if to_advantage else "hand", effort, scene.text("E"), by_effort=True)]
    for part in range(parts - 1 if to_advantage else parts, 0, -1):
        force = effort * k ** (parts - part + (0 if to_advantage else 1))
        found.append(Tension(str(part), force, f"{shown(force / newtons)} {unit}"))
    return found


def tension_list(canvas: Canvas, left: float, top: float, width: float, listed: Sequence[Tension]) -> float:
    """Heading and rows from a corner; where the room is twice a row's width, in two columns. Returns the y below."""
    heading = wrapped(Words(("TENSION IN THE ROPE",), HEADING), width)
    top = canvas.write(heading, left, top).bottom + 10
    fixed = _NAME + 10 + max(Words((one.text,), EFFORT).width for one in listed)
    columns = 2 if len(listed) > 5 and 2 * (fixed + _SHORTEST) <= width else 1
    rows = -(-len(listed) // columns)
    row = _ROW if rows < 8 else _LOW_ROW
    scale = min(_LONGEST, width / columns - fixed) / max(one.force for one in listed)
    for index, one in enumerate(listed):
        x = left + (index // rows) * width / columns
        middle = top + (index % rows) * row + RING
        _row(canvas, x, middle, one, scale)
    return top + rows * row


def _row(canvas: Canvas, x: float, middle: float, one: Tension, scale: float) -> None:
    start, length = x + _NAME, one.force * scale
    corners = [complex(start + dx, middle + dy) for dx, dy in ((0, -5), (length, -5), (length, 5), (0, 5))]
    if one.name.isdecimal():
        ringed(canvas, complex(start - RING - 8, middle), one.name)
    else:
        words = Words((one.name,), NOTE)
        canvas.write(words, start - 6, middle - words.height / 2, "end")
    if one.by_effort:
        canvas.put(BODY, shape(corners, "effort"))
        canvas.reserve(*corners)
        canvas.avoid([*corners, corners[0]], 3)
    else:
        canvas.polygon(corners, "lesser paper", BODY)
    words = Words((one.text,), EFFORT if one.by_effort else PLAIN)
    canvas.write(words, start + length + 6, middle - words.height / 2)
