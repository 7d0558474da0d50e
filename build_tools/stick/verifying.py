"""Checks a stick, or any copy of a built site, against the list of sums that lies in it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from build_tools.stick import checksums, record
from build_tools.stick.trouble import StickTrouble, told


@dataclass(frozen=True)
class Found:
    """What a check found; paths from the folder that was checked."""

    whole: int
    damaged: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    others: tuple[str, ...] = ()
    """Files in the site's folder that belong to no copy."""
    interrupted: bool = False

    @property
    def well(self) -> bool:
        """Whether the copy is whole."""
        return not (self.damaged or self.missing or self.interrupted)


def verify(folder: Path) -> Found:
    """Reads each file of a stick, or of a site's folder, and compares its sum. Raises StickTrouble."""
    if not folder.is_dir():
        raise StickTrouble(f"There is no folder {folder}. Plug the stick in, and give the folder where it appears.")
    with told(folder):
        if (folder / checksums.NAME).is_file():
            pairs = checksums.pairs((folder / checksums.NAME).read_text("utf-8", "replace").split("\n"))
            listed = (folder / checksums.NAME).read_bytes()
            sound = listed == checksums.written(dict(pairs)).encode()
            return _compared(
                folder, folder, dict(pairs), {checksums.NAME, record.NAME}, [] if sound else [checksums.NAME]
            )
        known = record.read(folder)
        if not known.lines:
            raise StickTrouble(f"No copy of the site lies in {folder}, or its list of files is lost. Copy it again.")
        own = f"{record.FOLDER}/{record.NAME}"
        found = _compared(folder, folder / record.FOLDER, dict(known.lines), {own}, [] if known.sound else [own])
        return replace(found, interrupted=known.sound and not known.whole)


def _compared(folder: Path, site: Path, sums: dict[str, str], own: set[str], damaged: list[str]) -> Found:
    whole, missing = 0, []
    for path, digest in sorted(sums.items()):
        place = folder / path
        if any((folder / part).is_symlink() for part in checksums.on_the_way(path)):
            damaged.append(path)
        elif not place.is_file():
            missing.append(path)
        elif _sum(place) == digest:
            whole += 1
        else:
            damaged.append(path)
    inside = site.relative_to(folder)
    others = [path for name in checksums.files_below(site) if (path := (inside / name).as_posix()) not in sums]
    return Found(whole, tuple(damaged), tuple(missing), tuple(path for path in others if path not in own))


def _sum(place: Path) -> str:
    """The sum of a file, or nothing where the stick cannot give its bytes back."""
    try:
        return checksums.from_the_medium(place)
    except OSError:
        return ""
