"""Compiles archives of Python files to the bytecode of Pyodide's own Python."""

import hashlib
import os
import subprocess
import sys
import tempfile
from collections.abc import Mapping
from importlib import metadata
from pathlib import Path

from build_tools.engine.node import compile_archive

PYODIDE_PYTHON = (3, 13)
"""Language version inside Pyodide 0.29; bytecode of another version would not load."""

OPTIMISED = 2
"""Compile level without assertions and docstrings."""

PLAIN = 0
"""Compile level for pyodide's own packages, whose docstrings are used while it starts."""

COMPILE_IN_NODE = Path(__file__).with_name("node") / "compile.mjs"
COMPILE_IN_PYODIDE = Path(__file__).with_name("node") / "compile_archive.py"


class CompileError(RuntimeError):
    """The archives could not be compiled; the message is the compiler's own output."""


def compiled(archives: Mapping[str, bytes], level: int, cache: Path, pyodide: Path, node: str) -> dict[str, bytes]:
    """Return the archives (file name -> content) with each .py file turned into a .pyc file.

    level: OPTIMISED or PLAIN. cache: folder that keeps results by content.
    pyodide: the npm package's folder; node: the Node command, used where Python is not Pyodide's.
    Raises CompileError.
    """
    places = {name: cache / f"{_key(content, level)}.zip" for name, content in archives.items()}
    missing = [name for name, place in places.items() if not place.exists()]
    if missing:
        cache.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=cache) as folder:
            work = Path(folder)
            for name in missing:
                (work / name).write_bytes(archives[name])
            if sys.version_info[:2] == PYODIDE_PYTHON:
                _compile_here(work, level)
            else:
                compile_in_pyodide(work, level, pyodide, node)
            for name in missing:
                _result(work, name).replace(places[name])
    return {name: place.read_bytes() for name, place in places.items()}


def _key(content: bytes, level: int) -> str:
    about = f"{level} no lines {sys.version_info[:2]} {metadata.version('pyodide-build')} ".encode()
    return hashlib.sha256(about + content).hexdigest()[:32]


def _compile_here(work: Path, level: int) -> None:
    command = [sys.executable, *["-O"] * level, "-m", "pyodide_cli", "py-compile"]
    # With a fixed epoch py_compile marks files by hash of their source instead of by its date.
    environment = os.environ | {"SOURCE_DATE_EPOCH": "315532800", "PYTHONHASHSEED": "0"}
    _run([*command, "--silent", "--compression-level", "0", str(work)], environment)
    for path in work.iterdir():
        path.write_bytes(compile_archive.without_lines(path.read_bytes()))


def compile_in_pyodide(work: Path, level: int, pyodide: Path, node: str) -> None:
    """Compile each archive in the folder `work`, in place, with the Python that is inside Pyodide.

    level, pyodide, node: see `compiled`. Raises CompileError.
    """
    script = [node, str(COMPILE_IN_NODE), str(pyodide), str(COMPILE_IN_PYODIDE)]
    _run([*script, str(level), *(str(path) for path in sorted(work.iterdir()))], dict(os.environ))


def _run(command: list[str], environment: dict[str, str]) -> None:
    done = subprocess.run(command, env=environment, capture_output=True, text=True, check=False)
    if done.returncode:
        raise CompileError(f"{done.stdout}{done.stderr}".strip())


def _result(work: Path, name: str) -> Path:
    """Find the compiled archive: a wheel's name then carries the Python version."""
    if (work / name).exists():
        return work / name
    stem = "-".join(name.split("-")[:2])
    return next(work.glob(f"{stem}-*.whl"))
