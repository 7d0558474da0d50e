"""The Markdown block that places the planner of demonstrations on a page: ``/// planner``.

It starts with the garden's kit (``shared/kits/garden.toml``) and a plan made from it, which is all that a page without
scripts shows. Its cautions are those of the safety notes; ``planner.js`` puts them on a card.
"""

from __future__ import annotations

import xml.etree.ElementTree as etree
from functools import cache
from pathlib import Path
from typing import Any

from markdown import Markdown
from markdown.util import AtomicString
from pymdownx.blocks import BlocksExtension, BlocksProcessor
from pymdownx.blocks.block import Block

import calc
from build_tools.calculator_block import templates
from build_tools.lookup_block import data
from build_tools.safety_block import machines, shared_rules, with_facts
from calc.registry import CALCULATORS

KIT = Path(__file__).resolve().parents[1] / "shared/kits/garden.toml"
EXAMPLE = {"R": "60 lbf", "h": "24 in"}
NAME = "Rain barrel, part full"
LEADS = (
    "cart-ramp",
    "chain",
    "level-drag",
    "loaded-bar",
    "ramp",
    "screw-with-friction",
    "tackle",
    "wedge-with-friction",
    "windlass",
)
FLOOR = "level-drag"
MACHINES = ("lever", "wheel-and-axle", "pulley", "inclined-plane", "wedge", "screw")


class PlannerBlock(Block):
    """The planner. It has no options."""

    NAME = "planner"

    def on_create(self, parent: etree.Element) -> etree.Element:
        """Make the element that ``planner.js`` brings to life."""
        return etree.SubElement(parent, "demonstration-planner")

    def on_end(self, block: etree.Element) -> None:
        """Fill it in."""
        block.text = AtomicString(self.md.htmlStash.store(planner_html()))


@cache
def planner_html() -> str:
    """The planner as HTML, with the garden's kit and a plan made from it."""
    kit = calc.answer({"kit_file": KIT.read_text("utf-8")})
    if kit["problems"]:
        raise ValueError(f"{KIT.name} cannot be used: {kit['problems']}")
    answer = calc.answer({"plan": EXAMPLE, "kit": kit["kit"], "units": kit["units"], "name": NAME})
    return templates.get_template("planner.html").render(
        form=calc.describe_plan(),
        kit=kit,
        example=EXAMPLE,
        name=NAME,
        answer=answer,
        cautions={**{key: _cautions(key) for key in MACHINES}, FLOOR: _floor_cautions()},
        general=data("safety")["general"],
        leads=LEADS,
    )


def _cautions(key: str) -> list[str]:
    """The cautions of a machine for a card: its own, and those about scale and eyes."""
    machine, shared = machines()[key], shared_rules()
    return [with_facts(machine["first"]), *map(with_facts, machine.get("rules", ())), shared["scale"], shared["eyes"]]


def _floor_cautions() -> list[str]:
    """The cautions of a move on the level: those of its calculator, and those about scale and eyes."""
    shared = shared_rules()
    return [*CALCULATORS[FLOOR].cautions, shared["scale"], shared["eyes"]]


class PlannerExtension(BlocksExtension):
    """Registers the block."""

    def extendMarkdownBlocks(self, md: Markdown, block_mgr: BlocksProcessor) -> None:
        """Register the block."""
        block_mgr.register(PlannerBlock, self.getConfigs())


def makeExtension(**settings: Any) -> PlannerExtension:
    """The extension, as Python-Markdown asks for it."""
    return PlannerExtension(**settings)
