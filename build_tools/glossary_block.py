"""The block of the glossary: ``/// glossary | english``, the terms; ``/// glossary | spanish``, an index of them.

The terms stand in ``shared/pages/glossary.toml``. Each has an anchor (``g-lever``) for links from other pages.
"""

from __future__ import annotations

import re
import unicodedata
from typing import Any

from build_tools.lookup_block import ROOT, LookupBlock, LookupExtension, data, rendered


class GlossaryBlock(LookupBlock):
    """All terms in English order, or the list by Spanish words."""

    NAME = "glossary"

    def known(self) -> tuple[str, ...]:
        """The two orders."""
        return ("english", "spanish")

    def html(self) -> str:
        """The terms with their meanings, or the Spanish words with links to the terms."""
        found = [_shown(term) for term in terms()]
        order = "spanish" if self.argument == "spanish" else "term"
        return rendered(
            f"glossary-{self.argument}.html", terms=sorted(found, key=lambda term: _plain_letters(term[order]))
        )


def terms() -> list[dict[str, str]]:
    """All terms, as the data file has them."""
    return list(data("glossary")["term"])


def anchor(term: str) -> str:
    """The id of a term: g- and its words up to a bracket or a comma."""
    words = re.split(r"[(,]", term)[0]
    return "g-" + "-".join(words.lower().split())


def _shown(term: dict[str, str]) -> dict[str, str]:
    page = term["page"]
    return {**term, "anchor": anchor(term["term"]), "title": _title(page) if page else ""}


def _title(page: str) -> str:
    """The first heading of a page."""
    heading = re.search(r"^# (.+)$", (ROOT / "docs" / f"{page}.md").read_text("utf-8"), re.M)
    return heading[1] if heading else page


def _plain_letters(word: str) -> str:
    """The word for sorting: accents left out, so that ángulo stands under a."""
    parts = unicodedata.normalize("NFD", word.lower())
    return "".join(letter for letter in parts if not unicodedata.combining(letter))


def makeExtension(**settings: Any) -> LookupExtension:
    """The extension, as Python-Markdown asks for it."""
    return LookupExtension(GlossaryBlock, **settings)
