"""The block of formulas: ``/// formulas | lever``, chosen relations of the calculators with their words and letters.

``shared/pages/formulas.toml`` says which ones, by calculator and symbol. The formulas are those that the calculators
compute with. A letter is explained where the page first uses it, and again only where it means something else.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import calc
from build_tools.lookup_block import LookupBlock, LookupBlockError, LookupExtension, data, rendered


class FormulasBlock(LookupBlock):
    """The formulas of one machine."""

    NAME = "formulas"

    def known(self) -> tuple[str, ...]:
        """The machines of the data file."""
        return tuple(data("formulas"))

    def html(self) -> str:
        """Each formula with its words, then the letters that are new."""
        lines = [relation(line) for line in data("formulas")[self.argument]["lines"]]
        explained = self.tracker.setdefault("explained", {})
        new = []
        for symbol in (symbol for line in lines for symbol in line["symbols"]):
            says_itself = symbol["symbol"].partition("_")[0] in symbol["label"].lower().split()  # turns, ratio
            if not says_itself and explained.get(symbol["symbol"]) != symbol["label"]:
                explained[symbol["symbol"]] = symbol["label"]
                new.append(symbol)
        return rendered("formulas.html", lines=lines, letters=new)


def relation(line: Mapping[str, Any]) -> dict[str, Any]:
    """The first relation of this calculator, in this case, that yields this symbol."""
    key, symbol = line["calculator"], line["symbol"]
    for found in calc.relations(key, line.get("choices"), line.get("view", "expected")):
        if found["yields"] == symbol:
            return found
    raise LookupBlockError(f"{key} has no relation for {symbol!r} in the case {dict(line)}.")


def makeExtension(**settings: Any) -> LookupExtension:
    """The extension, as Python-Markdown asks for it."""
    return LookupExtension(FormulasBlock, **settings)
