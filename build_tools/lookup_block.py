"""What the blocks of the look-up pages have in common: one argument, a data file, a template.

``/// glossary | english`` becomes the HTML of the template, made from a file in ``shared/``. Such a block knows no
physics; numbers and formulas reach it from data or through ``calc``.
"""

from __future__ import annotations

import re
import tomllib
import xml.etree.ElementTree as etree
from abc import abstractmethod
from functools import cache
from pathlib import Path
from typing import Any

import jinja2
from markdown import Markdown
from markdown.treeprocessors import Treeprocessor
from markdown.util import AtomicString
from pymdownx.blocks import BlocksExtension, BlocksProcessor
from pymdownx.blocks.block import Block

ROOT = Path(__file__).resolve().parent.parent

_templates = jinja2.Environment(
    loader=jinja2.FileSystemLoader(Path(__file__).parent / "templates"),
    autoescape=True,
    trim_blocks=True,
    lstrip_blocks=True,
    undefined=jinja2.StrictUndefined,
)


class LookupBlockError(ValueError):
    """A block asks for something that its data does not have; the words say what would be right."""


@cache
def data(name: str) -> dict[str, Any]:
    """The data file of a page: ``shared/pages/name.toml``."""
    return tomllib.loads((ROOT / "shared" / "pages" / f"{name}.toml").read_text("utf-8"))


def rendered(template: str, **values: Any) -> str:
    """The HTML of a template in ``build_tools/templates``."""
    return _templates.get_template(template).render(**values)


class LookupBlock(Block):
    """A block made from data. A kind of it names itself and its CSS class, its arguments, and makes its HTML."""

    ARGUMENT = True
    CLASS = ""

    @abstractmethod
    def known(self) -> tuple[str, ...]:
        """What may stand after '|'."""

    @abstractmethod
    def html(self) -> str:
        """What the block shows for its argument."""

    def on_validate(self, parent: etree.Element) -> bool:
        """Refuse what the data does not have: this stops the build."""
        if self.argument not in self.known():
            there = ", ".join(self.known())
            raise LookupBlockError(f"{self.NAME} has no {self.argument!r}. There are: {there}.")
        return True

    def on_create(self, parent: etree.Element) -> etree.Element:
        """Make the element around it."""
        return etree.SubElement(parent, "div", {"class": self.CLASS or self.NAME})

    def on_end(self, block: etree.Element) -> None:
        """Fill it in."""
        block.text = AtomicString(self.md.htmlStash.store(self.html()))


class _Leftover(Treeprocessor):
    """Stops the build at a block that could not be read, where Blocks would print it as text."""

    name = ""

    def run(self, root: etree.Element) -> None:
        for paragraph in root.iter("p"):
            text = (paragraph.text or "").strip()
            if re.match(rf"/{{3,}}\s*{self.name}\b", text):
                raise LookupBlockError(f"This block could not be read: {' / '.join(text.splitlines())!r}.")


class LookupExtension(BlocksExtension):
    """Registers one kind of block, and the check that every block of it was read."""

    def __init__(self, block: type[LookupBlock], **settings: Any) -> None:
        self.block = block
        super().__init__(**settings)

    def extendMarkdownBlocks(self, md: Markdown, block_mgr: BlocksProcessor) -> None:
        """Register the block, and the check just after blocks are parsed, before inline text is."""
        block_mgr.register(self.block, self.getConfigs())
        leftover = _Leftover(md)
        leftover.name = self.block.NAME
        md.treeprocessors.register(leftover, f"leftover-{self.block.NAME}", 100)
