"""The block of claims that are often printed wrong: ``/// printed-wrong | lever``.

The claims stand in ``shared/pages/printed_wrong.toml``; each leads to a sheet with numbers filled in.
"""

from __future__ import annotations

from typing import Any

from build_tools.lookup_block import ROOT, LookupBlock, LookupExtension, data, rendered
from build_tools.stated_numbers import sheet_places
from calc import describe, example
from calc.link import write


class PrintedWrongBlock(LookupBlock):
    """The claims of one part of the page: what is printed, what is right, and where to try it."""

    NAME = "printed-wrong"

    def known(self) -> tuple[str, ...]:
        """The parts that the claims name."""
        return tuple(dict.fromkeys(claim["on"] for claim in claims()))

    def html(self) -> str:
        """The claims of this part."""
        return rendered(
            "printed-wrong.html", claims=[_shown(claim) for claim in claims() if claim["on"] == self.argument]
        )


def claims() -> list[dict[str, Any]]:
    """All claims, as the data file has them."""
    return list(data("printed_wrong")["claim"])


def fragment(claim: dict[str, Any]) -> str:
    """The part of the link after '#': the claim's sheet with its numbers."""
    key = claim["calculator"]
    choices = {**example(key)["choices"], **claim.get("choices", {})}
    request = {"calculator": key, "units": "us", "given": claim["given"], "choices": choices}
    return write(request, levels=(claim["level"],) if "level" in claim else ())


def _shown(claim: dict[str, Any]) -> dict[str, str]:
    page, number = sheet_places(ROOT / "docs")[claim["calculator"]]
    return {
        **{part: claim[part] for part in ("number", "printed", "right")},
        "href": f"{page.removesuffix('.md')}.html#{fragment(claim)}",
        "sheet": f"sheet {number}, {describe(claim['calculator'])['title']}",
    }


def makeExtension(**settings: Any) -> LookupExtension:
    """The extension, as Python-Markdown asks for it."""
    return LookupExtension(PrintedWrongBlock, **settings)
