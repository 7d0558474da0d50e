"""The clamp force of a tightened bolt: the nut-factor rule with its scatter, and where the turning goes.

Sources: T = K F d with K about 0.20 for plain and 0.15 for lightly oiled bolts, and a scatter of about 30 % either
way (machine design texts and fastening handbooks; the figures are common practice, and a maker's own torque goes
before them). K from friction: the torque of thread and bearing face of screw_friction.py over F d.
"""

from __future__ import annotations

from calc import tables
from calc.drawing import bolt_joint
from calc.model import Calculator, Choice, Condition, Fill, Quantity, Relation, Sentence, when
from calc.thread import METRIC, UNIFIED

_PRACTICE = "common practice. Yours may differ by 30 %."

BOLT_CLAMP = Calculator(
    key="bolt-clamp",
    title="Bolt clamp",
    choices=(
        Choice(
            "thread",
            "Thread",
            (*tables.options((*UNIFIED, *METRIC)), ("own", "sizes typed")),
            si="M10x1.5",
            fills=tables.fills((*UNIFIED, *METRIC), d="major", p="pitch"),
        ),
        Choice(
            "surface",
            "Bolt",
            (
                ("plain", "plain, as received"),
                ("oiled", "lightly oiled"),
                ("own", "nut factor typed"),
                ("friction", "nut factor from friction"),
            ),
            fills={
                "plain": {"K": Fill("0.20", note=f"Plain, as received: {_PRACTICE}")},
                "oiled": {"K": Fill("0.15", note=f"Lightly oiled: {_PRACTICE}")},
            },
        ),
    ),
    quantities=(
        Quantity("T", "Torque", "torque", "12.5 lbf·ft", "17 N·m", level=1, hint="At the wrench."),
        Quantity("d", "Bolt diameter", "length", "in", "mm", level=1, hint="The bolt's size, over the thread."),
        Quantity("p", "Pitch", "pitch", "TPI", "mm", level=1, hint="Threads per inch, or a length."),
        Quantity(
            "K",
            "Nut factor",
            "ratio",
            level=1,
            low=0.05,
            high=0.5,
            when={"surface": ("plain", "oiled", "own")},
            hint="It scatters by 30 % either way.",
        ),
        Quantity("F", "Clamp force", "force", "lbf", "N", level=1, role="load", hint="The middle of a wide band."),
        Quantity(
            "r",
            "Wrench length",
            "length",
            "8 in",
            "200 mm",
            level=1,
            role="effort",
            hint="From the bolt's axis to the middle of the hand.",
        ),
        Quantity("E", "Push on the wrench", "force", "lbf", "N", level=1, role="effort", hint="Square to the wrench."),
        Quantity(
            "mu", "Thread friction coefficient", "friction", "0.15", "0.15", level=1, when={"surface": "friction"}
        ),
        Quantity(
            "mu_c", "Face friction coefficient", "friction", "0.15", "0.15", level=1, when={"surface": "friction"}
        ),
        Quantity(
            "d_c",
            "Face mean diameter",
            "length",
            "in",
            "mm",
            level=1,
            default="1.25*d",
            default_note="Taken as 1.25 bolt diameters: common practice, no source.",
            when={"surface": "friction"},
            hint="Where the turning head bears: between hole and edge.",
        ),
        Quantity("F_lo", "Least clamp force", "force", "lbf", "N", role="load"),
        Quantity("F_hi", "Greatest clamp force", "force", "lbf", "N", role="load"),
        Quantity("s_c", "Share that clamps", "efficiency"),
        Quantity("s_t", "Share lost in the thread", "efficiency"),
        Quantity("s_f", "Share lost under the head", "efficiency"),
        Quantity("s_l", "Share lost to rubbing", "efficiency"),
        Quantity("d_m", "Mean diameter", "length", "in", "mm"),
        Quantity("lam", "Lead angle", "angle"),
        Quantity("alpha_n", "Flank angle square to the thread", "angle"),
        Quantity("mu_n", "Friction with the flank's tilt", "friction"),
    ),
    relations=(
        Relation("T = K*F*d", "The rule: torque is nut factor times clamp force times bolt diameter."),
        Relation("F_lo = F/1.3", "With the nut factor 30 % higher it clamps with less."),
        Relation("F_hi = F/0.7", "With the nut factor 30 % lower it clamps with more."),
        Relation("s_c = p/(2*pi*K*d)", "In one turn the clamp gains one pitch; the wrench gives the whole torque."),
        Relation("s_l = 1 - s_c", "The rest turns to heat in thread and face."),
        Relation("E = T/r", "The push is torque over wrench length."),
        *when(
            {"surface": "friction"},
            Relation("d_m = d - 0.649519*p", "A 60° thread has its mean diameter a little below the outside."),
            Relation("lam = atan(p/(pi*d_m))", "The thread's slope."),
            Relation("alpha_n = atan(tan(pi/6)*cos(lam))", "The flank's tilt, square to the thread."),
            Relation("mu_n = mu/cos(alpha_n)", "Tilted flanks press harder, as if the friction were larger."),
            Relation(
                "K = (d_m/2*tan(lam + atan(mu_n)) + mu_c*d_c/2)/d",
                "Thread and face together, for each unit of clamp force and diameter.",
            ),
            Relation("s_f = mu_c*d_c/(2*K*d)", "The face takes its share of the torque."),
            Relation("s_t = s_l - s_f", "The thread takes what is left."),
        ),
    ),
    conditions=(
        Condition("lam + atan(mu_n) < pi/2", "e-jam", at="mu", withdraws=("K",)),
        Condition("s_c < 1", "e-nutfactor", at="K", withdraws=("s_c",)),
    ),
    identities=(Relation("F = T/(K*d)"),),
    asks=("T", "F", "K", "d", "r"),
    sentences=(
        Sentence(
            "The friction makes a nut factor of {K}. This torque clamps with about {F}, from {F_lo} to {F_hi}.",
            {"surface": "friction"},
        ),
        Sentence(
            "This torque clamps with about {F}: somewhere from {F_lo} to {F_hi}."
            " Of your work {s_c} clamps, the rest rubs."
        ),
        Sentence("This torque clamps with about {F}: somewhere from {F_lo} to {F_hi}."),
    ),
    cautions=(
        "Tighten a real joint only to the maker’s torque. This page shows why a torque says so little about the clamp.",
        "A slippery thread clamps harder at the same torque, and can break the bolt. Eye protection on.",
    ),
    shows=("F", "F_lo", "F_hi", "K", "s_c", "s_t", "s_f"),
    draw=bolt_joint.draw,
)
