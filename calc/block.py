"""What every machine has in common: the six lines of the result block, spelled once."""

from __future__ import annotations

from calc.model import Quantity, Relation, when

EFFORT = Quantity(
    "E",
    "Effort",
    "force",
    "lbf",
    "N",
    level=1,
    role="effort",
    measured=True,
    hint="Leave it empty to find it. Or type what your scale read.",
)
IMA = Quantity("IMA", "Ideal mechanical advantage", "ratio")
AMA = Quantity("AMA", "Actual mechanical advantage", "ratio")
WORK_IN = Quantity("Win", "Work in", "work")
WORK_OUT = Quantity("Wout", "Work out", "work")
WORK_LOST = Quantity("Wlost", "Work lost", "work", low=-1e12)  # below zero tells of a measuring fault
EFFICIENCY = Quantity(
    "eta",
    "Efficiency",
    "efficiency",
    "%",
    "%",
    level=2,
    loss=True,
    hint="Follows from a measured effort. Or type one to see the effort to expect.",
)

RESULTS = (IMA, AMA, EFFICIENCY, WORK_IN, WORK_OUT, WORK_LOST)
REAL = ("expected", "measured")

WORK = (
    Relation("Win = E*dE", "Work in is effort times effort distance."),
    Relation("Wout = R*dR", "Work out is load times load distance."),
)
MEASURED = when(
    {"view": REAL},
    Relation("AMA = R/E", "Load over effort is the actual advantage."),
    Relation("eta = AMA/IMA", "Efficiency is actual over ideal advantage."),
    Relation("Wlost = Win - Wout", "Work lost is work in less work out. Friction turns it into heat."),
)

# True as well, for the tests and the reader's own check; the chain never uses them.
IDENTITIES = when({"view": REAL}, Relation("eta = Wout/Win"), Relation("R*dR = eta*E*dE"))
