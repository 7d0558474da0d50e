"""Work itself: any machine seen as two forces and two distances, and the same work done by several machines.

Source: the definition of work, force times distance moved along the force (any physics text, e.g. OpenStax Physics,
ch. 9, Work, Energy, and Simple Machines).
"""

from __future__ import annotations

from calc.block import EFFICIENCY, IDENTITIES, IMA, MEASURED, RESULTS, WORK, WORK_LOST
from calc.drawing import work as work_drawing
from calc.model import Calculator, Condition, Quantity, Relation, Rows, Sentence, when

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

SAME_WORK = Calculator(
    key="same-work",
    title="Same work, different machines",
    quantities=(
        Quantity("R", "Load", "force", "36 lbf", "160 N", level=1, role="load", hint="A kindling crate, weighed."),
        Quantity("h", "Height", "length", "2 ft", "0.6 m", level=1, role="load", hint="How high it must go."),
        Quantity(
            "eta",
            EFFICIENCY.label,
            "efficiency",
            "%",
            "%",
            level=1,
            default="1",
            default_note="Taken as 100 %: ideal machines.",
            hint="The same for every machine in the table.",
        ),
        Quantity("Wout", "Work out", "work"),
    ),
    rows=(
        Rows(
            "machines",
            "Machine",
            (
                Quantity(IMA.symbol, IMA.label, "ratio", level=1),
                Quantity("E", "Effort", "force", "lbf", "N", role="effort"),
                Quantity("dE", "Effort distance", "length", "ft", "m", role="effort"),
                Quantity("Win", "Effort × distance", "work", role="effort"),
                Quantity("Wlost", "Lost", "work", low=WORK_LOST.low),
            ),
            example=tuple({"IMA": text} for text in ("1", "2", "3", "4", "6", "8")),
            columns=("IMA", "E", "dE", "Win", "Wout", "Wlost"),
        ),
    ),
    relations=(
        Relation("Wout = R*h", "Work out is load times height."),
        Relation("dE[i] = h*IMA[i]", "The hand goes the height times the ideal advantage.", each="machines"),
        Relation("E[i] = R/(IMA[i]*eta)", "Effort is load over ideal advantage and efficiency.", each="machines"),
        Relation("Win[i] = E[i]*dE[i]", "Work in is effort times effort distance.", each="machines"),
        Relation("Wlost[i] = Win[i] - Wout", "Work lost is work in less work out.", each="machines"),
    ),
    identities=(Relation("Win[i] = Wout/eta", each="machines"),),
    sentences=(Sentence("Less effort, longer distance. Not less work: {Win_1} on every row."),),
    draw=work_drawing.same_work,
)
