"""Lists of files with their SHA-256, in the usual form of a line each: the sum, two spaces, the path.

The sum is that of FIPS 180-4. ``sha256sum -c`` (GNU coreutils) and ``shasum -a 256 -c`` read the same lines.
"""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

NAME = "checksums.txt"
"""The list of a whole site, in its root; it names every file but itself."""

_LINE = re.compile(r"([0-9a-f]{64}) [ *](.+)")
_PIECE = 1 << 20


class NotAFile(Exception):
    """A built site holds something that is neither a file nor a folder."""


def of(file: Path) -> str:
    """The SHA-256 of a file's bytes. Raises OSError."""
    digest = hashlib.sha256()
    with file.open("rb") as opened:
        while piece := opened.read(_PIECE):
            digest.update(piece)
    return digest.hexdigest()


def files_below(folder: Path) -> Iterator[str]:
    """The paths of all files below a folder, links included but never followed, in a fixed order."""
    for place, folders, files in os.walk(folder):
        folders.sort()
        linked = [name for name in folders if (Path(place) / name).is_symlink()]
        for name in sorted([*files, *linked]):
            yield (Path(place) / name).relative_to(folder).as_posix()


def of_folder(folder: Path) -> dict[str, str]:
    """Path to sum for all files below a folder but the list itself. Raises NotAFile for a link."""
    sums = {}
    for path in files_below(folder):
        if (folder / path).is_symlink():
            raise NotAFile(f"{path} is a link. A site is made of plain files.")
        if path != NAME:
            sums[path] = of(folder / path)
    return sums


def written(sums: Mapping[str, str]) -> str:
    """The list as text, sorted by path."""
    return "".join(f"{sums[path]}  {path}\n" for path in sorted(sums))


def pairs(lines: Iterable[str]) -> list[tuple[str, str]]:
    """Path and sum of each line that can be read; damaged lines are passed over.

    A path that would lead out of the folder is damaged too, however it is written.
    """
    found = []
    for line in lines:
        match = _LINE.fullmatch(line)
        if match and stays_inside(match[2]):
            found.append((match[2], match[1]))
    return found


def on_the_way(path: str) -> list[str]:
    """The folders that a path leads through, and the path itself."""
    parts = path.split("/")
    return ["/".join(parts[:count]) for count in range(1, len(parts) + 1)]


def from_the_medium(file: Path) -> str:
    """The sum of what lies on a stick, not in this computer's memory, where the system can be asked for that."""
    if hasattr(os, "posix_fadvise"):
        with file.open("rb") as opened:
            os.posix_fadvise(opened.fileno(), 0, 0, os.POSIX_FADV_DONTNEED)
    return of(file)


def stays_inside(path: str) -> bool:
    """Whether a path of a list names something below the list's own folder."""
    parts = path.split("/")
    return "\\" not in path and ":" not in path and all(part not in ("", ".", "..") for part in parts)
