"""The things of a shop that have a card: read from ``shared/shop_objects.toml``, answered by ``calc``."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any

import calc
from calc.library import table_of

FILE = "shop_objects.toml"
SYSTEMS = ("us", "si")
STANDINGS = {
    "class": "",
    "teacher": "Teacher only.",
    "shape": "Shape only: not measured by a class.",
}


@dataclass(frozen=True)
class Point:
    """One place that a picture names: where the effort or the load acts, a pivot, an edge.

    ``at`` is the tail of an arrow or the mark of a pivot, in units of the picture; ``turn`` the arrow's direction,
    degrees clockwise from rightward; ``text`` the place of the word and how it is anchored there.
    """

    role: str
    where: str
    text: tuple[float, float, str]
    word: str = ""
    at: tuple[float, float] | None = None
    turn: float = 0.0
    leader: tuple[float, float, float, float] | None = None

    @property
    def printed(self) -> str:
        """The word in the picture."""
        return self.word or self.role


@dataclass(frozen=True)
class ShopObject:
    """One card: a thing, the sheet that it opens, what to measure and to point out, what its picture names."""

    key: str
    name: str
    page: str
    calculator: str
    given: Mapping[str, Mapping[str, str]]
    standing: str
    dE: str
    dR: str
    notice: str
    picture: str
    points: tuple[Point, ...]
    choices: Mapping[str, str | Mapping[str, str]] = field(default_factory=dict)
    usual: str = ""
    shows: tuple[str, ...] = ("IMA", "E")
    caution: str = ""

    @property
    def cautions(self) -> str:
        """Who may handle it, and what is special to it, in one line."""
        return f"{STANDINGS[self.standing]} {self.caution}".strip()

    def request(self, units: str) -> dict[str, Any]:
        """What the card's sheet is asked, in ``us`` or ``si``: boxes with their units, every choice."""
        chosen = {name: one if isinstance(one, str) else one[units] for name, one in self.choices.items()}
        example = calc.example(self.calculator, units)["choices"]
        return {
            "calculator": self.calculator,
            "units": units,
            "given": dict(self.given[units]),
            "choices": {**example, **chosen},
        }


@cache
def shop_objects() -> tuple[ShopObject, ...]:
    """All of them, in the order of the file. Raises TypeError for a name that a card does not know."""
    return tuple(_read(row) for row in table_of(FILE)["object"])


def of_page(page: str) -> tuple[ShopObject, ...]:
    """Those that stand on one page."""
    return tuple(thing for thing in shop_objects() if thing.page == page)


def _read(row: Mapping[str, Any]) -> ShopObject:
    rest = {name: value for name, value in row.items() if name not in (*SYSTEMS, "points", "shows")}
    if "shows" in row:
        rest["shows"] = tuple(row["shows"])
    return ShopObject(
        given={units: row[units] for units in SYSTEMS},
        points=tuple(_point(point) for point in row["points"]),
        **rest,
    )


def _point(row: Mapping[str, Any]) -> Point:
    entries: dict[str, Any] = {name: tuple(value) if isinstance(value, list) else value for name, value in row.items()}
    return Point(**entries)
