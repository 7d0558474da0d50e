"""The Markdown block that places the class's results on a page: ``/// class-results``."""

from __future__ import annotations

import xml.etree.ElementTree as etree
from typing import Any

from markdown import Markdown
from markdown.util import AtomicString
from pymdownx.blocks import BlocksExtension, BlocksProcessor
from pymdownx.blocks.block import Block

from build_tools.calculator_block import templates


class ClassResultsBlock(Block):
    """Where a class's record sheets are dropped and put together. It has no options."""

    NAME = "class-results"

    def on_create(self, parent: etree.Element) -> etree.Element:
        """Make the element that ``class.js`` brings to life."""
        return etree.SubElement(parent, "class-results")

    def on_end(self, block: etree.Element) -> None:
        """Fill it in."""
        block.text = AtomicString(self.md.htmlStash.store(templates.get_template("class.html").render()))


class ClassResultsExtension(BlocksExtension):
    """Registers the block."""

    def extendMarkdownBlocks(self, md: Markdown, block_mgr: BlocksProcessor) -> None:
        """Register the block."""
        block_mgr.register(ClassResultsBlock, self.getConfigs())


def makeExtension(**settings: Any) -> ClassResultsExtension:
    """The extension, as Python-Markdown asks for it."""
    return ClassResultsExtension(**settings)
