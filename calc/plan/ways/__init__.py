"""The ways to raise a load, one module for each machine, and those to move it on the level."""

from __future__ import annotations

from collections.abc import Mapping

from calc.plan.rig import Way
from calc.plan.ways import hauled_ramp, level, lever, ramp, screw, tackle, wedge, windlass

WAYS: Mapping[str, Way] = {
    way.key: way
    for way in (
        ramp.CART,
        ramp.SLIDE,
        tackle.TACKLE,
        lever.LEVER,
        windlass.WINDLASS,
        wedge.WEDGE,
        screw.SCREW,
        hauled_ramp.TACKLE_CART,
        hauled_ramp.TACKLE_SLIDE,
        hauled_ramp.WINDLASS_CART,
        windlass.WINDLASS_TACKLE,
        *level.WAYS,
    )
}
