"""The wheel and axle: two radii on one shaft, a cord on each; a lever that goes round.

Sources: moments about the axis balance, and one turn unwinds one circumference from each (any physics text, e.g.
OpenStax Physics, ch. 9, Work, Energy, and Simple Machines).
"""

from __future__ import annotations

from calc.block import EFFORT, IDENTITIES, MEASURED, RESULTS, WORK
from calc.drawing import wheel_and_axle as wheel_drawing
from calc.drawing import work as work_drawing
from calc.model import Calculator, Choice, Condition, Lead, Quantity, Relation, Sentence, when

CAUTIONS = (
    "A crank or a wheel under load can spin back and strike. Keep hold of it, or fit a pawl.",
    "No loose sleeves, cords, long hair or gloves near anything that turns.",
)

WHEEL_AND_AXLE = Calculator(
    key="wheel-and-axle",
    title="Wheel and axle",
    choices=(Choice("hand", "Where the effort acts", (("wheel", "on the wheel"), ("axle", "on the axle")), level=1),),
    quantities=(
        Quantity(
            "R",
            "Load",
            "force",
            "24 lbf",
            "110 N",
            level=1,
            role="load",
            hint="A pail of wet compost, hung on the load's cord.",
        ),
        Quantity(
            "r_w",
            "Wheel radius",
            "length",
            "9 in",
            "230 mm",
            level=1,
            hint="Shaft's middle to the cord, or to the hand on the rim.",
        ),
        Quantity("D_w", "Wheel diameter", "length", "in", "mm", level=1, hint="Straight across. Twice the radius."),
        Quantity("r_a", "Axle radius", "length", "1.5 in", "38 mm", level=1, hint="Shaft's middle to the axle's cord."),
        Quantity("D_a", "Axle diameter", "length", "in", "mm", level=1, hint="A calliper reads this one."),
        EFFORT,
        *RESULTS,
        Quantity("dR", "Load distance", "length", "in", "mm", role="load"),
        Quantity("dE", "Effort distance", "length", "in", "mm", role="effort"),
    ),
    relations=(
        Relation("D_w = 2*r_w", "The wheel's diameter is twice its radius."),
        Relation("D_a = 2*r_a", "The axle's diameter is twice its radius."),
        *when(
            {"hand": "wheel"},
            Relation("IMA = r_w/r_a", "Wheel radius over axle radius sets the ideal advantage."),
            *when({"view": "ideal"}, Relation("E*r_w = R*r_a", "The turning effects about the shaft balance.")),
            Relation("dE = 2*pi*r_w", "In one turn the hand goes once round the wheel."),
            Relation("dR = 2*pi*r_a", "In one turn the load rises by once round the axle."),
        ),
        *when(
            {"hand": "axle"},
            Relation("IMA = r_a/r_w", "With the effort on the axle, axle radius over wheel radius counts."),
            *when({"view": "ideal"}, Relation("E*r_a = R*r_w", "The turning effects about the shaft balance.")),
            Relation("dE = 2*pi*r_a", "In one turn the hand goes once round the axle."),
            Relation("dR = 2*pi*r_w", "In one turn the load rises by once round the wheel."),
        ),
        *MEASURED,
        *WORK,
    ),
    conditions=(
        Condition("r_a > r_w", "n-axle", at="r_a", stop=False),
        Condition("AMA > IMA", "n-over1", at="E", stop=False, when={"view": "measured"}),
    ),
    identities=IDENTITIES,
    asks=("E", "R", "r_w", "r_a", "eta"),
    sentences=(
        Sentence(
            "You pulled {E} where an ideal wheel and axle needs {E@ideal}."
            " Of the work you put in, {eta} lifted the load.",
            {"view": "measured"},
        ),
        Sentence(
            "At this efficiency the effort is {E}. An ideal wheel and axle needs {E@ideal}.", {"view": "expected"}
        ),
        Sentence(
            "In one turn, pull {E} through {dE}. The load of {R} rises {dR}: more effort, less distance.",
            {"hand": "axle"},
        ),
        Sentence("In one turn, pull {E} through {dE}. The load of {R} rises {dR}."),
        Sentence("The effort is {E} for a load of {R}."),
        Sentence("The radii give an ideal advantage of {IMA}. Fill in the load to find the effort."),
    ),
    leads=(
        Lead(
            "same-work",
            "The same lift straight up, by this wheel and axle and by one of twice the advantage",
            {"R": "R", "h": "dR", "IMA_1": "1", "IMA_2": "IMA", "IMA_3": "2*IMA"},
        ),
        Lead("any-machine", "These forces and distances alone", {"R": "R", "dR": "dR", "dE": "dE"}, typed={"E": "E"}),
    ),
    cautions=CAUTIONS,
    draw=wheel_drawing.draw,
    draw_work=work_drawing.draw,
)
