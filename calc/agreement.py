"""Whether the typed boxes agree: when more is typed than needed, which box disagrees with the others, and by what."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any

import uncertainties

from calc.machine import Machine
from calc.messages import Message, message
from calc.shown import value_text

RELATIVE_TOLERANCE = 0.005


def disagreement(
    machine: Machine, view: str, given: Mapping[str, Any], blocked: frozenset[str], assumed: Collection[str]
) -> tuple[str, Message] | None:
    """If more is typed than needed and it disagrees: the box to clear, and the words.

    ``assumed`` are the defaults that the whole question rests on. Others gave way to what is typed, and are no reason.
    """
    boxes, question = frozenset(given) | blocked, machine.question

    def follows(symbol: str) -> bool:
        return symbol in machine.reach(view, boxes - {symbol}, assuming=assumed)

    def off(kept: Mapping[str, Any]) -> dict[str, Any]:
        return _off(machine, view, kept, blocked, assumed)

    if not any(follows(symbol) for symbol in given if symbol in question.readings):
        return None
    found = off(given)
    if not found:
        return None
    restoring = [symbol for symbol in found if not off({s: v for s, v in given.items() if s != symbol})]
    names = restoring or list(found)
    name = question.edited if question.edited in names else names[-1]
    quantity = question.quantities[name]
    return name, message("e-over", name=quantity.label, v=value_text(quantity, found[name], question.system))


def _off(
    machine: Machine, view: str, given: Mapping[str, Any], blocked: frozenset[str], assumed: Collection[str]
) -> dict[str, Any]:
    """The typed boxes that disagree with what the others give, with that value."""
    off = {}
    readings = machine.question.readings
    for symbol, value in given.items():
        if symbol not in readings:  # a filled or counted box cannot be cleared
            continue
        others = {s: v for s, v in given.items() if s != symbol}
        found = machine.solve(view, others, blocked, assuming=assumed).values.get(symbol)
        if found is None:
            continue
        a, b = uncertainties.nominal_value(value), uncertainties.nominal_value(found)
        certain = isinstance(value, float) and isinstance(found, float)
        doubt = 0.0 if certain else 2 * uncertainties.std_dev(value - found)
        if abs(a - b) > max(RELATIVE_TOLERANCE * max(abs(a), abs(b)), readings[symbol].resolution, doubt):
            off[symbol] = found
    return off
