"""Work and power: a force along a path, at an angle to it, in a time.

Source: work is the part of the force along the path times the path, W = F d cos(gamma); power is its rate, W/t (any
physics text, e.g. OpenStax Physics, ch. 9). One horsepower is 550 ft lbf/s by definition.
"""

from __future__ import annotations

from math import pi

from calc.drawing import work_along_path
from calc.model import Calculator, Condition, Quantity, Relation, Sentence

_BELOW_ZERO = -1e12  # a force that holds a moving thing back does negative work

WORK_AND_POWER = Calculator(
    key="work-and-power",
    title="Work and power",
    quantities=(
        Quantity(
            "F", "Force", "force", "30 lbf", "130 N", level=1, role="effort", hint="The pull on a crate of kindling."
        ),
        Quantity("d", "Distance", "length", "4 ft", "1.2 m", level=1, role="effort", hint="How far the crate moves."),
        Quantity(
            "gamma",
            "Angle",
            "angle",
            "°",
            "°",
            level=1,
            default="0",
            default_note="Taken as 0°: the force is along the path.",
            low=0.0,
            high=pi,
            hint="Between force and path. Over 90° the force holds back.",
        ),
        Quantity("t", "Time", "time", "5 s", "5 s", level=1, hint="How long the move takes."),
        Quantity("W", "Work", "work", level=1, low=_BELOW_ZERO),
        Quantity("P", "Power", "power", level=1, hint="hp, W and kW are understood too.", low=_BELOW_ZERO),
        Quantity("F_d", "Force along the path", "force", "lbf", "N", low=_BELOW_ZERO),
        Quantity("P_hp", "Power in horsepower", "power", "hp", "hp", low=_BELOW_ZERO),
        Quantity("P_W", "Power in watts", "power", "W", "W", low=_BELOW_ZERO),
    ),
    relations=(
        Relation("F_d = F*cos(gamma)", "Only the part of the force along the path does work."),
        Relation("W = F_d*d", "Work is that part times the distance."),
        Relation("P = W/t", "Power is work over time."),
        Relation("P_hp = P"),
        Relation("P_W = P"),
    ),
    conditions=(
        Condition("W**2 <= 0", "n-nowork", at="gamma", stop=False),
        Condition("W < 0", "n-heldback", at="gamma", stop=False),
    ),
    identities=(Relation("P*t = F*d*cos(gamma)"),),
    asks=("W", "P", "F", "d", "t", "gamma"),
    shows=("F_d", "W", "P", "P_hp", "P_W"),
    sentences=(
        Sentence("{F} through {d} does {W} of work. In {t} that is {P}, or {P_hp}."),
        Sentence("{F} through {d} does {W} of work. Fill in the time to find the power."),
    ),
    cautions=("Two lift what one cannot lift easily. Bend the knees, not the back, and stop before you are tired.",),
    draw=work_along_path.draw,
)
