"""Numbers in a page's running text, taken from where they are true: ``[=ramp theta, h: 1 ft, L: 4 ft]``.

Four kinds stand in the text of a page:

- ``[=KEY SYMBOL, box: text, …]``: what a calculator answers, for the boxes named, or for its example if none is.
- ``[=fact NAME]``: a fact of the trade from ``shared/facts.toml``, which names its source.
- ``[=sheet KEY]``: the number of a calculator's sheet, as a link to it.
- ``[=open KEY, box: text, …, words: what the link says]``: a link that fills the sheet in: its example, with these
  boxes laid over it. ``level: 2`` opens that depth.

So no page holds a number of its own that could drift from the calculators; a test looks for those that do.
"""

from __future__ import annotations

import re
import tomllib
import xml.etree.ElementTree as etree
from functools import cache
from html import escape
from pathlib import Path
from typing import Any

from markdown import Markdown
from markdown.extensions import Extension
from markdown.inlinepatterns import InlineProcessor
from markdown.util import AtomicString

import calc
from build_tools.asking import complaints, request

ROOT = Path(__file__).resolve().parent.parent
PATTERN = r"\[=([a-z][^\]\n]*)\]"
_SHEET = re.compile(r"^/// calculator \| (?P<key>[a-z-]+)\n(?:    .*\n)*?    sheet: (?P<number>\d+\.\d+)$", re.M)


class StatedNumberError(ValueError):
    """A page states a number that no calculator and no data file knows; the words say which."""


@cache
def facts() -> dict[str, dict[str, Any]]:
    """The facts of the trade by name: ``text`` as printed, ``source``, ``grade``; ``low``, ``high`` or ``value``."""
    return tomllib.loads((ROOT / "shared/facts.toml").read_text("utf-8"))


@cache
def sheet_places(docs: Path) -> dict[str, tuple[str, str]]:
    """For each calculator that stands on a page of ``docs``: the page's file and the number of its sheet."""
    return {
        found["key"]: (page.name, found["number"])
        for page in sorted(docs.glob("*.md"))
        for found in _SHEET.finditer(page.read_text("utf-8"))
    }


def computed(key: str, symbol: str, given: dict[str, str], units: str = "us") -> str:
    """What calculator ``key`` shows for ``symbol``: for its example, or for ``given`` boxes and choices alone.

    Raises StatedNumberError for an error in a box, and where nothing follows.
    """
    answer = calc.answer(request(key, given, units, bare=bool(given)))
    if answer["errors"] or symbol not in answer["values"]:
        raise StatedNumberError(f"{key} does not say {symbol} for {given or 'its example'}: {complaints(answer)}")
    return str(answer["values"][symbol]["text"])


def filled_in(key: str, given: dict[str, str], level: str = "", units: str = "us") -> str:
    """The link fragment of calculator ``key``'s example with ``given`` laid over it; ``level`` is a depth to open.

    Raises StatedNumberError if the sheet would then show an error.
    """
    answer = calc.answer(request(key, given, units))
    if answer["errors"]:
        raise StatedNumberError(f"{key} with {given}: {complaints(answer)}")
    return str(answer["link"]).lstrip("#") + (f"&level={level}" if level else "")


class StatedNumber(InlineProcessor):
    """Puts the number in the place of its mark."""

    def handleMatch(self, m: re.Match[str], data: str) -> tuple[etree.Element | str, int, int]:  # type: ignore[override]
        """Read the mark; what it asks for becomes a span, a sheet's number a link."""
        name, *pairs = (part.strip() for part in m[1].split(", "))
        kind, _, what = name.partition(" ")
        given = {box.strip(): text.strip() for box, _, text in (pair.partition(":") for pair in pairs)}
        if kind in ("sheet", "open"):
            return self._sheet(what, given if kind == "open" else {}), m.start(0), m.end(0)
        number = etree.Element("span", {"class": "stated"})
        number.text = AtomicString(self._text(kind, what, given))
        return number, m.start(0), m.end(0)

    def _text(self, kind: str, what: str, given: dict[str, str]) -> str:
        if kind == "fact":
            if what not in facts():
                raise StatedNumberError(f"shared/facts.toml has no fact {what!r}.")
            return str(facts()[what]["text"])
        return computed(kind, what, given)

    def _sheet(self, key: str, given: dict[str, str]) -> str:
        places = sheet_places(ROOT / "docs")
        if key not in places:
            raise StatedNumberError(f"No page has a sheet for {key!r}.")
        page, number = places[key]
        words, level = given.pop("words", f"sheet\u00a0{number}"), given.pop("level", "")
        place = filled_in(key, given, level) if given else f"{key}-title"
        address = f"{page.removesuffix('.md')}.html#{place}"
        # as raw HTML: MkDocs would look for a heading of that name
        return str(self.md.htmlStash.store(f'<a href="{escape(address)}">{escape(words)}</a>'))


class StatedNumberExtension(Extension):
    """Registers the marks ahead of ordinary links, which also begin with a bracket."""

    def extendMarkdown(self, md: Markdown) -> None:
        """Register."""
        md.inlinePatterns.register(StatedNumber(PATTERN, md), "stated-numbers", 185)


def makeExtension(**settings: Any) -> StatedNumberExtension:
    """The extension, as Python-Markdown asks for it."""
    return StatedNumberExtension(**settings)
