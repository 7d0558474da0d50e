"""Finds a Python that can run the project: 3.13, else 3.12."""

from __future__ import annotations

import glob
import os
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from build_tools.missing import Missing
from build_tools.proof import answer_of

WANTED = ("3.13", "3.12")
"""The versions that run the project, the better one first."""

SHARED_FOLDERS = (
    "/usr/local/bin",
    "/opt/homebrew/bin",
    "/usr/bin",
    "/Library/Frameworks/Python.framework/Versions/{version}/bin",
)
"""Where a Python may be although PATH does not say so."""

PROOF = """
import sys
parts = []
for module in ("ssl", "venv", "ensurepip"):
    try:
        __import__(module)
    except ImportError:
        parts.append(module)
final = sys.version_info.releaselevel == "final"
print("python", sys.implementation.name, "%d.%d" % sys.version_info[:2], "final" if final else "early", *parts)
"""


@dataclass(frozen=True)
class Python:
    """A Python that has answered: its command, its version as "3.13", and the modules it lacks."""

    command: tuple[str, ...]
    version: str
    lacks: tuple[str, ...]


def candidates(env: Mapping[str, str], windows: bool = os.name == "nt") -> Iterator[tuple[str, ...]]:
    """Every command that may start a wanted Python, likelier ones first, each once."""
    seen: set[str] = set()
    for version in WANTED:
        for path in [*_on_path("python" + version, env, windows), *_in_known_folders(version, env, windows)]:
            if path not in seen:
                seen.add(path)
                yield (path,)
        if windows:
            for launcher in _on_path("py", env, windows):
                yield (launcher, "-" + version)
    for name in ("python3", "python"):
        for path in _on_path(name, env, windows):
            if path not in seen:
                seen.add(path)
                yield (path,)


def prove(command: tuple[str, ...], seconds: float = 10.0) -> Python | None:
    """The Python behind the command, or None when it is none, too old, too new or does not answer."""
    answer = answer_of([*command, "-I", "-c", PROOF], seconds)
    words = answer.splitlines()[-1].split() if answer else []
    if words[:2] != ["python", "cpython"] or len(words) < 4 or words[3] != "final" or words[2] not in WANTED:
        return None
    return Python(command, words[2], tuple(words[4:]))


def running() -> tuple[str, ...] | None:
    """The Python that runs this very code, unless it belongs to a virtual environment."""
    base = getattr(sys, "_base_executable", sys.executable)
    if sys.prefix != sys.base_prefix and base == sys.executable:
        return None
    return (base,) if base else None


def find(
    env: Mapping[str, str],
    first: tuple[str, ...] | None = None,
    windows: bool = os.name == "nt",
    seconds: float = 10.0,
) -> Python:
    """The best Python that answers, `first` being tried before the others.

    Raises Missing when there is none, or when the only ones lack a module that the set-up needs.
    """
    best: Python | None = None
    tried: list[str] = []
    for command in [*([first] if first else []), *candidates(env, windows)]:
        python = prove(command, seconds)
        if python is None:
            tried.append(" ".join(command))
        elif best is None or _rank(python) < _rank(best):
            best = python
        if best is not None and _rank(best) == (False, 0):
            break
    if best is None:
        raise Missing(_none_found(tried), _commands_that_install(env))
    if best.lacks:
        raise Missing(
            "{} is Python {}, but lacks {}.".format(" ".join(best.command), best.version, ", ".join(best.lacks)),
            _commands_that_complete(best.version),
        )
    return best


def _rank(python: Python) -> tuple[bool, int]:
    return (bool(python.lacks), WANTED.index(python.version))


def _on_path(name: str, env: Mapping[str, str], windows: bool) -> list[str]:
    """Every match on PATH, not just the first: the first may be a shim that fails."""
    file = name + ".exe" if windows else name
    folders = env.get("PATH", "").split(";" if windows else os.pathsep)
    paths = [os.path.join(folder, file) for folder in folders if folder]
    return [path for path in paths if os.path.isfile(path) and os.access(path, os.X_OK)]


def _in_known_folders(version: str, env: Mapping[str, str], windows: bool) -> list[str]:
    """Places where installers put a Python without always putting it on PATH."""
    home = env.get("USERPROFILE" if windows else "HOME", "")
    pyenvs = [env.get("PYENV_ROOT", ""), os.path.join(home, ".pyenv") if home else ""]
    if windows:
        pyenvs += [env.get("PYENV", ""), os.path.join(home, ".pyenv", "pyenv-win") if home else ""]
        patterns = [os.path.join(pyenv, "versions", version + ".*", "python.exe") for pyenv in pyenvs if pyenv]
        folder = "Python" + version.replace(".", "")
        if env.get("LOCALAPPDATA"):
            patterns.append(os.path.join(env["LOCALAPPDATA"], "Programs", "Python", folder, "python.exe"))
        if env.get("PROGRAMFILES"):
            patterns.append(os.path.join(env["PROGRAMFILES"], folder, "python.exe"))
    else:
        program = "python" + version
        patterns = [os.path.join(pyenv, "versions", version + "*", "bin", program) for pyenv in pyenvs if pyenv]
        patterns += [os.path.join(folder.format(version=version), program) for folder in SHARED_FOLDERS]
        if home:
            patterns.append(os.path.join(home, ".local", "bin", program))
            patterns.append(
                os.path.join(home, ".local", "share", "uv", "python", f"cpython-{version}.*", "bin", program)
            )
    found = [path for pattern in patterns for path in sorted(glob.glob(pattern), key=_newest_first)]
    return list(dict.fromkeys(found))


def _newest_first(path: str) -> list[int]:
    """Orders 3.13.11 before 3.13.2."""
    digits = "".join(letter if letter.isdigit() else " " for letter in path)
    return [-int(number) for number in digits.split()]


def _none_found(tried: list[str]) -> str:
    lines = [f"No Python {' or '.join(WANTED)} was found on this machine. It is looked for on PATH,"]
    lines.append("in pyenv's folders and where installers put it.")
    if tried:
        lines.append("These were tried, and did not answer as one: " + ", ".join(dict.fromkeys(tried)) + ".")
    return "\n".join(lines)


def _commands_that_install(env: Mapping[str, str]) -> list[str]:
    best = WANTED[0]
    if os.name == "nt":
        return [f"winget install Python.Python.{best}"]
    commands = [f"pyenv install {best}"] if _on_path("pyenv", env, False) else []
    if sys.platform == "darwin" and _on_path("brew", env, False):
        commands.append(f"brew install python@{best}")
    for version in WANTED:
        # Each release of Debian and Ubuntu has one version, seldom the wanted one.
        if answer_of(["apt-cache", "show", f"python{version}-venv"]):
            commands.append(f"sudo apt-get install python{version} python{version}-venv")
    if os.path.exists("/etc/fedora-release"):
        commands.append(f"sudo dnf install python{best}")
    own = "build/uv/bin"
    return commands or [f"python3 -m venv build/uv && {own}/pip install uv && {own}/uv python install {best}"]


def _commands_that_complete(version: str) -> list[str]:
    if os.path.exists("/etc/debian_version"):
        return [f"sudo apt-get install python{version}-venv"]
    return [f"pyenv install --force {version}"]
