"""Work itself: any machine seen as two forces and two distances.

Source: the definition of work, force times distance moved along the force (any physics text, e.g. OpenStax Physics,
ch. 9, Work, Energy, and Simple Machines).
"""

from __future__ import annotations

from calc.block import IDENTITIES, MEASURED, RESULTS, WORK
from calc.drawing import work as work_drawing
from calc.model import Calculator, Condition, Quantity, Relation, Sentence, when

ANY_MACHINE = Calculator(
    key="any-machine",
    title="Any machine",
    quantities=(
        Quantity("R", "Load", "force", "36 lbf", "160 N", level=1, role="load", hint="A kindling crate, weighed."),
        Quantity(
            "dR", "Load distance", "length", "24 in", "0.6 m", level=1, role="load", hint="How far the load moved."
        ),
        Quantity(
            "dE",
            "Effort distance",
            "length",
            "96 in",
            "2.4 m",
            level=1,
            role="effort",
            hint="How far the hand moved, along its own pull.",
        ),
        Quantity(
            "E",
            "Effort",
            "force",
            "12 lbf",
            "54 N",
            level=1,
            role="effort",
            measured=True,
            hint="What the scale read. Leave it empty for the ideal effort.",
        ),
        *RESULTS,
    ),
    relations=(
        Relation("IMA = dE/dR", "The distances set the ideal advantage."),
        *when({"view": "ideal"}, Relation("E = R/IMA", "Without friction the effort is load over ideal advantage.")),
        *MEASURED,
        *WORK,
    ),
    conditions=(Condition("AMA > IMA", "n-over1", at="E", stop=False, when={"view": "measured"}),),
    identities=IDENTITIES,
    asks=("E", "R", "dE", "dR", "eta"),
    sentences=(
        Sentence(
            "You put in {Win} and got {Wout} out: {eta} of your work moved the load.",
            {"view": "measured"},
        ),
        Sentence("At this efficiency the effort is {E}. An ideal machine needs {E@ideal}.", {"view": "expected"}),
        Sentence("An ideal machine needs {E} through {dE} to move {R} through {dR}."),
        Sentence("The distances give an ideal advantage of {IMA}. Fill in the load to find the effort."),
    ),
    draw=work_drawing.draw,
)
