"""`serve`: serves site/ on this machine and rebuilds it on change."""

import subprocess
import sys
import time
from pathlib import Path

from build_tools import site_builder
from build_tools.local_server import serving

SECONDS_BETWEEN_LOOKS = 0.7


def run(root: Path, port: int, edition: str) -> int:
    """Serves until the reader presses Ctrl-C; returns the exit code."""
    looked_at = glance(root)
    site = site_builder.folder_of(root, edition)
    print(f"Building {site.name}/", flush=True)
    _rebuild(root, edition)
    if not (site / "index.html").exists():
        return 1
    try:
        with serving(site, port) as address:
            print(f"Serving at {address} (stop with Ctrl-C)", flush=True)
            while True:
                looked_at = rebuild_on_change(root, looked_at, edition)
                time.sleep(SECONDS_BETWEEN_LOOKS)
    except OSError as error:
        print(
            f"Port {port} cannot be used: {error.strerror}. Choose another: --port 0 takes a free one.",
            file=sys.stderr,
        )
        return 1
    except KeyboardInterrupt:
        print()
        return 0


def glance(root: Path) -> frozenset[tuple[str, int, int]]:
    """Name, size and time of each file that the site is made from."""
    seen = set()
    for file in site_builder.input_files(root):
        try:
            about = file.stat()
        except FileNotFoundError:
            continue  # an editor has just put another file in its place
        seen.add((str(file), about.st_size, about.st_mtime_ns))
    return frozenset(seen)


def rebuild_on_change(
    root: Path, before: frozenset[tuple[str, int, int]], edition: str
) -> frozenset[tuple[str, int, int]]:
    """Rebuilds when a file differs from `before`; returns what is there now."""
    now = glance(root)
    if now != before:
        changed = [Path(name).relative_to(root) for name in sorted({name for name, _, _ in now ^ before})]
        print(f"Changed: {', '.join(map(str, changed[:3]))}", flush=True)
        if all(name.parts[0] == "docs" and name.suffix == ".md" for name in changed):
            _renew(root, edition, changed)
        _rebuild(root, edition)
    return now


def _renew(root: Path, edition: str, changed: list[Path]) -> None:
    """Shows a page that somebody is writing before all the others, the search and the lists are made again."""
    try:
        if site_builder.renew_pages(root, edition, [root / name for name in changed]):
            print("The page is there. The rest follows.", flush=True)
    except site_builder.BuildFailed:
        pass  # the whole build, which follows, says what is wrong


def _rebuild(root: Path, edition: str) -> None:
    # In a process of its own, since the changed file may be a module that this one has already imported.
    command = [sys.executable, "-m", "build_tools.commands", "site", "--edition", edition]
    code = subprocess.call(command, cwd=root, stdout=subprocess.DEVNULL)
    print("Built." if code == 0 else "Not built: see above. The site stays as it was.", flush=True)
