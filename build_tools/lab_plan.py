"""The plan of a lab, from ``shared/pages/labs.toml``; what a reading will be is asked of the calculators.

The file holds words and sizes. Braces in its texts take a size from the plan itself, so that none stands twice.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import calc
from build_tools.asking import complaints, request

FILE = Path(__file__).resolve().parent.parent / "shared/pages/labs.toml"
SYSTEMS = ("us", "si")


class LabPlanError(ValueError):
    """A plan asks for something that does not exist, or that no calculator answers; the words say what."""


@dataclass(frozen=True)
class Expected:
    """What a reading will be: from ``low`` to ``high`` (SI), as printed in each system; ``scale`` is what reads it."""

    what: str
    symbol: str
    low: float
    high: float
    text: Mapping[str, str]
    scale: str = ""


@cache
def everything() -> dict[str, Any]:
    """The whole file."""
    return tomllib.loads(FILE.read_text("utf-8"))


def keys() -> tuple[str, ...]:
    """The labs that have a plan."""
    return tuple(key for key in everything() if key.endswith("-lab"))


def plan(key: str) -> dict[str, Any]:
    """The plan of one lab, its texts filled in. Raises LabPlanError for an unknown lab or size."""
    if key not in keys():
        raise LabPlanError(f"There is no plan for {key!r}. There are: {', '.join(keys())}.")
    raw = everything()[key]
    sizes = {symbol: f"{us} ({si})" if us != si else us for symbol, (us, si) in raw["sizes"].items()}
    try:
        return {name: _filled(part, sizes) if name != "expect" else part for name, part in raw.items()}
    except KeyError as missing:
        raise LabPlanError(f"The plan {key!r} has no size {missing}.") from None


def _filled(part: Any, sizes: Mapping[str, str]) -> Any:
    if isinstance(part, str):
        return part.format_map(sizes)
    if isinstance(part, list):
        return [_filled(item, sizes) for item in part]
    if isinstance(part, dict):
        return {name: _filled(item, sizes) for name, item in part.items()}
    return part


def expected(key: str) -> tuple[Expected, ...]:
    """What the readings of a lab will be, computed. Raises LabPlanError where a calculator does not say."""
    plan(key)
    raw = everything()[key]
    return tuple(_expected(raw["sizes"], entry) for entry in raw["expect"])


def _expected(sizes: Mapping[str, list[str]], entry: Mapping[str, Any]) -> Expected:
    found = {
        (system, end): _answer(sizes, entry, system, entry.get(end, {}))
        for system in SYSTEMS
        for end in ("low", "high")
    }
    text = {system: _range(*(found[system, end]["text"] for end in ("low", "high"))) for system in SYSTEMS}
    low, high = sorted(found["us", end]["si"] for end in ("low", "high"))
    return Expected(entry["what"], entry["symbol"], low, high, text, entry.get("scale", ""))


def _answer(sizes: Mapping[str, list[str]], entry: Mapping[str, Any], system: str, end: Mapping[str, str]) -> Any:
    """What the calculator says of the entry's symbol at one end of what is usual; a size answers for itself."""
    key = entry.get("calculator", "any-machine")
    known = {quantity["symbol"] for quantity in calc.describe(key)["quantities"]}
    given = {symbol: texts[SYSTEMS.index(system)] for symbol, texts in sizes.items() if symbol in known}
    boxes = {**given, **entry.get("with", {}), **entry.get("choices", {}), **end}
    answer = calc.answer(request(key, boxes, system, bare=True))
    if answer["errors"] or entry["symbol"] not in answer["values"]:
        raise LabPlanError(f"{key} does not say {entry['symbol']} for {boxes}: {complaints(answer)}")
    return answer["values"][entry["symbol"]]


def _range(low: str, high: str) -> str:
    """Two shown values as one range with one unit, or as one value if they look alike."""
    if low == high:
        return low
    number, _, unit = low.partition(" ")
    return f"{number} to {high}" if high.endswith(f" {unit}".rstrip()) else f"{low} to {high}"
