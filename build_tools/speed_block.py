"""The block of speed figures: ``/// speed | figures``, the table that ``bench --keep`` last kept."""

from __future__ import annotations

import json
from typing import Any

from build_tools.bench.figures import Bar, Figure, words
from build_tools.lookup_block import ROOT, LookupBlock, LookupExtension, rendered

KEPT = "shared/pages/speed.json"


class SpeedBlock(LookupBlock):
    """The figures, each with its bar, and how they were measured."""

    NAME = "speed"
    CLASS = "lookup"

    def known(self) -> tuple[str, ...]:
        """The one table."""
        return ("figures",)

    def html(self) -> str:
        """The table, and the remarks that a reader of it needs."""
        kept = json.loads((ROOT / KEPT).read_text("utf-8"))
        rows = [words(_figure(row)) for row in kept["figures"]]
        return rendered("speed.html", day=kept["day"], remarks=kept["remarks"], rows=rows)


def _figure(row: dict[str, Any]) -> Figure:
    bar = None if row["bar"] is None else Bar(row["bar"]["limit"], row["bar"]["of"])
    return Figure(row["figure"], row["unit"], row["ours"], row["baseline"], bar)


def makeExtension(**settings: Any) -> LookupExtension:
    """The extension, as Python-Markdown asks for it."""
    return LookupExtension(SpeedBlock, **settings)
