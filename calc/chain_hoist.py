"""The differential chain hoist: two joined upper wheels of nearly equal size and one loop of chain.

Source: in one turn the large wheel takes in its circumference and the small one pays out its own; the load hangs on
two parts, so it rises half the difference (any applied mechanics text, Weston's differential pulley block).
"""

from __future__ import annotations

from calc.block import EFFORT, IDENTITIES, MEASURED, RESULTS, WORK
from calc.drawing import chain_hoist as hoist_drawing
from calc.drawing import work as work_drawing
from calc.model import Calculator, Choice, Condition, Quantity, Relation, Sentence, when

_ROUND, _COUNTED = {"by": "diameter"}, {"by": "pockets"}

CHAIN_HOIST = Calculator(
    key="chain-hoist",
    title="Differential chain hoist",
    choices=(
        Choice("by", "Wheels measured by", (("diameter", "their diameters"), ("pockets", "their chain pockets"))),
    ),
    quantities=(
        Quantity("R", "Load", "force", "100 lbf", "450 N", level=1, role="load", hint="A pallet of pavers, say."),
        Quantity(
            "D",
            "Large wheel",
            "length",
            "10 in",
            "250 mm",
            level=1,
            when=_ROUND,
            hint="Diameter to the chain's middle.",
        ),
        Quantity("d", "Small wheel", "length", "9 in", "225 mm", level=1, when=_ROUND, hint="On the same shaft."),
        Quantity("N_D", "Pockets, large wheel", "count", "20", "20", level=1, when=_COUNTED, low=3, high=400),
        Quantity("N_d", "Pockets, small wheel", "count", "18", "18", level=1, when=_COUNTED, low=3, high=400),
        Quantity(
            "p",
            "Pocket spacing",
            "length",
            "1.5 in",
            "38 mm",
            level=1,
            when=_COUNTED,
            hint="Chain for one pocket: two links.",
        ),
        EFFORT,
        *RESULTS,
        Quantity("dR", "Load rise per turn", "length", "in", "mm", role="load"),
        Quantity("dE", "Chain pulled per turn", "length", "in", "mm", role="effort"),
        Quantity("dO", "Chain paid out per turn", "length", "in", "mm"),
    ),
    relations=(
        *when(_ROUND, Relation("IMA = 2*D/(D - d)", "Two chain parts carry, and only the difference lifts.")),
        *when(_COUNTED, Relation("IMA = 2*N_D/(N_D - N_d)", "Two chain parts carry, and only the difference lifts.")),
        *when({"view": "ideal"}, Relation("E = R/IMA", "Without friction the effort is load over ideal advantage.")),
        *MEASURED,
        *when(
            _ROUND,
            Relation("dE = pi*D", "One turn pulls in once round the large wheel."),
            Relation("dO = pi*d", "It pays out once round the small wheel."),
        ),
        *when(
            _COUNTED,
            Relation("dE = N_D*p", "One turn pulls in the chain of all pockets of the large wheel."),
            Relation("dO = N_d*p", "It pays out that of the small wheel."),
        ),
        Relation("dR = (dE - dO)/2", "The load hangs on two parts: half the difference lifts it."),
        *WORK,
    ),
    conditions=(
        Condition("d < D", "e-chainwheels", at="d", when=_ROUND),
        Condition("N_d < N_D", "e-chainwheels", at="N_d", when=_COUNTED),
        Condition("AMA > IMA", "n-over1", at="E", stop=False, when={"view": "measured"}),
        Condition("eta <= 0.5", "n-hoistholds", at="eta", stop=False),
        Condition("eta > 0.5", "n-hoistruns", at="eta", stop=False),
    ),
    identities=IDENTITIES,
    asks=("E", "R", "D", "d", "eta"),
    shows=("dO",),
    book_case=True,
    sentences=(
        Sentence(
            "You pulled {E} where an ideal hoist needs {E@ideal}: {eta} of the work lifted.", {"view": "measured"}
        ),
        Sentence("At this efficiency the pull is {E}. An ideal hoist needs {E@ideal}.", {"view": "expected"}),
        Sentence("Pull {E} through {dE} of chain. The load of {R} rises {dR}."),
        Sentence("In one turn {dE} of chain is pulled and the load rises {dR}."),
        Sentence("The effort is {E} for a load of {R}."),
    ),
    cautions=(
        "No class uses a chain hoist, and nothing is lifted over people. This sheet only works one out.",
        "A hoist with a damaged hook or latch is out of use for everybody.",
    ),
    draw=hoist_drawing.draw,
    draw_work=work_drawing.draw,
)
