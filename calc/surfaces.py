"""The pick list of rubbing surfaces for ramp and wedge: published start values that a measured one replaces."""

from __future__ import annotations

from calc import tables
from calc.model import Choice, Fill

_PAIRS = tables.friction(
    "wood-on-wood",
    "wood-on-wood-dry-drive-guide",
    "metal-on-wood",
    "wood-on-steel-dry-drive-guide",
    "steel-on-steel-dry",
    "steel-on-steel-oiled",
)
_OWN = ("own", "measured by me")
_START = "Taken as 0.25, to start with: common practice, no source. Measure your own."


def surfaces(**columns: str) -> Choice:
    """A choice that fills nothing until a pair is picked: ``surfaces(mu="mu_kinetic", mu_s="mu_static")``."""
    options = (_OWN, *tables.options(_PAIRS))
    return Choice("surfaces", "Surfaces", options, level=3, fills=tables.fills(_PAIRS, **columns))


def surfaces_to_start_with(*symbols: str) -> Choice:
    """A choice that starts with 0.25 in each box, for a sheet that is about friction; moving coefficients."""
    options = (("start", "0.25, to start with"), _OWN, *tables.options(_PAIRS))
    start = {"start": {symbol: Fill("0.25", note=_START) for symbol in symbols}}
    picked = tables.fills(_PAIRS, **dict.fromkeys(symbols, "mu_kinetic"))
    return Choice("surfaces", "Surfaces", options, level=3, fills=start | picked)
