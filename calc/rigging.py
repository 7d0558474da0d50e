"""What every pulley machine has in common: the weight of what moves with the load, and what a sheave passes on.

Source: a sheave passes on a share k of the tension, the same at every sheave and whichever way it turns (the usual
rule of rigging handbooks). That small hardware-store sheaves pass on about 92 % is common practice, no source.
"""

from __future__ import annotations

from calc.model import Condition, Quantity, Relation, when

BLOCK_WEIGHT = Quantity(
    "w",
    "Moving block",
    "force",
    "lbf",
    "N",
    level=1,
    low=0.0,
    default="0",
    default_note="Taken as 0: the moving block is left out.",
    hint="Its weight, with hook and sling. It is lifted too.",
)
LIFT = Quantity(
    "h", "Lift", "length", "12 in", "300 mm", level=1, hint="How far the load rises. A class lifts 12 in at most."
)
PASSED_ON = Quantity(
    "k",
    "Passed on by a sheave",
    "efficiency",
    "%",
    "%",
    level=3,
    loss=True,
    low=0.5,
    hint="Share of the pull. Small hardware-store sheaves: often 92 %, common practice.",
)
EFFORT_DOWN = Quantity(
    "E_down",
    "Effort while lowering",
    "force",
    "lbf",
    "N",
    level=3,
    loss=True,
    role="effort",
    hint="What just lets it down. Between the two it stays put.",
)
WITH_BLOCK = Quantity("G", "Load with block", "force", "lbf", "N", role="load")

LIFTS_BLOCK = when(
    {"view": "ideal"},
    Relation("Wlost = Win - Wout", "Work lost to the load is work in less work out. It lifts the moving block."),
)
TOO_LIGHT = Condition("k <= 1", "e-toolight", at="E", withdraws=("k",))

CAUTIONS = (
    "Nobody under or beside a hanging load. Lift no more than 12 in, over a pad.",
    "The anchor holds load and pull together. Check it, and the rope, against the makers’ rated limits.",
    "Never wrap the rope round a hand.",
)
