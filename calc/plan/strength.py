"""The plank as a gate: what fails the rule of bending and sag is refused, with its mend. A caution, not a design."""

from __future__ import annotations

from calc.plan.kit import Item
from calc.plan.relations import worked
from calc.plan.rig import Bench, Check
from calc.plan.task import ALLOWANCE

THICKER = (0.0381, 0.0635, 0.0889, 0.1143)
"""Dressed thicknesses of planks and timbers (m): 1-1/2, 2-1/2, 3-1/2 and 4-1/2 in; from memory."""


def plank_checks(bench: Bench, plank: Item, load: float, *, propped: bool) -> tuple[Check, ...]:
    """Bending and sag of a plank under a load (N) at the task's lift; on a prop, also what that carries.

    Raises NoAnswer if the plank is not longer than the lift is high.
    """
    prop = "middle" if propped else "ends"
    found = worked(
        "plank-check",
        "f y y_s N" if propped else "f y y_s",
        "plain",
        prop=prop,
        Q=load,
        L=plank["length"],
        h=bench.task.h,
        b=plank["width"],
        t=plank["thickness"],
        a=ALLOWANCE,
        f_b=plank["bending"],
        Y=plank["stiffness"],
        g_w=plank["heft"],
    )
    checks = (
        Check("bends", found["f"], plank["bending"], "stress", plank),
        Check("sags", found["y"], found["y_s"], "length", plank),
    )
    return (
        (Check("prop-rated", found["N"], bench.prop.rated, item=bench.prop), *checks)
        if propped and bench.prop
        else checks
    )


def thicker(bench: Bench, plank: Item, load: float, *, propped: bool) -> Item | None:
    """The plank in the next dressed thickness that keeps the rule, or None."""
    for thickness in THICKER:
        other = plank.changed(f"plank {plank.name} in another thickness", thickness=thickness)
        if thickness > plank["thickness"] and all(
            check.passed for check in plank_checks(bench, other, load, propped=propped) if check.code != "prop-rated"
        ):
            return other
    return None
