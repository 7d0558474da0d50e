"""From whatever Python the reader has to the verb running inside .venv, with the standard library alone."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

from build_tools import command_line, environment
from build_tools.missing import Missing

NEEDS = {
    "site": (environment.BUILD, True),
    "serve": (environment.BUILD, True),
    "stick": (environment.BUILD, True),
    "verify": (environment.BUILD, False),
    "calc": (environment.BUILD, False),
    "test": (environment.TEST, True),
    "bench": (environment.TEST, True),
}
"""For each verb its Python lock file, and whether it needs Node and the npm packages."""


def start(root: str, arguments: Sequence[str]) -> int:
    """Prepares what the verb needs and runs it; returns the exit code."""
    verb = command_line.parse(arguments).verb
    requirements, with_node = NEEDS[verb]
    try:
        python, env = environment.prepare(Path(root), requirements, with_node)
    except Missing as missing:
        print(f"\n{missing}", file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        return 130
    # From here on nothing is set up any more, so that what runs inside .venv can never start itself again.
    return _go_on([str(python), "-m", "build_tools.commands", *arguments], root, env)


def _go_on(command: list[str], root: str, env: Mapping[str, str]) -> int:
    # A PYTHONPATH meant for the other Python would bring its packages along.
    env = {name: value for name, value in env.items() if name not in ("PYTHONPATH", "PYTHONHOME")}
    os.chdir(root)
    sys.stdout.flush()
    if os.name != "nt":
        os.execve(command[0], command, env)
    # Windows has no exec that keeps the console waiting.
    process = subprocess.Popen(command, env=env)
    while True:
        try:
            return process.wait()
        except KeyboardInterrupt:
            continue
