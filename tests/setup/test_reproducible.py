"""The same project gives the same bytes, in any folder, at any time, in any place."""

import os
import subprocess
import sys
from pathlib import Path

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
"""Another clock for whoever asks for the day of a build, another time zone, language, home and order of sets."""


def test_two_builds_in_two_folders_are_the_same_to_the_bit(root: Path, site: Path, tmp_path: Path) -> None:
    project = copy_project(root, tmp_path / "another folder")
    command = [sys.executable, "-m", "build_tools.commands", "site"]
    done = subprocess.run(
        command, cwd=project, env=os.environ | ELSEWHERE, capture_output=True, text=True, umask=0o077, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
    again = (project / "site" / NAME).read_text("utf-8").splitlines()
    first = (site / NAME).read_text("utf-8").splitlines()
    assert len(first) > 60
    assert sorted(set(first) ^ set(again)) == []
