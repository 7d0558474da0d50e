"""The wedge with friction on its faces: the push to drive it, the pull to draw it out, and whether it stays in.

Sources: balance of forces on wedge and load with dry friction (any statics text, e.g. Engineering Statics, open
textbook, ch. 9, wedges): each rubbing face's force leans by its friction angle, arctan mu. The load that rubs on a
guide is derived from the same balance: the guide adds mu_3 times the sideways force to what the wedge must carry.
"""

from __future__ import annotations

from dataclasses import replace

from calc.block import EFFICIENCY, EFFORT, REAL, RESULTS
from calc.drawing import wedge as wedge_drawing
from calc.drawing import work as work_drawing
from calc.model import Calculator, Choice, Condition, Quantity, Relation, Sentence, When, when
from calc.surfaces import surfaces_to_start_with
from calc.wedge import (
    CAUTIONS,
    CONVENTION,
    DERIVED,
    FACE,
    FORM,
    KIND,
    LOAD,
    SHAPE,
    SLOPE_CONVENTION,
    SLOPE_IDENTITIES,
    WORK_CONVENTION,
    WORK_IDENTITIES,
)

_FACES = {"one": ("mu", "mu"), "each": ("mu_1", "mu_2")}
"""The coefficients of the sloping face and of the base, as the reader gives them."""


def _double(mu: str) -> tuple[Relation, ...]:
    return when(
        {"kind": "double"},
        Relation(f"E = 2*R*tan(alpha + atan({mu}))", "Both faces resist, each leaning back by its friction angle."),
        Relation(f"E_out = 2*R*tan(atan({mu}) - alpha)", "To draw it out, friction points the other way."),
        Relation(f"E_hold = 2*R*tan(alpha - atan({mu}))", "What the load's push leaves over after friction."),
        Relation(f"N = R/(cos(alpha) - {mu}*sin(alpha))", "Friction tilts the face force, so it must be larger."),
    )


def _single(mu: str, base: str) -> tuple[Relation, ...]:
    free = when(
        {"guide": "free"},
        Relation(
            f"E = R*(tan(alpha + atan({mu})) + {base})", "The sloping face resists, and so does the base under it."
        ),
        Relation(
            f"E_out = R*(tan(atan({mu}) - alpha) + {base})",
            "To draw it out, friction points the other way on both faces.",
        ),
        Relation(f"E_hold = R*(tan(alpha - atan({mu})) - {base})", "What the load's push leaves over after friction."),
        Relation("V = R", "Nothing else rubs, so the wedge carries just the load."),
    )
    guided = when(
        {"guide": "guided"},
        Relation(
            f"E = R*(tan(alpha + atan({mu})) + {base})/(1 - mu_3*tan(alpha + atan({mu})))",
            "Face, base and guide resist.",
        ),
        Relation(
            f"V = R/(1 - mu_3*tan(alpha + atan({mu})))",
            "The load rubs on its guide, so the wedge carries more than it.",
        ),
    )
    both = Relation(f"N = V/(cos(alpha) - {mu}*sin(alpha))", "Friction tilts the face force, so it must be larger.")
    return when({"kind": "single"}, *free, *guided, both)


def _balance(faces: str) -> tuple[Relation, ...]:
    mu, base = _FACES[faces]
    leaning = (
        Relation(f"phi = atan({mu})", "The friction angle of the sloping face."),
        Relation(f"F_1 = N*sqrt(1 + {mu}**2)", "Push and friction of the sloping face together."),
        *when(
            {"kind": "single"},
            Relation(f"F_2 = V*sqrt(1 + {base}**2)", "Push and friction of the base together."),
        ),
    )
    return when({"view": REAL, "faces": faces}, *_double(mu), *_single(mu, base), *leaning)


def _limits(faces: str) -> tuple[Condition, ...]:
    """Where it jams; whether it stays in."""
    mu, base = _FACES[faces]
    single: When = {"kind": "single", "faces": faces, "view": REAL}
    double: When = {"kind": "double", "faces": faces, "view": REAL}
    together = f"atan({mu}) + atan({base})"
    return (
        Condition(f"alpha + atan({mu}) < pi/2", "e-jam", at=mu, when={"faces": faces}, withdraws=("E", "N", "V")),
        Condition(
            f"mu_3*tan(alpha + atan({mu})) < 1",
            "e-jam",
            at="mu_3",
            when={"faces": faces, "kind": "single", "guide": "guided"},
            withdraws=("E", "N", "V"),
        ),
        Condition(f"alpha <= atan({mu})", "n-stays-in", at=mu, stop=False, when=double),
        Condition(f"alpha > atan({mu})", "n-backs-out", at=mu, stop=False, when=double),
        Condition(f"alpha <= {together}", "n-stays-in", at=mu, stop=False, when=single),
        Condition(f"alpha > {together}", "n-backs-out", at=mu, stop=False, when=single),
    )


WEDGE_WITH_FRICTION = Calculator(
    key="wedge-with-friction",
    title="Wedge with friction",
    choices=(
        KIND,
        CONVENTION,
        surfaces_to_start_with("mu", "mu_1", "mu_2", "mu_3"),
        Choice("faces", "Friction", (("one", "the same on every face"), ("each", "face by face")), level=3),
        Choice(
            "guide",
            "The load",
            (("free", "rises free of any wall"), ("guided", "rubs on a wall while it rises")),
            level=3,
        ),
    ),
    quantities=(
        LOAD,
        *SHAPE,
        Quantity(
            "mu",
            "Friction coefficient",
            "friction",
            level=1,
            loss=True,
            when={"faces": "one"},
            hint="Of every rubbing face, while it moves. Wood on wood is often near 0.3.",
        ),
        Quantity(
            "mu_1",
            "Friction on the sloping face",
            "friction",
            level=3,
            loss=True,
            when={"faces": "each"},
            hint="Wedge on load, while it moves.",
        ),
        Quantity(
            "mu_2",
            "Friction under the wedge",
            "friction",
            level=3,
            loss=True,
            when={"faces": "each", "kind": "single"},
            hint="Wedge on floor, while it moves. Rollers can make it very small.",
        ),
        Quantity(
            "mu_3",
            "Friction on the guide",
            "friction",
            level=3,
            when={"guide": "guided", "kind": "single"},
            hint="Load on wall, while it rises.",
        ),
        EFFORT,
        *(replace(q, level=0) if q == EFFICIENCY else q for q in RESULTS),
        *FACE,
        *DERIVED,
        Quantity("V", "Carried by the wedge", "force", "lbf", "N"),
        Quantity("F_1", "Force of a sloping face", "force", "lbf", "N"),
        Quantity("F_2", "Force of the base", "force", "lbf", "N"),
        Quantity("E_out", "Pull to draw it out", "force", "lbf", "N", role="effort"),
        Quantity("E_hold", "Push to keep it in", "force", "lbf", "N", role="effort"),
        Quantity("phi", "Friction angle", "angle", "°", "°", low=0.0),
    ),
    relations=(
        *FORM,
        *_balance("one"),
        *_balance("each"),
        *WORK_CONVENTION,
        *SLOPE_CONVENTION,
        *when(
            {"view": REAL, "wedge": "slope"},
            Relation("AMA = N/E", "In this convention the face force over the effort is the actual advantage."),
        ),
    ),
    conditions=(
        *_limits("one"),
        *_limits("each"),
        Condition("AMA > IMA", "n-over1", at="E", stop=False, when={"view": "measured"}),
        Condition("mu <= 0", "n-nofric", at="mu", stop=False, when={"view": "expected", "faces": "one"}),
    ),
    identities=(
        *WORK_IDENTITIES,
        *SLOPE_IDENTITIES,
        *when(
            {"view": REAL, "kind": "double", "faces": "one", "wedge": "work"},
            Relation("eta = tan(alpha)/tan(alpha + atan(mu))"),
            Relation("E = 2*N*(sin(alpha) + mu*cos(alpha))"),
        ),
        *when(
            {"view": REAL, "kind": "double", "faces": "one", "wedge": "slope"},
            Relation("eta = sin(alpha)/(sin(alpha) + mu*cos(alpha))"),
        ),
        *when(
            {"view": REAL, "kind": "single", "faces": "one", "wedge": "work", "guide": "free"},
            Relation("eta = tan(alpha)/(tan(alpha + atan(mu)) + mu)"),
        ),
    ),
    asks=("E", "R", "mu", "t", "ell"),
    shows=("E_out", "E_hold", "V", "N", "phi", "IMA_s", "IMA_w"),
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
        Sentence(
            "With this friction a push of {E} drives the wedge: {ell} long, {t} thick, against {R}.",
            {"view": "expected", "effort": "typed"},
        ),
        Sentence(
            "It takes {E} to drive the wedge, where an ideal wedge needs {E@ideal}."
            " It stays in by itself; to draw it out takes {E_out}.",
            {"view": "expected"},
        ),
        Sentence(
            "It takes {E} to drive the wedge, where an ideal wedge needs {E@ideal}."
            " Let go, it backs out: {E_hold} keeps it in.",
            {"view": "expected"},
        ),
        Sentence(
            "It takes {E} to drive the wedge, where an ideal wedge needs {E@ideal}."
            " It carries {V}, more than the load.",
            {"view": "expected"},
        ),
        Sentence("With an ideal advantage of {IMA} and this much friction, no push moves {R}.", {"view": "expected"}),
        Sentence("Without friction the effort would be {E}. Fill in the friction coefficient.", {"view": "ideal"}),
        Sentence("The shape gives an ideal advantage of {IMA}. Fill in the load to find the effort."),
    ),
    cautions=CAUTIONS,
    draw=wedge_drawing.draw,
    draw_work=work_drawing.draw,
)
