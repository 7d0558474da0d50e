"""`site`: builds everything into site/ and says where to open it."""

import sys
from pathlib import Path

from build_tools import site_builder


def run(root: Path) -> int:
    """Builds site/ if anything changed; returns the exit code."""
    try:
        built = site_builder.build(root)
    except site_builder.BuildFailed as failure:
        print(f"\n{failure}", file=sys.stderr)
        return 1
    home = root / "site" / "index.html"
    print("The site is built." if built else "The site is up to date: nothing it is made from has changed.")
    print(f"Open it from the disk:  {home}")
    print(f"    as an address:      {home.as_uri()}")
    print("Or serve it here:       python3 -m build_tools serve")
    return 0
