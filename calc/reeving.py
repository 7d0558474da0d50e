"""How a tackle is rove: its parts, its sheaves, and where the hauling part comes off.

To disadvantage the hauling part comes down off the standing block and carries nothing of the load; to advantage it
leaves the moving block and is itself one of the parts. Source of the two words: any seamanship or rigging handbook.
"""

from __future__ import annotations

from calc.model import Choice, Quantity, Relation, when

DOWN, UP = {"rove": "disadvantage"}, {"rove": "advantage"}

ROVE = Choice(
    "rove",
    "Hauling part",
    (
        ("disadvantage", "down off the standing block (to disadvantage)"),
        ("advantage", "up from the moving block (to advantage)"),
    ),
)
PARTS = Quantity(
    "n",
    "Parts of rope",
    "count",
    "4",
    "4",
    level=1,
    low=1,
    high=12,
    hint="Count those that touch the moving block, not the pulleys.",
)
SHEAVES = Quantity("S", "Sheaves", "count", low=0)
SHEAVE_COUNT = (
    *when(DOWN, Relation("S = n", "Off the standing block, the rope turns once for every part.")),
    *when(UP, Relation("S = n - 1", "Off the moving block, the last part needs no sheave.")),
)
