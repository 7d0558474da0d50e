"""One pulley: fixed, or moving with the load, its two rope parts upright or leaning.

Source: the forces on a pulley balance (any statics text, e.g. Engineering Statics, open textbook, ch. 3).
"""

from __future__ import annotations

from dataclasses import replace

from calc.block import EFFORT, IDENTITIES, MEASURED, REAL, RESULTS, WORK
from calc.drawing import single_pulley as pulley_drawing
from calc.drawing import work as work_drawing
from calc.model import Calculator, Choice, Condition, Quantity, Relation, Sentence, when
from calc.rigging import BLOCK_WEIGHT, CAUTIONS, EFFORT_DOWN, LIFT, LIFTS_BLOCK, PASSED_ON, TOO_LIGHT, WITH_BLOCK

_MOVING = ("movable", "leaning")
_UPRIGHT = ("fixed", "movable")

SINGLE_PULLEY = Calculator(
    key="single-pulley",
    title="Single pulley",
    choices=(
        Choice(
            "kind",
            "Kind of pulley",
            (
                ("movable", "moves with the load"),
                ("fixed", "fixed overhead"),
                ("leaning", "moves, rope parts leaning"),
            ),
        ),
    ),
    quantities=(
        Quantity("R", "Load", "force", "20 lbf", "90 N", level=1, role="load", hint="The hen-house door, weighed."),
        replace(BLOCK_WEIGHT, us="1 lbf", si="4.5 N", label="Moving pulley", when={"kind": _MOVING}),
        replace(LIFT, when={"kind": _UPRIGHT}),
        Quantity(
            "beta",
            "Rope angle",
            "angle",
            "25 °",
            "25 °",
            level=1,
            low=0.0,
            high=1.4835298641951802,
            when={"kind": "leaning"},
            hint="Each rope part, from upright.",
        ),
        EFFORT,
        *RESULTS,
        replace(PASSED_ON, when={"kind": _UPRIGHT}),
        replace(EFFORT_DOWN, when={"kind": _UPRIGHT}),
        WITH_BLOCK,
        Quantity("A", "Anchor force", "force", "lbf", "N", low=0.0, when={"kind": _UPRIGHT}),
        Quantity("dR", "Load distance", "length", "in", "mm", role="load"),
        Quantity("dE", "Effort distance", "length", "in", "mm", role="effort"),
    ),
    relations=(
        *when({"kind": "fixed"}, Relation("IMA = 1", "A fixed pulley only turns the pull round.")),
        *when({"kind": "movable"}, Relation("IMA = 2", "The moving pulley hangs on two parts of the rope.")),
        *when(
            {"kind": "leaning"},
            Relation("IMA = 2*cos(beta)", "Of each leaning part only the upright share carries, so at this angle."),
        ),
        *when({"kind": "fixed"}, Relation("G = R", "A fixed pulley is not lifted.")),
        *when({"kind": _MOVING}, Relation("G = R + w", "The moving pulley is lifted too.")),
        *when({"kind": "fixed"}, Relation("A = G + E", "The anchor holds the load and your pull down.")),
        *when({"kind": "movable"}, Relation("A = G - E", "The anchor holds what you do not.")),
        *when({"view": "ideal"}, Relation("E = G/IMA", "Without friction both parts carry the same tension.")),
        *when(
            {"view": REAL, "kind": "fixed"},
            Relation("E = G/k", "The sheave passes on only a share of the pull."),
            Relation("k = sqrt(E_down/E)", "Up and down the sheave takes the same share. The load cancels."),
        ),
        *when(
            {"view": REAL, "kind": "movable"},
            Relation("E = G/(1 + k)", "The hand's part carries the pull, the other part the share passed on."),
            Relation("k = E_down/E", "Coming down, the two parts change places."),
        ),
        *when(
            {"kind": _UPRIGHT},
            Relation("dR = h", "The load rises by the lift."),
            Relation("dE = IMA*h", "Every part that carries must shorten by the lift."),
        ),
        *MEASURED,
        *when({"kind": "movable"}, *LIFTS_BLOCK),
        *WORK,
    ),
    conditions=(
        TOO_LIGHT,
        Condition("AMA > IMA", "n-over1", at="E", stop=False, when={"view": "measured"}),
    ),
    identities=IDENTITIES,
    asks=("E", "R", "k", "eta"),
    shows=("A",),
    sentences=(
        Sentence(
            "You pulled {E} where an ideal pulley needs {E@ideal}. Of the work you put in, {eta} lifted the load.",
            {"view": "measured"},
        ),
        Sentence("With {E} up and {E_down} down, the sheave passes on {k}.", {"view": "expected", "effort": "typed"}),
        Sentence(
            "With this sheave the effort is {E}, where an ideal one needs {E@ideal}. Lowering takes {E_down}.",
            {"view": "expected"},
        ),
        Sentence("Pull {E} through {dE}. The load of {R} rises {dR}.", {"kind": "movable"}),
        Sentence("Pull {E} through {dE}. The load of {R} rises {dR}: only the direction changes.", {"kind": "fixed"}),
        Sentence("At this angle each part of the rope pulls {E} to carry {G}.", {"kind": "leaning"}),
        Sentence("The effort is {E} for a load of {R}."),
        Sentence("This pulley has an ideal advantage of {IMA}. Fill in the load to find the effort."),
    ),
    cautions=CAUTIONS,
    draw=pulley_drawing.draw,
    draw_work=work_drawing.draw,
)
