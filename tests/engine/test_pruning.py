"""What is taken out of Pyodide's files, and what is not."""

import re
import shutil
from collections.abc import Mapping
from pathlib import Path

import pytest

from build_tools.engine import packing, pruning, snapshot
from build_tools.engine import webassembly as wa
from build_tools.engine.pruning import Engine, PruningError

ROOT = Path(__file__).parent.parent.parent
PYODIDE = ROOT / "node_modules" / "pyodide"
CACHE = ROOT / "build" / "engine" / "compiled"


def engine(*, prune: bool) -> Engine:
    node = shutil.which("node")
    assert node, "the engine is built with Node"
    return packing.engine_files(PYODIDE, CACHE, node, prune=prune)


@pytest.fixture(scope="module")
def lean() -> Engine:
    return engine(prune=True)


@pytest.fixture(scope="module")
def stock() -> Engine:
    return engine(prune=False)


def exports(wasm: bytes) -> set[str]:
    return {it.name for it in wa.exports(dict(wa.sections(wasm))[wa.EXPORTS])}


def test_pyodides_files_can_ship_as_they_are(stock: Engine) -> None:
    assert stock.wasm == (PYODIDE / "pyodide.asm.wasm").read_bytes()
    assert stock.glue == (PYODIDE / "pyodide.asm.js").read_text(encoding="utf-8")


def test_the_code_of_every_function_stays(lean: Engine, stock: Engine) -> None:
    code = [dict(wa.sections(it.wasm))[wa.CODE] for it in (lean, stock)]
    assert code[0] == code[1]


def test_few_exports_are_left_and_all_that_the_glue_takes_up_are_among_them(lean: Engine, stock: Engine) -> None:
    assert len(exports(lean.wasm)) < 400 < 9000 < len(exports(stock.wasm))
    taken_up = set(re.findall(r'wasmExports\["(\w+)"\]', lean.glue))
    assert len(taken_up) > 100
    assert taken_up & exports(stock.wasm) <= exports(lean.wasm)


def test_the_glue_offers_all_that_the_webassembly_imports(lean: Engine) -> None:
    offered = set(re.findall(r"[\w$]+", pruning.OFFERED.findall(lean.glue)[0]))
    imported = {it.name for it in wa.imports(dict(wa.sections(lean.wasm))[wa.IMPORTS]) if it.module == "env"}
    # What the glue makes itself, before it knows of the WebAssembly: memory, table and where they begin.
    assert imported - offered <= {
        "memory",
        "__indirect_function_table",
        "__stack_pointer",
        "__memory_base",
        "__table_base",
    }


def test_the_glue_is_less_than_half(lean: Engine, stock: Engine) -> None:
    assert len(lean.glue) < len(stock.glue) / 2


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ((pruning.BEGIN, "var wasmExports=createWasm();"), "takes up its exports"),
        (('wasmExports["malloc"]', 'wasmExports.get("malloc")'), "takes up an export"),
        (("var wasmImports={", "var wasmImports=new Map({"), "offers its functions"),
        ((pruning.WHOLE_TABLE, "functionsInTableMap=wholeTable()"), "looks for functions"),
    ],
)
def test_a_glue_that_is_made_in_another_way_is_refused(stock: Engine, change: tuple[str, str], words: str) -> None:
    with pytest.raises(PruningError, match=words):
        pruning.pruned(Engine(stock.wasm, stock.glue.replace(*change)), "")


def test_what_is_no_webassembly_is_refused(stock: Engine) -> None:
    with pytest.raises(wa.WebAssemblyError, match="no WebAssembly"):
        pruning.pruned(Engine(b"no" + stock.wasm, stock.glue), "")


def test_an_engine_that_answers_otherwise_than_an_ordinary_pyodide_is_refused(
    lean: Engine, monkeypatch: pytest.MonkeyPatch
) -> None:
    def run(node: str, script: str, pyodide: Path, work: Path, environment: Mapping[str, str]) -> None:
        (work / {"snapshot.mjs": "answers", "answers.mjs": "stock_answers"}[script]).write_text(script)

    monkeypatch.setattr(snapshot, "_run", run)
    with pytest.raises(snapshot.SnapshotError, match="does not answer as"):
        snapshot.made({"stdlib": b"", "packages": b""}, "", {}, {}, lean, PYODIDE, "node")


@pytest.mark.parametrize(
    ("change", "places"), [(("new WebAssembly.Table({initial:", "new Table({initial:"), 9999), (("", ""), 10)]
)
def test_a_table_that_is_made_in_another_way_is_refused(stock: Engine, change: tuple[str, str], places: int) -> None:
    with pytest.raises(PruningError, match="its table"):
        pruning.with_places(stock.glue.replace(*change) if change[0] else stock.glue, places)


def test_the_glue_looks_for_exported_functions_only(lean: Engine) -> None:
    places = [int(at) for at in re.findall(r"for\(var \w+ of ?\[([\d,]+)\]\)", lean.glue)[0].split(",")]
    parts = dict(wa.sections(lean.wasm))
    functions = pruning.functions_in_table(parts[wa.ELEMENTS])
    found = {functions[at - pruning.FIRST_PLACE] for at in places}
    exported = {it.number for it in wa.exports(parts[wa.EXPORTS]) if it.kind == wa.FUNCTION}
    assert found == exported & set(functions)
