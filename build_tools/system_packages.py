"""Installs packages of the system, where this process may."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys


def install(what: str, packages: list[str]) -> bool:
    """Installs packages as root on Debian, saying that they are `what` for; False where that is not possible."""
    apt = shutil.which("apt-get")
    if not apt or os.name == "nt" or os.geteuid() != 0:
        return False
    print(f"Installing {what}", file=sys.stderr, flush=True)
    env = dict(os.environ, DEBIAN_FRONTEND="noninteractive")
    for arguments in (["update", "-qq"], ["install", "-y", "-qq", "--no-install-recommends", *packages]):
        subprocess.call([apt, *arguments], env=env, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
    return True
