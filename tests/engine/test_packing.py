"""What the packer writes."""

import ast
import base64
import hashlib
import marshal
import re
import shutil
import traceback
import zipfile
from pathlib import Path

import pytest

from build_tools.engine import archives, bytecode, contents, pack, payload
from build_tools.engine.node import compile_archive

ROOT = Path(__file__).parent.parent.parent
PYODIDE = ROOT / "node_modules" / "pyodide"
TOY = Path(__file__).parent / "toy_project"
QUESTIONS = Path(__file__).parent / "toy_questions.py"
PYODIDE_MAGIC = (3571).to_bytes(2, "little") + b"\r\n"
"""First bytes of a .pyc of Python 3.13: importlib/_bootstrap_external.py of CPython 3.13."""


def packages_of(out: Path) -> dict[str, bytes]:
    return archives.listed(payload.read_part(out, "packages"))


def test_packing_the_same_project_again_gives_the_same_bytes(toy_engine: Path, tmp_path: Path) -> None:
    cache = tmp_path / "cache"
    shutil.copytree(ROOT / "build" / "engine" / "compiled", cache)
    for archive in cache.iterdir():
        if archive.stat().st_size < 4_000_000:  # all but the standard library is compiled anew
            archive.unlink()
    pack(TOY, tmp_path / "again", PYODIDE, cache, questions=QUESTIONS)
    first = {script.name: script.read_bytes() for script in toy_engine.glob("*.js")}
    second = {script.name: script.read_bytes() for script in (tmp_path / "again").glob("*.js")}
    assert first == second


def test_a_script_without_a_place_for_the_code_leaves_the_code_where_it_is(toy_engine: Path, tmp_path: Path) -> None:
    script = tmp_path / "engine.js"
    script.write_text("window.engine = 1;", encoding="utf-8")
    with pytest.raises(ValueError, match="no place"):
        payload.put_into_page_script(toy_engine, script)
    assert len(list(toy_engine.glob("code.*.js"))) == 1


def test_an_up_to_date_engine_is_left_alone(toy_engine: Path) -> None:
    before = {script: script.stat().st_mtime_ns for script in toy_engine.glob("*.js")}
    pack(TOY, toy_engine, PYODIDE, ROOT / "build" / "engine" / "compiled", questions=QUESTIONS)
    assert {script: script.stat().st_mtime_ns for script in toy_engine.glob("*.js")} == before


def test_every_script_is_one_call_with_its_name_and_a_function_that_holds_base64(toy_engine: Path) -> None:
    rows = payload.read_manifest(toy_engine)
    scripts = {script.stem for script in toy_engine.glob("*.js")} - {"parts"}
    assert {row["name"] for row in rows.values()} == scripts
    for stem in scripts:
        text = (toy_engine / f"{stem}.js").read_text(encoding="ascii")
        assert re.fullmatch(rf'engine\.part\("{re.escape(stem)}",\(\)=>{{/\*\n[A-Za-z0-9+/]+=*\*/}}\);\n', text)


def test_a_part_carries_the_hash_and_size_of_its_content(toy_engine: Path) -> None:
    for part, row in payload.read_manifest(toy_engine).items():
        content = payload.read_part(toy_engine, part)
        text = (toy_engine / f"{row['name']}.js").read_text("ascii")
        travels = base64.b64decode(text[text.index("\n") : text.index("*/")])
        digest = hashlib.sha256(travels).hexdigest()[:12]
        assert row == {"name": f"{part}.{payload.PROTOCOL}.{digest}", "size": len(content)}


def test_nothing_that_ships_imports_what_is_left_out_of_the_library() -> None:
    """Followed from calc and Pyodide's start through every import at the head of a file, in ours through all."""
    with zipfile.ZipFile(PYODIDE / "python_stdlib.zip") as library:
        files = {name: library.read(name) for name in library.namelist() if name.endswith(".py")}
    sources = {name: content.decode() for name, content in contents.with_stand_ins(files).items()}
    ours: dict[str, str] = {}
    for bundle in (contents.own_bundle(ROOT, {}), *contents.library_bundles(ROOT)):
        ours |= {name: text.decode() for name, text in bundle.files.items() if name.endswith(".py")}
    left_out = {name for name in sources if not contents.is_needed_of_the_library(name)}
    assert {"xml/__init__.py", "encodings/big5.py"} <= left_out
    waiting = [*ours, *(name for name in sources if name.startswith(("pyodide/", "_pyodide/")))]
    never = {"pyodide/console.py", "platformdirs/windows.py"}  # for typing Python into a page; for another system
    seen = set(never)
    while waiting:
        name = waiting.pop()
        if name in seen:
            continue
        seen.add(name)
        tree = ast.parse(ours.get(name) or sources[name])
        for module in imported(tree if name in ours else at_the_head(tree)):
            for found in (f"{module.replace('.', '/')}.py", f"{module.replace('.', '/')}/__init__.py"):
                if found in sources:
                    assert found not in left_out, f"{name} imports {module}"
                    waiting.append(found)


def stand_ins() -> dict[str, ast.Module]:
    return {
        path.relative_to(contents.STAND_INS).as_posix(): ast.parse(path.read_bytes())
        for path in contents.STAND_INS.rglob("*.py")
    }


def test_each_stand_in_takes_the_place_of_a_module_that_pyodide_ships() -> None:
    with zipfile.ZipFile(PYODIDE / "python_stdlib.zip") as library:
        stock = dict.fromkeys(library.namelist(), b"")
    kept = contents.with_stand_ins(stock)
    assert stand_ins(), "there are none"
    for name in stand_ins():
        whole = {name, f"{name.removesuffix('.py')}/__init__.py"}
        assert whole & stock.keys(), name
        assert [found for found in kept if found.startswith(name.removesuffix(".py"))] == [name]


def test_what_ships_imports_from_a_stand_in_only_what_it_has() -> None:
    with zipfile.ZipFile(PYODIDE / "python_stdlib.zip") as library:
        files = {name: library.read(name) for name in library.namelist() if name.endswith(".py")}
    for bundle in (contents.own_bundle(ROOT, {}), *contents.library_bundles(ROOT)):
        files |= {name: text for name, text in bundle.files.items() if name.endswith(".py")}
    has = {name.removesuffix(".py").replace("/", "."): names_in(tree) for name, tree in stand_ins().items()}
    never = ("pyodide/console.py", "pyodide/http/", "importlib/resources/readers.py", "concurrent/")
    asked = set()
    for name, text in contents.with_stand_ins(files).items():
        if not contents.is_needed_of_the_library(name) or name.startswith(never):
            continue
        for node in ast.walk(at_the_head(ast.parse(text))):
            if isinstance(node, ast.ImportFrom) and not node.level and node.module in has:
                asked |= {node.module}
                assert {alias.name for alias in node.names} <= has[node.module], f"{name}: {node.module}"
    assert asked >= {"importlib.metadata", "zipfile"}


def names_in(module: ast.Module) -> set[str]:
    made = {part.name for part in module.body if isinstance(part, ast.FunctionDef | ast.ClassDef)}
    given = (target for part in module.body if isinstance(part, ast.Assign) for target in part.targets)
    return made | {target.id for target in given if isinstance(target, ast.Name)}


def at_the_head(tree: ast.Module) -> ast.Module:
    """Without the bodies of functions, and without what is for one command or for Windows alone."""
    kept = [part for part in tree.body if not isinstance(part, ast.FunctionDef | ast.ClassDef | ast.AsyncFunctionDef)]
    return ast.Module([part for part in kept if not re.search("__main__|win32", ast.dump(part))], [])


def imported(tree: ast.Module) -> set[str]:
    """The modules that a tree's absolute imports name, and the packages around them."""
    names: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            names |= {node.module, *(f"{node.module}.{alias.name}" for alias in node.names)}
    return names | {name.partition(".")[0] for name in names}


def test_data_that_only_the_pages_need_stays_out_of_the_engine() -> None:
    shared = {name for name in contents.own_bundle(ROOT, {}).files if name.startswith("shared/")}
    assert "shared/messages.toml" in shared
    assert "shared/shop_objects.toml" not in shared


def test_packages_hold_calc_its_data_and_what_it_imports(toy_engine: Path) -> None:
    files = packages_of(toy_engine)
    assert files["shared/word.txt"] == b"plank\n"
    assert "shared/pages/text.toml" not in files  # what only pages say is not carried
    needed = ("calc", "pint", "uncertainties", "flexparser", "flexcache", "platformdirs")
    assert {f"{name}/__init__.pyc" for name in needed} <= files.keys()
    assert "typing_extensions.pyc" in files
    assert not [name for name in files if name.endswith(".py") or "test" in name.split("/")]


def test_the_licence_of_each_library_travels_with_it(toy_engine: Path) -> None:
    licences = [name.lower() for name in packages_of(toy_engine) if "licen" in name.lower()]
    for library in ("pint", "uncertainties", "flexparser", "flexcache", "platformdirs", "typing_extensions"):
        assert any(name.startswith(library) for name in licences), library


def test_bytecode_is_that_of_pyodides_python(toy_engine: Path) -> None:
    library = archives.unzipped(payload.read_part(toy_engine, "stdlib"))
    code = {name: data for name, data in library.items() if name.endswith(".pyc")}
    assert len(code) > 150
    assert not [name for name in library if name.endswith(".py")]
    for name, data in (code | {"calc": packages_of(toy_engine)["calc/__init__.pyc"]}).items():
        assert data[:4] == PYODIDE_MAGIC, name


def test_code_that_knows_no_lines_still_tells_what_went_wrong() -> None:
    source = "def halve(load):\n    return load / 0\n\n\nhalve(1)\n"
    plain = archives.stored_zip({"toy.pyc": bytes(16) + marshal.dumps(compile(source, "toy.py", "exec"))})
    stripped = archives.unzipped(compile_archive.without_lines(plain))["toy.pyc"]
    with pytest.raises(ZeroDivisionError) as told:
        exec(marshal.loads(stripped[16:]), {})
    text = "".join(traceback.format_exception(told.value))
    assert "line None, in halve" in text
    assert "line 2" not in text


@pytest.mark.parametrize(("level", "docstring"), [(bytecode.OPTIMISED, None), (bytecode.PLAIN, "A word.")])
def test_pyodides_python_compiles_what_another_python_cannot(tmp_path: Path, level: int, docstring: str | None) -> None:
    place = tmp_path / "toy.zip"
    place.write_bytes(archives.stored_zip({"toy.py": b'"""A word."""\n', "toy.txt": b"plank"}))
    node = shutil.which("node")
    assert node, "the engine is built with Node"
    bytecode.compile_in_pyodide(tmp_path, level, PYODIDE, node)
    files = archives.unzipped(place.read_bytes())
    assert files["toy.txt"] == b"plank"
    assert files["toy.pyc"][:4] == PYODIDE_MAGIC
    assert docstring is None or docstring in marshal.loads(files["toy.pyc"][16:]).co_consts


def test_a_wheel_names_each_of_its_files_in_its_record() -> None:
    bundle = contents.Bundle("Toy-Parts", "1.2", {"toy/__init__.py": b"pass\n"})
    files = archives.unzipped(archives.wheel(bundle))
    record = files["toy_parts-1.2.dist-info/RECORD"].decode()
    assert {line.split(",")[0] for line in record.splitlines()} == files.keys()
    assert archives.wheel_name(bundle) == "toy_parts-1.2-py3-none-any.whl"
