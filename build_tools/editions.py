"""The two editions of the site: all pages for the teacher, and those for the class.

A page belongs to the teacher when its front matter says ``edition: teacher``. The class edition has neither such a page
nor a link to one; a page for students that leads to one stops the build of either edition.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path, PurePosixPath
from typing import Any
from urllib.parse import unquote, urlsplit

from mkdocs.utils.meta import get_data

TEACHER, CLASS = "teacher", "class"
FOLDERS = {TEACHER: "site", CLASS: "site-class"}
"""Where each edition is built: apart, so that no folder holds now one and now the other."""

SETTING = "SITE_EDITION"
"""The environment variable that tells the page builder which edition it builds."""


class EditionError(ValueError):
    """A page, or VERSION, says what no edition can hold; the words say what would be right."""


@dataclass(frozen=True)
class Version:
    """What stands at the foot of each page: the site's version and the day of that version, from the file VERSION."""

    number: str
    day: date

    @property
    def words(self) -> str:
        """Version and date, the month as a word: no reader takes the day for the month."""
        return f"Version {self.number}, {self.day.day} {self.day:%B %Y}"


def version(root: Path) -> Version:
    """What VERSION says. Raises EditionError when it is not a number and an ISO date."""
    text = (root / "VERSION").read_text("utf-8")
    match = re.fullmatch(r"(\d+(?:\.\d+)*) (\d{4}-\d\d-\d\d)\s*", text)
    if not match:
        raise EditionError(f"VERSION should be like '1.0 2026-01-31', and is {text.strip()!r}.")
    return Version(match[1], date.fromisoformat(match[2]))


def for_teachers(docs: Path) -> frozenset[str]:
    """The pages for teachers, by their paths below docs/. Raises EditionError for a front matter it cannot follow."""
    found = set()
    for file in sorted(docs.rglob("*.md")):
        _, about = get_data(file.read_text("utf-8"))
        name = file.relative_to(docs).as_posix()
        edition = about.get("edition")
        if edition == TEACHER:
            found.add(name)
        elif edition is not None:
            raise EditionError(f"{name}: 'edition' can only be 'teacher', and is {edition!r}.")
    return frozenset(found)


def without(nav: Sequence[Any], pages: Collection[str]) -> list[Any]:
    """The navigation without some pages, and without parts that are empty then."""
    return [kept for entry in nav for kept in _kept(entry, pages)]


def _kept(entry: Any, pages: Collection[str]) -> Iterator[Any]:
    if isinstance(entry, str):
        if entry not in pages:
            yield entry
        return
    ((title, what),) = entry.items()
    if isinstance(what, list):
        if inner := without(what, pages):
            yield {title: inner}
    elif what not in pages:
        yield {title: what}


def links_to(html: str, page: str, pages: Collection[str]) -> list[str]:
    """The links in a page's own text that lead to one of ``pages``; all names are addresses below the site's root."""
    found = []
    for address in re.findall(r'<a\b[^>]*?\bhref="([^"]*)"', html):
        path = unquote(urlsplit(address).path)
        if path and _joined(page, path) in pages:
            found.append(address)
    return found


def _joined(page: str, path: str) -> str:
    parts: list[str] = []
    for part in (PurePosixPath(page).parent / path).parts:
        if part == "..":
            del parts[-1:]
        else:
            parts.append(part)
    return "/".join(parts)
