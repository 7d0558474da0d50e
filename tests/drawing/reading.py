"""Reading a finished SVG back: independent of the code that wrote it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from xml.etree import ElementTree

from calc.drawing.letters import EFFORT, HEADING, NOTE, PLAIN, width_of, width_of_symbol

SVG = "{http://www.w3.org/2000/svg}"
STYLES = {style.name: style for style in (PLAIN, EFFORT, NOTE, HEADING)}


@dataclass(frozen=True)
class Text:
    """A line of text and the box it takes at the greatest width of its letters."""

    words: str
    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: Text) -> bool:
        return (
            min(self.right, other.right) > max(self.left, other.left)
            and min(self.bottom, other.bottom) > max(self.top, other.top)
        )  # fmt: skip


def parse(svg: str) -> ElementTree.Element:
    """The drawing as an element tree; raises ParseError if it is not well formed."""
    return ElementTree.fromstring(svg)


def view_box(root: ElementTree.Element) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of the viewBox."""
    x, y, width, height = (float(part) for part in root.attrib["viewBox"].split())
    return x, y, x + width, y + height


def texts(root: ElementTree.Element) -> list[Text]:
    """Every line of text with its box."""
    found = []
    for element in root.iter(f"{SVG}text"):
        style = STYLES[element.get("class", "")]
        symbol = element.find(f"{SVG}tspan")
        words = (element.text or "") + "".join(child.tail or "" for child in element)
        width = width_of(words.strip(), style)
        if symbol is not None:
            width += width_of_symbol(symbol.text or "", style)
        x, y = float(element.attrib["x"]), float(element.attrib["y"])
        left = x - {"start": 0, "middle": width / 2, "end": width}[element.get("text-anchor", "start")]
        found.append(Text(words, left, y - 0.73 * style.size, left + width, y + 0.22 * style.size))
    return found


def points(element: ElementTree.Element) -> list[complex]:
    """The points of a path that has only absolute M, L and Z."""
    numbers = [float(part) for part in re.findall(r"-?\d+(?:\.\d+)?", element.attrib["d"])]
    return [complex(x, y) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]


def straight_paths(root: ElementTree.Element, kind: str) -> list[list[complex]]:
    """The points of every straight path of exactly this class."""
    return [
        points(element)
        for element in root.iter(f"{SVG}path")
        if element.get("class") == kind and "A" not in element.attrib["d"]
    ]
