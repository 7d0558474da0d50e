"""Pin friction: the two-arm lever again, opened at its pin.

The physics is the lever's own (``calc/lever.py``): the friction circle of a pin, r_f = r_p sin(arctan mu), from journal
friction in any statics text. Here the pin has its boxes in front, and a drawing of its own.
"""

from __future__ import annotations

from dataclasses import replace

from calc.drawing import pin_friction as pin_drawing
from calc.lever import LEVER
from calc.model import Sentence

_OPENED = {"r_p": ("0.25 in", "6 mm"), "mu": ("0.20", "0.20")}

PIN_FRICTION = replace(
    LEVER,
    key="pin-friction",
    title="Pin friction",
    quantities=tuple(
        replace(q, us=_OPENED[q.symbol][0], si=_OPENED[q.symbol][1], level=1) if q.symbol in _OPENED else q
        for q in LEVER.quantities
    ),
    asks=("E", "R", "aR", "aE", "r_p", "mu"),
    sentences=(
        Sentence(
            "You pulled {E} where a lever without friction needs {E@ideal}.",
            {"view": "measured"},
        ),
        Sentence(
            "On this pin the pivot force passes {r_f} beside the centre. So {E} at {aE} balances {R} at {aR}.",
            {"view": "expected", "effort": "typed"},
        ),
        Sentence(
            "The effort is {E}, where a lever without friction needs {E@ideal}. "
            "The pivot force passes {r_f} beside the pin's centre.",
            {"view": "expected"},
        ),
        Sentence("Without friction the effort is {E}. Fill in pin radius and friction coefficient to see the rest."),
    ),
    draw=pin_drawing.draw,
)
