"""`test`: every check of the project, the code's own style and types among them."""

import subprocess
import sys
from pathlib import Path


def run(root: Path, quick: bool) -> int:
    """Runs the tests, without those that start a browser if `quick`; returns pytest's exit code."""
    command = [sys.executable, "-m", "pytest", "--numprocesses=auto", "--dist=worksteal"]
    if quick:
        command += ["-m", "not browser"]
    return subprocess.call(command, cwd=root)
