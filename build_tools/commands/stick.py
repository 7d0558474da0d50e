"""`stick` and `verify`: the site on a USB stick, and a stick checked again."""

import sys
from pathlib import Path

from build_tools import site_builder
from build_tools.commands.site import WHAT_IT_HOLDS
from build_tools.stick import copying, opening, verifying
from build_tools.stick.trouble import StickTrouble, size

MOST_NAMES = 20
"""How many files are named one by one before the rest is only counted."""


def run(root: Path, folder: Path, edition: str) -> int:
    """Builds an edition if needed and copies it to a stick; returns the exit code."""
    try:
        site_builder.build(root, edition)
        site = site_builder.folder_of(root, edition)
        print(f"Copying to {folder}. Leave the stick in.", flush=True)
        done = copying.copy(site, folder, title(root), lambda path: print(f"  {path}", flush=True))
    except (site_builder.BuildFailed, StickTrouble) as trouble:
        print(f"\n{trouble}", file=sys.stderr)
        return 1
    total = sum((folder / path).stat().st_size for path in (*done.copied, *done.there))
    print(
        f"The stick holds {len(done.copied) + len(done.there)} files, {size(total)}, each read back and compared. "
        f"{len(done.copied)} were copied now."
    )
    _name("Out of date, and removed:", done.removed)
    _name("Yours, and in the way; now called:", done.kept)
    _name("Changed since an older copy put them there, and left alone:", done.left)
    print(WHAT_IT_HOLDS[edition])
    print(f"Eject the stick before you pull it out. Then open “{opening.NAME}” on it.")
    return 0


def verify(folder: Path) -> int:
    """Checks a stick or a copy; returns 1 when a file is damaged or missing."""
    try:
        found = verifying.verify(folder)
    except StickTrouble as trouble:
        print(f"\n{trouble}", file=sys.stderr)
        return 1
    _name("Damaged:", found.damaged)
    _name("Missing:", found.missing)
    _name("Not part of the site, and not looked at:", found.others)
    if found.interrupted:
        print("The last copy was interrupted.")
    if found.well:
        print(f"All {found.whole} files are whole.")
        return 0
    print(f"{found.whole} files are whole. To mend the rest, copy again: python3 -m build_tools stick {folder}")
    return 1


def title(root: Path) -> str:
    """The site's name, as mkdocs.yml says it."""
    line = next(line for line in (root / "mkdocs.yml").read_text("utf-8").splitlines() if line.startswith("site_name:"))
    return line.partition(":")[2].strip()


def _name(head: str, paths: list[str] | tuple[str, ...]) -> None:
    if not paths:
        return
    print(head)
    for path in paths[:MOST_NAMES]:
        print(f"  {path}")
    if len(paths) > MOST_NAMES:
        print(f"  and {len(paths) - MOST_NAMES} more")
