"""The Markdown block that shows a part of the checks: ``/// checks | lever``.

Its argument is a machine of the published examples (``lever``, ``wheel-and-axle``, …) or one of ``counts``, ``left``,
``tables``, ``disagreements`` and ``not-reproducing``. Every number on it is worked out while the page
is built, by the calculators themselves. A row outside its printed rounding stops the build.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as etree
from collections import Counter
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import jinja2
from markdown import Markdown
from markdown.util import AtomicString
from pymdownx.blocks import BlocksExtension, BlocksProcessor
from pymdownx.blocks.block import Block

import calc
from build_tools.checks import examples, tables
from build_tools.checks.examples import Answered, CheckFailedError, Example
from build_tools.stated_numbers import sheet_places

DOCS = Path(__file__).parents[2] / "docs"
MACHINES: Mapping[str, str] = {
    "lever": "Lever",
    "wheel-and-axle": "Wheel and axle",
    "pulley": "Pulley",
    "inclined-plane": "Inclined plane",
    "wedge": "Wedge",
    "screw": "Screw",
    "compound": "Compound machine",
    "general": "Forces and machines in general",
}
"""The machines of the published examples, as a block's argument and as words."""

_templates = jinja2.Environment(
    loader=jinja2.FileSystemLoader(Path(__file__).parents[1] / "templates"),
    autoescape=True,
    trim_blocks=True,
    lstrip_blocks=True,
    undefined=jinja2.StrictUndefined,
)
_templates.filters["first_up"] = lambda words: words[:1].upper() + words[1:]


def machine_of(example: Example) -> str:
    """The machine of an example, as a block's argument."""
    return example.machine.replace("_", "-")


def part_html(part: str) -> str:
    """One part of the checks as HTML. Raises CheckFailedError for an unknown part and for a row that does not hold."""
    if part in MACHINES:
        return _examples(part)
    if part not in _PARTS:
        raise CheckFailedError(
            f"There is no part {part!r} of the checks. There are: {', '.join((*MACHINES, *_PARTS))}."
        )
    return _PARTS[part]()


def _render(part: str, **values: Any) -> str:
    template = _templates.get_template("checks.html")
    return str(template.render(part=part, grades=examples.GRADES, **values))


def _examples(machine: str) -> str:
    """The table of a machine: by grade of evidence, an example at a time, a line for each printed number."""
    found = [entry for entry in examples.all_answered() if machine_of(entry.example) == machine]
    examples.hold(row for entry in found for row in entry.rows)
    by_grade = {grade: [entry for entry in found if entry.example.grade == grade] for grade in examples.GRADES}
    return _render(
        "examples",
        machine=MACHINES[machine],
        by_grade={grade: entries for grade, entries in by_grade.items() if entries},
        links={entry.example.id: _links(entry) for entry in found},
        value=_with_unit,
    )


def _links(entry: Answered) -> list[tuple[str, str]]:
    """The address and the words of each sheet that answers an example, its numbers filled in."""
    places = sheet_places(DOCS)
    found, seen = [], Counter(key for key, _ in entry.sheets)
    numbered: Counter[str] = Counter()
    for key, link in entry.sheets:
        numbered[key] += 1
        page = places[key][0].removesuffix(".md")
        words = calc.describe(key)["title"] + (f" {numbered[key]}" if seen[key] > 1 else "")
        found.append((f"{page}.html#{link}", words))
    return found


def _with_unit(number: str, unit: str) -> str:
    unit = {"deg": "°", "lb": "lbf", "m/s2": "m/s²"}.get(unit, unit)
    number = re.sub(r"e(\d)$", lambda found: "×10" + "⁰¹²³⁴⁵⁶⁷⁸⁹"[int(found[1])], number).replace("-", "−")
    return f"{number}°" if unit == "°" else f"{number} {unit}".strip()


def _counts() -> str:
    entries = examples.all_answered()
    examples.hold(row for entry in entries for row in entry.rows)
    by_machine = {
        words: Counter(e.grade for e in examples.examples().values() if machine_of(e) == key)
        for key, words in MACHINES.items()
    }
    return _render(
        "counts",
        short=("Read in the source", "Options only", "From a companion"),
        by_machine=by_machine,
        total=Counter(e.grade for e in examples.examples().values()),
        numbers=sum(len(e.asks) for e in examples.examples().values()),
        rows=sum(len(entry.rows) for entry in entries),
        left=sum(len(entry.asks) for entry in examples.left()),
    )


def _left() -> str:
    return _render("left", left=examples.left(), value=_with_unit)


def _tables() -> str:
    return _render(
        "tables",
        checks=tables.checked_tables(),
        held={tables.NAMES[name]: counts for name, counts in tables.table_grades().items()},
        table_grades=tables.GRADES,
    )


def _disagreements() -> str:
    return _render("disagreements", points=examples.table("disagreements.toml")["point"])


def _not_reproducing() -> str:
    found = []
    for entry in examples.table("not_reproducing.toml")["example"]:
        reason, _, numbers = entry["reason"].partition(" | recomputed: ")
        wrong = re.findall(r"(\w+) printed (\S+), computed (\S+?)( MISMATCH)?(?:;|$)", numbers)
        names = {ask["symbol"]: (ask["name"], ask["unit"], ask["printed"]) for ask in entry["asks"]}
        rows = [(*names[symbol], computed) for symbol, _, computed, off in wrong if off]
        found.append((entry, reason, rows))
    order = list(examples.GRADES)
    found.sort(key=lambda item: order.index(item[0]["evidence"]))
    return _render("not-reproducing", entries=found, value=_with_unit)


_PARTS: Mapping[str, Callable[[], str]] = {
    "counts": _counts,
    "left": _left,
    "tables": _tables,
    "disagreements": _disagreements,
    "not-reproducing": _not_reproducing,
}


class ChecksBlock(Block):
    """One part of the checks. The argument says which."""

    NAME = "checks"
    ARGUMENT = True

    def on_create(self, parent: etree.Element) -> etree.Element:
        """Make the element that holds the part."""
        return etree.SubElement(parent, "div", {"class": "checks"})

    def on_end(self, block: etree.Element) -> None:
        """Fill in the part, finished."""
        block.text = AtomicString(self.md.htmlStash.store(part_html(self.argument)))


class ChecksExtension(BlocksExtension):
    """Registers the block."""

    def extendMarkdownBlocks(self, md: Markdown, block_mgr: BlocksProcessor) -> None:
        """Register."""
        block_mgr.register(ChecksBlock, self.getConfigs())


def makeExtension(**settings: Any) -> ChecksExtension:
    """The extension, as Python-Markdown asks for it."""
    return ChecksExtension(**settings)
