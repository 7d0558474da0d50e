"""The Markdown block that places a lab's record sheet on a page: ``/// record | ramp-lab``.

The sheet shows invented readings until somebody types; without scripts it is a worked sample, and prints blank.
"""

from __future__ import annotations

import xml.etree.ElementTree as etree
from typing import Any

from markdown import Markdown
from markdown.util import AtomicString
from pymdownx.blocks import BlocksExtension, BlocksProcessor
from pymdownx.blocks.block import Block, type_string_in

import calc
from build_tools.calculator_block import CalculatorBlockError, templates

ROWS = 8
"""How many rows a sheet begins with; more appear as they are filled."""


class RecordBlock(Block):
    """One record sheet. The argument is the lab's key; ``units`` (us or si) those of the invented readings."""

    NAME = "record"
    ARGUMENT = True
    OPTIONS = {"units": ("us", type_string_in(("us", "si")))}

    def on_create(self, parent: etree.Element) -> etree.Element:
        """Make the element that ``record.js`` brings to life."""
        return etree.SubElement(parent, "record-sheet", {"key": self.argument})

    def on_end(self, block: etree.Element) -> None:
        """Fill in the sheet."""
        block.text = AtomicString(self.md.htmlStash.store(record_html(self.argument, self.options["units"])))


def record_html(key: str, units: str) -> str:
    """The record sheet of a lab as HTML, with its sample's result. Raises CalculatorBlockError for an unknown lab."""
    known = calc.labs()
    if key not in known:
        raise CalculatorBlockError(f"There is no lab {key!r}. There are: {', '.join(known)}.")
    samples = {system: calc.sample_record(key, system) for system in ("us", "si")}
    answer = calc.answer({**samples[units], "draw": "both"})
    return templates.get_template("record.html").render(
        key=key,
        units=units,
        form=calc.describe_record(key, units),
        sample=samples[units],
        samples=samples,
        answer=answer,
        rows=max(ROWS, len(samples[units]["rows"])),
    )


class RecordExtension(BlocksExtension):
    """Registers the block."""

    def extendMarkdownBlocks(self, md: Markdown, block_mgr: BlocksProcessor) -> None:
        """Register the block."""
        block_mgr.register(RecordBlock, self.getConfigs())


def makeExtension(**settings: Any) -> RecordExtension:
    """The extension, as Python-Markdown asks for it."""
    return RecordExtension(**settings)
