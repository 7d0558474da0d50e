"""The block of licences: ``/// licences | engine``, ``/// licences | look`` or ``/// licences | pages``.

The pieces come from ``shared/pages/licences.toml`` and the lock files, by way of ``build_tools/shipped.py``.
"""

from __future__ import annotations

from typing import Any

from build_tools.lookup_block import LookupBlock, LookupExtension, rendered
from build_tools.shipped import pieces

CAPTIONS = {"engine": "In the calculators’ engine", "look": "In the look and the search", "pages": "In the pages"}


class LicencesBlock(LookupBlock):
    """One part of what others wrote: a row for each piece, with a link to its licence's text."""

    NAME = "licences"
    CLASS = "lookup"

    def known(self) -> tuple[str, ...]:
        """The parts of the site."""
        return tuple(CAPTIONS)

    def html(self) -> str:
        """The pieces of this part."""
        mine = [piece for piece in pieces() if piece.part == self.argument]
        return rendered("licences.html", part=self.argument, caption=CAPTIONS[self.argument], pieces=mine)


def makeExtension(**settings: Any) -> LookupExtension:
    """The extension, as Python-Markdown asks for it."""
    return LookupExtension(LicencesBlock, **settings)
