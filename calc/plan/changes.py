"""Things that would mend a set-up: the same thing, longer or rated for more, in sizes that a person would ask for."""

from __future__ import annotations

import math
from dataclasses import replace

from calc.plan.kit import Item
from calc.plan.rig import Setup
from calc.units import factor

_SIXTEENTH = factor("in") / 16
_POUND = factor("lbf")


def up(value: float, step: float) -> float:
    """The next whole step at or above a value."""
    return step * math.ceil(value / step - 1e-9)


def down(value: float, step: float) -> float:
    """The next whole step at or below a value."""
    return step * math.floor(value / step + 1e-9)


def longer(item: Item, length: float) -> Item:
    """The same thing in this length at least, in whole sixteenths of an inch (m)."""
    return item.changed(f"longer {item.kind}", length=up(length, _SIXTEENTH))


def stronger(item: Item, force: float) -> Item:
    """The same thing rated for this force at least, in whole pounds-force (N)."""
    return item.changed(f"{item.kind} with a higher rating", rated=max(up(force, _POUND), item.rated))


def with_parts(setup: Setup, **parts: Item) -> Setup:
    """The set-up with these things in their places."""
    return replace(setup, parts={**setup.parts, **parts})


def lacking(setup: Setup, *items: Item) -> Setup:
    """The set-up, with these things of it that the kit does not have."""
    return replace(setup, missing=(*setup.missing, *items))
