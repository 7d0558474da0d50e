"""The tackle: two blocks and one rope, rove to advantage or to disadvantage, with what its sheaves cost.

Sources: the parts at the moving block carry it (statics of a freed body, any text); each sheave passes on a share k
of the tension toward the load, so the tensions fall off as k, k^2, ... (rigging handbooks give it as a factor per
sheave); the old rule of seamanship handbooks adds a tenth of the load for each sheave.
"""

from __future__ import annotations

from dataclasses import replace

from calc.block import EFFORT, IDENTITIES, MEASURED, REAL, RESULTS, WORK
from calc.drawing import tackle as tackle_drawing
from calc.drawing import work as work_drawing
from calc.model import Calculator, Condition, Lead, Quantity, Relation, Sentence, when
from calc.reeving import DOWN, PARTS, ROVE, SHEAVE_COUNT, SHEAVES, UP
from calc.rigging import BLOCK_WEIGHT, CAUTIONS, EFFORT_DOWN, LIFT, LIFTS_BLOCK, PASSED_ON, WITH_BLOCK

_OLD_RULE = (
    Quantity(
        "x",
        "Old rule: loss per sheave",
        "efficiency",
        "%",
        "%",
        level=3,
        default="0.1",
        default_note="Taken as 10 %: a tenth of the load for each sheave, as seamanship handbooks have it.",
        hint="A rule of thumb to compare with.",
    ),
    Quantity("E_x", "Effort by the old rule", "force", "lbf", "N", level=3, role="effort", hint="Only to compare."),
    Quantity("R_x", "Load with the old rule's friction", "force", "lbf", "N", role="load"),
)

TACKLE = Calculator(
    key="tackle",
    title="Tackle",
    choices=(ROVE,),
    quantities=(
        Quantity("R", "Load", "force", "36 lbf", "160 N", level=1, role="load", hint="A kindling crate, weighed."),
        replace(BLOCK_WEIGHT, us="4 lbf", si="18 N"),
        replace(PARTS, least="E <= typed(E)", none="e-neverparts"),
        LIFT,
        EFFORT,
        *RESULTS,
        PASSED_ON,
        EFFORT_DOWN,
        *_OLD_RULE,
        WITH_BLOCK,
        SHEAVES,
        Quantity("K", "Sum of the shares", "ratio"),
        Quantity("K_down", "Sum of the shares, lowering", "ratio", high=1e9),
        Quantity("E_min", "Least effort, however many parts", "force", "lbf", "N", role="effort", low=0.0),
        Quantity("A", "Anchor force", "force", "lbf", "N", low=0.0),
        Quantity("A_max", "Anchor force, rope slack", "force", "lbf", "N", when=UP),
        Quantity("dR", "Load distance", "length", "in", "mm", role="load"),
        Quantity("dE", "Rope hauled", "length", "in", "mm", role="effort"),
    ),
    relations=(
        Relation("IMA = n", "The parts at the moving block carry it together."),
        *SHEAVE_COUNT,
        Relation("G = R + w", "The moving block is lifted too."),
        *when({"view": "ideal"}, Relation("E = G/IMA", "Without friction each part carries the same tension.")),
        *when(
            {"view": REAL, **DOWN},
            Relation("K = sum(k**i for i in span(1, n))", "Each sheave passes on only its share of the pull."),
            Relation("K_down = sum(1/k**i for i in span(1, n))", "Lowering, each sheave holds back the same share."),
        ),
        *when(
            {"view": REAL, **UP},
            Relation(
                "K = 1 + sum(k**i for i in span(1, n - 1))", "The hand's own part comes first, then share by share."
            ),
            Relation(
                "K_down = 1 + sum(1/k**i for i in span(1, n - 1))", "Lowering, each sheave holds back that share."
            ),
        ),
        *when(
            {"view": REAL, **DOWN},
            Relation("E_min = G*(1 - k)/k", "However many shares are added, K stays below this."),
        ),
        *when(
            {"view": REAL, **UP}, Relation("E_min = G*(1 - k)", "However many shares are added, K stays below this.")
        ),
        *when(
            {"view": REAL},
            Relation("E = G/K", "So many times the pull carries load and block."),
            Relation("E_down = G/K_down", "Between this and the effort the load stays put."),
        ),
        *when(
            DOWN,
            Relation("A = G + E", "The anchor holds load, block and your pull down."),
        ),
        *when(
            UP,
            Relation("A = G - E", "You carry a part of it yourself."),
            Relation("A_max = G", "Let the rope go slack and the anchor holds it all."),
        ),
        Relation("R_x = G*(1 + S*x)", "The old rule adds its share of the load for every sheave."),
        Relation("E_x = R_x/n", "Then it divides by the parts."),
        *MEASURED,
        *LIFTS_BLOCK,
        Relation("dR = h", "The load rises by the lift."),
        Relation("dE = n*h", "Every part must shorten by the lift."),
        *WORK,
    ),
    conditions=(
        Condition("AMA > IMA", "n-over1", at="E", stop=False, when={"view": "measured"}),
        Condition("n <= 1", "n-bareparts", at="n", stop=False, when=UP),
    ),
    identities=(
        *IDENTITIES,
        *when({"view": REAL}, Relation("dE*E*K/n = G*h")),
    ),
    asks=("E", "R", "k", "n", "eta"),
    shows=("A", "A_max", "S", "K", "E_min"),
    leads=(
        Lead(
            "same-work",
            "Load and block straight up, by this tackle and by one of twice the advantage",
            {"R": "R + w", "h": "dR", "IMA_1": "1", "IMA_2": "IMA", "IMA_3": "2*IMA"},
        ),
    ),
    sentences=(
        Sentence(
            "You pulled {E} where an ideal tackle needs {E@ideal}. Of the work you put in, {eta} lifted the load.",
            {"view": "measured"},
        ),
        Sentence(
            "With {n} parts the pull is {E}, within your {E@typed}. The anchor holds {A}.", {"effort": "limit", **DOWN}
        ),
        Sentence(
            "With {n} parts the pull is {E}, within your {E@typed}. Plan the anchor for {A_max}.",
            {"effort": "limit", **UP},
        ),
        Sentence(
            "With these sheaves the effort is {E}, where an ideal tackle needs {E@ideal}. The anchor holds {A}.",
            {"view": "expected", **DOWN},
        ),
        Sentence(
            "With these sheaves the effort is {E}, where an ideal tackle needs {E@ideal}. Plan the anchor for {A_max}.",
            {"view": "expected", **UP},
        ),
        Sentence("Pull {E} down through {dE}. The load of {R} rises {dR}, and the anchor holds {A}.", DOWN),
        Sentence("Pull {E} up through {dE}. The load of {R} rises {dR}. Plan the anchor for {A_max}.", UP),
        Sentence("The effort is {E} for a load of {R}."),
        Sentence("This tackle has an ideal advantage of {IMA}. Fill in the load to find the effort."),
    ),
    cautions=CAUTIONS,
    draw=tackle_drawing.draw,
    draw_work=work_drawing.draw,
)
