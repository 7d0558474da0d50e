"""Makes the memory snapshot: Python's memory with calc imported and warm, from the very files that ship."""

import json
import subprocess
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from build_tools.engine import archives

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
    pyodide: Path,
    node: str,
) -> Snapshot:
    """Return the snapshot of Python with the parts "stdlib" and "packages".

    made_for: names the files that it can be restored with; the worker compares it before restoring.
    data: files that calc may read before its packages are there, path inside site-packages -> content.
    environment: Python's environment variables. pyodide: the npm package's folder. Raises SnapshotError.
    """
    with tempfile.TemporaryDirectory() as folder:
        work = Path(folder)
        for name in ("stdlib", "packages"):
            (work / name).write_bytes(parts[name])
        inputs = [str(pyodide), str(work), str(NODE_FOLDER / "prepare_snapshot.py")]
        command = [node, str(NODE_FOLDER / "snapshot.mjs"), *inputs, json.dumps(dict(environment))]
        done = subprocess.run(command, capture_output=True, text=True, check=False)
        if done.returncode:
            raise SnapshotError(f"{done.stdout}{done.stderr}".strip())
        files = {name: (work / name).read_bytes() for name in ("header", "runs", "bytes")}
        heap = int((work / "heap").read_text(encoding="ascii"))
    files["about.json"] = json.dumps({"madeFor": made_for}).encode()
    files |= {f"data/{path}": content for path, content in data.items()}
    return Snapshot(archives.file_list(files), heap)
