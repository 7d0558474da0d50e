"""Makes .venv and node_modules from the lock files, and leaves them alone while nothing changed."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

from build_tools import fingerprint, node_finder, python_finder
from build_tools.missing import Missing
from build_tools.one_at_a_time import one_at_a_time

BUILD = "requirements.txt"
TEST = "requirements-test.txt"
NODE = "requirements-node.txt"
"""The lock files: what builds and answers, the same and what tests it, and a Node for a machine without."""

ELSEWHERE = ("PIP_USER", "PIP_TARGET", "PIP_PREFIX", "PIP_ROOT", "PIP_REQUIREMENT", "PIP_DRY_RUN")
"""Settings of pip that would put packages elsewhere than in .venv; every other setting is the user's."""


def prepare(root: Path, requirements: str, with_node: bool) -> tuple[Path, Mapping[str, str]]:
    """Sees that everything needed is installed; returns .venv's Python and the environment to run it in.

    Raises Missing when something is not to be had on this machine.
    """
    with one_at_a_time(root / "build" / "setup.lock"):
        python = _python(root / ".venv")
        _install(root, python, requirements)
        env = dict(os.environ)
        folders = [str(Path(python.command[0]).parent)]
        if with_node:
            folders.append(str(_node_with_packages(root, python).parent))
        env["PATH"] = os.pathsep.join([*folders, env.get("PATH", "")])
    return Path(python.command[0]), env


def _python(venv: Path) -> python_finder.Python:
    """The Python of .venv, which is made first if it is not there or does not answer."""
    command = (str(venv / ("Scripts/python.exe" if os.name == "nt" else "bin/python")),)
    made = venv / "made.txt"
    python = python_finder.prove(command) if made.exists() else None
    if python is not None:
        return python
    found = python_finder.find(os.environ, first=python_finder.running())
    print(f"Making .venv with Python {found.version} ({' '.join(found.command)})", flush=True)
    if venv.exists():
        shutil.rmtree(venv)
    subprocess.call([*found.command, "-I", "-m", "venv", str(venv)])
    python = python_finder.prove(command)
    if python is None:
        raise Missing(
            "{} could not make a working .venv: see above what it says.".format(" ".join(found.command)),
            ["{} -m venv --clear .venv".format(" ".join(found.command))],
        )
    # Left last: an environment whose making was interrupted may have a Python but no pip.
    made.touch()
    return python


def _install(root: Path, python: python_finder.Python, requirements: str) -> None:
    """Installs a lock file into .venv, unless that was done before."""
    lock = root / requirements
    note = root / ".venv" / (lock.stem + "-installed.txt")
    wanted = fingerprint.of(root, [lock], python.version)
    if fingerprint.matches(note, wanted):
        return
    fingerprint.forget(note)
    print(f"Installing the Python packages of {requirements} (the first time takes a minute or two)", flush=True)
    command = [
        *python.command,
        "-I",
        "-m",
        "pip",
        "install",
        "--require-hashes",
        "--no-user",
        "-r",
        str(lock),
    ]
    quietly = ["--quiet", "--quiet", "--no-input", "--disable-pip-version-check"]
    env = {name: value for name, value in os.environ.items() if name not in ELSEWHERE}
    if subprocess.call([*command, *quietly], env=env) != 0:
        raise Missing(
            f"The packages of {requirements} could not be installed: see above what pip says.\n"
            "Most often the network, a proxy or a full disk is the cause.",
            [_same_again()],
        )
    fingerprint.remember(note, wanted)


def _node_with_packages(root: Path, python: python_finder.Python) -> Path:
    """The Node to use, once the npm packages of package-lock.json are there."""
    venv = root / ".venv"
    node = node_finder.node_on_machine(os.environ)
    if node is None:
        _install(root, python, NODE)
        node = node_finder.node_in(venv)
        if node is None:
            raise Missing(
                f"No Node {node_finder.OLDEST_NODE} or newer is on this machine, and {NODE} brought none.",
                _commands_that_install_node(),
            )
    note = root / "node_modules" / "installed.txt"
    wanted = fingerprint.of(root, [root / name for name in ("package.json", "package-lock.json", ".npmrc")])
    if not fingerprint.matches(note, wanted):
        fingerprint.forget(note)
        print("Fetching the npm packages of package-lock.json", flush=True)
        _fetch(root, _npm(root, python), node)
        fingerprint.remember(note, wanted)
    return node


def _npm(root: Path, python: python_finder.Python) -> tuple[str, ...]:
    npm = node_finder.npm_on_machine(os.environ)
    if npm is None:
        _install(root, python, NODE)
        npm = node_finder.npm_in(root / ".venv")
    if npm is None:
        raise Missing(f"No npm is on this machine, and {NODE} brought none.", _commands_that_install_node())
    return npm


def _fetch(root: Path, npm: tuple[str, ...], node: Path) -> None:
    env = dict(os.environ, PATH=os.pathsep.join([str(node.parent), os.environ.get("PATH", "")]))
    command = [*npm, "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"]
    if subprocess.call(command, cwd=root, env=env, stdin=subprocess.DEVNULL) != 0:
        raise Missing(
            "The npm packages could not be fetched: see above what npm says.\n"
            "Most often the network, a proxy or a full disk is the cause.",
            [_same_again()],
        )


def _same_again() -> str:
    return " ".join([os.path.basename(sys.executable or "python3"), "-m", "build_tools", *sys.argv[1:]])


def _commands_that_install_node() -> list[str]:
    if os.name == "nt":
        return ["winget install OpenJS.NodeJS.LTS"]
    if sys.platform == "darwin":
        return ["brew install node"]
    if os.path.exists("/etc/debian_version"):
        return ["sudo apt-get install nodejs npm"]
    return [f"Install Node {node_finder.OLDEST_NODE} or newer, with npm, and have it on PATH."]
