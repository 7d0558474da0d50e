"""The Markdown block that shows a calculator's drawing by itself: ``/// drawing | lever``.

The page then has the picture and its caption without the sheet: for a page that explains rather than calculates. The
drawing is what ``calc`` draws for the example, or for the boxes given.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as etree
from typing import Any

from markdown import Markdown
from markdown.util import AtomicString
from pymdownx.blocks import BlocksExtension, BlocksProcessor
from pymdownx.blocks.block import Block, type_string_in

import calc
from build_tools.asking import complaints, request
from build_tools.calculator_block import CalculatorBlockError, type_given


class DrawingBlock(Block):
    """A drawing with its caption. The argument is the calculator's key.

    Options: ``units`` (us or si), ``picture`` (machine or work), ``given`` (boxes and choices in place of the
    example's), ``travel`` (0 to 100), ``name`` (tells drawings of one calculator on one page apart), ``caption`` (in
    place of the drawing's own).
    """

    NAME = "drawing"
    ARGUMENT = True
    OPTIONS = {
        "units": ("us", type_string_in(("us", "si"))),
        "picture": ("machine", type_string_in(("machine", "work"))),
        "given": ({}, type_given),
        "travel": (50, int),
        "name": ("", str),
        "caption": ("", str),
    }

    def on_create(self, parent: etree.Element) -> etree.Element:
        """Make the figure's place; it is filled in at the end."""
        return etree.SubElement(parent, "div")

    def on_end(self, block: etree.Element) -> None:
        """Fill in the figure."""
        html = figure_html(
            self.argument,
            self.options["units"],
            self.options["picture"],
            self.options["given"],
            self.options["travel"],
            self.options["name"],
            self.options["caption"],
        )
        block.set("class", "picture")
        block.text = AtomicString(self.md.htmlStash.store(html))


def figure_html(
    key: str,
    units: str = "us",
    picture: str = "machine",
    given: dict[str, str] | None = None,
    travel: int = 50,
    name: str = "",
    caption: str = "",
) -> str:
    """The figure as HTML, in its wide and its narrow layout.

    Raises CalculatorBlockError where the calculator has no such drawing for these boxes.
    """
    answer = calc.answer({**request(key, given, units), "draw": "both", "travel": travel})
    if answer["errors"] or f"{picture}_wide" not in answer["html"]:
        raise CalculatorBlockError(f"{key!r} draws no {picture} for {given}: {complaints(answer)}")
    parts = {width: answer["html"][f"{picture}_{width}"] for width in ("wide", "narrow")}
    if name:
        parts = {width: named(svg, name) for width, svg in parts.items()}
    words = caption or answer["html"][f"{picture}_caption"]
    wide, narrow = (f'<div class="is-{width}">{parts[width]}</div>' for width in ("wide", "narrow"))
    return f'<figure class="{picture}">{wide}{narrow}<figcaption>{words}</figcaption></figure>'


def named(svg: str, name: str) -> str:
    """The drawing with ``name`` before each of its ids, so that it can stand on a page with another of its kind."""
    ids = re.findall(r'\bid="([^"]+)"', svg)
    for found in ids:
        svg = re.sub(rf'(?<=["# (]){re.escape(found)}(?=["\s)])', f"{name}-{found}", svg)
    return svg


class DrawingExtension(BlocksExtension):
    """Registers the block."""

    def extendMarkdownBlocks(self, md: Markdown, block_mgr: BlocksProcessor) -> None:
        """Register the block."""
        block_mgr.register(DrawingBlock, self.getConfigs())


def makeExtension(**settings: Any) -> DrawingExtension:
    """The extension, as Python-Markdown asks for it."""
    return DrawingExtension(**settings)
