"""Copies a built site to a stick, file by file, each read back and compared.

Each file is written beside its place under a name of ours, flushed to the stick, and only then put in its place. So at
every moment each file is either the old one or the new one, and a run after an interrupted one copies what is missing.
"""

from __future__ import annotations

import hashlib
import os
import shutil
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from build_tools.stick import checksums, names, opening, record
from build_tools.stick.trouble import StickTrouble, size, told

_COMING = f"{record.FOLDER}/coming.part"
"""Where a file is written first. The only thing that an interrupted copy can leave half done."""
_SPARE = 1 << 20
"""Bytes left for the folders and for what the last cluster of each file wastes."""


@dataclass
class Done:
    """What a copy did: paths from the stick's root."""

    copied: list[str] = field(default_factory=list)
    there: list[str] = field(default_factory=list)
    removed: list[str] = field(default_factory=list)
    kept: list[str] = field(default_factory=list)
    """The user's own files that lay in the way, under the new names that they were given."""
    left: list[str] = field(default_factory=list)
    """Files of an older copy that somebody has changed since: left where they are."""


def copy(site: Path, stick: Path, title: str, say: Callable[[str], None] = lambda _: None) -> Done:
    """Copies the site in ``site`` to the folder ``stick``; tells ``say`` each file it copies. Raises StickTrouble."""
    wanted = _wanted(site, title)
    _see_that_it_can_be(site, stick, wanted)
    with told(stick):
        before = record.read(stick)
        there = {path for path, (digest, _) in wanted.items() if _sum_there(stick, path) == digest}
        _see_that_it_fits(stick, wanted, there)
        new = tuple((path, digest) for path, (digest, _) in wanted.items())
        # The old copy's files stay known until the new one is whole, whenever this is interrupted.
        old = tuple(line for line in before.lines if line not in new)
        _write_record(stick, (*old, *new), whole=False)
        done = Done(there=sorted(there))
        for path, (digest, source) in wanted.items():
            if path in there:
                continue
            if not before.owns(path) and os.path.lexists(stick / path):
                done.kept.append(_put_aside(stick, path))
            say(path)
            _put(stick, path, digest, source)
            done.copied.append(path)
        _clear_away(stick, before, set(wanted), done)
        _write_record(stick, new, whole=True)
        (stick / _COMING).unlink(missing_ok=True)
    return done


def _wanted(site: Path, title: str) -> dict[str, tuple[str, Path | bytes]]:
    """Path on the stick to sum and source: the engine first, pages after all they need, the opening page last."""
    listed = site / checksums.NAME
    sums = dict(checksums.pairs(listed.read_text("utf-8").split("\n"))) if listed.is_file() else {}
    if not sums:
        raise StickTrouble(f"{site} is not a built site: build it first with 'python3 -m build_tools site'.")
    sums[checksums.NAME] = checksums.of(listed)
    order = sorted(sums, key=lambda path: (path.endswith(".html"), path == "index.html", path))
    wanted: dict[str, tuple[str, Path | bytes]] = {
        f"{record.FOLDER}/{path}": (sums[path], site / path) for path in order
    }
    page = opening.page(title, record.FOLDER)
    wanted[opening.NAME] = (hashlib.sha256(page).hexdigest(), page)
    return wanted


def _see_that_it_can_be(site: Path, stick: Path, wanted: dict[str, tuple[str, Path | bytes]]) -> None:
    if not stick.is_dir():
        raise StickTrouble(f"There is no folder {stick}. Plug the stick in, and give the folder where it appears.")
    ours, theirs = site.resolve(), stick.resolve()
    if theirs == ours or ours in theirs.parents or theirs in (ours.parent, ours.parent / "build"):
        raise StickTrouble(f"{stick} belongs to the project itself. Give the folder where the stick appears.")
    if bad := names.problems([*wanted, _COMING, f"{record.FOLDER}/{record.NAME}"]):
        raise StickTrouble("A stick cannot hold these names:\n  " + "\n  ".join(bad))
    for path in [*wanted, _COMING, f"{record.FOLDER}/{record.NAME}"]:
        _refuse_links(stick, path)


def _refuse_links(stick: Path, path: str) -> None:
    """A link on the way would lead the copy out of the folder. Raises StickTrouble."""
    place = stick
    for part in path.split("/"):
        place = place / part
        if place.is_symlink() or place.is_junction():
            raise StickTrouble(
                f"{place} is a link to another place. Nothing was copied. Remove the link, or rename it."
            )
        if place.is_dir() and place == stick / path:
            raise StickTrouble(f"{place} is a folder, and a file of the site has that name. Rename the folder.")


def _see_that_it_fits(stick: Path, wanted: dict[str, tuple[str, Path | bytes]], there: set[str]) -> None:
    missing = [source for path, (_, source) in wanted.items() if path not in there]
    needed = sum(len(it) if isinstance(it, bytes) else it.stat().st_size for it in missing)
    free = shutil.disk_usage(stick).free
    if missing and needed + _SPARE > free:
        raise StickTrouble(
            f"The stick at {stick} is full: the copy needs {size(needed + _SPARE)} and {size(free)} are free. "
            "Nothing was copied. Make room on it, or take another stick."
        )


def _sum_there(stick: Path, path: str) -> str:
    """The sum of what lies there, or nothing where nothing lies or nothing can be read: either is copied anew."""
    try:
        return checksums.from_the_medium(stick / path)
    except OSError:
        return ""


def _write_record(stick: Path, lines: record.Lines, *, whole: bool) -> None:
    data = record.text(lines, whole=whole)
    _put(stick, f"{record.FOLDER}/{record.NAME}", hashlib.sha256(data).hexdigest(), data)


def _put(stick: Path, path: str, digest: str, source: Path | bytes) -> None:
    """Writes one file beside its place, flushes it, reads it back, puts it in place. Raises OSError, StickTrouble."""
    place, coming = stick / path, stick / _COMING
    for folder in dict.fromkeys([record.FOLDER, *checksums.on_the_way(path)[:-1]]):
        (stick / folder).mkdir(
            exist_ok=True
        )  # not the stick itself: one that was pulled out must not come to be a folder
    data = source if isinstance(source, bytes) else source.read_bytes()
    if hashlib.sha256(data).hexdigest() != digest:
        raise StickTrouble(f"{source!s} has changed since the site was built. Build it again, then copy.")
    try:
        with coming.open("wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
    except OSError:
        with suppress(OSError):
            coming.unlink()  # a full stick gets its room back
        raise
    if checksums.from_the_medium(coming) != digest:
        raise StickTrouble(f"{place} came back otherwise than it was written. Take another stick: this one is failing.")
    coming.replace(place)


def _put_aside(stick: Path, path: str) -> str:
    """Gives a file that no copy ever wrote a new name beside its old one; returns it."""
    place = stick / path
    for number in range(1, 1000):
        other = place.with_name(f"{place.stem} (yours{'' if number == 1 else f' {number}'}){place.suffix}")
        if not os.path.lexists(other):
            place.rename(other)
            return other.relative_to(stick).as_posix()
    raise StickTrouble(f"{place} is in the way. Rename it, then copy again.")


def _clear_away(stick: Path, before: record.Record, wanted: set[str], done: Done) -> None:
    """Removes what an older copy put there and the new one does not hold; nothing that was changed since."""
    for path in dict.fromkeys(path for path, _ in before.lines if path not in wanted):
        place = stick / path
        if any((stick / folder).is_symlink() for folder in checksums.on_the_way(path)) or not place.is_file():
            continue
        if before.wrote(path, checksums.of(place)):
            place.unlink()
            done.removed.append(path)
            _remove_if_empty(stick, place.parent)
        else:
            done.left.append(path)


def _remove_if_empty(stick: Path, folder: Path) -> None:
    while folder not in (stick, stick / record.FOLDER) and not any(folder.iterdir()):
        folder.rmdir()
        folder = folder.parent
