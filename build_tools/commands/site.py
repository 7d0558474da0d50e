"""`site`: builds everything into site/ and says where to open it."""

import sys
from pathlib import Path

from build_tools import editions, site_builder

WHAT_IT_HOLDS = {
    editions.TEACHER: "Teacher edition: every page, with keys and teachers' notes. For a class: --edition class",
    editions.CLASS: "Class edition: no keys and no teachers' notes.",
}


def run(root: Path, edition: str, *, prune: bool = True) -> int:
    """Builds an edition's folder if anything changed; returns the exit code. prune: see engine.pack."""
    try:
        built = site_builder.build(root, edition, prune=prune)
    except site_builder.BuildFailed as failure:
        print(f"\n{failure}", file=sys.stderr)
        return 1
    home = site_builder.folder_of(root, edition) / "index.html"
    print("The site is built." if built else "The site is up to date: nothing it is made from has changed.")
    print(f"Open it from the disk:  {home}")
    print(f"    as an address:      {home.as_uri()}")
    verb = "" if edition == editions.TEACHER else f" --edition {edition}"
    print(f"Or serve it here:       python3 -m build_tools serve{verb}")
    print(WHAT_IT_HOLDS[edition])
    return 0
