"""What is to be raised, or moved on the level: how far, by whom, and within which limits of the class."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from calc import tables
from calc.library import table_of
from calc.measure import read
from calc.messages import Message, Refused, message
from calc.units import KINDS

TWO_PULL = 1.6
"""What two students on one rope pull together, in pulls of one: common practice, no source."""
WALKWAY = 0.9144
"""Room for a person beyond each end of a set-up (m): 3 ft, common practice, no source."""
TAIL = 1.524
"""Rope left to hold (m): 5 ft, common practice, no source."""
GAP = 0.3048
"""Least distance between the blocks of a tackle, pin to pin (m): 1 ft, common practice, no source."""
SWING = 0.2617993877991494
"""How far a bar is swung to each side of level (rad): 15 degrees."""
ALLOWANCE = 1.5
"""How often a load on a plank is counted, for shifts and jerks: common practice, no source."""
READABLE = (0.1, 0.8)
"""The part of a scale's range that is read: common practice, no source."""

BOXES: Mapping[str, tuple[str, str, str, str, str, str]] = {
    # symbol: label, kind, US text, SI text, hint, US|SI unit of a bare number
    "R": ("Load", "force", "60 lbf", "270 N", "Weigh it. A rain barrel, part full.", "lbf|N"),
    "h": ("Lift", "length", "24 in", "600 mm", "How high it must go.", "in|mm"),
    "d": ("Way", "length", "20 ft", "6 m", "How far it must go on the level.", "ft|m"),
    "pull": ("One student pulls", "force", "25 lbf", "110 N", "Steadily. You set this limit for your class.", "lbf|N"),
    "hang": ("A load hangs at most", "length", "12 in", "300 mm", "Above its pad, on a rope or a bar.", "in|mm"),
    "most": ("Load on a bar or a rope", "force", "100 lbf", "450 N", "At most. You set this limit too.", "lbf|N"),
    "room": ("Floor length", "length", "", "", "Leave it empty if there is plenty.", "ft|m"),
}
PAIRS = tables.friction(
    "wood-on-wood-dry-drive-guide", "wood-on-steel-dry-drive-guide", "steel-on-steel-dry-drive-guide"
)
DISTANCE = {"raise": "h", "level": "d"}
"""The box that says how far, for each thing to do; the other is not read."""
CHOICES: Mapping[str, tuple[str, tuple[tuple[str, str], ...]]] = {
    "job": ("To do", (("raise", "raise it"), ("level", "move it on the level"))),
    "surfaces": (
        "Surfaces",
        (
            *((entry.key, entry.label.replace(" (drive guide)", "")) for entry in PAIRS),
            ("own", "measured by me"),
            ("no", "it must not slide"),
        ),
    ),
    "people": ("On one rope", (("one", "one student"), ("two", "two students"))),
    "moves": ("What moves", (("thing", "a thing"), ("person", "a person"))),
    "under": ("Under and beside it", (("clear", "kept clear of people"), ("people", "people stand or pass"))),
}
OWN = {"mu_s": "Friction to start", "mu_k": "Friction while it moves"}


@dataclass(frozen=True)
class Task:
    """What is asked, in SI: a lift ``h``, or a way ``d`` on the level, by ``job``.

    ``mu_s`` and ``mu_k`` are the ends of the friction ranges, or None if it may not slide.
    """

    R: float
    pull: float
    hang: float
    most: float
    h: float = 0.0
    d: float = 0.0
    job: str = "raise"
    room: float | None = None
    mu_s: tuple[float, float] | None = None
    mu_k: tuple[float, float] | None = None
    people: str = "one"
    moves: str = "thing"
    under: str = "clear"
    surfaces: str = ""

    @property
    def strength(self) -> float:
        """What the hands on the rope may be asked for (N)."""
        return self.pull * (TWO_PULL if self.people == "two" else 1.0)


def read_task(given: Any, system: str) -> tuple[Task | None, dict[str, Message]]:
    """The task from its texts, or None with the message for each box that could not be used. Never raises."""
    texts = {str(k): str(v).strip() for k, v in given.items()} if isinstance(given, Mapping) else {}
    errors: dict[str, Message] = {}
    found: dict[str, float] = {}
    far = DISTANCE.get(texts.get("job", ""), "h")
    for symbol, (label, kind, us, si, _, units) in BOXES.items():
        text = texts.get(symbol, "") or ("" if symbol in ("R", far) else us if system == "us" else si)
        if (not text and symbol == "room") or (symbol in DISTANCE.values() and symbol != far):
            continue
        try:
            found[symbol] = _positive(text, kind, label, units.split("|")[system == "si"], system)
        except Refused as refused:
            errors[symbol] = refused.message
    chosen = {}
    for symbol, (label, options) in CHOICES.items():
        keys = [key for key, _ in options]
        chosen[symbol] = texts.get(symbol) or keys[0]
        if chosen[symbol] not in keys:
            errors[symbol] = message("e-choice", x=chosen[symbol][:20], name=label, list=", ".join(keys))
    friction = _friction(chosen["surfaces"], texts, errors)
    if errors:
        return None, errors
    everything: dict[str, Any] = {**found, **friction, **chosen}
    return Task(**everything), {}


def _positive(text: str, kind: str, label: str, unit: str, system: str) -> float:
    value = read(text, KINDS[kind], label, unit, system).nominal
    if value <= 0:
        raise Refused("e-neg" if value < 0 else "e-zero", name=label)
    if not KINDS[kind].low <= value <= KINDS[kind].high:
        raise Refused("e-range", name=label, a=f"{KINDS[kind].low:.3g}", b=f"{KINDS[kind].high:.6g} {KINDS[kind].si}")
    return value


def _friction(surfaces: str, texts: Mapping[str, str], errors: dict[str, Message]) -> dict[str, Any]:
    """The two ranges of a pair of the table, of two typed ranges, or none."""
    if surfaces == "no":
        return {}
    if surfaces != "own":
        row = next((row for row in tables.rows_of("friction") if row["key"] == surfaces), None)
        return {"mu_s": span(row["mu_static"]), "mu_k": span(row["mu_kinetic"])} if row else {}
    found: dict[str, Any] = {}
    for symbol, label in OWN.items():
        text = texts.get(symbol, "")
        try:
            ends = [read(part, KINDS["friction"], label, "").nominal for part in (text.split(" to ") if text else [""])]
            if len(ends) > 2 or not 0 <= min(ends) <= max(ends) <= KINDS["friction"].high:
                raise Refused("e-mu")
            found[symbol] = (min(ends), max(ends))
        except Refused as refused:
            errors[symbol] = refused.message
    if len(found) == 2 and (found["mu_s"][0] < found["mu_k"][0] or found["mu_s"][1] < found["mu_k"][1]):
        errors["mu_s"] = message("e-muorder")
    return found


def span(text: str) -> tuple[float, float]:
    """The two ends of "0.40 to 0.75", or of a single number."""
    ends = [float(part) for part in text.split(" to ")]
    return min(ends), max(ends)


def hang_limit() -> float:
    """How high a class lifts a hanging load by the usual rule (m): the fact that the pages state."""
    return float(table_of("facts.toml")["lift-limit"]["high"])
