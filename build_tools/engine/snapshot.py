"""Makes the memory snapshot: Python's memory with calc imported and warm, from the very files that ship."""

import json
import os
import shutil
import subprocess
import tempfile
from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from build_tools.engine import archives, splitting
from build_tools.engine.pruning import Engine

NODE_FOLDER = Path(__file__).with_name("node")


class SnapshotError(RuntimeError):
    """The snapshot could not be made; the message is what Node or Python said."""


@dataclass(frozen=True)
class Snapshot:
    """content: the part as the worker takes it apart. heap: the size of Python's memory in bytes."""

    content: bytes
    heap: int


def made(
    parts: Mapping[str, bytes],
    made_for: str,
    data: Mapping[str, bytes],
    environment: Mapping[str, str],
    engine: Engine,
    pyodide: Path,
    node: str,
) -> Snapshot:
    """Return the snapshot of Python with the parts "stdlib" and "packages".

    made_for: names the files that it can be restored with; the worker compares it before restoring.
    data: files that calc may read before its packages are there, path inside site-packages -> content.
    environment: Python's environment variables. engine: what ships. pyodide: the npm package's folder, whose
    untouched files have to give the same answers. Raises SnapshotError.
    """
    with tempfile.TemporaryDirectory() as folder:
        work = _work(Path(folder), parts)
        shipped = _folder_of(engine, pyodide, work / "pyodide")
        scripts = {"snapshot.mjs": shipped, "answers.mjs": pyodide}
        with ThreadPoolExecutor() as both:
            runs = [both.submit(_run, node, script, place, work, environment) for script, place in scripts.items()]
            for run in runs:
                run.result()
        if (work / "answers").read_bytes() != (work / "stock_answers").read_bytes():
            raise SnapshotError("The engine does not answer as an ordinary Pyodide does.")
        files = {name: (work / name).read_bytes() for name in ("header", "runs", "bytes")}
        heap = int((work / "heap").read_text(encoding="ascii"))
    files["about.json"] = json.dumps({"madeFor": made_for}).encode()
    files |= {f"data/{path}": content for path, content in data.items()}
    return Snapshot(archives.file_list(files), heap)


def called_functions(
    parts: Mapping[str, bytes],
    questions: Path,
    environment: Mapping[str, str],
    engine: Engine,
    pyodide: Path,
    node: str,
) -> set[int]:
    """Return the functions of an engine's WebAssembly that a start from a snapshot and the pages' questions call.

    They are numbered from the first that is not imported on. questions: a Python file whose function `questions` gives
    the questions as a JSON list. The other arguments are those of `made`. Raises SnapshotError.
    """
    with tempfile.TemporaryDirectory() as folder:
        work = _work(Path(folder), parts)
        watched = Engine(splitting.watched(engine.wasm), engine.glue)
        _run(node, "watch.mjs", _folder_of(watched, pyodide, work / "pyodide"), work, environment, questions)
        return set(json.loads((work / "called").read_text(encoding="ascii")))


def _work(folder: Path, parts: Mapping[str, bytes]) -> Path:
    for name in ("stdlib", "packages"):
        (folder / name).write_bytes(parts[name])
    return folder


def _folder_of(engine: Engine, pyodide: Path, folder: Path) -> Path:
    """Lay the engine out as Pyodide's folder, for Node to start it from."""
    folder.mkdir()
    for name in ("pyodide.mjs", "pyodide-lock.json"):
        shutil.copyfile(pyodide / name, folder / name)
    (folder / "pyodide.asm.wasm").write_bytes(engine.wasm)
    (folder / "pyodide.asm.js").write_text(engine.glue, encoding="utf-8")
    if engine.rest:
        (folder / "rest.wasm").write_bytes(engine.rest)
    return folder


def _run(node: str, script: str, pyodide: Path, work: Path, environment: Mapping[str, str], *more: Path) -> None:
    inputs = [str(pyodide), str(work), str(NODE_FOLDER / "prepare_snapshot.py"), json.dumps(dict(environment))]
    inputs += map(str, more)
    command = [node, str(NODE_FOLDER / script), *inputs]
    # Python's start asks the host for its time zone, and would remember it.
    done = subprocess.run(command, env=os.environ | {"TZ": "UTC"}, capture_output=True, text=True, check=False)
    if done.returncode:
        raise SnapshotError(f"{done.stdout}{done.stderr}".strip())
