"""The screw: an inclined plane wound round a cylinder, turned by a handle; and the paper triangle that shows it.

Sources: one turn of the handle against one lead, IMA = 2 pi r / l (US Navy, Basic Machines, NAVEDTRA 14037, public
domain, chapter on screws). The thread itself is in thread.py.
"""

from __future__ import annotations

from calc.block import EFFORT, IDENTITIES, MEASURED, RESULTS, WORK
from calc.drawing import paper_to_cut, unrolled_thread, wrapped_paper
from calc.drawing import work as work_drawing
from calc.model import Calculator, Condition, Lead, Quantity, Relation, Sentence, when
from calc.thread import (
    BASIC_DIAMETER,
    LEAD,
    LEAD_ANGLE,
    MEAN_DIAMETER,
    OUTSIDE,
    PITCH,
    ROUND,
    STARTS,
    THREAD,
    THREAD_SIZE,
)

HANDLE = Quantity(
    "r", "Handle radius", "length", "3 in", "75 mm", level=1, role="effort", hint="From the screw's axis to the hand."
)
LIFT = Quantity(
    "h", "Load distance wanted", "length", "1 in", "25 mm", level=1, role="load", hint="How far the load is to move."
)
TURNS = Quantity("turns", "Turns", "turns", "turns", "turns", level=1, hint="Of the handle.")
PATHS = (
    Quantity("dR", "Load distance", "length", "in", "mm", role="load"),
    Quantity("dE", "Effort distance", "length", "in", "m", role="effort"),
)

TURNING = (
    Relation("IMA = 2*pi*r/l", "The hand goes once round its circle while the load moves one lead."),
    *when({"view": "ideal"}, Relation("E = R/IMA", "Without friction the effort is load over ideal advantage.")),
    Relation("turns = h/l", "Turns are the distance over the lead."),
    Relation("dR = h", "The load moves the distance wanted."),
    Relation("dE = 2*pi*r*turns", "The hand goes once round its circle in each turn."),
)
MEASURED_TOO_WELL = Condition("AMA > IMA", "n-over1", at="E", stop=False, when={"view": "measured"})
CAUTIONS = (
    "A vise or a press pinches: keep fingers out of its jaws and off the threads. Never lengthen a handle with a pipe.",
    "A screw of several starts, or a greased one, can run back when you let go.",
)

SCREW = Calculator(
    key="screw",
    title="Screw",
    choices=(THREAD_SIZE,),
    quantities=(
        Quantity(
            "R",
            "Load",
            "force",
            "100 lbf",
            "450 N",
            level=1,
            role="load",
            hint="How hard the press must squeeze, or what the stand must lift.",
        ),
        OUTSIDE,
        PITCH,
        STARTS,
        LEAD,
        MEAN_DIAMETER,
        HANDLE,
        LIFT,
        TURNS,
        EFFORT,
        *RESULTS,
        LEAD_ANGLE,
        Quantity("IMA_t", "Advantage of the thread alone", "ratio", level=3, hint="Once round over lead, no handle."),
        BASIC_DIAMETER,
        ROUND,
        *PATHS,
    ),
    relations=(
        *THREAD,
        *TURNING,
        *MEASURED,
        *WORK,
        Relation("IMA_t = C/l", "The thread alone is a ramp pushed along its level side."),
    ),
    conditions=(MEASURED_TOO_WELL,),
    identities=(*IDENTITIES, Relation("IMA_t = 1/tan(lam)"), Relation("dE = IMA*dR")),
    asks=("E", "R", "p", "j", "l", "d_m", "lam", "r", "h", "turns", "eta"),
    sentences=(
        Sentence(
            "You pulled {E} where an ideal screw needs {E@ideal}. Of the work you put in, {eta} moved the load.",
            {"view": "measured"},
        ),
        Sentence(
            "At this efficiency the effort is {E}, where an ideal screw needs {E@ideal}.",
            {"view": "expected", "effort": "found"},
        ),
        Sentence("Without friction {E} on the handle moves {R}. Real screws lose more than half.", {"effort": "typed"}),
        Sentence("Give the handle {turns} with {E}. The load of {R} moves {dR}, if nothing rubs."),
        Sentence("The effort is {E} for a load of {R}."),
        Sentence("This screw has an ideal advantage of {IMA}. Fill in the load to find the effort."),
        Sentence("One turn moves it {l}."),
    ),
    shows=("l", "turns", "lam", "IMA_t"),
    leads=(
        Lead(
            "ramp",
            "One turn of the thread as a ramp, pushed level",
            {"R": "R", "h": "l", "b": "C"},
            choices={"pull": "level"},
        ),
    ),
    cautions=CAUTIONS,
    draw=unrolled_thread.draw,
    draw_work=work_drawing.draw,
)

WRAP_TEST = Calculator(
    key="wrap-test",
    title="A screw out of paper",
    quantities=(
        Quantity("B", "Base of the paper", "length", "11 in", "280 mm", level=1, hint="The long straight edge."),
        Quantity("H", "Height of the paper", "length", "2 in", "50 mm", level=1, hint="The short straight edge."),
        Quantity("d", "Dowel diameter", "length", "1 in", "25 mm", level=1, hint="What the paper is wound on."),
        Quantity("turns", "Turns", "turns", "turns", "turns", level=1, hint="How often the paper goes round."),
        Quantity(
            "p", "Pitch", "length", "in", "mm", level=1, hint="From one turn of the edge to the next, up the dowel."
        ),
        Quantity("lam", "Lead angle", "angle", "°", "°", level=1, hint="The sloping edge, from the base."),
    ),
    relations=(
        Relation("turns = B/(pi*d)", "The base goes once round for each circumference of the dowel."),
        Relation("p = H/turns", "The height is shared out among the turns."),
        Relation("lam = atan(H/B)", "The paper's slope is height over base, flat or wound."),
    ),
    identities=(Relation("p = pi*d*tan(lam)"), Relation("turns*p = H")),
    asks=("B", "H", "d", "turns", "p", "lam"),
    sentences=(
        Sentence("The paper goes round {turns}. Its edge climbs {p} a turn, as a thread does."),
        Sentence("The paper goes round {turns}."),
    ),
    shows=("turns", "p", "lam"),
    leads=(Lead("ramp-shape", "The same slope as a ramp", {"h": "H", "b": "B"}),),
    draw=wrapped_paper.draw,
    draw_page=paper_to_cut.draw,
    page_act="Print the paper triangle",
)
