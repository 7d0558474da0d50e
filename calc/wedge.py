"""The wedge without friction: its shape, its two ways of counting the ideal advantage, and a measured effort.

Driven home, the wedge travels its length ell and parts or lifts by its thickness t, so E ell = R t. Books that take
the force square to the sloping face as the load divide by that face instead: s/t.

Sources: work in equals work out; balance of forces on the wedge (any statics text, e.g. Engineering Statics, open
textbook, ch. 9, wedges).
"""

from __future__ import annotations

from calc.block import EFFORT, IDENTITIES, MEASURED, REAL, RESULTS, WORK
from calc.drawing import wedge as wedge_drawing
from calc.drawing import work as work_drawing
from calc.model import Calculator, Choice, Condition, Lead, Quantity, Relation, Sentence, when

KIND = Choice(
    "kind",
    "Kind of wedge",
    (("single", "single taper, one sloping face"), ("double", "double taper, two sloping faces")),
)
CONVENTION = Choice(
    "wedge",
    "What the book divides",
    (("work", "travel by thickness (this site)"), ("slope", "sloping face by thickness")),
    level=3,
)
LOAD = Quantity(
    "R",
    "Load",
    "force",
    "20 lbf",
    "90 N",
    level=1,
    role="load",
    hint="What is lifted. For a double taper: the sideways force on each side.",
)
SHAPE = (
    Quantity(
        "ell", "Wedge length", "length", "9 in", "225 mm", level=1, role="effort", hint="Tip to butt, along its travel."
    ),
    Quantity("t", "Thickness", "length", "1.5 in", "38 mm", level=1, role="load", hint="At the butt, the thick end."),
)
FACE = (
    Quantity("s", "Sloping face", "length", "in", "mm", level=3, hint="Tip to butt, along one sloping face."),
    Quantity(
        "alpha",
        "Wedge angle",
        "angle",
        "°",
        "°",
        level=3,
        high=1.0471975511965976,
        hint="Of one sloping face to the travel. A double taper has two of them.",
    ),
)
DERIVED = (
    Quantity("IMA_s", "Sloping face by thickness", "ratio"),
    Quantity("IMA_w", "Travel by thickness", "ratio"),
    Quantity("N", "Force square to the face", "force", "lbf", "N"),
    Quantity("dR", "Load distance", "length", "in", "mm", role="load"),
    Quantity("dE", "Effort distance", "length", "in", "mm", role="effort"),
)
FORM = (
    Relation("IMA_w = ell/t", "The wedge goes its length while the load goes its thickness."),
    Relation("IMA_s = s/t", "Books that divide by the sloping face take the force square to it as the load."),
    *when({"wedge": "work"}, Relation("IMA = ell/t", "Travel over thickness sets the ideal advantage.")),
    *when({"wedge": "slope"}, Relation("IMA = s/t", "In this convention the sloping face over the thickness is it.")),
    *when(
        {"kind": "single"},
        Relation("t = ell*tan(alpha)", "The whole angle opens the thickness over the length."),
        Relation("s = sqrt(ell**2 + t**2)", "Length and thickness make a right triangle with the sloping face."),
    ),
    *when(
        {"kind": "double"},
        Relation("t = 2*ell*tan(alpha)", "Each face opens half the thickness over the length."),
        Relation("s = sqrt(ell**2 + t**2/4)", "Length and half the thickness make a right triangle with one face."),
    ),
    *when(
        {"view": "ideal"},
        Relation("E*ell = R*t", "Without friction the work in is the work out."),
        Relation("N = R/cos(alpha)", "The face pushes square to itself, so it pushes a little more than the load."),
    ),
    Relation("dE = ell", "Driven home, the wedge goes its length."),
    *when({"wedge": "work"}, Relation("dR = t", "The load goes the thickness.")),
    *when({"wedge": "slope"}, Relation("dR = ell*t/s", "Square to its face the load goes a little less.")),
)
"""What holds for every wedge, with friction or without."""

WORK_CONVENTION = when({"wedge": "work"}, *MEASURED, *WORK)
_AMA, _ETA, _LOST = MEASURED
_WORK_IN, _ = WORK
SLOPE_CONVENTION = when(
    {"wedge": "slope"},
    _ETA,
    _LOST,
    _WORK_IN,
    Relation("Wout = N*dR", "Work out is the face force times the way square to the face."),
)
SLOPE_IDENTITIES = when({"view": REAL, "wedge": "slope"}, Relation("eta = Wout/Win"))
WORK_IDENTITIES = when({"wedge": "work"}, *IDENTITIES)

CAUTIONS = (
    "No striking in the classroom: push the wedge with a steady force. A stuck wedge can fly out.",
    "Where splitting is shown: teacher only, eye and face protection, a clear zone, no mushroomed heads.",
    "A blow is energy, not a steady force, so no spring scale reads it. For a struck wedge only the shape counts.",
)

WEDGE = Calculator(
    key="wedge",
    title="Wedge",
    choices=(KIND, CONVENTION),
    quantities=(LOAD, *SHAPE, EFFORT, *RESULTS, *FACE, *DERIVED),
    relations=(
        *FORM,
        *WORK_CONVENTION,
        *SLOPE_CONVENTION,
        *when(
            {"view": REAL, "wedge": "slope", "kind": "single"},
            Relation(
                "AMA = (R*cos(alpha) + E*sin(alpha))/E",
                "Load and effort together press on the face. That force over the effort is the actual advantage.",
            ),
        ),
        *when(
            {"view": REAL, "wedge": "slope", "kind": "double"},
            Relation(
                "AMA = (R*cos(alpha) + E/2*sin(alpha))/E",
                "Load and half the effort press on each face. That force over the effort is the actual advantage.",
            ),
        ),
        *when({"view": REAL, "wedge": "slope"}, Relation("N = AMA*E", "The force square to the face.")),
    ),
    conditions=(
        Condition("AMA > IMA", "n-over1", at="E", stop=False, when={"view": "measured"}),
        Condition(
            "AMA > 0", "n-smoothbase", at="E", stop=False, when={"view": REAL, "wedge": "slope", "kind": "single"}
        ),
    ),
    identities=(*WORK_IDENTITIES, *SLOPE_IDENTITIES),
    asks=("E", "R", "ell", "t", "eta"),
    shows=("IMA_s", "IMA_w", "N"),
    leads=(
        Lead("ramp-shape", "The same slope as a ramp", {"h": "t", "b": "ell"}, when={"kind": "single"}),
        Lead("ramp-shape", "One of its two faces as a ramp", {"h": "t/2", "b": "ell"}, when={"kind": "double"}),
    ),
    sentences=(
        Sentence(
            "You pushed {E} where an ideal wedge needs {E@ideal}."
            " Counted at the sloping face, {eta} of your work arrived.",
            {"view": "measured", "wedge": "slope"},
        ),
        Sentence(
            "You pushed {E} where an ideal wedge needs {E@ideal}. Of the work you put in, {eta} moved the load.",
            {"view": "measured"},
        ),
        Sentence("At this efficiency the effort is {E}. An ideal wedge needs {E@ideal}.", {"view": "expected"}),
        Sentence(
            "Without friction a push of {E} through {dE} presses each side out with {R}. In all they part by {t}."
            " By the sloping face the ideal advantage is {IMA_s}, by the travel {IMA_w}.",
            {"kind": "double"},
        ),
        Sentence(
            "Without friction a push of {E} through {dE} lifts {R} by {t}."
            " By the sloping face the ideal advantage is {IMA_s}, by the travel {IMA_w}.",
            {"kind": "single"},
        ),
        Sentence("The shape gives an ideal advantage of {IMA}. Fill in the load to find the effort."),
    ),
    cautions=CAUTIONS,
    draw=wedge_drawing.draw,
    draw_work=work_drawing.draw,
)
