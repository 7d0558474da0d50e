"""The drum seen from the side: its turns of rope can be counted, the three that always stay on it hatched."""

from __future__ import annotations

from math import ceil

from . import cord
from .canvas import BACKGROUND, BODY, EDGE, MOVING, Canvas, Words
from .labels import wrapped
from .letters import NOTE
from .plane import rectangle
from .scene import Scene
from .windlass_end import Windlass, hand_height

DEAD_TURNS = 3
_THINNEST = 2.0
"""Thinner strands are drawn as one hatched bundle."""


def view(canvas: Canvas, scene: Scene, machine: Windlass, corner: complex) -> float:
    """Draw it to the right of a corner, level with the end view when wide; returns the y below."""
    room = canvas.width - EDGE - corner.real
    reach = max(machine.crank, machine.outer)
    axis = complex(corner.real + 12, machine.centre.imag if scene.wide else corner.imag + reach + 8)
    turns = max(scene.values.get("turns", 4.0), 0.0)
    layers = max(round(scene.values.get("m", 1.0)), 1)
    rope = max(machine.rope, 0.01)
    per_layer = scene.values.get("p", 0.0)
    on_last = turns + DEAD_TURNS - (layers - 1) * per_layer if layers > 1 and per_layer > 0 else turns + DEAD_TURNS
    wanted = max(scene.values.get("b", 0.0) * machine.scale, (on_last + 1.5) * rope, 30.0)
    long = min(wanted, room - 70)
    left, right = axis.real, axis.real + long
    _shaft(canvas, machine, axis, right)
    canvas.polygon(
        rectangle(complex((left + right) / 2, axis.imag), 1, long, -machine.drum, machine.drum), "visible paper"
    )
    if layers > 1:
        under = machine.outer - rope
        canvas.polygon(
            rectangle(complex((left + right) / 2, axis.imag), 1, long - 2, -under, under), "lesser paper", weight=0
        )
    now = DEAD_TURNS + turns * machine.done if layers == 1 else max(on_last * machine.done, 1.0)
    end, all_drawn = _turns(canvas, machine, axis, now, rope, long, layers == 1)
    fall = complex(end, axis.imag + machine.outer + 26)
    cord.strip(canvas, complex(end, axis.imag), fall, max(rope, 1.6))
    cord.break_mark(canvas, fall - 6j, max(rope, 1.6))
    canvas.reserve(complex(left, axis.imag - reach - 8), complex(left, axis.imag + reach + 8))
    words = wrapped(Words((_counted(scene, layers == 1, all_drawn),), NOTE), room)
    return canvas.write(words, corner.real, max(axis.imag + reach + 12, fall.imag + 8)).bottom


def _counted(scene: Scene, first_layer: bool, all_drawn: bool) -> str:
    """How many turns there are, in words."""
    dead = f"{DEAD_TURNS} dead turns, hatched"
    words = scene.text("turns") or dead
    if first_layer and scene.text("turns"):
        words = f"{words} over {dead}" if all_drawn else f"{words} over {DEAD_TURNS} dead ones, not all drawn"
    if scene.text("turns") and not first_layer and scene.text("m"):
        words = f"{words}, the last on layer {scene.text('m')}"
    return words


def _shaft(canvas: Canvas, machine: Windlass, axis: complex, right: float) -> None:
    """Shaft, two bearings, and the crank as far up or down as it stands."""
    y = axis.imag
    thick = min(4.0, max(2.0, machine.drum * 0.3))
    canvas.polygon(
        rectangle(complex((axis.real + right) / 2 + 8, y), 1, right - axis.real + 44, -thick, thick),
        "lesser paper",
        BACKGROUND,
    )
    for x in (axis.real - 7, right + 7):
        canvas.polygon(rectangle(complex(x, y), 1, 7, -9, 9), "thin paper", BODY)
    hand = complex(right + 27, y - hand_height(machine))
    low, high = sorted((y, hand.imag))
    canvas.polygon(
        (
            complex(hand.real - 3, low - 4),
            complex(hand.real + 3, low - 4),
            complex(hand.real + 3, high + 4),
            complex(hand.real - 3, high + 4),
        ),
        "visible paper",
        MOVING,
    )
    canvas.polygon(rectangle(hand + 13, 1, 20, -4, 4), "lesser paper", MOVING)


def _turns(
    canvas: Canvas, machine: Windlass, axis: complex, count: float, rope: float, long: float, dead: bool
) -> tuple[float, bool]:
    """The strands on the drum; returns the x of the rope that leaves it, and whether all are drawn."""
    fits = max((long - 1.5 * rope) / rope, 1.0)
    shown, y, outer = min(count, fits), axis.imag, machine.outer
    if rope < _THINNEST:
        end = axis.real + max(shown * rope, 3.0)
        bundle = [
            complex(axis.real, y - outer),
            complex(end, y - outer),
            complex(end, y + outer),
            complex(axis.real, y + outer),
        ]
        canvas.polygon(bundle, "lesser paper")
        canvas.hatch(bundle, 3.0, 1.4)
        return end, shown >= count
    for i in range(ceil(shown)):
        x = axis.real + i * rope
        strand = [
            complex(x, y - outer),
            complex(x + rope, y - outer),
            complex(x + 1.5 * rope, y + outer),
            complex(x + 0.5 * rope, y + outer),
        ]
        canvas.polygon(strand, "thin paper", BODY, weight=2.5 if i in (0, ceil(shown) - 1) else 0)
        if dead and i < DEAD_TURNS:
            canvas.hatch(strand, 3.5)
    return axis.real + (ceil(shown) - 0.25) * rope, shown >= count
