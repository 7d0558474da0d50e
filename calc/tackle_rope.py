"""How much rope a tackle takes: in its parts, round its sheaves, and a tail to hold.

Source: the lengths added up; each half turn round a sheave takes half its circumference (plain geometry).
"""

from __future__ import annotations

from dataclasses import replace

from calc.drawing import tackle_rope as rope_drawing
from calc.model import Calculator, Quantity, Relation, Sentence
from calc.reeving import PARTS, ROVE, SHEAVE_COUNT, SHEAVES
from calc.rigging import CAUTIONS, LIFT

TACKLE_ROPE = Calculator(
    key="tackle-rope",
    title="Rope for a tackle",
    choices=(ROVE,),
    quantities=(
        PARTS,
        replace(LIFT, si="0.3 m"),
        Quantity("gap", "Gap when closed", "length", "12 in", "0.3 m", level=1, hint="Least distance, pin to pin."),
        Quantity("D_s", "Sheave diameter", "length", "2.5 in", "64 mm", level=1, hint="In the groove, plus one rope."),
        Quantity("tail", "Tail", "length", "60 in", "1.5 m", level=1, hint="What is left to hold, with the load down."),
        Quantity(
            "L", "Rope needed", "length", "in", "m", level=1, cut=True, hint="Type a rope you have to find a lift."
        ),
        Quantity("L_n", "Rope in the parts", "length", "in", "m"),
        Quantity("L_S", "Rope round the sheaves", "length", "in", "m", low=0.0),
        SHEAVES,
        Quantity("dE", "Rope hauled", "length", "in", "m", role="effort"),
    ),
    relations=(
        *SHEAVE_COUNT,
        Relation("L_n = n*(h + gap)", "Every part is as long as lift and closed gap together."),
        Relation("L_S = S*pi*D_s/2", "Each sheave takes half its circumference."),
        Relation("L = L_n + L_S + tail", "Parts, sheaves and tail make the rope."),
        Relation("dE = n*h", "Every part must shorten by the lift."),
    ),
    asks=("L", "h", "gap", "tail"),
    shows=("S", "L_n", "L_S", "tail", "L", "dE"),
    sentences=(
        Sentence("The tackle takes {L} of rope. Lifting {h}, you haul {dE} of it."),
        Sentence("Lifting {h}, you haul {dE} of rope."),
    ),
    cautions=CAUTIONS,
    draw=rope_drawing.draw,
)
