"""What the stick remembers of the copies it got: a list of every file that was put there, with its sum.

It is written before the first file, and holds the old copy's files beside the new one's until the copy is whole. So an
interrupted copy knows what is its own, and a later one can mend it and take away what is out of date, and nothing else.
Paths are those from the stick's root.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from pathlib import Path

from build_tools.stick import checksums

FOLDER = "effort-and-load"
"""The one folder on the stick that holds the site."""
NAME = "stick.txt"
_COPYING = "# a copy has begun and is not whole"
_WHOLE = "# the copy is whole"
_SUM = "# sum of the lines above: "

Lines = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Record:
    """What is known of the copies on a stick: each path with every sum that was put there under it."""

    lines: Lines = ()
    whole: bool = False
    sound: bool = True

    def owns(self, path: str) -> bool:
        """Whether a copy ever put a file under this path."""
        return any(known == path for known, _ in self.lines)

    def wrote(self, path: str, digest: str) -> bool:
        """Whether a copy put just these bytes there."""
        return (path, digest) in self.lines


def text(lines: Lines, *, whole: bool) -> bytes:
    """A stick.txt; its last line guards the others against a damaged byte."""
    body = "\n".join([_WHOLE if whole else _COPYING, *(f"{digest}  {path}" for path, digest in lines), ""]).encode()
    return body + f"{_SUM}{hashlib.sha256(body).hexdigest()}\n".encode()


def read(root: Path) -> Record:
    """The record of a stick; for a site copied there by hand, what its own list says. Raises OSError."""
    place, listed = root / FOLDER / NAME, root / FOLDER / checksums.NAME
    known = _own_list(listed) if listed.is_file() and not listed.is_symlink() else ()
    if not place.is_file() or place.is_symlink():
        return Record(known, whole=bool(known))
    data = place.read_bytes()
    head, *rest = data.decode("utf-8", "replace").split("\n")
    lines = tuple(checksums.pairs(rest))
    whole = head == _WHOLE
    sound = data == text(lines, whole=whole)
    return Record(lines if sound else tuple(dict.fromkeys((*lines, *known))), whole, sound)


def _own_list(listed: Path) -> Lines:
    pairs = checksums.pairs(listed.read_text("utf-8", "replace").split("\n"))
    return (
        *((f"{FOLDER}/{path}", digest) for path, digest in pairs),
        (f"{FOLDER}/{checksums.NAME}", checksums.of(listed)),
    )
