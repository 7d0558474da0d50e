"""What a drawing is made from, and what it gives back."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import isfinite

WIDE = 680
"""Width in pixels of the drawing for a column of 520 px and more."""

NARROW = 340
"""Width in pixels of the drawing for a phone: another layout, not a smaller one."""


@dataclass(frozen=True)
class Scene:
    """One machine at one moment, ready to be drawn.

    `key` is the calculator's key and prefixes every id. `width` is WIDE or NARROW.
    `values` holds every known quantity by symbol in SI units; an unknown one is absent.
    `texts` holds the same quantities as the strings shown in the page, unit included, and the option chosen in each
    choice in words.
    `choices` holds the calculator's choices, `travel` the machine's position from 0 to 1.
    `length_unit` and `force_unit` are the name of a unit and its size in metres or newtons;
    the scale bars count in them.
    """

    key: str
    width: int
    values: Mapping[str, float]
    texts: Mapping[str, str]
    choices: Mapping[str, str]
    travel: float = 0.5
    length_unit: tuple[str, float] = ("in", 0.0254)
    force_unit: tuple[str, float] = ("lbf", 4.4482216152605)

    @property
    def wide(self) -> bool:
        """Whether the wide layout is wanted."""
        return self.width > (WIDE + NARROW) / 2

    def drawable(self) -> "Scene":
        """The same scene without the values that no line can have: infinite ones and NaN."""
        return replace(self, values={symbol: value for symbol, value in self.values.items() if isfinite(value)})

    def text(self, symbol: str) -> str:
        """The shown string of a quantity, empty if it is unknown."""
        return self.texts.get(symbol, "")


@dataclass(frozen=True)
class Drawing:
    """A finished drawing: the SVG element, its caption and its one-sentence text alternative."""

    svg: str
    caption: str
    alt: str
