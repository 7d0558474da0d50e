"""The block of letters: ``/// letters | books``, other books' letters beside ours; ``/// letters | ours``, all of ours.

The other books' letters stand in ``shared/pages/letters.toml``; ours, with names and units, come from the calculators.
"""

from __future__ import annotations

from itertools import groupby
from typing import Any

import calc
from build_tools.lookup_block import ROOT, LookupBlock, LookupBlockError, LookupExtension, data, rendered
from build_tools.stated_numbers import sheet_places
from build_tools.table_block import GRADE_WORDS
from calc import symbols

MOST_SHEETS = 3


class LettersBlock(LookupBlock):
    """One of the two tables of letters."""

    NAME = "letters"
    CLASS = "lookup"

    def known(self) -> tuple[str, ...]:
        """The two tables."""
        return ("books", "ours")

    def html(self) -> str:
        """The table asked for."""
        if self.argument == "books":
            return rendered("letters-books.html", letters=[_beside(letter) for letter in data("letters")["letter"]])
        by_letter = groupby(calc.letters(), key=lambda entry: entry["symbol"])
        return rendered("letters-ours.html", letters=[_meanings(list(group)) for _, group in by_letter])


def _beside(letter: dict[str, Any]) -> dict[str, Any]:
    """One of our letters, by its name, with those of other books."""
    books = data("letters")["books"]
    others = [
        {
            "html": [symbols.html(other) for other in found["letters"]],
            "book": books[found["book"]]["name"],
            "note": found.get("note", ""),
            "grade": GRADE_WORDS[books[found["book"]]["grade"]],
        }
        for found in letter["others"]
    ]
    return {**own(letter["calculator"], letter["ours"]), "others": others}


def own(calculator: str, symbol: str) -> dict[str, Any]:
    """Our letter of a calculator's quantity. Raises LookupBlockError if the calculator does not have it."""
    for entry in calc.letters():
        if entry["symbol"] == symbol and calculator in entry["calculators"]:
            return entry
    raise LookupBlockError(f"{calculator} has no letter {symbol!r}.")


def _meanings(entries: list[dict[str, Any]]) -> dict[str, Any]:
    """One letter with all its meanings; in the effort's colour only if each of them is the effort's."""
    plain = [entry["html"] for entry in entries if "effort" not in entry["html"]]
    return {"html": (plain or [entries[0]["html"]])[0], "meanings": [_ours(entry) for entry in entries]}


def _ours(entry: dict[str, Any]) -> dict[str, Any]:
    """A letter with the sheets where it is met, unless they are many."""
    places = sheet_places(ROOT / "docs")
    met = [(key, *places[key]) for key in entry["calculators"] if key in places]
    met.sort(key=lambda sheet: [int(part) for part in sheet[2].split(".")])
    links = [{"href": f"{page.removesuffix('.md')}.html#{key}-title", "sheet": number} for key, page, number in met]
    units = {system: " or ".join(found) for system, found in entry["units"].items()}
    return {**entry, "units": units, "sheets": links if len(links) <= MOST_SHEETS else []}


def makeExtension(**settings: Any) -> LookupExtension:
    """The extension, as Python-Markdown asks for it."""
    return LookupExtension(LettersBlock, **settings)
