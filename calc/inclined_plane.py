"""The inclined plane: its triangle, and a load pulled, pushed, held or let down on it, with friction.

Sources: balance of forces along and square to the plank (any statics text, e.g. Engineering Statics, open textbook,
ch. 9); Coulomb friction, F = mu N; the level push as R tan(theta + phi) from the same.
"""

from __future__ import annotations

from calc.block import EFFORT, IDENTITIES, MEASURED, REAL, RESULTS, WORK
from calc.drawing import inclined_plane as ramp_drawing
from calc.drawing import work as work_drawing
from calc.model import Calculator, Choice, Condition, Lead, Quantity, Relation, Sentence, when
from calc.surfaces import surfaces

SHAPE = (
    Quantity(
        "L",
        "Slope length",
        "length",
        "96 in",
        "2.4 m",
        level=1,
        role="effort",
        slide=(0.5, 1.5),
        cut=True,
        hint="Along the plank, from floor to top edge.",
    ),
    Quantity(
        "h", "Rise", "length", "24 in", "0.6 m", level=1, slide=(0.25, 1.75), hint="Straight up, floor to top of plank."
    ),
    Quantity("b", "Run", "length", "in", "m", level=1, hint="Level, under the plank."),
)
SLOPE_ANGLE = Quantity(
    "theta",
    "Slope angle",
    "angle",
    "°",
    "°",
    level=3,
    high=1.4835298641951802,
    hint="From level. 1:4 and 25 % are understood as rise over run.",
)
TRIANGLE = (
    Relation("L = sqrt(h**2 + b**2)", "Rise, run and slope length make a right triangle."),
    Relation("h = L*sin(theta)", "Rise is slope length times the sine of the angle."),
    Relation("b = L*cos(theta)", "Run is slope length times the cosine of the angle."),
    Relation("h = b*tan(theta)", "Rise is run times the tangent of the angle."),
)
INSIDE_TRIANGLE = (
    Condition("h < L", "e-hgtL", at="h"),
    Condition("b < L", "e-runL", at="b"),
)

_UP = "Up the ramp the pull carries the part of the weight along it, and the friction."
_HOLD = "Standing still, friction helps to hold: it takes off what it can."
_DOWN = "Eased down at steady speed, friction helps to hold."


def _with_friction(motion: str, mu: str, sign: str, words: str) -> tuple[Relation, ...]:
    """The effort for one motion in the three directions of pull; ``sign`` + up, - where friction helps."""
    along = f"R*(sin(theta) {sign} {mu}*cos(theta))"
    angled = f"R*(sin(theta) {sign} {mu}*cos(theta))/(cos(delta) {sign} {mu}*sin(delta))"
    level = f"R*tan(theta {sign} atan({mu}))"
    form = "E = pos({})" if sign == "-" else "E = {}"
    return tuple(
        Relation(form.format(text), words, {"view": REAL, "motion": motion, "pull": pull})
        for pull, text in (("along", along), ("angled", angled), ("level", level))
    )


def _balances(motion: str, mu: str, sign: str) -> tuple[Condition, ...]:
    """Where such a pull can balance the load at all; beyond, no effort is right, however large."""
    angled = Condition(
        f"cos(delta) {sign} {mu}*sin(delta) > 0",
        "e-jam" if sign == "+" else "e-angled",
        at="delta",
        when={"pull": "angled", "motion": motion},
        withdraws=("E",),
    )
    level = Condition(
        f"theta + atan({mu}) < pi/2", "e-jam", at=mu, when={"pull": "level", "motion": motion}, withdraws=("E",)
    )
    return (angled, level) if sign == "+" else (angled,)


RAMP = Calculator(
    key="ramp",
    title="Ramp",
    choices=(
        Choice(
            "pull",
            "Direction of the effort",
            (("along", "along the ramp"), ("angled", "rope at an angle"), ("level", "level push (book case)")),
            level=3,
        ),
        Choice(
            "motion",
            "Motion",
            (
                ("up", "keeps going up"),
                ("start", "starts up"),
                ("hold", "just held"),
                ("down", "eased down"),
                ("push", "pushed down (book case)"),
            ),
            level=3,
        ),
        surfaces(mu="mu_kinetic", mu_s="mu_static"),
    ),
    quantities=(
        Quantity(
            "R",
            "Load",
            "force",
            "30 lbf",
            "135 N",
            level=1,
            role="load",
            hint="A full compost bin, weighed on the floor scale.",
        ),
        *SHAPE,
        EFFORT,
        *RESULTS,
        Quantity(
            "mu",
            "Friction coefficient",
            "friction",
            level=3,
            loss=True,
            hint="Crate on plank, while it moves. Wood on wood is often near 0.3.",
        ),
        Quantity(
            "mu_s",
            "Friction to start",
            "friction",
            level=3,
            loss=True,
            default="mu",
            default_note="Taken as the friction coefficient.",
            hint="At rest. Wood on wood is often near 0.5.",
        ),
        SLOPE_ANGLE,
        Quantity(
            "delta",
            "Rope angle",
            "angle",
            "°",
            "°",
            level=3,
            low=-1.4835298641951802,
            high=1.3962634015954636,
            when={"pull": "angled"},
            hint="Above the plank's surface.",
        ),
        Quantity("N", "Normal force", "force", "lbf", "N"),
        Quantity("F_f", "Friction force", "force", "lbf", "N"),
        Quantity("phi", "Slip angle", "angle", "°", "°"),
        Quantity("dR", "Load distance", "length", "in", "m", role="load"),
        Quantity("dE", "Effort distance", "length", "in", "m", role="effort"),
    ),
    relations=(
        *when({"pull": "along"}, Relation("IMA = L/h", "Slope length over rise sets the ideal advantage.")),
        *when({"pull": "level"}, Relation("IMA = b/h", "For a level push, run over rise sets the ideal advantage.")),
        *when(
            {"pull": "angled"},
            Relation("IMA = L*cos(delta)/h", "Only the part of the hand's path along the rope counts."),
        ),
        *when(
            {"view": "ideal", "motion": ("up", "start", "hold", "down")},
            Relation("E = R/IMA", "Without friction the effort is load over ideal advantage."),
        ),
        *TRIANGLE,
        Relation("dR = h", "The load rises by the rise."),
        *when({"pull": "along"}, Relation("dE = L", "The hand goes the slope length.")),
        *when({"pull": "level"}, Relation("dE = b", "A level push goes the run.")),
        *when({"pull": "angled"}, Relation("dE = L*cos(delta)", "Along its own line the hand goes a little less.")),
        *_with_friction("up", "mu", "+", _UP),
        *_with_friction("start", "mu_s", "+", "To start, the friction at rest counts."),
        *_with_friction("hold", "mu_s", "-", _HOLD),
        *_with_friction("down", "mu", "-", _DOWN),
        *when(
            {"view": REAL, "motion": "push", "pull": "along"},
            Relation("E = R*(mu*cos(theta) - sin(theta))", "Friction is more than the slope's own pull down."),
        ),
        *when({"motion": "up"}, *MEASURED, *WORK),
        *when(
            {"view": REAL, "pull": "along"},
            Relation("N = R*cos(theta)", "The plank carries the part of the weight square to it."),
        ),
        *when(
            {"view": REAL, "pull": "angled"},
            Relation("N = R*cos(theta) - E*sin(delta)", "A rope above the plank lifts some weight off it."),
        ),
        *when(
            {"view": REAL, "pull": "level"},
            Relation("N = R*cos(theta) + E*sin(theta)", "A level push presses the load onto the plank."),
        ),
        *when(
            {"view": REAL, "motion": ("up", "down", "push")},
            Relation("F_f = mu*N", "Friction is the coefficient times the normal force."),
        ),
        *when(
            {"view": REAL, "motion": "start"},
            Relation("F_f = mu_s*N", "Friction is the coefficient times the normal force."),
        ),
        *when({"view": REAL}, Relation("phi = atan(mu_s)", "At this angle the load just slips.")),
    ),
    conditions=(
        *INSIDE_TRIANGLE,
        Condition("mu_s >= mu", "e-muorder", at="mu_s"),
        *_balances("up", "mu", "+"),
        *_balances("start", "mu_s", "+"),
        *_balances("hold", "mu_s", "-"),
        *_balances("down", "mu", "-"),
        Condition("N >= 0", "e-lift", at="delta", when={"pull": "angled"}, withdraws=("E", "N")),
        Condition("mu*cos(theta) > sin(theta)", "n-back", at="mu", when={"motion": "push"}, withdraws=("E",)),
        Condition("AMA > IMA", "n-over1", at="E", stop=False, when={"view": "measured"}),
        Condition("tan(theta) > mu_s", "n-back", at="mu", stop=False, when={"view": REAL}),
        Condition("tan(theta) <= mu_s", "n-stays", at="mu", stop=False, when={"view": REAL}),
        Condition("theta > pi/6", "n-steep", at="theta", stop=False),
        Condition("mu <= 0", "n-nofric", at="mu", stop=False, when={"view": "expected"}),
    ),
    identities=(
        *IDENTITIES,
        *when({"view": REAL, "motion": "up"}, Relation("Wlost = mu*N*L")),
        *when({"view": REAL, "motion": "up", "pull": "along"}, Relation("eta = 1/(1 + mu/tan(theta))")),
    ),
    asks=("E", "R", "L", "h", "b", "theta", "mu", "eta"),
    sentences=(
        Sentence(
            "You pulled {E} where an ideal ramp needs {E@ideal}. Of the work you put in, {eta} lifted the load.",
            {"view": "measured", "motion": "up"},
        ),
        Sentence("You read {E}. Without any friction it would be {E@ideal}.", {"view": "measured"}),
        Sentence(
            "With this friction a pull of {E} takes the load up a slope of {L} to a rise of {h}.",
            {"view": "expected", "motion": "up", "effort": "typed"},
        ),
        Sentence(
            "With this friction it takes {E} to keep the load going up. Without friction it would take {E@ideal}.",
            {"view": "expected", "motion": "up"},
        ),
        Sentence("It takes {E} to start the load up the ramp.", {"view": "expected", "motion": "start"}),
        Sentence("It takes {E} to hold the load where it is.", {"view": "expected", "motion": "hold"}),
        Sentence("It takes {E} to ease the load down.", {"view": "expected", "motion": "down"}),
        Sentence("It takes {E} to push the load down the ramp.", {"view": "expected", "motion": "push"}),
        Sentence(
            "Without friction a pull of {E} takes the load up a slope of {L} to a rise of {h}.",
            {"effort": "typed", "pull": "along"},
        ),
        Sentence("Push {E} through {dE}. The load of {R} rises {dR}.", {"pull": "level"}),
        Sentence("Pull {E} through {dE}. The load of {R} rises {dR}."),
        Sentence("The effort is {E} for a load of {R}."),
        Sentence("This ramp has an ideal advantage of {IMA}. Fill in the load to find the effort."),
    ),
    leads=(
        Lead(
            "same-work",
            "The same lift straight up, by this ramp and by one half as steep",
            {"R": "R", "h": "h", "IMA_1": "1", "IMA_2": "IMA", "IMA_3": "2*IMA"},
            when={"motion": ("up", "start")},
        ),
    ),
    cautions=(
        "The load runs back when let go if the ramp is steeper than its slip angle. Chock it.",
        "Stand uphill or beside it, never below. Cleat both plank ends, and do not ride.",
    ),
    draw=ramp_drawing.draw,
    draw_work=work_drawing.draw,
)
