"""The Markdown block that places a lab's plan on a page: ``/// lab | ramp-lab``. The record sheet has its own block."""

from __future__ import annotations

import xml.etree.ElementTree as etree
from collections.abc import Mapping
from typing import Any

from markdown import Markdown
from markdown.util import AtomicString
from pymdownx.blocks import BlocksExtension, BlocksProcessor
from pymdownx.blocks.block import Block

import calc
from build_tools import lab_plan
from build_tools.calculator_block import templates
from build_tools.drawing_block import figure_html
from build_tools.lookup_block import data
from build_tools.safety_block import machines, shared_rules, with_facts


class LabBlock(Block):
    """One lab plan. The argument is the lab's key."""

    NAME = "lab"
    ARGUMENT = True

    def on_create(self, parent: etree.Element) -> etree.Element:
        """Make the element that ``plan.js`` brings to life."""
        return etree.SubElement(parent, "lab-plan", {"key": self.argument})

    def on_end(self, block: etree.Element) -> None:
        """Fill in the plan."""
        block.text = AtomicString(self.md.htmlStash.store(plan_html(self.argument)))


def plan_html(key: str) -> str:
    """The plan of a lab as HTML. Raises LabPlanError for an unknown lab or a reading that no calculator knows."""
    plan = lab_plan.plan(key)
    common = lab_plan.everything()
    machine = calc.describe_record(key)["calculator"]
    return templates.get_template("lab.html").render(
        key=key,
        plan=plan,
        common=common["class"],
        roles=common["roles"],
        scales=common["scales"],
        cautions=cautions(plan["safety"]),
        general=data("safety")["general"],
        expected=lab_plan.expected(key),
        figure=figure_html(machine, given=plan["draw"], name=key),
    )


def cautions(wanted: Mapping[str, Any]) -> list[str]:
    """The cautions of one lab: the machine's first, those of its own and the shared ones that the plan asks for."""
    machine = machines()[wanted["machine"]]
    own = [machine["rules"][at] for at in wanted["own"]]
    return [with_facts(text) for text in (machine["first"], *own)] + [shared_rules()[it] for it in wanted["shared"]]


class LabExtension(BlocksExtension):
    """Registers the block."""

    def extendMarkdownBlocks(self, md: Markdown, block_mgr: BlocksProcessor) -> None:
        """Register the block."""
        block_mgr.register(LabBlock, self.getConfigs())


def makeExtension(**settings: Any) -> LabExtension:
    """The extension, as Python-Markdown asks for it."""
    return LabExtension(**settings)
