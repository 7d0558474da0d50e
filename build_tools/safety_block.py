"""The block of cautions: ``/// safety | lever`` on a machine's page, ``/// safety | general`` on the safety page.

All words stand in ``shared/pages/safety.toml``. With ``own: true`` a machine's block leaves out the rules that it
shares with others and the closing words, for a page that has said them already.
"""

from __future__ import annotations

from typing import Any

from pymdownx.blocks.block import type_boolean

from build_tools.lookup_block import LookupBlock, LookupExtension, data, rendered


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
        shared = {rule["name"]: rule["text"] for rule in said["rule"]}
        if self.argument == "general":
            licensed, rules, first = list(said["licensed"].values()), list(shared.values()), said["general"]["standing"]
        else:
            machine = machines()[self.argument]
            first = machine["first"]
            own = self.options["own"]
            rules = [*machine.get("rules", ()), *(shared[name] for name in ([] if own else machine["with"]))]
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


def machines() -> dict[str, dict[str, Any]]:
    """What the data file says of each machine, by the name of its page."""
    return {machine["key"]: machine for machine in data("safety")["machine"]}


def makeExtension(**settings: Any) -> LookupExtension:
    """The extension, as Python-Markdown asks for it."""
    return LookupExtension(SafetyBlock, **settings)
