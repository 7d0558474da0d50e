"""Travels laid out as straight dashed bars, with a dot as far along as the machine has gone."""

from __future__ import annotations

from collections.abc import Sequence

from .canvas import EDGE, OVERLAY, Canvas, number
from .labels import wrapped
from .scales import Path, path_line

_ROW = 19.0
_DOT = 3.2


def bars(canvas: Canvas, left: float, top: float, paths: Sequence[Path], done: float) -> float:
    """Paths under one another from x = ``left``; ``done`` is the share travelled, 0 to 1. Returns the y below them."""
    room = canvas.width - EDGE - left
    for path in paths:
        words = wrapped(path.words, room)
        beside = path.length + 8 + words.width <= room
        if not beside:
            top = canvas.write(words, left, top).bottom + 5
        y = top + words.height / 2 if beside else top
        path_line(canvas, complex(left, y), complex(left + path.length, y), path.by_effort)
        kind = "effort" if path.by_effort else "ink"
        x = number(left + path.length * done)
        canvas.put(OVERLAY, f'<circle class="{kind}" cx="{x}" cy="{number(y)}" r="{_DOT}"/>')
        if beside:
            canvas.write(words, left + path.length + 8, top)
        top = y + (_ROW / 2 + 2 if beside else _ROW / 2)
    return top
