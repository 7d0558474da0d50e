"""Packs the browser engine, and does nothing when nothing it is made from has changed."""

import hashlib
import json
import shutil
import sys
from collections.abc import Iterator
from importlib import metadata
from pathlib import Path

from build_tools import fingerprint
from build_tools.engine import archives, bytecode, contents, payload, pruning, snapshot, splitting

HERE = Path(__file__).parent
PYODIDE_FILES = (
    "pyodide.asm.js",
    "pyodide.asm.wasm",
    "pyodide.js",
    "pyodide-lock.json",
    "python_stdlib.zip",
)
PYODIDE_PACKAGES = ("pyodide/", "_pyodide/")
WHEEL_ONLY = (".dist-info/RECORD", ".dist-info/WHEEL")
QUESTIONS = HERE / "node" / "questions.py"
STAMP = "inputs.txt"
ENVIRONMENT = {
    "HOME": "/home/pyodide",
    "LANG": "C.UTF-8",
    "PYTHONHASHSEED": "0",
    "PYTHONNODEBUGRANGES": "1",
    "TZ": "UTC",
}
"""Python's environment variables, the same at build time and in every browser. Code made there knows no columns."""


def pack(
    root: Path,
    out: Path,
    pyodide: Path | None = None,
    cache: Path | None = None,
    *,
    prune: bool = True,
    questions: Path = QUESTIONS,
) -> None:
    """Write the engine's script files into `out`, unless they are there and up to date.

    root: the project (its calc/ and shared/ are packed). out: a folder of its own; *.js in it is what
    a site needs. pyodide: the npm package's folder, by default the one under `root`.
    cache: folder that keeps compiled archives by content, by default one in `out`.
    prune: leave out of the files what the engine cannot reach, and split the WebAssembly; if not, they ship as they
    are. questions: see snapshot.called_functions.
    Raises bytecode.CompileError, pruning.PruningError, snapshot.SnapshotError, and FileNotFoundError when Pyodide is
    not installed.
    """
    pyodide = pyodide or root / "node_modules" / "pyodide"
    cache = cache or out / "compiled"
    own = contents.own_bundle(root, {"engine_door.py": (HERE / "browser/door.py").read_bytes()})
    libraries = contents.library_bundles(root)
    asked = hashlib.sha256(questions.read_bytes()).hexdigest()
    inputs = _inputs_digest((own, *libraries), pyodide) + (f" pruned {asked}" if prune else " stock")
    stamp = out / STAMP
    if fingerprint.matches(stamp, inputs) and _is_whole(out):
        return
    fingerprint.forget(stamp)
    parts, heap = _parts((own, *libraries), pyodide, cache, questions if prune else None)
    payload.write_payload(parts, heap, out)
    fingerprint.remember(stamp, inputs)


def _parts(
    bundles: tuple[contents.Bundle, ...], pyodide: Path, cache: Path, questions: Path | None
) -> tuple[dict[str, bytes], int]:
    """Return the parts, and the size in bytes of the memory in the snapshot among them.

    questions: None if Pyodide's files are to ship as they are.
    """
    prune = questions is not None
    node = shutil.which("node") or "node"
    engine = engine_files(pyodide, cache, node, prune=prune)
    standard, pyodides_own = _standard_library(pyodide, prune)
    wheels = {archives.wheel_name(bundle): archives.wheel(bundle) for bundle in bundles}
    optimised = bytecode.compiled({"standard.zip": standard, **wheels}, bytecode.OPTIMISED, cache, pyodide, node)
    plain = bytecode.compiled({"own.zip": pyodides_own}, bytecode.PLAIN, cache, pyodide, node)
    library = archives.unzipped(optimised.pop("standard.zip"))
    library |= archives.unzipped(plain["own.zip"])
    packages: dict[str, bytes] = {}
    for content in optimised.values():
        packages |= archives.unzipped(content)
    packages = {name: data for name, data in packages.items() if not name.endswith(WHEEL_ONLY)}
    brought = {"stdlib": archives.stored_zip(library), "packages": archives.file_list(packages)}
    if questions:
        engine = _split(engine, snapshot.called_functions(brought, questions, ENVIRONMENT, engine, pyodide, node))
    parts = {"code": _code(engine, pyodide), "wasm": engine.wasm, **brought}
    if engine.rest:
        parts["rest"] = engine.rest
    made_for = " ".join(payload.stem(name, parts[name]) for name in payload.NEEDED_BY_SNAPSHOT)
    data = {name: content for name, content in packages.items() if name.startswith("shared/")}
    taken = snapshot.made(parts, made_for, data, ENVIRONMENT, engine, pyodide, node)
    return parts | {"snapshot": taken.content}, taken.heap


def _standard_library(pyodide: Path, prune: bool) -> tuple[bytes, bytes]:
    """Return the standard library and, apart, pyodide's own packages, as source zips."""
    files = archives.unzipped((pyodide / "python_stdlib.zip").read_bytes())
    if prune:
        files = contents.with_stand_ins(files)
    own = {name: files.pop(name) for name in list(files) if name.startswith(PYODIDE_PACKAGES)}
    files = {name: content for name, content in files.items() if contents.is_needed_of_the_library(name)}
    return archives.stored_zip(files), archives.stored_zip(own)


def engine_files(pyodide: Path, cache: Path, node: str, *, prune: bool) -> pruning.Engine:
    """Pyodide's WebAssembly and glue, pruned or as they are; the arguments are those of `pack`. Raises PruningError."""
    wasm = (pyodide / "pyodide.asm.wasm").read_bytes()
    engine = pruning.Engine(wasm, (pyodide / "pyodide.asm.js").read_text(encoding="utf-8"))
    if not prune:
        return engine
    users = (pyodide / "pyodide.js", HERE / "browser/worker.js", HERE / "node/snapshot.mjs")
    engine = pruning.pruned(engine, "".join(path.read_text(encoding="utf-8") for path in users))
    return pruning.Engine(engine.wasm, pruning.shaken(engine.glue, cache, node))


def _split(engine: pruning.Engine, called: set[int]) -> pruning.Engine:
    halves = splitting.halves(engine.wasm, called)
    return pruning.Engine(halves.first, pruning.with_places(engine.glue, halves.places), halves.rest)


def _code(engine: pruning.Engine, pyodide: Path) -> bytes:
    """Return the worker's script: Pyodide's two scripts and ours, in the order they need.

    Pyodide insists on a lock file of its own version; ours lists no packages, so none can be asked for.
    """
    info = json.loads((pyodide / "pyodide-lock.json").read_text(encoding="utf-8"))["info"]
    lock = json.dumps({"info": info, "packages": {}}, sort_keys=True)
    scripts = (pyodide / "pyodide.js", HERE / "browser/worker.js")
    texts = (engine.glue, *(path.read_text(encoding="utf-8") for path in scripts))
    lines = [line for text in texts for line in text.split("\n") if "sourceMappingURL=" not in line]
    given = [f"const PYODIDE_LOCK = {lock};", f"const PYTHON_ENVIRONMENT = {json.dumps(ENVIRONMENT)};"]
    return "\n".join([*lines[:1], *given, *lines[1:]]).encode()


def _inputs_digest(bundles: tuple[contents.Bundle, ...], pyodide: Path) -> str:
    total = hashlib.sha256()
    for name, content in _inputs(bundles, pyodide):
        total.update(f"{name} {hashlib.sha256(content).hexdigest()}\n".encode())
    return total.hexdigest()


def _inputs(bundles: tuple[contents.Bundle, ...], pyodide: Path) -> Iterator[tuple[str, bytes]]:
    yield "python", str(sys.version_info[:3]).encode()
    yield "pyodide-build", metadata.version("pyodide-build").encode()
    for name in PYODIDE_FILES:
        yield name, (pyodide / name).read_bytes()
    for path in sorted(HERE.rglob("*")):
        if path.is_file() and path.suffix != ".pyc":
            yield path.relative_to(HERE).as_posix(), path.read_bytes()
    for bundle in bundles:
        for name, content in sorted(bundle.files.items()):
            yield f"{bundle.name} {bundle.version} {name}", content


def _is_whole(out: Path) -> bool:
    manifest = out / payload.MANIFEST
    return manifest.exists() and all(
        (out / f"{row['name']}.js").exists() for row in payload.read_manifest(out).values()
    )
