"""The shape of a ramp: slope length, rise, run and angle from any two of them, and what the shape alone promises.

Source: the right triangle (Pythagoras, sine, cosine, tangent).
"""

from __future__ import annotations

from dataclasses import replace

from calc.block import IMA
from calc.drawing import ramp_shape as shape_drawing
from calc.inclined_plane import INSIDE_TRIANGLE, SHAPE, SLOPE_ANGLE, TRIANGLE
from calc.model import Calculator, Quantity, Relation, Sentence

RAMP_SHAPE = Calculator(
    key="ramp-shape",
    title="Ramp shape",
    quantities=(
        *SHAPE,
        replace(SLOPE_ANGLE, level=1),
        replace(IMA, label="Ideal advantage of a pull along the ramp"),
        Quantity("IMA_level", "Ideal advantage of a level push", "ratio"),
    ),
    relations=(
        *TRIANGLE,
        Relation("IMA = L/h", "Along the ramp the hand goes the slope length while the load rises."),
        Relation("IMA_level = b/h", "A level push goes only the run while the load rises."),
    ),
    conditions=INSIDE_TRIANGLE,
    identities=(Relation("L**2 = h**2 + b**2"), Relation("IMA**2 = IMA_level**2 + 1"), Relation("sin(theta) = 1/IMA")),
    asks=("L", "h", "b", "theta"),
    shows=("L", "h", "b", "theta", "IMA", "IMA_level"),
    sentences=(Sentence("A ramp {L} long and {h} high rises at {theta}. Along it the ideal advantage is {IMA}."),),
    cautions=("Cleat both plank ends, so that neither can slide.",),
    draw=shape_drawing.draw,
)
