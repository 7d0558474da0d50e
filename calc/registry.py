"""Every calculator by its key. A new machine is added here, and nowhere else."""

from __future__ import annotations

from calc.bent_lever import BENT_LEVER
from calc.bolt import BOLT_CLAMP
from calc.cart_ramp import CART_RAMP
from calc.chain_hoist import CHAIN_HOIST
from calc.compare import COMPARE
from calc.compound import CHAIN
from calc.gears_and_belts import GEARS_AND_BELTS
from calc.inclined_plane import RAMP
from calc.level_drag import LEVEL_DRAG
from calc.lever import LEVER
from calc.loaded_bar import LOADED_BAR
from calc.measures import MEASURES
from calc.model import Calculator
from calc.pin_friction import PIN_FRICTION
from calc.plank_check import PLANK_CHECK
from calc.ramp_shape import RAMP_SHAPE
from calc.rope_on_post import ROPE_ON_POST
from calc.same_work import SAME_WORK
from calc.screw import SCREW, WRAP_TEST
from calc.screw_friction import SCREW_WITH_FRICTION
from calc.shortest_ramp import SHORTEST_RAMP
from calc.single_pulley import SINGLE_PULLEY
from calc.tackle import TACKLE
from calc.tackle_rope import TACKLE_ROPE
from calc.tilt_test import TILT_TEST
from calc.wedge import WEDGE
from calc.wedge_with_friction import WEDGE_WITH_FRICTION
from calc.wheel_and_axle import WHEEL_AND_AXLE
from calc.windlass import JOURNAL_FRICTION, WINDLASS
from calc.work import ANY_MACHINE
from calc.work_and_power import WORK_AND_POWER

CALCULATORS: dict[str, Calculator] = {
    c.key: c
    for c in (
        LEVER,
        LOADED_BAR,
        BENT_LEVER,
        PIN_FRICTION,
        RAMP,
        ANY_MACHINE,
        SAME_WORK,
        COMPARE,
        WORK_AND_POWER,
        CHAIN,
        MEASURES,
        WHEEL_AND_AXLE,
        WINDLASS,
        JOURNAL_FRICTION,
        GEARS_AND_BELTS,
        TACKLE,
        SINGLE_PULLEY,
        TACKLE_ROPE,
        CHAIN_HOIST,
        ROPE_ON_POST,
        SCREW,
        SCREW_WITH_FRICTION,
        BOLT_CLAMP,
        WRAP_TEST,
        RAMP_SHAPE,
        CART_RAMP,
        SHORTEST_RAMP,
        TILT_TEST,
        LEVEL_DRAG,
        PLANK_CHECK,
        WEDGE,
        WEDGE_WITH_FRICTION,
    )
}
