"""A screw that rubs: thread and collar friction, raising and lowering, and whether it holds by itself.

Sources: the thread as a block on a ramp pushed level, T = R d_m/2 tan(lam + phi), and the flank's tilt that raises
the normal force, mu / cos(alpha_n) with tan(alpha_n) = tan(alpha_t) cos(lam) (any machine design text, power screws;
alpha_t itself in place of alpha_n is the books' shorter form). Mean diameter d - p/2 for square, Acme and
trapezoidal threads and d - 0.649519 p for 60 degree threads: basic pitch diameter of those profiles.
"""

from __future__ import annotations

from dataclasses import replace

from calc.block import EFFORT, IDENTITIES, MEASURED, REAL, RESULTS, WORK
from calc.drawing import screw_press
from calc.drawing import work as work_drawing
from calc.model import Calculator, Choice, Condition, Quantity, Relation, Sentence, when
from calc.screw import (
    CAUTIONS,
    HANDLE,
    LEAD,
    LEAD_ANGLE,
    LIFT,
    MEASURED_TOO_WELL,
    PATHS,
    PITCH,
    ROUND,
    STARTS,
    THREAD,
    TURNING,
    TURNS,
)

SLANTED = {"acme": "29*pi/360", "trapezoidal": "pi/12", "vee": "pi/6"}
"""Flank angles from the line square to the axis; a square thread has none."""

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
        Choice(
            "form",
            "Thread form",
            (
                ("acme", "Acme (29°)"),
                ("trapezoidal", "trapezoidal (30°)"),
                ("square", "square"),
                ("vee", "60° V"),
            ),
        ),
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
        Quantity("d", "Outside diameter", "length", "0.75 in", "20 mm", level=1, hint="Over the thread, by calliper."),
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
        Quantity(
            "d_m",
            "Mean diameter",
            "length",
            "in",
            "mm",
            level=3,
            default="d_b",
            default_note="Taken from the thread form.",
            hint="Half way up the thread.",
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
            when={"form": tuple(SLANTED), "flank": "true"},
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
        Quantity("d_b", "Mean diameter of the thread form", "length", "in", "mm"),
        Quantity("alpha_t", "Flank angle", "angle"),
        Quantity("alpha_n", "Flank angle square to the thread", "angle"),
        Quantity("mu_n", "Friction with the flank's tilt", "friction"),
        Quantity("phi", "Friction angle", "angle"),
        Quantity("Q", "Push round the thread", "force", "lbf", "N"),
        ROUND,
        *PATHS,
    ),
    relations=(
        *when(
            {"form": ("square", "acme", "trapezoidal")},
            Relation("d_b = d - p/2", "Half way up the thread the diameter is less by half a pitch."),
        ),
        *when({"form": "vee"}, Relation("d_b = d - 0.649519*p", "A 60° thread has its mean diameter a little lower.")),
        *THREAD,
        *TURNING,
        *MEASURED,
        *WORK,
        *when({"view": REAL, "form": "square"}, Relation("mu_n = mu", "Square flanks carry the load straight.")),
        *(
            Relation(f"alpha_t = {angle}", "The flank's tilt, along the axis.", {"view": REAL, "form": form})
            for form, angle in SLANTED.items()
        ),
        *when(
            {"view": REAL, "form": tuple(SLANTED), "flank": "true"},
            Relation("alpha_n = atan(tan(alpha_t)*cos(lam))", "Square to the thread the flank tilts a little less."),
            Relation("mu_n = mu/cos(alpha_n)", "Tilted flanks press harder, as if the friction were larger."),
        ),
        *when(
            {"view": REAL, "form": tuple(SLANTED), "flank": "book"},
            Relation("mu_n = mu/cos(alpha_t)", "Tilted flanks press harder, as if the friction were larger."),
        ),
        *_torque("T", _RAISE, "Raising is pushing a block up the thread's ramp, lead angle plus friction angle."),
        Relation("E = T/r", "On the handle the torque becomes the effort.", {"view": REAL}),
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
            replace(relation, when={**relation.when, "form": tuple(SLANTED), "flank": "true"})
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
    cautions=CAUTIONS,
    draw=screw_press.draw,
    draw_work=work_drawing.draw,
)
