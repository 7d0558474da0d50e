"""The bent lever: two arms at an angle, and forces that need not be square to them (claw hammer, gate latch).

Source: the moment of a force is its size times its perpendicular distance from the pivot, a sin(psi) (any statics
text, e.g. Engineering Statics, open textbook, ch. 4).
"""

from __future__ import annotations

from math import pi

from calc.block import EFFORT, IDENTITIES, MEASURED, RESULTS, WORK
from calc.drawing import bent_lever as bent_lever_drawing
from calc.drawing import work as work_drawing
from calc.model import Calculator, Condition, Quantity, Relation, Sentence, when

_WIDEST = 179.9 * pi / 180


def _arm(symbol: str, label: str, us: str, si: str, role: str, hint: str) -> Quantity:
    return Quantity(symbol, label, "length", us, si, level=1, role=role, hint=hint)


def _angle(symbol: str, label: str, example: str, role: str, hint: str) -> Quantity:
    return Quantity(symbol, label, "angle", example, example, level=1, role=role, high=_WIDEST, hint=hint)


BENT_LEVER = Calculator(
    key="bent-lever",
    title="Bent lever",
    quantities=(
        Quantity(
            "R",
            "Load",
            "force",
            "60 lbf",
            "270 N",
            level=1,
            role="load",
            hint="A nail that holds on in a pallet board.",
        ),
        _arm("aR", "Load arm", "1.5 in", "40 mm", "load", "Straight from pivot to load, not along the bend."),
        _angle("psi_R", "Load angle", "70 °", "load", "Between load and load arm. 90° is square."),
        _arm("aE", "Effort arm", "12 in", "300 mm", "effort", "Straight from pivot to hand."),
        _angle("psi_E", "Effort angle", "90 °", "effort", "Between effort and effort arm. 90° is square."),
        EFFORT,
        *RESULTS,
        Quantity("m_R", "Moment arm of the load", "length", "in", "mm", role="load"),
        Quantity("m_E", "Moment arm of the effort", "length", "in", "mm", role="effort"),
        Quantity(
            "psi",
            "Turn",
            "angle",
            "°",
            "°",
            level=3,
            default="pi/9",
            default_note="Taken as 20° in all.",
            high=pi / 2,
            hint="How far the lever turns. Both forces keep their angle to the arms.",
        ),
        Quantity("dR", "Load distance", "length", "in", "mm", role="load"),
        Quantity("dE", "Effort distance", "length", "in", "mm", role="effort"),
    ),
    relations=(
        Relation("m_R = aR*sin(psi_R)", "Only the part of the load square to its arm turns the lever."),
        Relation("m_E = aE*sin(psi_E)", "Only the part of the effort square to its arm turns the lever."),
        Relation("IMA = m_E/m_R", "The moment arms set the ideal advantage."),
        *when({"view": "ideal"}, Relation("E*m_E = R*m_R", "The turning effects about the pivot balance.")),
        *MEASURED,
        Relation("dE = m_E*psi", "The hand's path along its own pull is moment arm times angle turned."),
        Relation("dR = m_R*psi", "The load's path along its own line, through the same angle."),
        *WORK,
    ),
    conditions=(Condition("AMA > IMA", "n-over1", at="E", stop=False, when={"view": "measured"}),),
    identities=(
        *IDENTITIES,
        *when({"view": "ideal"}, Relation("E*aE*sin(psi_E) = R*aR*sin(psi_R)")),
    ),
    asks=("E", "R", "aR", "aE", "psi_R", "psi_E", "eta"),
    shows=("m_R", "m_E"),
    sentences=(
        Sentence(
            "You pulled {E} where an ideal lever needs {E@ideal}. Of the work you put in, {eta} moved the load.",
            {"view": "measured"},
        ),
        Sentence("At this efficiency the effort is {E}. An ideal lever needs {E@ideal}.", {"view": "expected"}),
        Sentence("A pull of {E} with a moment arm of {m_E} balances {R} with a moment arm of {m_R}."),
        Sentence("The moment arms give an ideal advantage of {IMA}. Fill in the load to find the effort."),
    ),
    cautions=(
        "A nail or latch can let go all at once. Keep your face out of the path of the handle.",
        "Put a block under the hammer's head, and wear eye protection.",
    ),
    draw=bent_lever_drawing.draw,
    draw_work=work_drawing.draw,
)
