"""Where each calculator stands: its page, the page's title and the sheet's number, read from the Markdown."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

_BLOCK = re.compile(r"^/// calculator \| (\S+)\n(?: +sheet: (\S+)\n)?", re.M)


@dataclass(frozen=True)
class Place:
    """A calculator's page (``lever.html``), that page's title, and the sheet's number (``1.1``, or nothing)."""

    page: str
    title: str
    sheet: str


@cache
def places(docs: Path) -> dict[str, Place]:
    """Every calculator that stands on a page of this folder, by its key."""
    found = {}
    for file in sorted(docs.glob("*.md")):
        text = file.read_text("utf-8")
        for block in _BLOCK.finditer(text):
            found[block[1]] = Place(f"{file.stem}.html", title_of(text), block[2] or "")
    return found


def title_of(text: str) -> str:
    """The first heading of a page."""
    heading = re.search(r"^# (.+)$", text, re.M)
    return heading[1] if heading else ""
