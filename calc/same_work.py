"""The same work done by other machines: less effort through a longer distance, or more through a shorter one.

Source: work is force times the distance moved along the force, and an ideal machine gives out what is put in (any
physics text, e.g. OpenStax Physics, ch. 9, Work, Energy, and Simple Machines).
"""

from __future__ import annotations

from dataclasses import replace

from calc.block import AMA, EFFICIENCY, EFFORT, IDENTITIES, IMA, MEASURED, REAL, WORK, WORK_IN, WORK_LOST, WORK_OUT
from calc.drawing import equal_work, work
from calc.model import Calculator, Condition, Quantity, Relation, Rows, Sentence, when

SAME_WORK = Calculator(
    key="same-work",
    title="Effort against effort distance",
    quantities=(
        replace(
            IMA,
            us="4",
            si="4",
            level=1,
            slide=(0.25, 2),
            low=1e-3,
            high=1e4,
            hint="Of your own machine. Slide it below, or type it.",
        ),
        Quantity("R", "Load", "force", "36 lbf", "160 N", level=1, role="load", hint="A kindling crate, weighed."),
        Quantity("h", "Height", "length", "2 ft", "0.6 m", level=1, role="load", hint="How high it must go."),
        replace(EFFICIENCY, level=1, hint="Empty: no friction. Type 75 to see what friction costs."),
        EFFORT,
        AMA,
        WORK_IN,
        WORK_OUT,
        WORK_LOST,
        Quantity("dR", "Load distance", "length", "ft", "m", role="load"),
        Quantity("dE", "Effort distance", "length", "ft", "m", role="effort"),
    ),
    rows=(
        Rows(
            "machines",
            "Machine in the table",
            (
                Quantity(IMA.symbol, IMA.label, "ratio", level=1),
                Quantity("E", "Effort", "force", "lbf", "N", role="effort"),
                Quantity("dE", "Effort distance", "length", "ft", "m", role="effort"),
                Quantity("Win", "Effort × distance", "work", role="effort"),
                Quantity("Wlost", "Lost", "work", low=WORK_LOST.low),
            ),
            example=tuple({"IMA": text} for text in ("1", "2", "3", "4", "6", "8")),
            columns=("IMA", "E", "dE", "Win", "Wout", "Wlost"),
            told=False,
        ),
    ),
    relations=(
        Relation("dE = h*IMA", "The hand goes the height times the ideal advantage."),
        Relation("dR = h", "The load rises by the height."),
        *when({"view": "ideal"}, Relation("E = R/IMA", "Without friction the effort is load over ideal advantage.")),
        *MEASURED,
        *WORK,
        Relation("dE[i] = h*IMA[i]", "The hand goes the height times the ideal advantage.", each="machines"),
        *when({"view": "ideal"}, Relation("E[i] = R/IMA[i]", "Effort is load over ideal advantage.", each="machines")),
        *when(
            {"view": REAL},
            Relation("E[i] = R/(IMA[i]*eta)", "Effort is load over ideal advantage and efficiency.", each="machines"),
        ),
        Relation("Win[i] = E[i]*dE[i]", "Work in is effort times effort distance.", each="machines"),
        Relation("Wlost[i] = Win[i] - Wout", "Work lost is work in less work out.", each="machines"),
    ),
    conditions=(Condition("AMA > IMA", "n-over1", at="E", stop=False, when={"view": "measured"}),),
    identities=(*IDENTITIES, *when({"view": REAL}, Relation("Win[i] = Wout/eta", each="machines"))),
    asks=("E", "IMA", "R", "eta"),
    sentences=(
        Sentence(
            "You pulled {E} through {dE}: {Win} of work. Of that, {Wout} moved the load and {Wlost} was lost.",
            {"view": "measured"},
        ),
        Sentence(
            "With friction your machine takes {E} through {dE}: {Win} of work. The load still gets {Wout}.",
            {"view": "expected"},
        ),
        Sentence("Your machine takes {E} through {dE}: {Win} of work. Less effort, longer distance. Not less work."),
        Sentence("Less effort, longer distance. Not less work: {Win_1} on every row."),
    ),
    draw=equal_work.draw,
    draw_work=work.same_work,
    still=True,
)
