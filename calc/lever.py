"""The lever: two arms about a pivot, in its three classes, with the friction of its pin.

Sources: moments about the pivot balance (any statics text, e.g. Engineering Statics, open textbook, ch. 4); the
friction circle of a pin, r_f = r_p sin(arctan mu), from the same branch of statics (journal friction).
"""

from __future__ import annotations

from calc.block import EFFORT, IDENTITIES, MEASURED, REAL, RESULTS, WORK
from calc.drawing import lever as lever_drawing
from calc.drawing import work as work_drawing
from calc.model import Calculator, Choice, Condition, Lead, Quantity, Relation, Sentence, when

LEVER = Calculator(
    key="lever",
    title="Two-arm lever",
    choices=(
        Choice(
            "class",
            "Order on the bar",
            (
                ("1", "pivot between (class 1)"),
                ("2", "load between (class 2)"),
                ("3", "effort between (class 3)"),
            ),
        ),
    ),
    quantities=(
        Quantity(
            "R",
            "Load",
            "force",
            "40 lbf",
            "180 N",
            level=1,
            role="load",
            hint="One corner of a full planter, lifted to slip a block under it.",
        ),
        Quantity("aR", "Load arm", "length", "6 in", "150 mm", level=1, hint="Pivot to load, square to the force."),
        Quantity(
            "aE",
            "Effort arm",
            "length",
            "24 in",
            "600 mm",
            level=1,
            role="effort",
            hint="Pivot to hand. 2 ft and 60 cm are understood too.",
        ),
        EFFORT,
        *RESULTS,
        Quantity("r_p", "Pin radius", "length", "in", "mm", level=3, hint="Half the pin's thickness, by calliper."),
        Quantity("mu", "Friction coefficient", "friction", level=3, loss=True, hint="Bar on its pin, while it moves."),
        Quantity("r_f", "Friction circle radius", "length", "in", "mm", low=0.0),
        Quantity(
            "psi",
            "Swing each way",
            "angle",
            "°",
            "°",
            level=3,
            default="pi/12",
            default_note="Taken as 15° down and 15° up.",
            high=1.0471975511965976,
            hint="How far the bar tips from level.",
        ),
        Quantity("N", "Pivot force", "force", "lbf", "N"),
        Quantity("dR", "Load distance", "length", "in", "mm", role="load"),
        Quantity("dE", "Effort distance", "length", "in", "mm", role="effort"),
    ),
    relations=(
        Relation("IMA = aE/aR", "The arms set the ideal advantage."),
        *when({"view": "ideal"}, Relation("E*aE = R*aR", "The turning effects about the pivot balance.")),
        *MEASURED,
        Relation(
            "dE = 2*aE*sin(psi)", "The bar swings down and up. The effort end moves twice its arm times the sine."
        ),
        Relation("dR = 2*aR*sin(psi)", "The load end moves through the same angle on its own arm."),
        *WORK,
        *when({"class": "1"}, Relation("N = R + E", "The pivot carries load and effort.")),
        *when({"class": "2"}, Relation("N = R - E", "The pivot carries what the effort does not.")),
        *when({"class": "3"}, Relation("N = E - R", "The pivot holds the bar's end down.")),
        *when(
            {"view": REAL},
            Relation("r_f = r_p*sin(atan(mu))", "On a rubbing pin the force passes this far beside the centre."),
        ),
        *when(
            {"view": REAL, "class": "1"},
            Relation("E = R*(aR + r_f)/(aE - r_f)", "Friction lengthens the load arm and shortens the effort arm."),
        ),
        *when(
            {"view": REAL, "class": "2"},
            Relation("E = R*(aR + r_f)/(aE + r_f)", "Friction lengthens both arms a little."),
        ),
        *when(
            {"view": REAL, "class": "3"},
            Relation("E = R*(aR - r_f)/(aE - r_f)", "Friction shortens both arms a little."),
        ),
    ),
    conditions=(
        Condition("aE > aR", "e-class2", at="aE", when={"class": "2"}),
        Condition("aE < aR", "e-class3", at="aE", when={"class": "3"}),
        Condition("r_f < aE", "e-pinarm", at="r_p", when={"class": ("1", "3")}, withdraws=("E",)),
        Condition("r_f < aR", "e-pinarm", at="r_p", when={"class": "3"}, withdraws=("E",)),
        Condition("AMA > IMA", "n-over1", at="E", stop=False, when={"view": "measured"}),
    ),
    identities=IDENTITIES,
    asks=("E", "R", "aR", "aE", "eta", "mu"),
    shows=("N",),
    leads=(
        Lead(
            "same-work",
            "The same lift straight up, by this lever and by one of twice the advantage",
            {"R": "R", "h": "dR", "IMA_1": "1", "IMA_2": "IMA", "IMA_3": "2*IMA"},
        ),
        Lead("any-machine", "These forces and distances alone", {"R": "R", "dR": "dR", "dE": "dE"}, typed={"E": "E"}),
    ),
    sentences=(
        Sentence(
            "You pulled {E} where an ideal lever needs {E@ideal}. Of the work you put in, {eta} lifted the load.",
            {"view": "measured"},
        ),
        Sentence("With this friction {E} at {aE} balances {R} at {aR}.", {"view": "expected", "effort": "typed"}),
        Sentence("With this friction the effort is {E}, where an ideal lever needs {E@ideal}.", {"view": "expected"}),
        Sentence("Push down {E} through {dE}. The load of {R} rises {dR}.", {"class": "1"}),
        Sentence("Pull up {E} through {dE}. The load of {R} rises {dR}.", {"class": "2"}),
        Sentence("Pull up {E} through {dE}. The load of {R} rises {dR}: more effort, less distance.", {"class": "3"}),
        Sentence("The effort is {E} for a load of {R}."),
        Sentence("The arms give an ideal advantage of {IMA}. Fill in the load to find the effort."),
    ),
    cautions=(
        "The bar can whip if it slips. Keep head and chin out of its path, and never sit or stand on it.",
        "Keep hands out from under the load: set blocks as it rises.",
    ),
    draw=lever_drawing.draw,
    draw_work=work_drawing.draw,
)
