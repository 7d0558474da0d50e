"""The instruments of a sheet as typed: read, with a message at each that can't be; and a school shop's defaults."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from calc.figures import plain
from calc.lab.scale import POSITIONS, SCALE_UNITS, Instruments
from calc.measure import read, shortened
from calc.messages import Message, Refused, message
from calc.units import KINDS, factor

DEFAULTS: Mapping[str, Mapping[str, str]] = {
    "us": {"unit": "lbf", "division": "0.5", "capacity": "50", "tape": "1/8", "calliper": "1/64"},
    "si": {"unit": "N", "division": "2", "capacity": "200", "tape": "2", "calliper": "0.5"},
}
"""What a sheet starts with. Divisions and capacity of the garden kit's scale; the tape as read with sag."""

LABELS = {
    "unit": "What the scale shows",
    "division": "Scale division",
    "capacity": "Scale capacity",
    "accuracy": "Maker’s limit ±",
    "hook": "Hook and rod",
    "position": "How the scale hangs",
    "tape": "Tape division",
    "calliper": "Calliper division",
}


def instruments(given: Any, system: str) -> tuple[Instruments, dict[str, Message]]:
    """The instruments (SI) and the message for each box that could not be used; those keep their default."""
    typed = {**DEFAULTS[system], **{k: str(v).strip() for k, v in given.items()}} if isinstance(given, Mapping) else {}
    typed = {**DEFAULTS[system], **{name: text for name, text in typed.items() if name in LABELS}}
    errors: dict[str, Message] = {}
    unit = typed["unit"]
    if unit not in SCALE_UNITS:
        errors["unit"] = message("e-choice", x=shortened(unit), name=LABELS["unit"], list=", ".join(SCALE_UNITS))
        unit = DEFAULTS[system]["unit"]
    position = typed.get("position") or "use"
    if position not in POSITIONS:
        errors["position"] = message(
            "e-choice", x=shortened(position), name=LABELS["position"], list=", ".join(POSITIONS)
        )
        position = "use"
    sizes_read: dict[str, Any] = {}
    sizes = dict.fromkeys(("division", "capacity", "accuracy", "hook"), SCALE_UNITS[unit])
    for name in ("division", "capacity", "accuracy", "hook", "tape", "calliper"):
        text = typed.get(name, "")
        try:
            if name in ("tape", "calliper"):
                value = read(text, KINDS["length"], LABELS[name], "in" if system == "us" else "mm", system).nominal
            elif not text and name != "division":
                value = 0.0
            else:
                value = read(text, KINDS["ratio"], LABELS[name], "", system).nominal * sizes[name]
            if value < 0 or (value == 0 and name in ("division", "tape", "calliper")):
                raise Refused("e-zero" if value == 0 else "e-neg", name=LABELS[name])
            within(value, "length" if name in ("tape", "calliper") else "force", LABELS[name], unit, system)
        except Refused as refused:
            errors[name] = refused.message
            continue
        sizes_read[name] = value
    return replace(Instruments(unit=unit, position=position), **sizes_read), errors


def within(value: float, kind: str, name: str, scale_unit: str, system: str) -> None:
    """Refuses a size (SI, a force or a length) beyond what a box of its kind takes: sums with it must stay numbers."""
    unit = scale_unit if kind == "force" else "in" if system == "us" else "mm"
    high = KINDS[kind].high
    if value > high * (1 + 1e-9):
        most = high / (SCALE_UNITS[unit] if kind == "force" else factor(unit))
        raise Refused("e-range", name=name, a="0", b=f"{plain(most, 4)} {unit}")
