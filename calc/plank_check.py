"""A plank laid flat from end to end: how much it bends, as a caution before anything is rolled over it. No design.

Sources: the bending moment, stress and sag of a beam on two supports with a load in its middle and its own weight
(any mechanics of materials text, simple beams; M = P s/4 + W s/8, sigma = 6 M/(b t^2)); on a slope only the part of
the weight square to the plank bends it. A sag of a sixtieth of the span is the limit for loaded scaffold platforms in
29 CFR 1926.451(f)(16), used as a yardstick only. The allowance of 1.5 is common practice, no source. The wood's
numbers are cautious ones for softwood without a grade stamp, from memory of tables for visually graded lumber.
"""

from __future__ import annotations

from calc.drawing import plank_check as plank_drawing
from calc.model import Calculator, Choice, Condition, Quantity, Relation, Sentence, when

_WOOD = "For softwood without a stamp: cautious, from memory. A grade stamp’s published value may stand here."

PLANK_CHECK = Calculator(
    key="plank-check",
    title="Plank check",
    book_case=True,
    still=True,
    choices=(Choice("prop", "Held up", (("ends", "at both ends"), ("middle", "at both ends and under the middle"))),),
    quantities=(
        Quantity(
            "Q", "Load on the plank", "force", "60 lbf", "270 N", level=1, role="load", hint="Load and cart together."
        ),
        Quantity("L", "Plank length", "length", "96 in", "2.4 m", level=1, hint="Between its end supports."),
        Quantity("h", "Rise", "length", "24 in", "0.6 m", level=1, low=0.0, hint="Of one end above the other."),
        Quantity("b", "Plank width", "length", "9.25 in", "235 mm", level=1, hint="A dressed 2×10 is 9-1/4 in wide."),
        Quantity("t", "Plank thickness", "length", "1.5 in", "38 mm", level=1, hint="A dressed 2× is 1-1/2 in thick."),
        Quantity(
            "a",
            "Allowance",
            "ratio",
            "1.5",
            "1.5",
            level=2,
            hint="Loads shift and jerk, so more is counted. 1.5 is common practice, no source.",
        ),
        Quantity("f_b", "Bending limit of the wood", "stress", "800 psi", "5.5 MPa", level=2, hint=_WOOD),
        Quantity("Y", "Stiffness of the wood", "stress", "1200000 psi", "8300 MPa", level=2, hint=_WOOD),
        Quantity("g_w", "Weight of the wood", "heft", "35 lbf/ft³", "5.5 kN/m³", level=2, hint=_WOOD),
        Quantity("theta", "Slope angle", "angle", "°", "°", low=0.0),
        Quantity("s", "Span", "length", "in", "m"),
        Quantity("P", "Load counted", "force", "lbf", "N"),
        Quantity("W", "Weight of one span", "force", "lbf", "N"),
        Quantity("M", "Bending moment", "torque", "lbf·in", "N·m"),
        Quantity(
            "f", "Bending stress", "stress", "psi", "MPa", level=1, hint="Leave it empty. Or type one to find the load."
        ),
        Quantity("y", "Sag", "length", "in", "mm"),
        Quantity("y_s", "Sag allowed", "length", "in", "mm"),
        Quantity("N", "Force on the prop", "force", "lbf", "N", when={"prop": "middle"}),
    ),
    relations=(
        Relation("theta = asin(h/L)", "The slope’s angle."),
        *when({"prop": "ends"}, Relation("s = L", "The plank spans from end to end.")),
        *when({"prop": "middle"}, Relation("s = L/2", "A prop under the middle halves the span.")),
        Relation("P = a*Q", "The load is counted with its allowance."),
        Relation("W = g_w*b*t*s", "The wood of one span weighs this."),
        Relation("M = (P/4 + W/8)*s*cos(theta)", "Load in the middle and own weight bend it, square to the plank."),
        Relation("f = 6*M/(b*t**2)", "The stress in its outer fibres."),
        Relation("y = (P + 5*W/8)*s**3*cos(theta)/(4*Y*b*t**3)", "How far the middle goes down."),
        Relation("y_s = s/60", "A sixtieth of the span is the limit here."),
        *when({"prop": "middle"}, Relation("N = P + W", "Load over it, it carries that, and half of each span.")),
    ),
    conditions=(
        Condition("h < L", "e-hgtL", at="h"),
        Condition("f > f_b", "n-plankbends", at="t", stop=False),
        Condition("y > y_s", "n-planksags", at="t", stop=False),
    ),
    asks=("f", "Q"),
    shows=("P", "W", "s", "M", "f", "y", "y_s", "N"),
    sentences=(Sentence("The wood is bent to {f}, where {f_b} is the limit. It sags {y}, where {y_s} is the limit."),),
    cautions=(
        "This is a caution, not a design. Nobody walks on the plank, and nobody rides.",
        "Turn away wood with knots at its edges, splits, warp or damp before you reckon anything.",
        "Local codes, the maker’s or grader’s published values and a licensed person go before this page.",
    ),
    draw=plank_drawing.draw,
)
