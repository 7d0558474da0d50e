"""The block of cautions: ``/// safety | lever`` on a machine's page, ``/// safety | general`` on the safety page.

All words stand in ``shared/pages/safety.toml``, their numbers in ``shared/facts.toml``. With ``own: true`` a machine's
block leaves out the rules that it shares with others and the closing words, for a page that has said them already.
"""

from __future__ import annotations

import re
from typing import Any

from pymdownx.blocks.block import type_boolean

from build_tools.lookup_block import LookupBlock, LookupExtension, data, rendered
from build_tools.stated_numbers import facts


class SafetyBlock(LookupBlock):
    """The cautions of one machine, or the general ones."""

    NAME = "safety"
    CLASS = "caution"
    OPTIONS = {"own": (False, type_boolean)}

    def known(self) -> tuple[str, ...]:
        """Every machine of the data file, and ``general``."""
        return ("general", *machines())

    def html(self) -> str:
        """The cautions as a list, with who decides and how well they are known."""
        said = data("safety")
        shared = shared_rules()
        if self.argument == "general":
            licensed, rules, first = list(said["licensed"].values()), list(shared.values()), said["general"]["standing"]
        else:
            machine = machines()[self.argument]
            first = with_facts(machine["first"])
            own = self.options["own"]
            rules = [
                *map(with_facts, machine.get("rules", ())),
                *(shared[name] for name in ([] if own else machine["with"])),
            ]
            licensed = [said["licensed"][name] for name in machine.get("licensed", ())]
        return rendered(
            "safety.html",
            first=first,
            rules=rules,
            licensed=licensed,
            general=said["general"],
            closing=not self.options["own"],
            elsewhere=self.argument != "general" and not self.options["own"],
        )


def shared_rules() -> dict[str, str]:
    """The rules that more than one machine has, by name."""
    return {rule["name"]: with_facts(rule["text"]) for rule in data("safety")["rule"]}


def with_facts(text: str) -> str:
    """The text with each ``[=fact NAME]`` as ``shared/facts.toml`` has it. Raises KeyError for one that it has not."""
    return re.sub(r"\[=fact ([a-z-]+)\]", lambda mark: str(facts()[mark[1]]["text"]), text)


def machines() -> dict[str, dict[str, Any]]:
    """What the data file says of each machine, by the name of its page."""
    return {machine["key"]: machine for machine in data("safety")["machine"]}


def makeExtension(**settings: Any) -> LookupExtension:
    """The extension, as Python-Markdown asks for it."""
    return LookupExtension(SafetyBlock, **settings)
