"""The windlass: a crank that winds rope on a drum, and what its journals cost.

Sources: moments about the shaft balance (any physics text, e.g. OpenStax Physics, ch. 9); the pull runs along the
middle of the rope, so half a rope's thickness belongs to the radius of the drum; the friction circle of a journal,
r_f = r_j sin(arctan mu), from statics (e.g. Engineering Statics, open textbook, ch. 9).
"""

from __future__ import annotations

from dataclasses import replace

from calc.block import EFFICIENCY, EFFORT, IDENTITIES, MEASURED, REAL, RESULTS, WORK
from calc.drawing import windlass as windlass_drawing
from calc.drawing import work as work_drawing
from calc.model import Calculator, Choice, Condition, Quantity, Relation, Sentence, when

CRANK = Quantity(
    "r_c", "Crank radius", "length", "15 in", "380 mm", level=1, role="effort", hint="Shaft's middle to the hand."
)
DRUM = Quantity("D", "Drum diameter", "length", "6 in", "150 mm", level=1, hint="The bare drum, by calliper.")
ROPE = Quantity(
    "t", "Rope diameter", "length", "0.5 in", "12 mm", level=1, hint="The pull runs along the middle of the rope."
)
LAYER = Quantity(
    "m",
    "Layer of rope",
    "count",
    level=3,
    default="1",
    default_note="Taken as the first layer, on the bare drum.",
    high=12,
    hint="Rope on rope: each layer lies one rope farther out.",
)
RADIUS = Quantity("r", "Effective radius", "length", "in", "mm")
LOAD = Quantity(
    "R", "Load", "force", "40 lbf", "180 N", level=1, role="load", hint="A rain barrel's stand, hauled up the wall."
)
CAUTIONS = (
    "The crank can spin back and strike. Keep hold of it, or fit a pawl. No loose sleeves, cords or long hair.",
    "Leave at least three turns of rope on the drum. Nobody stands under or beside the load.",
)
_WOUND = Relation(
    "r = D/2 + (m - 1/2)*t", "The rope's middle lies half a rope outside the drum, or the layer below it."
)
_ADVANTAGE = Relation("IMA = r_c/r", "Crank radius over effective radius sets the ideal advantage.")
_BALANCE = when({"view": "ideal"}, Relation("E*r_c = R*r", "The turning effects about the shaft balance."))
_OVER = Condition("AMA > IMA", "n-over1", at="E", stop=False, when={"view": "measured"})
_MEASURED = Sentence(
    "You pushed {E} where an ideal windlass needs {E@ideal}. Of the work you put in, {eta} lifted the load.",
    {"view": "measured"},
)

_ONE, _WIDTH = {"wind": "layer"}, {"wind": "width"}

WINDLASS = Calculator(
    key="windlass",
    title="Windlass",
    choices=(
        Choice(
            "wind",
            "Rope on the drum",
            (("layer", "one layer, all the way"), ("width", "layers counted from the drum's width")),
            level=3,
        ),
    ),
    quantities=(
        LOAD,
        CRANK,
        DRUM,
        ROPE,
        Quantity("h", "Height", "length", "12 in", "300 mm", level=1, role="load", hint="How far the load goes up."),
        Quantity("turns", "Turns of the crank", "turns", level=1, hint="Count them, or leave it empty."),
        Quantity("s", "Hand path", "length", "ft", "m", level=1, role="effort", hint="All the way round, every turn."),
        EFFORT,
        *(
            replace(q, us="85 %", si="85 %", hint="About what a hand windlass keeps. Clear it, or measure yours.")
            if q is EFFICIENCY
            else q
            for q in RESULTS
        ),
        Quantity(
            "b", "Drum width", "length", "8 in", "200 mm", level=3, when=_WIDTH, hint="Between the drum's cheeks."
        ),
        Quantity("p", "Turns in a layer", "count", low=0, when=_WIDTH),
        replace(LAYER, least="pi*p*m*(D + m*t) >= l*(1 - 1e-9)", none="e-drumfull"),
        Quantity("W_lift", "Work in, whole lift", "work", when=_WIDTH),
        RADIUS,
        Quantity("l", "Rope on the drum", "length", "ft", "m", when=_WIDTH),
        Quantity("l_u", "Rope on the layers below", "length", "ft", "m", low=0.0, when=_WIDTH),
        Quantity("dR", "Load distance", "length", "ft", "m", role="load"),
        Quantity("dE", "Effort distance", "length", "ft", "m", role="effort"),
    ),
    relations=(
        _WOUND,
        _ADVANTAGE,
        *_BALANCE,
        *MEASURED,
        Relation("s = 2*pi*r_c*turns", "The hand goes once round the crank circle a turn."),
        *when(
            _ONE,
            Relation("turns = h/(2*pi*r)", "Each turn winds up one effective circumference."),
            Relation("dR = h", "The load rises by the height."),
            Relation("dE = s", "The effort goes the hand path."),
        ),
        *when(
            _WIDTH,
            Relation("p = floor(b/t)", "So many whole turns lie side by side."),
            Relation("l = h + 3*pi*(D + t)", "At the top the drum holds the lift, and three dead turns under it."),
            Relation("l_u = pi*p*(m - 1)*(D + (m - 1)*t)", "The full layers below hold so much of it."),
            Relation(
                "turns = p*(m - 1) + (l - l_u)/(2*pi*r) - 3",
                "The full layers, and what is left on the last one, less the three dead turns.",
            ),
            Relation("dR = 2*pi*r", "On the last layer, the hardest, one turn lifts one effective circumference."),
            Relation("dE = 2*pi*r_c", "In that turn the hand goes once round the crank circle."),
            *when({"view": "ideal"}, Relation("W_lift = R*h", "Layer by layer, the whole lift sums up to this.")),
            *when(
                {"view": REAL},
                Relation("W_lift = R*h/eta", "Layer by layer, the whole lift sums up to this at one efficiency."),
            ),
        ),
        *WORK,
    ),
    conditions=(
        Condition("p > 3", "e-deadturns", at="b", when=_WIDTH),
        Condition("pi*p*m*(D + m*t) >= l*(1 - 1e-9)", "e-drumfull", at="b", when=_WIDTH),
        Condition("l >= l_u", "e-drumlow", at="m", when=_WIDTH),
        _OVER,
    ),
    shows=("r", "p", "l", "W_lift"),
    identities=(*IDENTITIES, *when(_ONE, Relation("s = IMA*h"), Relation("turns*2*pi*r = h"))),
    asks=("E", "R", "r_c", "D", "eta", "h", "turns", "s"),
    sentences=(
        _MEASURED,
        Sentence(
            "On layer {m}, at this efficiency, {E} on the crank raises {R}. The whole lift takes {turns}.",
            {"view": "expected", **_WIDTH},
        ),
        Sentence(
            "On layer {m} the crank takes {E} for a load of {R}. The whole lift takes {turns}.",
            {"view": "ideal", **_WIDTH},
        ),
        Sentence(
            "At this efficiency {E} on the crank through {dE} raises the load {dR}. An ideal windlass needs {E@ideal}.",
            {"view": "expected"},
        ),
        Sentence("Push {E} on the crank through {dE}: {turns}. The load of {R} rises {dR}."),
        Sentence("The effort is {E} for a load of {R}."),
        Sentence("Crank and drum give an ideal advantage of {IMA}. Fill in the load to find the effort."),
    ),
    cautions=CAUTIONS,
    draw=windlass_drawing.draw,
    draw_work=work_drawing.draw,
)

JOURNAL_FRICTION = Calculator(
    key="journal-friction",
    title="Friction in the journals",
    quantities=(
        LOAD,
        CRANK,
        DRUM,
        ROPE,
        Quantity("r_j", "Journal radius", "length", "0.5 in", "12 mm", level=1, hint="Half the shaft, in its bearing."),
        Quantity(
            "mu",
            "Friction coefficient",
            "friction",
            "0.15",
            "0.15",
            level=1,
            loss=True,
            hint="Shaft in its bearing, while it turns. Greased metal is often 0.1 to 0.2.",
        ),
        Quantity("w", "Drum weight", "force", "18 lbf", "80 N", level=1, hint="Drum, shaft and crank together."),
        EFFORT,
        *RESULTS,
        LAYER,
        RADIUS,
        Quantity("r_f", "Friction circle radius", "length", "in", "mm", low=0.0),
        Quantity("N", "Bearing load", "force", "lbf", "N"),
        Quantity("dR", "Load distance", "length", "ft", "m", role="load"),
        Quantity("dE", "Effort distance", "length", "ft", "m", role="effort"),
    ),
    relations=(
        _WOUND,
        _ADVANTAGE,
        *_BALANCE,
        *when(
            {"view": REAL},
            Relation("r_f = r_j*sin(atan(mu))", "In a rubbing bearing the force passes this far beside the centre."),
            Relation(
                "E = (R*(r + r_f) + w*r_f)/(r_c - r_f)",
                "Load, drum and effort all press on the bearing. The crank is level and pushed down: the hardest part.",
            ),
        ),
        *MEASURED,
        Relation("N = R + w + E", "The bearings carry load, drum and the push down."),
        Relation("dR = 2*pi*r", "In one turn the load rises by one effective circumference."),
        Relation("dE = 2*pi*r_c", "In one turn the hand goes once round the crank circle."),
        *WORK,
    ),
    conditions=(
        Condition("r_f < r_c", "e-journal", at="r_j", withdraws=("E",)),
        _OVER,
        Condition("mu <= 0", "n-nofric", at="mu", stop=False, when={"view": "expected"}),
    ),
    shows=("r", "N"),
    identities=(*IDENTITIES, *when({"view": REAL}, Relation("E*r_c = R*r + N*r_f"))),
    asks=("E", "R", "r_c", "D", "r_j", "w", "mu", "eta"),
    sentences=(
        _MEASURED,
        Sentence("With this friction {E} on the crank raises {R}.", {"view": "expected", "effort": "typed"}),
        Sentence(
            "At the hardest part of the turn the crank takes {E}. Without friction it would take {E@ideal}.",
            {"view": "expected"},
        ),
        Sentence("Without friction the effort on the crank is {E} for a load of {R}."),
        Sentence("Crank and drum give an ideal advantage of {IMA}. Fill in the load to find the effort."),
    ),
    cautions=CAUTIONS,
    draw=windlass_drawing.draw_journal,
    draw_work=work_drawing.draw,
)
