"""A load dragged or pushed along a level floor, its pull level or at an angle.

Source: balance of forces along and square to the floor with dry friction, F = mu N (any statics text; e.g. OpenStax
College Physics 2e, ch. 5, Friction): a rising rope lifts some weight off the floor, a push downward adds to it.
"""

from __future__ import annotations

from calc.drawing import level_drag as drag_drawing
from calc.model import Calculator, Choice, Condition, Quantity, Relation, Sentence, when
from calc.surfaces import surfaces

_START, _KEEP = {"motion": "start"}, {"motion": "keep"}
_BALANCE = "mu*R/(cos(delta) + mu*sin(delta))"

LEVEL_DRAG = Calculator(
    key="level-drag",
    title="Load dragged on the level",
    choices=(
        Choice("motion", "Motion", (("keep", "keeps moving"), ("start", "starts to move"))),
        surfaces(mu="mu_kinetic", mu_s="mu_static"),
    ),
    quantities=(
        Quantity("R", "Load", "force", "40 lbf", "180 N", level=1, role="load", hint="A planter, weighed."),
        Quantity(
            "mu",
            "Friction coefficient",
            "friction",
            "0.3",
            "0.3",
            level=1,
            hint="While it moves. Wood on wood is often near 0.3. Or leave it empty, and type the pull.",
        ),
        Quantity(
            "mu_s",
            "Friction to start",
            "friction",
            level=1,
            default="mu",
            default_note="Taken as the friction coefficient.",
            when=_START,
            hint="At rest. Wood on wood is often near 0.5.",
        ),
        Quantity(
            "delta",
            "Pull's angle",
            "angle",
            "0 °",
            "0 °",
            level=1,
            low=-1.4835298641951802,
            high=1.3962634015954636,
            hint="Above the level: 0 for a level pull, a minus for a push that slants down.",
        ),
        Quantity("d", "Distance", "length", "8 ft", "2.4 m", level=1, role="effort", hint="How far it goes."),
        Quantity(
            "E", "Effort", "force", "lbf", "N", level=1, role="effort", hint="Leave it empty to find it. Or type it."
        ),
        Quantity("E_d", "Part along the floor", "force", "lbf", "N"),
        Quantity("N", "Normal force", "force", "lbf", "N", low=0.0),
        Quantity("F_f", "Friction force", "force", "lbf", "N", low=0.0),
        Quantity("F_over", "Left over once it moves", "force", "lbf", "N", low=-1e-9, when=_START),
        Quantity("W", "Work of the effort", "work"),
    ),
    relations=(
        *when(
            _KEEP, Relation(f"E = {_BALANCE}", "The part along the floor equals the friction, which the angle changes.")
        ),
        *when(
            _START,
            Relation(f"E = {_BALANCE.replace('mu', 'mu_s')}", "To start, the friction at rest counts."),
        ),
        Relation("E_d = E*cos(delta)", "Only this part of the effort goes along the floor."),
        Relation("N = R - E*sin(delta)", "A rising rope lifts some weight off the floor. A push down adds to it."),
        Relation("F_f = mu*N", "While it moves, friction is the coefficient times the normal force."),
        *when(_START, Relation("F_over = E_d - F_f", "Once it moves, friction falls, and this much speeds it up.")),
        *when(_KEEP, Relation("W = E_d*d", "Work is that part of the effort times the distance. Friction takes it.")),
    ),
    conditions=(
        Condition("mu_s >= mu", "e-muorder", at="mu_s", when=_START),
        Condition("pos(E)*sin(delta) <= R", "e-lift-level", at="delta", withdraws=("E", "N")),
        Condition("cos(delta) + mu*sin(delta) > 0", "e-jam", at="mu", when=_KEEP, withdraws=("E",)),
        Condition("cos(delta) + mu_s*sin(delta) > 0", "e-jam", at="mu_s", when=_START, withdraws=("E",)),
        Condition("mu <= 0", "n-nofric", at="mu", stop=False),
    ),
    identities=(*when(_KEEP, Relation("E*cos(delta) = mu*N"), Relation("W = F_f*d")),),
    asks=("E", "R", "mu"),
    shows=("E", "E_d", "N", "F_f", "F_over", "W"),
    sentences=(
        Sentence("It takes {E} to start the load. Once it moves, {F_over} is left over to speed it up.", _START),
        Sentence("It takes {E} to keep the load moving, against {F_f} of friction.", _KEEP),
        Sentence("The floor carries {N}."),
    ),
    cautions=(
        "A load that sticks can let go with a jerk. Stand so that you cannot fall, and clear the path.",
        "Stay out of the line of a loaded rope. Pull with the legs, and stop before you are tired.",
    ),
    draw=drag_drawing.draw,
)
