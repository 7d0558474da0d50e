"""The same project gives the same bytes, in any folder, at any time, in any place."""

import hashlib
import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

from build_tools import system_packages
from build_tools.bench.builds import copy_project
from build_tools.stick.checksums import NAME

ELSEWHERE = {
    "TZ": "Pacific/Chatham",
    "LANG": "tr_TR.UTF-8",
    "LC_ALL": "C",
    "PYTHONHASHSEED": "4711",
    "SOURCE_DATE_EPOCH": "1000000000",
    "HOME": "/nonexistent",
}
"""Another time zone, language, home and order of sets, and another day for whoever asks for that of a build."""

AHEAD = 740
"""Days."""


def another_clock() -> list[str]:
    """What to put before a command so that every program in it reads a clock AHEAD days on.

    Empty on a machine that cannot have it, but never where CI is set.
    """
    found = shutil.which("faketime")
    if not found and system_packages.install("another clock for a build", ["faketime"]):
        found = shutil.which("faketime")
    assert found or "CI" not in os.environ, "No faketime here. On Debian: sudo apt-get install faketime"
    return [found, "-f", f"+{AHEAD}d"] if found else []


def test_two_builds_in_two_folders_are_the_same_to_the_bit(
    root: Path, site: Path, class_site: Path, tmp_path: Path
) -> None:
    """Prints the sums of the lists of sums; ``pytest -rP`` shows them."""
    clock = another_clock()
    if clock:
        for program in ([sys.executable, "-c", "import time; print(time.time())"], ["node", "-p", "Date.now() / 1000"]):
            said = subprocess.run([*clock, *program], capture_output=True, text=True, check=True).stdout
            assert float(said) > time.time() + (AHEAD - 1) * 24 * 3600, program
    project = copy_project(root, tmp_path / "another folder")
    for here, edition in ((site, "teacher"), (class_site, "class")):
        command = [*clock, sys.executable, "-m", "build_tools.commands", "site", "--edition", edition]
        done = subprocess.run(
            command, cwd=project, env=os.environ | ELSEWHERE, capture_output=True, text=True, umask=0o077, check=False
        )
        assert done.returncode == 0, done.stdout + done.stderr
        lists = [folder / NAME for folder in (here, project / here.name)]
        for listed in lists:
            print(hashlib.sha256(listed.read_bytes()).hexdigest(), edition, "edition in", listed.parent)
        first, again = (listed.read_text("utf-8").splitlines() for listed in lists)
        assert len(first) > 60
        assert sorted(set(first) ^ set(again)) == []
