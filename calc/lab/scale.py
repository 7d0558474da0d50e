"""The instruments: what a hanging scale really read, and what its divisions and a tape's leave in doubt.

Sources: a reading's resolution as a rectangular distribution of half width one half division, u = (d/2)/sqrt(3), and a
maker's limit +-a as u = a/sqrt(3): JCGM 100:2008 (the GUM), 4.3.7 and F.2.2.1. The hook's weight by position:
statics of the scale's moving part, q (1 - cos psi) to add, psi from straight down to the hook.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from calc.units import factor

SCALE_UNITS: Mapping[str, float] = {
    "lbf": factor("lbf"),
    "N": 1.0,
    "kg": factor("kgf"),
    "g": factor("kgf") / 1000,
}
"""What a scale may show, and how many newtons one of it is; mass units by the standard acceleration of free fall."""

POSITIONS: Mapping[str, str] = {
    "use": "zeroed in the position of use",
    "down": "hanging, hook down",
    "level": "level",
    "up": "upside down, hook up",
    "slope": "up a slope, hook downhill",
}
"""How the scale hangs where it is read, if it was zeroed hanging with its hook down ("use" needs no correction)."""

GOOD_FROM, GOOD_TO = 0.10, 0.80
"""The part of its capacity in which a spring scale is read: common practice, no source."""


@dataclass(frozen=True)
class Instruments:
    """What the class measures with.

    Forces in newtons, lengths in metres. ``unit`` is what the scale shows. ``accuracy`` is the maker's limit for the
    scale or 0; ``capacity`` 0 means unknown; ``hook`` the weight of hook and rod. ``tape`` and ``calliper``
    are divisions.
    """

    unit: str = "lbf"
    division: float = 0.5 * factor("lbf")
    capacity: float = 50 * factor("lbf")
    accuracy: float = 0.0
    hook: float = 0.0
    position: str = "use"
    tape: float = 0.125 * factor("in")
    calliper: float = factor("in") / 64


def rectangular(half_width: float) -> float:
    """Standard uncertainty of a value that lies anywhere within +-half_width (same unit)."""
    return half_width / math.sqrt(3)


def of_reading(kind: str, tools: Instruments) -> float:
    """Standard uncertainty (SI) that one instrument gives each of its readings, whatever the repeats say."""
    if kind == "force":
        return math.hypot(rectangular(tools.division / 2), rectangular(tools.accuracy))
    if kind in ("length", "calliper"):
        return rectangular((tools.tape if kind == "length" else tools.calliper) / 2)
    return 0.0


def hook_share(position: str, slope: float | None = None) -> float:
    """How many times the hook's weight must be added to a reading; ``slope`` is the ramp's angle in radians.

    Raises ValueError on a slope of unknown angle.
    """
    if position == "slope":
        if slope is None:
            raise ValueError("The angle of the slope is not known.")
        return 1 - math.sin(slope)
    return {"use": 0.0, "down": 0.0, "level": 1.0, "up": 2.0}[position]


def in_good_range(force: float, tools: Instruments) -> str:
    """ "small", "near" or "" for a reading (N) against the scale's capacity."""
    if tools.capacity <= 0:
        return ""
    if force < GOOD_FROM * tools.capacity * (1 - 1e-9):
        return "small"
    return "near" if force > GOOD_TO * tools.capacity * (1 + 1e-9) else ""
