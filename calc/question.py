"""A request made safe: which calculator, which choices, what was typed, and what of it can't be used."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

from calc.figures import plain, shown
from calc.measure import Reading, read, shortened
from calc.messages import Message, Refused, message
from calc.model import Calculator, Quantity, holds_in
from calc.units import KINDS, in_unit

SYSTEMS = ("us", "si")


@dataclass(frozen=True)
class Filled:
    """A value (SI) that a choice put in an empty box, and the words that say where it comes from."""

    value: Any
    note: str


@dataclass(frozen=True)
class Counted:
    """The smallest whole number that fulfils its condition, the boxes that were limits, and what one less would give.

    ``tested`` is the symbol that the condition is about, ``before`` its value (SI) with one less, or None.
    """

    value: float
    limits: tuple[str, ...] = ()
    tested: str = ""
    before: Any = None


@dataclass(frozen=True)
class Question:
    """What a reader asks of one calculator.

    ``typed`` holds each filled box as it stands, ``readings`` those that could be read, ``errors`` the message for
    each box, choice or unknown name that could not be used. ``filled`` holds what the choices put in empty boxes,
    with its words; it counts as given. So does ``counted``, the smallest whole numbers that were sought for empty
    boxes; the typed values that were their limits do not.
    """

    calculator: Calculator
    system: str
    choices: Mapping[str, str]
    counts: Mapping[str, int]
    quantities: Mapping[str, Quantity]
    typed: Mapping[str, str]
    readings: Mapping[str, Reading]
    errors: Mapping[str, Message] = field(default_factory=dict)
    edited: str = ""
    digits: int = 3
    hidden: tuple[str, ...] = ()
    filled: Mapping[str, Filled] = field(default_factory=dict)
    counted: Mapping[str, Counted] = field(default_factory=dict)

    @cached_property
    def given(self) -> dict[str, Any]:
        """What counts as given, in SI: the readable boxes, what the choices filled and what was counted."""
        sources: dict[str, Filled | Reading | Counted] = {**self.filled, **self.readings, **self.counted}
        return {symbol: source.value for symbol, source in sources.items() if symbol not in self.limits}

    @cached_property
    def limits(self) -> frozenset[str]:
        """The typed boxes that are limits for a whole number, not given values."""
        return frozenset(symbol for counted in self.counted.values() for symbol in counted.limits)

    @property
    def blocked(self) -> frozenset[str]:
        """The boxes that hold something unusable: neither known nor to be worked out."""
        return frozenset(symbol for symbol in self.errors if symbol in self.quantities and symbol in self.typed)

    def refusing(self, errors: Mapping[str, Message]) -> Question:
        """The same question with more messages; their boxes no longer count as read."""
        readings = {symbol: reading for symbol, reading in self.readings.items() if symbol not in errors}
        return replace(self, readings=readings, errors={**errors, **self.errors})


def box_unit(quantity: Quantity, system: str) -> str:
    """The unit shown beside a quantity's box: that of its example, else its kind's."""
    text = quantity.us if system == "us" else quantity.si
    unit = text.rpartition(" ")[2] if text else ""
    kind = KINDS[quantity.kind]
    return unit if unit and not unit[0].isdecimal() else (kind.us if system == "us" else kind.si)


def example_text(quantity: Quantity, system: str) -> str:
    """The example's number for a box, without its unit; empty if the box starts empty."""
    text = quantity.us if system == "us" else quantity.si
    number = text.partition(" ")[0]
    return number if number[:1].isdecimal() else ""


def ask(calculator: Calculator, request: Mapping[str, Any]) -> Question:
    """Read a request. Anything unusable becomes a message; nothing raises."""
    system = request.get("units") if request.get("units") in SYSTEMS else "us"
    errors: dict[str, Message] = {}
    typed = _typed(request.get("given"))
    choices = _choices(calculator, request.get("choices"), str(system), errors)
    fills = [symbol for choice in calculator.choices for symbol in choice.fills.get(choices[choice.symbol], ())]
    counts = calculator.row_counts([*typed, *fills])
    quantities = calculator.written_out(counts)
    known = {symbol: text for symbol, text in typed.items() if symbol in quantities}
    for symbol in typed:
        if symbol not in quantities:
            errors[symbol] = message("e-symbol", x=shortened(symbol), list=", ".join(quantities))
    readings: dict[str, Reading] = {}
    linked = request.get("from_link")
    linked = set(map(str, linked)) if isinstance(linked, list | tuple) else set()
    for symbol, text in list(known.items()):
        quantity = quantities[symbol]
        if not holds_in(quantity.when, choices):
            continue
        try:
            reading = read(text, KINDS[quantity.kind], quantity.label, box_unit(quantity, str(system)), str(system))
            _within(reading, quantity, str(system))
            readings[symbol] = reading
        except Refused as refused:
            errors[symbol] = refused.message
            if symbol in linked:
                errors[symbol] = message("e-link", x=shortened(text), name=quantity.label)
                del known[symbol]
    hide = request.get("hide")
    hide = [s for s in hide if isinstance(s, str)] if isinstance(hide, list | tuple) else []
    hidden = tuple(s for s in hide if s in quantities and s not in known)
    filled = _filled(calculator, choices, {s: q for s, q in quantities.items() if s not in known}, str(system))
    edited, digits = request.get("edited"), request.get("digits")
    return Question(
        calculator,
        str(system),
        choices,
        counts,
        quantities,
        known,
        readings,
        errors,
        edited if isinstance(edited, str) else "",
        6 if digits == 6 else 3,
        hidden,
        filled,
    )


def _filled(
    calculator: Calculator, choices: Mapping[str, str], empty: Mapping[str, Quantity], system: str
) -> dict[str, Filled]:
    """What the chosen options put in the empty boxes that this case has."""
    found = {}
    for choice in calculator.choices:
        for symbol, fill in choice.fills.get(choices[choice.symbol], {}).items():
            if symbol in empty and holds_in(empty[symbol].when, choices):
                quantity = empty[symbol]
                text, unit = fill.text(system), box_unit(quantity, system)
                found[symbol] = Filled(read(text, KINDS[quantity.kind], quantity.label, unit, system).value, fill.note)
    return found


def _typed(given: Any) -> dict[str, str]:
    if not isinstance(given, Mapping):
        return {}
    texts = {str(symbol): str(text) for symbol, text in given.items() if isinstance(text, str | int | float)}
    return {symbol: text for symbol, text in texts.items() if text.strip()}


def _choices(calculator: Calculator, chosen: Any, system: str, errors: dict[str, Message]) -> dict[str, str]:
    chosen = chosen if isinstance(chosen, Mapping) else {}
    result = {}
    for choice in calculator.choices:
        values = [value for value, _ in choice.options]
        wanted = chosen.get(choice.symbol, choice.default(system))
        result[choice.symbol] = wanted if wanted in values else choice.default(system)
        if wanted not in values:
            errors[choice.symbol] = message(
                "e-choice", x=shortened(str(wanted)), name=choice.label, list=", ".join(values)
            )
    return result


def limits(quantity: Quantity) -> tuple[float, float]:
    """The lowest and highest value (SI) that a box takes."""
    kind = KINDS[quantity.kind]
    return (
        kind.low if quantity.low is None else quantity.low,
        kind.high if quantity.high is None else quantity.high,
    )


def takes_zero(quantity: Quantity) -> bool:
    """Whether zero is a sensible value: for the whole kind, or because this quantity's own limit is there or below."""
    return KINDS[quantity.kind].zero or (quantity.low is not None and quantity.low <= 0)


def _within(reading: Reading, quantity: Quantity, system: str) -> None:
    """Refuse a value outside its limits, in the words that fit it."""
    value, (low, high), kind = reading.nominal, limits(quantity), KINDS[quantity.kind]
    if kind.name == "efficiency":
        if value > kind.high * (1 + 1e-9):
            raise Refused("e-eff100")
        if value < 0 or (value == 0 and not takes_zero(quantity)):
            raise Refused("e-eff0")
    if low >= 0:
        if value < 0:
            raise Refused("e-neg", name=quantity.label)
        if value == 0 and not takes_zero(quantity):
            raise Refused("e-zero", name=quantity.label)
    if kind.whole and (value != round(value) or value != reading.value):
        raise Refused("e-int", name=quantity.label)
    if low * (1 - 1e-9) <= value <= high * (1 + 1e-9) or low <= value <= high:
        return
    unit = box_unit(quantity, system)
    space = "" if unit == "°" else " "
    show = plain if kind.whole else shown
    a, b = (f"{show(edge)}{space}{unit}".rstrip() for edge in sorted((in_unit(low, unit), in_unit(high, unit))))
    code = {"friction": "e-mu", "angle": "e-angle"}.get(kind.name, "e-range")
    if code == "e-mu" and high != kind.high:
        code = "e-range"
    raise Refused(code, name=quantity.label, a=a, b=b)
