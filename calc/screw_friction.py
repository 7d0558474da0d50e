"""A screw that rubs: thread and collar friction, raising and lowering, and whether it holds by itself.

Sources: the thread as a block on a ramp pushed level, T = R d_m/2 tan(lam + phi), and the flank's tilt that raises
the normal force, mu / cos(alpha_n) with tan(alpha_n) = tan(alpha_t) cos(lam) (any machine design text, power screws;
alpha_t itself in place of alpha_n is the books' shorter form).
"""

from __future__ import annotations

from dataclasses import replace

from calc.block import EFFORT, IDENTITIES, MEASURED, REAL, RESULTS, WORK
from calc.drawing import screw_press
from calc.drawing import work as work_drawing
from calc.model import Calculator, Choice, Condition, Lead, Quantity, Relation, Sentence, when
from calc.screw import CAUTIONS, HANDLE, LIFT, MEASURED_TOO_WELL, PATHS, TURNING, TURNS
from calc.thread import (
    BASIC_DIAMETER,
    LEAD,
    LEAD_ANGLE,
    LEANING,
    MEAN_DIAMETER,
    OUTSIDE,
    PITCH,
    ROUND,
    STARTS,
    THREAD,
    THREAD_AND_FLANK,
)

_RAISE = "tan(lam + atan(mu_n))"
_LOWER = "tan(atan(mu_n) - lam)"
_BOOK = "tan(lam + atan(mu/cos(alpha_t)))"


def _torque(symbol: str, slope: str, words: str) -> tuple[Relation, ...]:
    """A torque from the slope of the thread's push, with the collar's part where it rubs."""
    return (
        *when(
            {"view": REAL, "collar": "rubs"},
            Relation(f"{symbol} = R*(d_m/2*{slope} + mu_c*d_c/2)", f"{words} The collar adds its own friction."),
        ),
        *when({"view": REAL, "collar": "none"}, Relation(f"{symbol} = R*d_m/2*{slope}", words)),
    )


SCREW_WITH_FRICTION = Calculator(
    key="screw-with-friction",
    title="Screw with friction",
    choices=(
        THREAD_AND_FLANK,
        Choice("collar", "Collar", (("rubs", "rubs"), ("none", "none, or it rolls")), level=3),
        Choice(
            "flank",
            "Flank angle taken",
            (("true", "square to the thread"), ("book", "along the axis (book form)")),
            level=3,
        ),
    ),
    quantities=(
        Quantity(
            "R",
            "Load",
            "force",
            "100 lbf",
            "450 N",
            level=1,
            role="load",
            hint="The guided plate of a screw stand, with what lies on it.",
        ),
        OUTSIDE,
        PITCH,
        STARTS,
        HANDLE,
        Quantity(
            "mu",
            "Thread friction coefficient",
            "friction",
            "0.15",
            "0.15",
            level=1,
            loss=True,
            hint="Oiled steel is often near 0.15: common practice. Measure your own.",
        ),
        Quantity(
            "mu_c",
            "Collar friction coefficient",
            "friction",
            "0.12",
            "0.12",
            level=1,
            when={"collar": "rubs"},
            hint="Where the turning end bears on its seat.",
        ),
        Quantity(
            "d_c",
            "Collar mean diameter",
            "length",
            "1.1 in",
            "28 mm",
            level=1,
            when={"collar": "rubs"},
            hint="Half way between the seat's inner and outer edge.",
        ),
        EFFORT,
        *RESULTS,
        replace(LIFT, level=2),
        replace(TURNS, level=2),
        replace(LEAD, level=3),
        replace(MEAN_DIAMETER, level=3),
        Quantity(
            "alpha_t",
            "Flank angle",
            "angle",
            "°",
            "°",
            level=3,
            when={"thread": LEANING},
            hint="From square across to the flank, cut along the axis.",
        ),
        LEAD_ANGLE,
        Quantity("T", "Torque to raise", "torque", level=3, loss=True, hint="Turning effect at the screw."),
        Quantity("T_down", "Torque to lower", "torque", level=3, loss=True, hint="0: it runs back by itself."),
        Quantity("T_hold", "Torque that holds it back", "torque", level=3, loss=True, hint="0: it holds by itself."),
        Quantity(
            "T_b",
            "Torque to raise, book form",
            "torque",
            level=3,
            loss=True,
            when={"thread": LEANING, "flank": "true"},
            hint="With the flank angle taken along the axis, as many books do.",
        ),
        Quantity(
            "E_down",
            "Effort to lower",
            "force",
            "lbf",
            "N",
            level=3,
            loss=True,
            hint="On the handle. 0: it runs back by itself.",
        ),
        Quantity("T_l", "Torque to lower, with its sign", "torque", low=-1e9),
        BASIC_DIAMETER,
        Quantity("alpha_n", "Flank angle square to the thread", "angle"),
        Quantity("mu_n", "Friction with the flank's tilt", "friction"),
        Quantity("phi", "Friction angle", "angle"),
        Quantity("Q", "Push round the thread", "force", "lbf", "N"),
        ROUND,
        *PATHS,
    ),
    relations=(
        *THREAD,
        *TURNING,
        *MEASURED,
        *WORK,
        *when({"view": REAL, "thread": "square"}, Relation("mu_n = mu", "Square flanks carry the load straight.")),
        *when(
            {"view": REAL, "thread": LEANING, "flank": "true"},
            Relation("alpha_n = atan(tan(alpha_t)*cos(lam))", "Square to the thread the flank tilts a little less."),
            Relation("mu_n = mu/cos(alpha_n)", "Tilted flanks press harder, as if the friction were larger."),
        ),
        *when(
            {"view": REAL, "thread": LEANING, "flank": "book"},
            Relation("mu_n = mu/cos(alpha_t)", "Tilted flanks press harder, as if the friction were larger."),
        ),
        *_torque("T", _RAISE, "Raising is pushing a block up the thread's ramp, lead angle plus friction angle."),
        Relation("E = T/r", "On the handle the torque becomes the effort."),
        *_torque("T_l", _LOWER, "Lowering is pushing it down: friction angle less lead angle."),
        *when(
            {"view": REAL},
            Relation("T_down = pos(T_l)", "It must be turned down if that is above zero."),
            Relation("T_hold = pos(-T_l)", "It must be held back if that is below zero."),
            Relation("E_down = pos(T_l)/r", "On the handle that is the effort to lower."),
            Relation("phi = atan(mu_n)", "The friction angle with the flank's tilt."),
            Relation("Q = R*tan(lam + atan(mu_n))", "The push round the thread, at the mean diameter."),
        ),
        *(
            replace(relation, when={**relation.when, "thread": LEANING, "flank": "true"})
            for relation in _torque("T_b", _BOOK, "The same with the flank angle taken along the axis.")
        ),
    ),
    conditions=(
        Condition("lam + atan(mu_n) < pi/2", "e-jam", at="mu", when={"view": REAL}, withdraws=("T", "T_b", "Q")),
        MEASURED_TOO_WELL,
        Condition("T_l >= 0", "n-screwholds", at="mu", stop=False, when={"view": REAL}),
        Condition("T_l < 0", "n-screwback", at="mu", stop=False, when={"view": REAL}),
        Condition("mu <= 0", "n-nofric", at="mu", stop=False, when={"view": "expected"}),
    ),
    identities=(*IDENTITIES, *when({"view": REAL}, Relation("eta = R*l/(2*pi*T)"), Relation("AMA = R*r/T"))),
    asks=("E", "R", "T", "mu", "mu_c", "r", "eta"),
    sentences=(
        Sentence(
            "You pulled {E} where an ideal screw needs {E@ideal}. Of the work you put in, {eta} moved the load.",
            {"view": "measured"},
        ),
        Sentence("With this friction {E} on a handle of {r} raises {R}.", {"view": "expected", "effort": "typed"}),
        Sentence(
            "Raising takes a torque of {T}, which is {E} on the handle. An ideal screw needs {E@ideal}."
            " Lowering takes {E_down}.",
            {"view": "expected"},
        ),
        Sentence("With this friction the effort is {E}, where an ideal screw needs {E@ideal}.", {"view": "expected"}),
        Sentence("Without friction the effort is {E} for a load of {R}."),
        Sentence("This screw has an ideal advantage of {IMA}. Fill in the load to find the effort."),
    ),
    shows=("T",),
    # Only square flanks carry the load as a plank does: leaning ones press harder than any ramp's surface.
    leads=(
        Lead(
            "ramp",
            "One turn of the thread as a ramp with friction, pushed level",
            {"R": "R", "h": "l", "b": "C", "mu": "mu"},
            choices={"pull": "level", "surfaces": "own"},
            when={"thread": "square"},
        ),
    ),
    cautions=CAUTIONS,
    draw=screw_press.draw,
    draw_work=work_drawing.draw,
)
