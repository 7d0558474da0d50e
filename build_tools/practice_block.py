"""The Markdown blocks about practice: ``/// practice`` for a student, ``/// practice-sets`` for the teacher,
and ``/// prompts | lever`` for a machine's questions to answer in writing.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as etree
from typing import Any

from markdown import Markdown
from markdown.util import AtomicString
from pymdownx.blocks import BlocksExtension, BlocksProcessor
from pymdownx.blocks.block import Block

import calc
from build_tools.calculator_block import CalculatorBlockError, templates


class PracticeBlock(Block):
    """Where a student works through a set. It has no options."""

    NAME = "practice"
    TEMPLATE = "practice.html"
    ELEMENT = "practice-set"

    def on_create(self, parent: etree.Element) -> etree.Element:
        """Make the element that its script brings to life."""
        return etree.SubElement(parent, self.ELEMENT)

    def on_end(self, block: etree.Element) -> None:
        """Fill it in."""
        html = templates.get_template(self.TEMPLATE).render(machines=calc.practice_machines(), problems=_problems())
        block.text = AtomicString(self.md.htmlStash.store(html))


class PracticeSetsBlock(PracticeBlock):
    """Where a teacher makes a set, its link, its sheets and its key. It has no options."""

    NAME = "practice-sets"
    TEMPLATE = "practice-sets.html"
    ELEMENT = "practice-sets"


class PromptsBlock(Block):
    """The written-answer prompts of a machine, which the argument names."""

    NAME = "prompts"
    ARGUMENT = True

    def on_create(self, parent: etree.Element) -> etree.Element:
        """Make the list."""
        return etree.SubElement(parent, "ol", {"class": "prompts"})

    def on_end(self, block: etree.Element) -> None:
        """Fill it in. Raises CalculatorBlockError for an unknown machine."""
        machines = calc.practice_machines()
        if self.argument not in machines:
            raise CalculatorBlockError(f"No prompts for {self.argument!r}. There are: {', '.join(machines)}.")
        for text in calc.prompts(self.argument):
            etree.SubElement(block, "li").text = AtomicString(text)


def _problems() -> dict[str, list[tuple[str, int, str]]]:
    """For each machine its families: id, level, and the text with dots for the numbers."""
    return {
        machine: [(id_, level, re.sub(r"\{\w+\}", "…", text)) for id_, level, text in calc.practice_families(machine)]
        for machine in calc.practice_machines()
    }


class PracticeExtension(BlocksExtension):
    """Registers the blocks."""

    def extendMarkdownBlocks(self, md: Markdown, block_mgr: BlocksProcessor) -> None:
        """Register the blocks."""
        for block in (PracticeBlock, PracticeSetsBlock, PromptsBlock):
            block_mgr.register(block, self.getConfigs())


def makeExtension(**settings: Any) -> PracticeExtension:
    """The extension, as Python-Markdown asks for it."""
    return PracticeExtension(**settings)
