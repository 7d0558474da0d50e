"""Installs packages of the system, where this process may."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

from build_tools.one_at_a_time import one_at_a_time

LOCK = Path(__file__).resolve().parent.parent / "build" / "system-packages.lock"
"""Tests that run side by side may each want something: the system's installer serves only one."""


def install(what: str, packages: list[str]) -> bool:
    """Installs packages as root on Debian, saying that they are `what` for; False where that is not possible."""
    apt = shutil.which("apt-get")
    if not apt or os.name == "nt" or os.geteuid() != 0:
        return False
    env = dict(os.environ, DEBIAN_FRONTEND="noninteractive")
    with one_at_a_time(LOCK):
        print(f"Installing {what}", file=sys.stderr, flush=True)
        for arguments in (["update", "-qq"], ["install", "-y", "-qq", "--no-install-recommends", *packages]):
            subprocess.call([apt, *arguments], env=env, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
    return True
