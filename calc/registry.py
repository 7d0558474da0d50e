"""Every calculator by its key. A new machine is added here, and nowhere else."""

from __future__ import annotations

from calc.inclined_plane import RAMP
from calc.lever import LEVER
from calc.model import Calculator
from calc.screw import SCREW, WRAP_TEST
from calc.wheel_and_axle import WHEEL_AND_AXLE
from calc.windlass import JOURNAL_FRICTION, WINDLASS
from calc.work import ANY_MACHINE, SAME_WORK

CALCULATORS: dict[str, Calculator] = {
    c.key: c
    for c in (LEVER, RAMP, ANY_MACHINE, SAME_WORK, WHEEL_AND_AXLE, WINDLASS, JOURNAL_FRICTION, SCREW, WRAP_TEST)
}
