"""The Markdown block that places a calculator on a page: ``/// calculator | lever``.

It knows no physics. What a calculator asks and answers comes from ``calc``; how a sheet looks stands in the template
``sheet.html``. The block works in any Python-Markdown, with or without the site's theme.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as etree
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import jinja2
from markdown import Markdown
from markdown.treeprocessors import Treeprocessor
from markdown.util import AtomicString
from pymdownx.blocks import BlocksExtension, BlocksProcessor
from pymdownx.blocks.block import Block, type_string_in

import calc

HEADING_PLACE = "<!-- heading -->"
LEVEL_NAMES = {2: "I measured the effort", 3: "Why not quite"}

# A row that the example does not reach has a box, but no answer yet.
EMPTY_ROW = {"state": "empty", "text": "", "shown": "", "unit": "", "mark": "", "note": "", "error": None}

templates = jinja2.Environment(
    loader=jinja2.FileSystemLoader(Path(__file__).parent / "templates"),
    autoescape=True,
    trim_blocks=True,
    lstrip_blocks=True,
    undefined=jinja2.StrictUndefined,
)


class CalculatorBlockError(ValueError):
    """A calculator block asks for something that does not exist; the words say what would be right."""


def type_sheet_number(value: Any) -> str:
    """A sheet number: chapter, point, place in the chapter, like 1.1."""
    text = str(value)
    if not re.fullmatch(r"\d+\.\d+", text):
        raise ValueError(f"{text!r} is not a sheet number like 1.1")
    return text


def type_levels(value: Any) -> tuple[int, ...]:
    """The levels that stand open when the page opens: ``2``, ``3`` or ``2 3``. Level 1 always does."""
    levels = tuple(int(word) for word in str(value).split())
    if not set(levels) <= {1, *LEVEL_NAMES}:
        raise ValueError(f"{value!r} is not made of the levels 1, 2 and 3")
    return levels


def type_given(value: Any) -> dict[str, str]:
    """What stands in some of the boxes in place of the example: symbol to text."""
    if not isinstance(value, dict):
        raise ValueError("'given' holds lines like R: 40 lbf")
    return {str(symbol): str(text) for symbol, text in value.items()}


class CalculatorBlock(Block):
    """One sheet of the handbook: form, drawing, answer and working of a calculator, worked for its example.

    The argument is the calculator's key. Options: ``units`` (us or si), ``sheet`` (its number in the handbook),
    ``levels`` (those that stand open), ``given`` (other numbers than the example's). A key stands once on a page,
    because its boxes are named after it.
    """

    NAME = "calculator"
    ARGUMENT = True
    OPTIONS = {
        "units": ("us", type_string_in(("us", "si"))),
        "sheet": ("", type_sheet_number),
        "levels": ((), type_levels),
        "given": ({}, type_given),
    }

    def on_validate(self, parent: etree.Element) -> bool:
        """Refuse a key that is no calculator, stands twice, or has no such box: these stop the build."""
        key, known = self.argument, calc.keys()
        if key not in known:
            raise CalculatorBlockError(f"There is no calculator {key!r}. There are: {', '.join(sorted(known))}.")
        if key in self.tracker:
            raise CalculatorBlockError(f"The calculator {key!r} stands twice on one page.")
        symbols = box_symbols(calc.describe(key))
        for symbol in self.options["given"]:
            if symbol not in symbols:
                raise CalculatorBlockError(f"{key!r} has no box {symbol!r}. It has: {', '.join(symbols)}.")
        self.under = bool(self.tracker) or parent.find("h2") is not None
        self.tracker[key] = True
        return True

    def on_create(self, parent: etree.Element) -> etree.Element:
        """Make the element that ``sheet.js`` brings to life; the sheet is filled in at the end."""
        return etree.SubElement(parent, "calculator-sheet", {"key": self.argument})

    def on_end(self, block: etree.Element) -> None:
        """Fill in the sheet. Its heading is a real element, so that tables of contents find it.

        A machine's page opens with its sheet. The others stand under a heading of the page's own.
        """
        number = self.options["sheet"]
        rank = 3 if self.under else 2
        before, after = sheet_html(
            self.argument, self.options["units"], self.options["levels"], self.options["given"], rank + 1
        ).split(HEADING_PLACE)
        title = calc.describe(self.argument)["title"]
        block.text = AtomicString(self.md.htmlStash.store(before))
        heading = etree.SubElement(block, f"h{rank}", {"id": f"{self.argument}-title", "data-toc-label": title})
        if number:
            etree.SubElement(heading, "span", {"class": "sheet-no"}).text = f"Sheet {number}"
            heading[0].tail = AtomicString(f" {title}")
        else:
            heading.text = AtomicString(title)
        heading.tail = AtomicString(self.md.htmlStash.store(after))


def box_symbols(described: Mapping[str, Any]) -> list[str]:
    """The symbols of all boxes of a calculator, those in rows written out."""
    rows = [
        f"{quantity['symbol']}_{row}"
        for group in described["rows"]
        for row in range(1, group["high"] + 1)
        for quantity in group["quantities"]
    ]
    return [quantity["symbol"] for quantity in described["quantities"]] + rows


def sheet_html(
    key: str, units: str, levels: tuple[int, ...] = (), given: Mapping[str, str] | None = None, rank: int = 3
) -> str:
    """The sheet of calculator ``key`` as HTML, answered for its example with ``given`` laid over it.

    ``rank`` is that of the headings inside, one below the sheet's own. Only a sheet that opens its page brings its
    narrow drawings along; those of the others are drawn when somebody needs them.
    """
    described = calc.describe(key)
    request = calc.example(key, units)
    request = {**request, "given": {**request["given"], **(given or {})}, "draw": "both" if rank == 3 else "wide"}
    answer = calc.answer(request)
    deep = [
        {"number": number, "name": name, "open": number in levels}
        for number, name in LEVEL_NAMES.items()
        if any(part["level"] == number for part in (*described["quantities"], *described["choices"]))
    ]
    for group in described["rows"]:
        _fit_rows(group, answer["fields"])
    return templates.get_template("sheet.html").render(
        key=key,
        units=units,
        form=described,
        answer=answer,
        levels=deep,
        examples={system: calc.example(key, system)["given"] for system in ("us", "si")},
        nothing=EMPTY_ROW,
        heading=HEADING_PLACE,
        rank=rank,
    )


def _fit_rows(group: dict[str, Any], fields: Mapping[str, Mapping[str, Any]]) -> None:
    """Add to a group of rows what its grid needs: legend, columns that this case has, rows in use."""
    for quantity in group["quantities"]:
        quantity["unused"] = fields[f"{quantity['symbol']}_1"]["state"] == "unused"
    symbols = [quantity["symbol"] for quantity in group["quantities"] if not quantity["unused"]]
    group["columns"] = len(symbols)
    in_use = [
        row
        for row in range(1, group["high"] + 1)
        for field in (fields.get(f"{symbol}_{row}", EMPTY_ROW) for symbol in symbols)
        if field["text"] or field["shown"]
    ]
    group["filled"] = max(in_use, default=0)
    single = len(group["quantities"]) == 1
    named = group["quantities"][0]["label"] if single else group["name"].capitalize()
    group["legend"] = f"{named}: one {'box' if single else 'line'} for each {group['label'].lower()}"


class LeftoverBlocks(Treeprocessor):
    """Stops the build at a calculator block that could not be read, where Blocks would print it as text."""

    def run(self, root: etree.Element) -> None:
        """Look for the block's first line among the paragraphs."""
        for paragraph in root.iter("p"):
            text = (paragraph.text or "").strip()
            if re.match(r"/{3,}\s*calculator\b", text):
                raise CalculatorBlockError(
                    f"This block could not be read: {' / '.join(text.splitlines())!r}. It needs a key after '|'; its "
                    "options, indented by four spaces, are units (us or si), sheet (like 1.1), levels (like 2 3) and "
                    "given (symbol: text)."
                )


class CalculatorExtension(BlocksExtension):
    """Registers the block and its check."""

    def extendMarkdownBlocks(self, md: Markdown, block_mgr: BlocksProcessor) -> None:
        """Register the block, and the check just after blocks are parsed, before inline text is."""
        block_mgr.register(CalculatorBlock, self.getConfigs())
        md.treeprocessors.register(LeftoverBlocks(md), "leftover-calculators", 100)


def makeExtension(**settings: Any) -> CalculatorExtension:
    """The extension, as Python-Markdown asks for it."""
    return CalculatorExtension(**settings)
