"""The Markdown block that places the cards of a page's shop objects: ``/// shop | lever``.

The numbers on a card are computed here, when the page is built; a card holds none of its own.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as etree
from pathlib import Path
from typing import Any

import jinja2
from markdown import Markdown
from markdown.treeprocessors import Treeprocessor
from markdown.util import AtomicString
from pymdownx.blocks import BlocksExtension, BlocksProcessor
from pymdownx.blocks.block import Block

import calc
from build_tools.shop_objects import SYSTEMS, ShopObject, of_page, shop_objects
from build_tools.shop_pictures import picture
from build_tools.stated_numbers import ROOT, facts, sheet_places

MARKS = {"common-practice": "common practice, no source", "computed": "computed with usual friction"}

_templates = jinja2.Environment(
    loader=jinja2.FileSystemLoader(Path(__file__).parent / "templates"),
    autoescape=True,
    trim_blocks=True,
    lstrip_blocks=True,
    undefined=jinja2.StrictUndefined,
)


class ShopBlockError(ValueError):
    """A shop block asks for a page without objects; the words say which there are."""


class ShopBlock(Block):
    """The cards of one machine page, in the order of the data. The argument is the page's name without its ending."""

    NAME = "shop"
    ARGUMENT = True

    def on_validate(self, parent: etree.Element) -> bool:
        """Refuse a page that no object belongs to: this stops the build."""
        if not of_page(self.argument):
            raise ShopBlockError(
                f"No shop object belongs to {self.argument!r}. Pages: {', '.join(pages_with_cards())}."
            )
        return True

    def on_create(self, parent: etree.Element) -> etree.Element:
        """Make the element that holds the cards."""
        return etree.SubElement(parent, "div", {"class": "shop"})

    def on_end(self, block: etree.Element) -> None:
        """Fill in the cards."""
        block.text = AtomicString(self.md.htmlStash.store(cards_html(self.argument)))


def pages_with_cards() -> list[str]:
    """The names of the pages that shop objects belong to."""
    return list(dict.fromkeys(thing.page for thing in shop_objects()))


def cards_html(page: str) -> str:
    """The cards of one page as a list in HTML."""
    cards = [
        {
            "thing": thing,
            "picture": picture(thing),
            "figures": figures(thing),
            "usual": usual(thing),
            "links": links(thing),
        }
        for thing in of_page(page)
    ]
    return _templates.get_template("shop.html").render(cards=cards)


def links(thing: ShopObject) -> dict[str, str]:
    """The address of the sheet with the card's numbers in each system of units, relative to any page of the site."""
    page = sheet_places(ROOT / "docs")[thing.calculator][0].removesuffix(".md")
    return {units: f"{page}.html#{calc.answer(thing.request(units))['link']}" for units in SYSTEMS}


def figures(thing: ShopObject) -> list[dict[str, str]]:
    """What the ideal machine gives for the card's numbers: name and text, both systems beside each other."""
    values = [calc.answer(thing.request(units))["values"] for units in SYSTEMS]
    names = {part["symbol"]: part["label"].lower() for part in calc.describe(thing.calculator)["quantities"]}
    return [
        _figure(names.get(symbol, symbol), *(system[symbol]["text"] for system in values))
        for symbol in (*thing.shows, *(("R",) if "E" in thing.shows else ()))
        if all(symbol in system for system in values)
    ]


def usual(thing: ShopObject) -> dict[str, str]:
    """The efficiency usually measured on such a thing, and how we know; nothing if no fact says it.

    Raises KeyError for a fact that ``facts.toml`` does not have.
    """
    if not thing.usual:
        return {}
    fact = facts()[thing.usual]
    return {"text": fact["text"].replace(" %", "\u00a0%"), "mark": MARKS[fact["grade"]]}


def _figure(name: str, us: str, si: str) -> dict[str, str]:
    """One figure, said once if both systems agree; "turns" is said by its unit already."""
    return {"name": "" if us.endswith(f" {name}") else name, "text": us if us == si else f"{us} | {si}"}


class LeftoverBlocks(Treeprocessor):
    """Stops the build at a shop block that could not be read, where Blocks would print it as text."""

    def run(self, root: etree.Element) -> None:
        """Look for the block's first line among the paragraphs."""
        for paragraph in root.iter("p"):
            if re.match(r"\s*/{3,}\s*shop\b", paragraph.text or ""):
                raise ShopBlockError(
                    "A shop block could not be read. It needs a page's name after '|', and no options."
                )


class ShopExtension(BlocksExtension):
    """Registers the block and its check."""

    def extendMarkdownBlocks(self, md: Markdown, block_mgr: BlocksProcessor) -> None:
        """Register the block, and the check just after blocks are parsed, before inline text is."""
        block_mgr.register(ShopBlock, self.getConfigs())
        md.treeprocessors.register(LeftoverBlocks(md), "leftover-shop-blocks", 100)


def makeExtension(**settings: Any) -> ShopExtension:
    """The extension, as Python-Markdown asks for it."""
    return ShopExtension(**settings)
