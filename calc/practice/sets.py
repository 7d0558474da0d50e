"""A set of problems, from the words of a link or a form: which families, which questions, for which seat.

The link writes it as one value, ``p=garden-1;lever,qS4;2;6;us;7``: set code, machines or single families, level (0:
all), number of questions, units, seat (may be empty).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from hashlib import sha256
from typing import Any

from calc.link import LONGEST, text_of_value
from calc.messages import Message, message
from calc.practice.draw import SEATS
from calc.practice.families import MACHINES, Family, family, of_machine

VERSION = "1"
"""Of the rules by which numbers are drawn: another one draws other numbers."""
MOST_QUESTIONS = 20
LONGEST_CODE = 24
LEVELS = (0, 1, 2)
_CODE = re.compile(r"[a-z0-9-]+")


@dataclass(frozen=True)
class Settings:
    """A set made safe. ``seat`` is 0 while nobody has given one; ``problems`` say what could not be used."""

    code: str = "garden-1"
    families: tuple[str, ...] = ("lever",)
    level: int = 0
    count: int = 6
    units: str = "us"
    seat: int = 0
    problems: tuple[Message, ...] = field(default=(), compare=False)

    @property
    def link(self) -> str:
        """The end of an address that opens this set."""
        seat = str(self.seat) if self.seat else ""
        parts = (self.code, ",".join(self.families), str(self.level), str(self.count), self.units, seat)
        return f"p={';'.join(parts)}&v={VERSION}"

    def as_answer(self) -> dict[str, Any]:
        """For the page, JSON."""
        return {
            "set": self.code,
            "families": list(self.families),
            "level": self.level,
            "count": self.count,
            "units": self.units,
            "seat": self.seat,
            "link": self.link,
        }


def settings(request: Any) -> Settings:
    """Read a set's settings. Whatever can't be used is left at its default, and said; nothing raises."""
    asked: Mapping[str, Any] = request if isinstance(request, Mapping) else {}
    if isinstance(asked.get("link"), str):
        asked = {**asked, **_from_link(asked["link"])}
    problems: list[Message] = []
    if asked.get("version", VERSION) != VERSION:
        problems.append(message("e-setversion"))
    code = "-".join(str(asked.get("set") or "").lower().split())[:LONGEST_CODE]
    if not _CODE.fullmatch(code):
        problems += [message("e-setcode")] if code else []
        code = Settings.code
    units = "si" if asked.get("units") == "si" else "us"
    level = _whole(asked.get("level"), LEVELS[0], LEVELS[-1], 0, problems, "e-setlevel")
    return Settings(
        code=code,
        families=_families(asked.get("families"), problems),
        level=level,
        count=_whole(asked.get("count"), 1, MOST_QUESTIONS, Settings.count, problems, "e-setcount"),
        units=units,
        seat=_whole(asked.get("seat"), 1, SEATS, 0, problems, "e-seat"),
        problems=tuple(problems),
    )


def _from_link(fragment: str) -> dict[str, Any]:
    """The settings in an address's end; what it doesn't say stays away."""
    parts = dict(part.partition("=")[::2] for part in fragment[:LONGEST].removeprefix("#").split("&"))
    values = text_of_value(parts.get("p", "")).split(";")
    names = ("set", "families", "level", "count", "units", "seat")
    found = {name: value for name, value in zip(names, values, strict=False) if value}
    return {**found, "version": text_of_value(parts.get("v", VERSION))}


def _whole(given: Any, low: int, high: int, default: int, problems: list[Message], code: str) -> int:
    """A whole number within its ends; nothing typed gives the default without a word."""
    if given is None or given == "" or given == default:
        return default
    text = str(given).strip()
    if len(text) <= 4 and text.isascii() and text.isdecimal() and low <= int(text) <= high:
        return int(text)
    problems.append(message(code, low=low, high=high))
    return default


def _families(given: Any, problems: list[Message]) -> tuple[str, ...]:
    """Machines and families, each once, as they were named; unknown names are said."""
    listed = given.split(",") if isinstance(given, str) else given if isinstance(given, list | tuple) else []
    names = list(dict.fromkeys(str(name).strip() for name in listed[:100]))
    known = [name for name in names if name in MACHINES or _is_family(name)]
    if len(known) < len(names):
        problems.append(message("e-setfamily"))
    return tuple(known) or Settings.families


def _is_family(name: str) -> bool:
    try:
        return family(name).system == "us"
    except KeyError:
        return False


def questions(chosen: Settings) -> list[Family]:
    """The family of each question: machine by machine in turn, in an order that the set code mixes.

    A family named by itself is taken whatever its level; a machine without one of the level gives those it has.
    """
    twin = "s" if chosen.units == "si" else ""
    groups: list[list[Family]] = []
    for name in chosen.families:
        if name in MACHINES:
            found = of_machine(name, chosen.units, chosen.level) or of_machine(name, chosen.units)
            groups.append(sorted(found, key=lambda f: sha256(f"{chosen.code}|{f.id.rstrip('s')}".encode()).digest()))
        else:
            groups.append([family(name + twin)])
    turns = max(map(len, groups))
    once = [group[i] for i in range(turns) for group in groups if i < len(group)]
    return [once[i % len(once)] for i in range(chosen.count)]
