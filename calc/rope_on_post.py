"""A rope taken round a post or bar: a small pull holds a large load, and is multiplied by every turn.

Source: the belt (capstan) equation, T = T0 exp(mu beta), from dT = mu T d(beta) along the rope (any statics text,
e.g. Engineering Statics, open textbook, ch. 9).
"""

from __future__ import annotations

from math import pi

from calc.drawing import rope_on_post as post_drawing
from calc.model import Calculator, Choice, Condition, Quantity, Relation, Sentence, when

_EASE, _UP = {"way": "ease"}, {"way": "up"}

ROPE_ON_POST = Calculator(
    key="rope-on-post",
    title="Rope round a post",
    choices=(Choice("way", "Motion", (("ease", "held, or eased down"), ("up", "pulled up"))),),
    quantities=(
        Quantity("R", "Load", "force", "40 lbf", "180 N", level=1, role="load", hint="What hangs on the far end."),
        Quantity(
            "n", "Turns", "turns", "1.5 turns", "1.5 turns", level=1, low=0.05, high=12, hint="Half turns count too."
        ),
        Quantity(
            "mu",
            "Friction coefficient",
            "friction",
            "0.25",
            "0.25",
            level=1,
            hint="Rope on wood: take the lowest that may occur. Common practice.",
        ),
        Quantity("E", "Effort", "force", "lbf", "N", level=1, role="effort", hint="Leave it empty to find it."),
        Quantity("beta", "Angle of contact", "angle", "°", "°", level=3, high=24 * pi, hint="A full turn is 360°."),
        Quantity("m", "Load over effort", "ratio", low=1e-30, high=1e30),
        Quantity("E_half", "Effort at half the friction", "force", "lbf", "N", role="effort", when=_EASE),
    ),
    relations=(
        Relation("beta = 2*pi*n", "Each turn is a full circle of contact."),
        *when(_EASE, Relation("E = R*exp(-mu*beta)", "Friction along the post holds for you, more with every turn.")),
        *when(_UP, Relation("E = R*exp(mu*beta)", "Pulling up, friction along the post works against you.")),
        Relation("m = R/E", "So many times the effort hangs on the other end."),
        *when(_EASE, Relation("E_half = R*exp(-mu*beta/2)", "If the rope is wet or worn: half the coefficient.")),
    ),
    conditions=(
        Condition("E < R", "e-posthold", at="E", when=_EASE),
        Condition("E > R", "e-postup", at="E", when=_UP),
    ),
    asks=("E", "R", "mu", "n"),
    shows=("E", "m", "beta", "E_half"),
    book_case=True,
    sentences=(
        Sentence("{E} holds {R}. With half the friction it would take {E_half}: take the lowest coefficient.", _EASE),
        Sentence("Pulling {R} up round the post takes {E}.", _UP),
    ),
    cautions=(
        "This sheet is no permission to lower anything over or beside people.",
        "Never take a rope round a hand, an arm or a person.",
    ),
    draw=post_drawing.draw,
)
