"""Whether the typed boxes agree: when more is typed than needed, which box disagrees with the others, and by what."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import uncertainties

from calc.machine import Machine
from calc.messages import Message, message
from calc.shown import value_text
from calc.solve import ASSUMED

RELATIVE_TOLERANCE = 0.005


def disagreement(
    machine: Machine, view: str, given: Mapping[str, Any], blocked: frozenset[str]
) -> tuple[str, Message] | None:
    """If more is typed than needed and it disagrees: the box to clear, and the words."""
    boxes, question = frozenset(given) | blocked, machine.question
    # What follows from all boxes together is not assumed when one of them is left out.
    machine = machine.without_defaults(machine.reach(view, boxes, assuming=False))

    def follows(symbol: str) -> bool:
        """Whether the others give it; what is merely assumed while a box is empty does not count."""
        assuming = not question.quantities[symbol].default
        return symbol in machine.reach(view, boxes - {symbol}, assuming=assuming)

    if not any(follows(symbol) for symbol in given if symbol in question.readings):
        return None
    off = _off(machine, view, given, blocked)
    if not off:
        return None
    restoring = [
        symbol for symbol in off if not _off(machine, view, {s: v for s, v in given.items() if s != symbol}, blocked)
    ]
    names = restoring or list(off)
    name = question.edited if question.edited in names else names[-1]
    quantity = question.quantities[name]
    return name, message("e-over", name=quantity.label, v=value_text(quantity, off[name], question.system))


def _off(machine: Machine, view: str, given: Mapping[str, Any], blocked: frozenset[str]) -> dict[str, Any]:
    """The typed boxes that disagree with what the others give, with that value."""
    off = {}
    readings = machine.question.readings
    for symbol, value in given.items():
        if symbol not in readings:  # a filled or counted box cannot be cleared
            continue
        others = {s: v for s, v in given.items() if s != symbol}
        worked_out = machine.solve(view, others, blocked)
        found = worked_out.values.get(symbol)
        assumed = {step.symbol for step in worked_out.steps if step.how == ASSUMED}
        if found is None or symbol in assumed:
            continue
        a, b = uncertainties.nominal_value(value), uncertainties.nominal_value(found)
        certain = isinstance(value, float) and isinstance(found, float)
        doubt = 0.0 if certain else 2 * uncertainties.std_dev(value - found)
        if abs(a - b) > max(RELATIVE_TOLERANCE * max(abs(a), abs(b)), readings[symbol].resolution, doubt):
            off[symbol] = found
    return off
