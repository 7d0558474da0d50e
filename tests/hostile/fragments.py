"""Fragments of HTML read by a grammar stricter than HTML's: each mark written out and nested, all else escaped.

What a browser would forgive is refused here, so that text which was not escaped can't hide. html5lib, a second reader
that follows the HTML standard, must see the same elements (``test_what_calc_answers.py``).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

Mark = tuple[str, str]
"""An element's name and one of its attributes' names; the second is empty for the element itself."""

_ESCAPED = r"&(?:[a-z]+|#[0-9]+|#x[0-9a-f]+);"
_VALUE = rf'"(?:[^"<>&]|{_ESCAPED})*"'
_TOKEN = re.compile(
    rf"<(?P<name>[a-zA-Z][a-zA-Z0-9-]*)(?P<attributes>(?: [a-zA-Z][a-zA-Z0-9:-]*(?:={_VALUE})?)*) ?(?P<closed>/?)>"
    rf"|</(?P<end>[a-zA-Z][a-zA-Z0-9-]*)>|{_ESCAPED}|[^<>&]+"
)
_ATTRIBUTE = re.compile(rf" ([a-zA-Z][a-zA-Z0-9:-]*)(?:=({_VALUE}))?")
_VOID = ("br", "hr", "img", "input", "wbr", "col")


class NotWellFormed(AssertionError):
    """A fragment that is not written as the templates write."""


def marks(fragment: str) -> set[Mark]:
    """Every element and attribute of a fragment. Raises NotWellFormed."""
    found: set[Mark] = set()
    standing: list[str] = []
    at = 0
    while at < len(fragment):
        token = _TOKEN.match(fragment, at)
        if token is None:
            raise NotWellFormed(f"not escaped: {fragment[max(0, at - 60) : at + 60]!r}")
        at = token.end()
        if token["name"]:
            found.add((token["name"], ""))
            for name, value in _ATTRIBUTE.findall(token["attributes"]):
                found.add((token["name"], name))
                if name in ("href", "src", "xlink:href") and not value.startswith('"#'):
                    raise NotWellFormed(f"leads elsewhere: {token[0]!r}")
            if not token["closed"] and token["name"] not in _VOID:
                standing.append(token["name"])
        elif token["end"] and (not standing or standing.pop() != token["end"]):
            raise NotWellFormed(f"ends what does not stand: {fragment[max(0, at - 60) : at + 20]!r}")
    if standing:
        raise NotWellFormed(f"never ended: {standing}")
    return found


def fragments(answer: Any, *, inside: bool = False) -> Iterator[str]:
    """The texts of an answer that a page puts in as HTML: under ``html``, and pieces of MathML."""
    if isinstance(answer, dict):
        for name, value in answer.items():
            yield from fragments(value, inside=inside or name in ("html", "mathml", "symbol_html"))
    elif isinstance(answer, list):
        for value in answer:
            yield from fragments(value, inside=inside)
    elif inside and isinstance(answer, str):
        yield answer
